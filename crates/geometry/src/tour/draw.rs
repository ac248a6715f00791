//! Numbers by chance, the same on every machine and every time.

/// A permuted congruential generator (PCG-XSH-RR 64/32, M. E. O'Neill, 2014), from a fixed seed.
pub(super) struct Draw(u64);

impl Draw {
    pub(super) fn new() -> Self {
        Self(SEED)
    }

    /// A whole number under `end`.
    pub(super) fn below(&mut self, end: u32) -> u32 {
        ((u64::from(self.bits()) * u64::from(end)) >> 32) as u32
    }

    /// A number over 0, up to 1.
    pub(super) fn part(&mut self) -> f64 {
        (f64::from(self.bits()) + 1.0) / 4_294_967_296.0
    }

    /// Puts things in an order by chance, each as likely as any other.
    pub(super) fn shuffle<T>(&mut self, things: &mut [T]) {
        for at in (1..things.len()).rev() {
            things.swap(at, self.below(at as u32 + 1) as usize);
        }
    }

    fn bits(&mut self) -> u32 {
        let state = self.0;
        self.0 = state
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        ((((state >> 18) ^ state) >> 27) as u32).rotate_right((state >> 59) as u32)
    }
}

/// Any will do; this one is the golden ratio's fraction.
const SEED: u64 = 0x9E37_79B9_7F4A_7C15;
