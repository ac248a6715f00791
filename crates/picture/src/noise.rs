//! Noise that is the same on every machine: hashes of whole numbers, and smooth values between them.
//!
//! A hash gives every whole number a value of its own; between whole numbers the values are eased into each other (value noise). No
//! trigonometry and no random generator is needed, and any place can be asked for without those before it.

/// A hash of three whole numbers and a seed, well mixed.
pub const fn hash(x: i32, y: i32, z: i32, seed: u32) -> u32 {
    let mut mixed = seed ^ 0x9e37_79b9;
    mixed = (mixed ^ x as u32).wrapping_mul(0x85eb_ca6b);
    mixed ^= mixed >> 15;
    mixed = (mixed ^ y as u32).wrapping_mul(0xc2b2_ae35);
    mixed ^= mixed >> 13;
    mixed = (mixed ^ z as u32).wrapping_mul(0x27d4_eb2f);
    mixed ^= mixed >> 15;
    mixed.wrapping_mul(0x1656_67b1) ^ (mixed >> 11)
}

/// The upper 24 bits of a hash as a share, 0 to 1.
pub const fn share(hash: u32) -> f32 {
    (hash >> 8) as f32 * (1.0 / 16_777_216.0)
}

/// A share that is always the same for a whole number and a seed.
pub const fn pick(number: i32, seed: u32) -> f32 {
    share(hash(number, 0, 0, seed))
}

/// Whole part, rounded down, and the rest, eased at both ends.
fn cell(at: f32) -> (i32, f32) {
    let whole = floor(at);
    let rest = at - whole as f32;
    (whole, rest * rest * (3.0 - 2.0 * rest))
}

/// The whole number at or below a value; quicker than the library's on processors without an instruction for it.
pub fn floor(at: f32) -> i32 {
    let whole = at as i32;
    if whole as f32 > at { whole - 1 } else { whole }
}

/// Between two values, by the share of the second.
fn mix(from: f32, to: f32, share: f32) -> f32 {
    from + (to - from) * share
}

/// Smooth noise along a line, -1 to 1.
pub fn along(x: f32, seed: u32) -> f32 {
    let (at, rest) = cell(x);
    2.0 * mix(pick(at, seed), pick(at.wrapping_add(1), seed), rest) - 1.0
}

/// Smooth noise in a plane, -1 to 1.
pub fn flat(x: f32, y: f32, seed: u32) -> f32 {
    let ((x, along), (y, up)) = (cell(x), cell(y));
    2.0 * level(x, y, (along, up), seed) - 1.0
}

/// Noise between the four corners of a cell.
fn level(x: i32, y: i32, (along, up): (f32, f32), seed: u32) -> f32 {
    let at = |x: i32, y: i32| share(hash(x, y, 0, seed));
    let (right, above) = (x.wrapping_add(1), y.wrapping_add(1));
    let lower = mix(at(x, y), at(right, y), along);
    let upper = mix(at(x, above), at(right, above), along);
    mix(lower, upper, up)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn noise_is_smooth_and_stays_in_its_range() {
        let mut before = flat(0.0, 0.3, 7);
        let (mut least, mut most) = (before, before);
        for step in 1..5000 {
            let now = flat(step as f32 * 0.01, 0.3, 7);
            assert!((now - before).abs() < 0.05, "a jump at {step}");
            (least, most, before) = (least.min(now), most.max(now), now);
        }
        assert!(least >= -1.0 && most <= 1.0);
        assert!(least < -0.5 && most > 0.5, "{least} to {most}");
    }

    #[test]
    fn shares_are_spread_evenly() {
        let mut counts = [0; 10];
        for number in 0..10_000 {
            counts[(pick(number, 3) * 10.0) as usize] += 1;
        }
        assert!(
            counts.iter().all(|count| (850..1150).contains(count)),
            "{counts:?}"
        );
    }
}
