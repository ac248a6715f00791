//! A ruler that shows the size of a board, where a hand has no room and in perspective.
//!
//! It is given by the corners of its parts in the picture, so that it can lie flat on the page or on the table beside the
//! board.

use board::Units;

use crate::letters::Coverage;
use crate::tone::Tone;

/// A ruler in a picture; positions in pixels.
#[derive(Debug, Clone, PartialEq)]
pub struct Ruler {
    /// Its length, mm.
    pub long: f64,
    /// The corners of its face.
    face: Quad,
    /// The corners of its marks.
    marks: Vec<Quad>,
}

/// Four corners, in order around.
type Quad = [(f64, f64); 4];

/// Length of a ruler, its number of divisions, and the number of divisions per long mark.
type Kind = (f64, u32, u32);

/// Rulers in mm, the longest first.
const METRIC: [Kind; 6] = [
    (500.0, 25, 5),
    (300.0, 30, 5),
    (200.0, 20, 5),
    (100.0, 20, 2),
    (50.0, 10, 2),
    (20.0, 20, 5),
];
/// Rulers in inches, the longest first.
const INCHES: [Kind; 5] = [
    (12.0, 12, 3),
    (6.0, 12, 2),
    (4.0, 16, 4),
    (2.0, 8, 4),
    (1.0, 8, 4),
];
/// Width of a ruler, as a share of its length.
const WIDE: f64 = 0.13;
/// Tones of its wood, of its edge, and of its marks.
const TONES: [[u8; 3]; 3] = [[0xea, 0xd6, 0xa6], [0x8a, 0x74, 0x4e], [0x4a, 0x3a, 0x22]];

impl Ruler {
    /// The longest ruler in a unit that is no longer than this, mm; the shortest ruler where all are longer.
    pub fn kind(units: Units, most: f64) -> Kind {
        let pick = |kinds: &[Kind], mm: f64| {
            let mut all = kinds
                .iter()
                .map(|(long, parts, big)| (long * mm, *parts, *big));
            let short = all.clone().find(|(long, ..)| *long <= most);
            short.or_else(|| all.next_back()).unwrap_or((100.0, 20, 2))
        };
        match units {
            Units::Mm => pick(&METRIC, 1.0),
            Units::Inch(_) => pick(&INCHES, board::INCH),
        }
    }

    /// A ruler in a picture; `place` converts mm along it and mm up from its lower edge to a point of the picture.
    pub fn laid((long, parts, big): Kind, place: impl Fn(f64, f64) -> (f64, f64)) -> Self {
        let wide = WIDE * long;
        let quad = |left: f64, right: f64, low: f64, high: f64| {
            [(left, low), (right, low), (right, high), (left, high)].map(|(x, y)| place(x, y))
        };
        let half = 0.003 * long;
        let mark = |number: u32| {
            let at = long * f64::from(number) / f64::from(parts);
            let deep = if number.is_multiple_of(big) {
                0.62
            } else {
                0.36
            };
            quad(at - half, at + half, wide * (1.0 - deep), wide)
        };
        Self {
            long,
            face: quad(0.0, long, 0.0, wide),
            marks: (1..parts).map(mark).collect(),
        }
    }

    /// Its width, mm.
    pub const fn wide(long: f64) -> f64 {
        WIDE * long
    }

    /// Its left, upper, right and lower edge.
    pub fn bounds(&self) -> [f64; 4] {
        let start = [f64::MAX, f64::MAX, f64::MIN, f64::MIN];
        self.face
            .iter()
            .fold(start, |[left, top, right, bottom], (x, y)| {
                [left.min(*x), top.min(*y), right.max(*x), bottom.max(*y)]
            })
    }

    /// Draws it over pixels; `width` is that of the picture.
    pub fn lay(&self, pixels: &mut [u8], width: usize) {
        let [wood, edge, mark] = TONES.map(Tone::of);
        let [_, top, _, bottom] = self.bounds();
        // Its lower edge shows the thickness of a ruler.
        let thick = 0.12 * (bottom - top);
        let below = self.face.map(|(x, y)| (x, y + thick));
        lay_quads(&[below], edge, pixels, width);
        lay_quads(&[self.face], wood, pixels, width);
        lay_quads(&self.marks, mark, pixels, width);
    }
}

/// Draws shapes that do not overlap over pixels; `width` is that of the picture.
fn lay_quads(quads: &[Quad], tone: Tone, pixels: &mut [u8], width: usize) {
    for quad in quads {
        let xs = quad.map(|(x, _)| x);
        let ys = quad.map(|(_, y)| y);
        let least = |values: [f64; 4]| values.into_iter().fold(f64::MAX, f64::min);
        let most = |values: [f64; 4]| values.into_iter().fold(f64::MIN, f64::max);
        let size = (most(xs) - least(xs) + 1.0, most(ys) - least(ys) + 1.0);
        let mut coverage = Coverage::new((least(xs), least(ys)), size);
        for (from, to) in quad.iter().zip(quad.iter().cycle().skip(1)) {
            coverage.side(*from, *to);
        }
        coverage.lay(tone, pixels, width);
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use testkit::assert_near;

    #[test]
    fn the_longest_ruler_that_fits_is_chosen_in_the_boards_unit() {
        assert_eq!(Ruler::kind(Units::Mm, 120.0).0, 100.0);
        assert_eq!(Ruler::kind(Units::Mm, 5.0).0, 20.0);
        assert_near!(Ruler::kind(Units::INCH, 120.0).0, 101.6, 1e-9);
    }

    #[test]
    fn it_is_drawn_to_scale_with_a_mark_at_every_division() {
        let ruler = Ruler::laid((100.0, 20, 2), |x, y| (10.0 + 2.0 * x, 60.0 - 2.0 * y));
        assert_eq!(ruler.bounds(), [10.0, 34.0, 210.0, 60.0]);
        let mut pixels = vec![255; 220 * 80 * 4];
        ruler.lay(&mut pixels, 220);
        let blue = |x: usize, y: usize| pixels[(y * 220 + x) * 4 + 2];
        let dark = (10..210).filter(|x| blue(*x, 36) < 130 && blue(x - 1, 36) >= 130);
        assert_eq!(dark.count(), 19);
        assert!(blue(5, 40) == 255 && blue(12, 50) < 200);
    }
}
