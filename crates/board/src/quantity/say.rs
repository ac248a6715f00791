//! Faults told in the maker's system: one way for every error that has a number in it.

use core::fmt::{Display, Formatter, Result};

use super::Quantity;
use crate::Units;

impl Units {
    /// The sentence of a fault in this system of units.
    ///
    /// Faults have no board, so they are written in metric by `{}`, as the document is, and in US customary units by
    /// `{:#}`; an error that passes on another hands the sign on.
    ///
    /// ```
    /// use board::{Units, field};
    /// let fault = field::BOARD_DIAMETER.range().check(8890.0).unwrap_err();
    /// assert_eq!(Units::Mm.say(&fault), "board diameter is 8890 mm; it may be 1 mm to 5000 mm");
    /// assert_eq!(Units::Inch.say(&fault), "board diameter is 350\"; it may be 0.0394\" to 196.8504\"");
    /// ```
    pub fn say(self, fault: &impl Display) -> String {
        match self {
            Self::Mm => format!("{fault}"),
            Self::Inch => format!("{fault:#}"),
        }
    }

    /// The system that a fault is being written in.
    pub fn of(f: &Formatter<'_>) -> Self {
        if f.alternate() { Self::Inch } else { Self::Mm }
    }
}

/// A contradiction of the pattern, with its lengths in the system that is written in.
///
/// # Errors
/// Where nothing more can be written.
pub fn say_geometry(error: &geometry::Error, f: &mut Formatter<'_>) -> Result {
    let units = Units::of(f);
    f.write_str(&error.said(&|mm| Quantity::Length.shown(mm, units)))
}
