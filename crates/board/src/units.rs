//! The unit in which lengths are typed and shown, and the finest fraction of an inch.

use serde::{Deserialize, Serialize};

use crate::INCH;

/// The fraction of a step by which rounding may move a length off it.
const SLACK: f64 = 1e-6;

/// The unit in which lengths are typed and shown; the document itself is in mm.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(from = "Text", into = "Text")]
pub enum Units {
    /// Millimeters.
    #[default]
    Mm,
    /// Inches, with this as the finest fraction.
    Inch(Fraction),
}

/// The finest fraction of an inch that is shown.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Fraction {
    /// 1/16: a tape measure.
    Sixteenth,
    /// 1/32: a steel rule.
    ThirtySecond,
    /// 1/64: used for drill sizes.
    #[default]
    SixtyFourth,
}

impl Fraction {
    /// The number of these fractions in an inch.
    ///
    /// ```
    /// assert_eq!(board::Fraction::ThirtySecond.parts(), 32);
    /// ```
    pub const fn parts(self) -> u32 {
        match self {
            Self::Sixteenth => 16,
            Self::ThirtySecond => 32,
            Self::SixtyFourth => 64,
        }
    }
}

impl Units {
    /// Inches with the finest fractions.
    pub const INCH: Self = Self::Inch(Fraction::SixtyFourth);

    /// Every unit, in the order lists show them.
    pub const ALL: [Self; 4] = [
        Self::Mm,
        Self::INCH,
        Self::Inch(Fraction::ThirtySecond),
        Self::Inch(Fraction::Sixteenth),
    ];

    /// The words that screens use.
    pub const fn label(self) -> &'static str {
        match self {
            Self::Mm => "millimeters",
            Self::Inch(Fraction::SixtyFourth) => "inches, to 1/64",
            Self::Inch(Fraction::ThirtySecond) => "inches, to 1/32",
            Self::Inch(Fraction::Sixteenth) => "inches, to 1/16",
        }
    }

    /// The finest step that makers read, as a number of steps and the length in mm that they divide: a hundredth of a
    /// millimeter or a fraction of an inch.
    const fn step(self) -> (f64, f64) {
        match self {
            Self::Mm => (100.0, 1.0),
            Self::Inch(fraction) => (fraction.parts() as f64, INCH),
        }
    }

    /// Rounds a length down to whole steps, mm.
    ///
    /// ```
    /// use board::{Fraction, Units};
    /// assert_eq!(Units::Inch(Fraction::Sixteenth).round_down(26.0), 25.4);
    /// assert_eq!(Units::Mm.round_down(26.017), 26.01);
    /// ```
    pub fn round_down(self, mm: f64) -> f64 {
        let (parts, unit) = self.step();
        (mm * parts / unit + SLACK).floor() * unit / parts
    }

    /// Rounds a length up to whole steps, mm.
    ///
    /// ```
    /// assert_eq!(board::Units::INCH.round_up(25.5), 65.0 / 64.0 * 25.4);
    /// ```
    pub fn round_up(self, mm: f64) -> f64 {
        let (parts, unit) = self.step();
        (mm * parts / unit - SLACK).ceil() * unit / parts
    }

    /// Whether lengths are in inches, and everything else in US customary units.
    pub const fn is_inch(self) -> bool {
        matches!(self, Self::Inch(_))
    }
}

/// Units in the file: inches without a fraction are to 1/64.
#[derive(Clone, Copy, Serialize, Deserialize)]
enum Text {
    #[serde(rename = "mm")]
    Mm,
    #[serde(rename = "in")]
    Inch,
    #[serde(rename = "in/32")]
    Inch32,
    #[serde(rename = "in/16")]
    Inch16,
}

impl From<Text> for Units {
    fn from(text: Text) -> Self {
        match text {
            Text::Mm => Self::Mm,
            Text::Inch => Self::INCH,
            Text::Inch32 => Self::Inch(Fraction::ThirtySecond),
            Text::Inch16 => Self::Inch(Fraction::Sixteenth),
        }
    }
}

impl From<Units> for Text {
    fn from(units: Units) -> Self {
        match units {
            Units::Mm => Self::Mm,
            Units::Inch(Fraction::SixtyFourth) => Self::Inch,
            Units::Inch(Fraction::ThirtySecond) => Self::Inch32,
            Units::Inch(Fraction::Sixteenth) => Self::Inch16,
        }
    }
}
