//! The typeface of the program: its font files and the widths of its letters.
//!
//! Window, PDF and name placing all use the same files, so that a name that clears a cross on the screen also
//! clears it on paper.

use std::sync::LazyLock;

use ttf_parser::Face;

/// The file of the regular weight (TrueType).
pub const REGULAR: &[u8] = include_bytes!("../../../assets/fonts/Inter-Regular.ttf");
/// The file of the semi-bold weight (TrueType).
pub const SEMI_BOLD: &[u8] = include_bytes!("../../../assets/fonts/Inter-SemiBold.ttf");
/// The name of the typeface, for formats that refer to it by name and leave the glyphs to the viewer.
pub const FAMILY: &str = "Inter";

/// The smallest type on any sheet, mm. It is 6 pt; smaller print is hard to read at a bench (common practice, no source).
pub const SMALLEST: f64 = 6.0 * 25.4 / 72.0;

/// Height of figures and capitals, as a share of the size.
pub const FIGURE_HEIGHT: f64 = 0.73;
/// Depth of a tail (g, j) below the baseline, as a share of the size.
pub const TAIL: f64 = 0.21;

/// Letters and signs that reach below the baseline.
const TAILED: &str = "gjpqyQ,;()[]{}|/_@Ø§µ";

/// Depth of words below their baseline, as a share of the size: none where no letter has a tail, as in names of holes.
///
/// ```
/// use drawing::font::{TAIL, tail};
/// assert_eq!((tail("T1-07"), tail("spare pegs")), (0.0, TAIL));
/// ```
pub fn tail(words: &str) -> f64 {
    if words.contains(|letter| TAILED.contains(letter)) {
        TAIL
    } else {
        0.0
    }
}

/// The weight of the letters.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Default)]
pub enum Weight {
    /// For all plain words.
    #[default]
    Regular,
    /// For titles and emphasis.
    SemiBold,
}

impl Weight {
    /// The bytes of this weight's file.
    pub const fn bytes(self) -> &'static [u8] {
        match self {
            Self::Regular => REGULAR,
            Self::SemiBold => SEMI_BOLD,
        }
    }

    /// The weight as CSS counts it.
    pub const fn css(self) -> u16 {
        match self {
            Self::Regular => 400,
            Self::SemiBold => 600,
        }
    }
}

/// Width of a line of words at a size (its em, mm), in mm, without kerning.
///
/// ```
/// use drawing::font::{Weight, width};
/// assert!(width("10", 4.0, Weight::Regular) > width("1", 4.0, Weight::Regular));
/// ```
pub fn width(words: &str, size: f64, weight: Weight) -> f64 {
    let Some(widths) = widths(weight) else {
        return 0.0;
    };
    let units: f64 = words.chars().map(|letter| widths.of(letter)).sum();
    units * size
}

/// Words shortened to fit a width in mm, ending with `…` if anything was cut.
///
/// ```
/// use drawing::font::{Weight, cut, width};
/// let short = cut("a very long title", 4.0, Weight::Regular, 20.0);
/// assert!(short.ends_with('…') && width(&short, 4.0, Weight::Regular) <= 20.0);
/// ```
pub fn cut(words: &str, size: f64, weight: Weight, room: f64) -> String {
    if width(words, size, weight) <= room {
        return words.into();
    }
    let room = room - width("…", size, weight);
    let mut used = 0.0;
    let fitting = words.chars().take_while(|letter| {
        used += width(letter.encode_utf8(&mut [0; 4]), size, weight);
        used <= room
    });
    let short: String = fitting.collect();
    format!("{}…", short.trim_end())
}

/// Advance widths of a font, as a share of the size.
struct Widths {
    /// The typeface, for letters beyond ASCII.
    face: Face<'static>,
    /// The widths of ASCII characters by code.
    ascii: [f64; 128],
}

impl Widths {
    /// Measures the ASCII characters once, which nearly all words are made of.
    fn new(face: Face<'static>) -> Self {
        let mut ascii = [0.0; 128];
        for (code, width) in (0_u8..).zip(&mut ascii) {
            *width = advance(&face, char::from(code));
        }
        Self { face, ascii }
    }

    /// Width of a character, as a share of the size.
    fn of(&self, letter: char) -> f64 {
        let ascii = self.ascii.get(letter as usize).copied();
        ascii.unwrap_or_else(|| advance(&self.face, letter))
    }
}

/// Width of a character; for one that the typeface lacks, that of the empty box drawn instead.
fn advance(face: &Face<'_>, letter: char) -> f64 {
    let glyph = face.glyph_index(letter).unwrap_or_default();
    let units = face.glyph_hor_advance(glyph).unwrap_or_default();
    f64::from(units) / f64::from(face.units_per_em())
}

/// The widths of a weight, measured at first use.
fn widths(weight: Weight) -> Option<&'static Widths> {
    static REGULAR_WIDTHS: LazyLock<Option<Widths>> =
        LazyLock::new(|| Face::parse(REGULAR, 0).ok().map(Widths::new));
    static SEMI_BOLD_WIDTHS: LazyLock<Option<Widths>> =
        LazyLock::new(|| Face::parse(SEMI_BOLD, 0).ok().map(Widths::new));
    match weight {
        Weight::Regular => REGULAR_WIDTHS.as_ref(),
        Weight::SemiBold => SEMI_BOLD_WIDTHS.as_ref(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use testkit::assert_near;

    #[test]
    fn both_weights_can_be_read_as_fonts() {
        for weight in [Weight::Regular, Weight::SemiBold] {
            let face = Face::parse(weight.bytes(), 0).unwrap();
            let cap = f64::from(face.capital_height().unwrap()) / f64::from(face.units_per_em());
            assert_near!(cap, FIGURE_HEIGHT, 0.01);
            assert!(width("W", 1.0, weight) > 0.5);
        }
    }

    #[test]
    fn figures_are_equally_wide() {
        let one = width("1", 1.0, Weight::Regular);
        for figure in ["0", "4", "7", "8"] {
            assert_near!(width(figure, 1.0, Weight::Regular), one, 1e-9);
        }
    }

    #[test]
    fn the_signs_that_screens_and_sheets_use_are_in_the_font() {
        let face = Face::parse(REGULAR, 0).unwrap();
        for sign in "Ø°±×·–—…½¼¾⅛⅜⅝⅞≤≥≈µ²³−′″→←↑↓✓▲▼▶●○⚠".chars()
        {
            assert!(face.glyph_index(sign).is_some(), "{sign} is missing");
        }
    }
}
