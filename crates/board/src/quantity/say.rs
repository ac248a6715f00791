//! Errors and texts in the maker's system of units: one mechanism for everything that contains numbers.

use core::fmt::{Display, Formatter, Result};

use super::{Measure, Quantity};
use crate::{Fraction, Units};

impl Units {
    /// An error's message in this system of units.
    ///
    /// Errors do not know the board, so `{}` formats them in metric units, like the document, and `{:#}` in US customary units,
    /// with a sign flag if fractions end at 1/32 (`+`) or 1/16 (`-`). An error that displays another one passes the flags on.
    ///
    /// ```
    /// use board::{Units, field};
    /// let fault = field::BOARD_DIAMETER.range().check(8890.0).unwrap_err();
    /// assert_eq!(Units::Mm.say(&fault), "Board diameter: 8890 mm is out of range; use 1 mm to 5000 mm");
    /// assert_eq!(Units::INCH.say(&fault), "Board diameter: 350\" is out of range; use ≈ 0.039\" to ≈ 196 27/32\"");
    /// ```
    pub fn say(self, fault: &impl Display) -> String {
        match self {
            Self::Mm => format!("{fault}"),
            Self::Inch(Fraction::SixtyFourth) => format!("{fault:#}"),
            Self::Inch(Fraction::ThirtySecond) => format!("{fault:+#}"),
            Self::Inch(Fraction::Sixteenth) => format!("{fault:-#}"),
        }
    }

    /// A text in this system of units: a measure in braces is converted to it, and of two wordings in braces, separated by a
    /// bar, the second is used for inches.
    ///
    /// ```
    /// use board::Units;
    /// let text = "Leave {3.175 mm} of wood, below {20 °C}; a rule of {30 cm|12\"} will do";
    /// assert_eq!(Units::Mm.spell(text), "Leave 3.18 mm of wood, below 20 °C; a rule of 30 cm will do");
    /// assert_eq!(Units::INCH.spell(text), "Leave 1/8\" of wood, below 68 °F; a rule of 12\" will do");
    /// ```
    pub fn spell(self, text: &str) -> String {
        let mut spelled = String::new();
        let mut rest = text;
        while let Some((before, (inner, after))) = rest
            .split_once('{')
            .and_then(|(before, braced)| Some((before, braced.split_once('}')?)))
        {
            spelled += before;
            spelled += &match inner.split_once('|') {
                Some((metric, us)) => if self == Self::Mm { metric } else { us }.to_owned(),
                None => measure(inner).map_or_else(|| inner.to_owned(), |it| it.shown(self)),
            };
            rest = after;
        }
        spelled + rest
    }

    /// The system of units that an error is being formatted in.
    pub fn of(f: &Formatter<'_>) -> Self {
        match (f.alternate(), f.sign_plus(), f.sign_minus()) {
            (false, ..) => Self::Mm,
            (true, true, _) => Self::Inch(Fraction::ThirtySecond),
            (true, _, true) => Self::Inch(Fraction::Sixteenth),
            (true, false, false) => Self::INCH,
        }
    }
}

/// The measure that a text gives as a number with the document's unit; `None` if it gives none.
fn measure(text: &str) -> Option<Measure> {
    let (number, unit) = text.split_once(' ')?;
    let quantity = match unit {
        "mm" => Quantity::Length,
        "°C" => Quantity::Temperature,
        "N" => Quantity::Force,
        _ => return None,
    };
    Some(Measure::new(quantity, number.parse().ok()?))
}

/// Writes a contradiction of the pattern, with its lengths in the system of units being formatted.
///
/// # Errors
///
/// If the formatter cannot be written to.
pub fn say_geometry(error: &geometry::Error, f: &mut Formatter<'_>) -> Result {
    let units = Units::of(f);
    f.write_str(&error.message(&|mm| Quantity::Length.shown(mm, units)))
}
