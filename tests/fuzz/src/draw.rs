//! Random numbers, the same for a seed on every machine.

/// A generator that is restarted for each case, so that one number is enough to reproduce a case.
///
/// `SplitMix64` (G. Steele, D. Lea, C. Flood, 2014; constants from memory).
#[derive(Debug, Clone)]
pub struct Draw(u64);

impl Draw {
    /// The generator for a seed.
    pub const fn new(seed: u64) -> Self {
        Self(seed)
    }

    /// The next 64 bits.
    pub const fn bits(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut mixed = self.0;
        mixed = (mixed ^ (mixed >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        mixed ^ (mixed >> 31)
    }

    /// An integer less than `end`; 0 if `end` is 0.
    pub const fn below(&mut self, end: usize) -> usize {
        ((self.bits() as u128 * end as u128) >> 64) as usize
    }

    /// A number from 0 up to, but not including, 1.
    pub const fn share(&mut self) -> f64 {
        (self.bits() >> 11) as f64 / (1_u64 << 53) as f64
    }

    /// True once in this many times, on average.
    pub const fn once_in(&mut self, times: usize) -> bool {
        self.below(times) == 0
    }

    /// One of several.
    ///
    /// # Panics
    ///
    /// If there are none.
    pub const fn one<'a, T>(&mut self, of: &'a [T]) -> &'a T {
        &of[self.below(of.len())]
    }
}
