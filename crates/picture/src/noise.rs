//! Noise that is the same on every machine: hashes of whole numbers, and smooth values between them.
//!
//! A hash gives every whole number a value of its own; between whole numbers the values are blended smoothly (value noise). It
//! needs no trigonometry and no random generator, and any position can be evaluated without the ones before it.

use core::array::from_fn;
use core::cell::Cell;

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

/// A share determined by a whole number and a seed.
pub const fn pick(number: i32, seed: u32) -> f32 {
    share(hash(number, 0, 0, seed))
}

/// The whole part of a position, rounded down, and the rest, eased at both ends.
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

/// A value between two others, with this share of the second.
fn mix(from: f32, to: f32, share: f32) -> f32 {
    from + (to - from) * share
}

/// Smooth noise, -1 to 1, with a cache of the last cell of each layer.
///
/// Consecutive positions are mostly in the same cell, whose corners need not be hashed again. The cache only saves time, since the
/// corners depend on nothing but the cell and the seed. Each thread has its own.
#[derive(Debug)]
pub struct Noise {
    /// The last cell of each layer on a line.
    lines: [Cell<Known<2>>; LAYERS],
    /// The last cell of each layer in a plane.
    planes: [Cell<Known<4>>; LAYERS],
}

/// A cell of noise with the values at its corners.
#[derive(Debug, Clone, Copy)]
struct Known<const CORNERS: usize> {
    /// The cell, and the seed of its layer.
    of: (i32, i32, u32),
    /// The values, from left to right, the lower corners first.
    corners: [f32; CORNERS],
}

/// Number of layers that are cached; a layer with a higher number shares the place of another.
const LAYERS: usize = 16;

impl Default for Noise {
    fn default() -> Self {
        let of = (0, 0, 0);
        let line = Known {
            of,
            corners: ends(of),
        };
        let plane = Known {
            of,
            corners: corners(of),
        };
        Self {
            lines: from_fn(|_| Cell::new(line)),
            planes: from_fn(|_| Cell::new(plane)),
        }
    }
}

/// One layer of noise: an independent set of values.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Layer {
    /// The number of the layer, which decides where its last cell is cached.
    pub number: usize,
    /// The seed of its values.
    pub seed: u32,
}

impl Noise {
    /// The value of a layer at a position on a line, -1 to 1.
    pub fn on_line(&self, x: f32, layer: Layer) -> f32 {
        let (x, rest) = cell(x);
        let [left, right] = known(&self.lines[layer.number % LAYERS], (x, 0, layer.seed), ends);
        2.0 * mix(left, right, rest) - 1.0
    }

    /// The value of a layer at a position in a plane, -1 to 1.
    pub fn in_plane(&self, x: f32, y: f32, layer: Layer) -> f32 {
        let ((x, along), (y, up)) = (cell(x), cell(y));
        let [a, b, c, d] = known(
            &self.planes[layer.number % LAYERS],
            (x, y, layer.seed),
            corners,
        );
        2.0 * mix(mix(a, b, along), mix(c, d, along), up) - 1.0
    }
}

/// The corners of a cell, from the cache if it holds that cell.
fn known<const CORNERS: usize>(
    last: &Cell<Known<CORNERS>>,
    of: (i32, i32, u32),
    work_out: impl Fn((i32, i32, u32)) -> [f32; CORNERS],
) -> [f32; CORNERS] {
    let known = last.get();
    if known.of == of {
        return known.corners;
    }
    let corners = work_out(of);
    last.set(Known { of, corners });
    corners
}

/// The values at both ends of a cell along a line.
fn ends((x, _, seed): (i32, i32, u32)) -> [f32; 2] {
    [pick(x, seed), pick(x.wrapping_add(1), seed)]
}

/// The values at the four corners of a cell in a plane.
fn corners((x, y, seed): (i32, i32, u32)) -> [f32; 4] {
    let at = |x: i32, y: i32| share(hash(x, y, 0, seed));
    let (right, above) = (x.wrapping_add(1), y.wrapping_add(1));
    [at(x, y), at(right, y), at(x, above), at(right, above)]
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn noise_is_smooth_and_stays_in_its_range() {
        let noise = Noise::default();
        let flat = |x, y, seed| noise.in_plane(x, y, Layer { number: 3, seed });
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
    fn caching_changes_nothing() {
        let noise = Noise::default();
        for step in 0..3000_u16 {
            let (x, y) = (f32::from(step % 7) * 0.4, f32::from(step) * 0.13 - 40.0);
            let layer = Layer {
                number: usize::from(step % 3),
                seed: u32::from(step % 5),
            };
            let fresh = Noise::default();
            assert_eq!(noise.in_plane(x, y, layer), fresh.in_plane(x, y, layer));
            assert_eq!(noise.on_line(y, layer), fresh.on_line(y, layer));
        }
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
