//! Words as pixels, in the typeface of the program.
//!
//! Each side of an outline changes the coverage of the pixels to its right; the sum of the changes along a row gives the share
//! of each pixel that is inside. That is exact for straight sides, and curves are approximated by eight of them, so that words
//! are as clean at six points as in a title. Kerning is left out, as in [`drawing::font::width`], so that both agree on the
//! length of a line.

use drawing::font::Weight;
use ttf_parser::{Face, GlyphId, OutlineBuilder};

use crate::tone::Tone;

/// The share of each pixel of a rectangle that is covered by shapes.
#[derive(Debug, Clone, PartialEq)]
pub struct Coverage {
    /// Left edge, pixels.
    left: i64,
    /// Upper edge, pixels.
    top: i64,
    /// Width, pixels.
    width: usize,
    /// Height, pixels.
    height: usize,
    /// Change of the coverage from each pixel to the next, row by row.
    changes: Vec<f32>,
}

impl Coverage {
    /// An empty coverage of a rectangle, given by its left and upper edge and its size.
    pub fn new((left, top): (f64, f64), (width, height): (f64, f64)) -> Self {
        let (width, height) = (
            width.ceil().max(0.0) as usize + 3,
            height.ceil().max(0.0) as usize + 2,
        );
        Self {
            left: left.floor() as i64,
            top: top.floor() as i64,
            width,
            height,
            changes: vec![0.0; width * height + 2],
        }
    }

    /// Adds a side of a shape; shapes are closed and have one direction.
    pub fn side(&mut self, from: (f64, f64), to: (f64, f64)) {
        let (from, to, sign) = if from.1 <= to.1 {
            (from, to, 1.0)
        } else {
            (to, from, -1.0)
        };
        let (left, top) = (self.left as f64, self.top as f64);
        let (x0, y0, x1, y1) = (from.0 - left, from.1 - top, to.0 - left, to.1 - top);
        if y1 <= y0 {
            return;
        }
        let slope = (x1 - x0) / (y1 - y0);
        let first = y0.max(0.0).floor() as usize;
        for row in first..self.height.min(y1.ceil().max(0.0) as usize) {
            let (upper, lower) = (y0.max(row as f64), y1.min(row as f64 + 1.0));
            if lower > upper {
                let at = |y: f64| x0 + (y - y0) * slope;
                self.slice(row, (at(upper), at(lower)), sign * (lower - upper));
            }
        }
    }

    /// Adds the part of a side within a row, given by its two ends and the share of the row it crosses.
    fn slice(&mut self, row: usize, ends: (f64, f64), passes: f64) {
        let most = (self.width - 3) as f64;
        let (left, right) = (
            ends.0.min(ends.1).clamp(0.0, most),
            ends.0.max(ends.1).clamp(0.0, most),
        );
        let (first, last) = (
            left.floor() as usize,
            right.ceil().max(left.floor() + 1.0) as usize,
        );
        let wide = (right - left).max(1e-9);
        let mut before = 0.0;
        for column in first..last {
            // Coverage to the right of the side, up to the right edge of this pixel.
            let edge = column as f64 + 1.0;
            let (from, to) = (left.max(column as f64), right.min(edge));
            let passed = if right - left < 1e-9 {
                1.0
            } else {
                (to - from).max(0.0) / wide
            };
            let middle = f64::midpoint(from, to);
            let here = passes * passed * (edge - middle);
            self.change(row, column, here + before);
            before = passes * passed - here;
        }
        self.change(row, last, before);
    }

    /// Changes the coverage from a pixel on.
    fn change(&mut self, row: usize, column: usize, by: f64) {
        if let Some(change) = self.changes.get_mut(row * self.width + column) {
            *change += by as f32;
        }
    }

    /// Blends a tone over pixels, by their coverage.
    pub fn lay(&self, tone: Tone, pixels: &mut [u8], width: usize) {
        for row in 0..self.height {
            let mut covered = 0.0;
            for column in 0..self.width {
                let change = self.changes.get(row * self.width + column);
                covered += change.copied().unwrap_or(0.0);
                let share = covered.abs().min(1.0);
                let x = usize::try_from(self.left + i64::from(column as u32));
                let y = usize::try_from(self.top + i64::from(row as u32));
                let (Ok(x), Ok(y)) = (x, y) else {
                    continue;
                };
                if share < 1e-3 || x >= width {
                    continue;
                }
                let place = (y * width + x) * 4;
                if let Some([red, green, blue, _]) = pixels.get_mut(place..place + 4) {
                    let under = Tone::of([*red, *green, *blue]);
                    [*red, *green, *blue] = under.mix(tone, share).color();
                }
            }
        }
    }
}

/// Draws a line of words over pixels, given the start of its baseline and its size, pixels.
pub fn lay_words(
    words: &str,
    (x, y): (f64, f64),
    (size, weight): (f64, Weight),
    tone: Tone,
    (pixels, width): (&mut [u8], usize),
) {
    let long = drawing::font::width(words, size, weight);
    let mut coverage = Coverage::new(
        (x - size * 0.2, y - size * 1.1),
        (long + size * 0.4, size * 1.5),
    );
    for [from, to] in sides_of(words, (size, weight)) {
        coverage.side((x + from.0, y + from.1), (x + to.0, y + to.1));
    }
    coverage.lay(tone, pixels, width);
}

/// A side of an outline, from one point to another.
pub type Side = [(f64, f64); 2];

/// The sides of the outlines of a line of words with this size, relative to the start of its baseline, y down.
pub fn sides_of(words: &str, (size, weight): (f64, Weight)) -> Vec<Side> {
    let Ok(face) = Face::parse(weight.bytes(), 0) else {
        return Vec::new();
    };
    let scale = size / f64::from(face.units_per_em());
    let (mut sides, mut x) = (Vec::new(), 0.0);
    for letter in words.chars() {
        let glyph: GlyphId = face.glyph_index(letter).unwrap_or_default();
        let mut pen = Pen {
            sides: &mut sides,
            origin: (x, 0.0),
            scale,
            start: (0.0, 0.0),
            at: (0.0, 0.0),
        };
        face.outline_glyph(glyph, &mut pen);
        x += f64::from(face.glyph_hor_advance(glyph).unwrap_or_default()) * scale;
    }
    sides
}

/// Follows the outline of a letter.
struct Pen<'a> {
    /// The sides collected so far.
    sides: &'a mut Vec<Side>,
    /// The start of the letter on its baseline.
    origin: (f64, f64),
    /// Pixels per unit of the typeface.
    scale: f64,
    /// The start of the current outline.
    start: (f64, f64),
    /// The current position.
    at: (f64, f64),
}

/// Number of straight pieces per curve of a letter.
const PIECES: u32 = 8;

impl Pen<'_> {
    /// A point of the outline in pixels; y runs up in letters and down in pictures.
    fn place(&self, x: f32, y: f32) -> (f64, f64) {
        (
            self.origin.0 + f64::from(x) * self.scale,
            self.origin.1 - f64::from(y) * self.scale,
        )
    }

    /// Adds a side to a point.
    fn to(&mut self, place: (f64, f64)) {
        self.sides.push([self.at, place]);
        self.at = place;
    }
}

impl OutlineBuilder for Pen<'_> {
    fn move_to(&mut self, x: f32, y: f32) {
        self.start = self.place(x, y);
        self.at = self.start;
    }

    fn line_to(&mut self, x: f32, y: f32) {
        self.to(self.place(x, y));
    }

    fn quad_to(&mut self, x1: f32, y1: f32, x: f32, y: f32) {
        let (from, by, to) = (self.at, self.place(x1, y1), self.place(x, y));
        for piece in 1..=PIECES {
            let share = f64::from(piece) / f64::from(PIECES);
            let at = |from: f64, by: f64, to: f64| {
                let rest = 1.0 - share;
                rest * rest * from + 2.0 * rest * share * by + share * share * to
            };
            self.to((at(from.0, by.0, to.0), at(from.1, by.1, to.1)));
        }
    }

    fn curve_to(&mut self, x1: f32, y1: f32, x2: f32, y2: f32, x: f32, y: f32) {
        let (from, to) = (self.at, self.place(x, y));
        let (one, two) = (self.place(x1, y1), self.place(x2, y2));
        for piece in 1..=PIECES {
            let share = f64::from(piece) / f64::from(PIECES);
            let rest = 1.0 - share;
            let at = |from: f64, one: f64, two: f64, to: f64| {
                rest * rest * rest * from
                    + 3.0 * rest * rest * share * one
                    + 3.0 * rest * share * share * two
                    + share * share * share * to
            };
            self.to((
                at(from.0, one.0, two.0, to.0),
                at(from.1, one.1, two.1, to.1),
            ));
        }
    }

    fn close(&mut self) {
        self.to(self.start);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Adds a closed shape by its corners.
    fn shape(coverage: &mut Coverage, corners: &[(f64, f64)]) {
        let nexts = corners.iter().cycle().skip(1);
        for (from, to) in corners.iter().zip(nexts) {
            coverage.side(*from, *to);
        }
    }

    fn white(width: usize, height: usize) -> Vec<u8> {
        vec![255; width * height * 4]
    }

    /// The share of black in a pixel, from its remaining light.
    fn black(pixels: &[u8], width: usize, x: usize, y: usize) -> f32 {
        let place = (y * width + x) * 4;
        1.0 - Tone::of([pixels[place], pixels[place + 1], pixels[place + 2]]).brightness()
    }

    #[test]
    fn a_square_covers_its_own_area() {
        let mut coverage = Coverage::new((0.0, 0.0), (10.0, 10.0));
        shape(
            &mut coverage,
            &[(2.0, 3.0), (6.5, 3.0), (6.5, 7.25), (2.0, 7.25)],
        );
        let mut pixels = white(10, 10);
        coverage.lay(Tone::BLACK, &mut pixels, 10);
        let at = |x, y| black(&pixels, 10, x, y);
        assert!(at(4, 4) > 0.99 && at(1, 4) < 0.01 && at(8, 4) < 0.01);
        assert!((at(6, 4) - 0.5).abs() < 0.02, "{}", at(6, 4));
        assert!((at(4, 7) - 0.25).abs() < 0.02, "{}", at(4, 7));
    }

    #[test]
    fn a_slanted_side_covers_half_of_the_pixels_it_halves() {
        let mut coverage = Coverage::new((0.0, 0.0), (10.0, 10.0));
        shape(&mut coverage, &[(0.0, 0.0), (8.0, 8.0), (0.0, 8.0)]);
        let mut pixels = white(10, 10);
        coverage.lay(Tone::BLACK, &mut pixels, 10);
        for place in 0..8 {
            assert!((black(&pixels, 10, place, place) - 0.5).abs() < 0.02);
        }
    }

    #[test]
    fn words_are_drawn_where_they_were_placed() {
        let mut pixels = white(120, 40);
        let style = (24.0, Weight::SemiBold);
        lay_words("Hill", (10.0, 30.0), style, Tone::BLACK, (&mut pixels, 120));
        let dark = |x: usize| (0..40).any(|y| black(&pixels, 120, x, y) > 0.5);
        assert!((0..10).all(|x| !dark(x)) && (10..20).any(dark));
        // The stem of the H is upright and full from the baseline to the height of capitals.
        let stem = (10..20)
            .find(|&x| black(&pixels, 120, x, 25) > 0.9)
            .unwrap();
        assert!((14..29).all(|y| black(&pixels, 120, stem, y) > 0.9));
    }
}
