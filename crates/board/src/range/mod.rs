//! What each number of the document may be: one table for the file, the window and the commands.

pub mod ranges;
mod walk;

pub use walk::out_of_range;

use crate::{Quantity, Units};

/// What one number may be, both ends included.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Range {
    /// What the number is called on screens and in messages.
    pub name: &'static str,
    /// What it measures.
    pub quantity: Quantity,
    /// The least it may be.
    pub min: f64,
    /// The most it may be.
    pub max: f64,
}

/// A number outside its range; lengths in mm.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
#[error("{} is {value}{}; it may be {} to {}{}", range.name, unit(range.quantity), range.min, range.max, unit(range.quantity))]
pub struct OutOfRange {
    /// What it may be.
    pub range: Range,
    /// What it is.
    pub value: f64,
}

impl OutOfRange {
    /// The sentence of the error with lengths in a maker's unit.
    ///
    /// ```
    /// use board::{Units, ranges};
    /// let fault = ranges::BOARD.check(8890.0).unwrap_err();
    /// assert_eq!(fault.shown_in(Units::Inch), "board diameter is 350\"; it may be 0.0394\" to 196.8504\"");
    /// ```
    pub fn shown_in(&self, units: Units) -> String {
        let Range {
            name,
            quantity,
            min,
            max,
        } = self.range;
        let show = |value| quantity.shown(value, units);
        format!(
            "{name} is {}; it may be {} to {}",
            show(self.value),
            show(min),
            show(max)
        )
    }
}

fn unit(quantity: Quantity) -> String {
    match quantity.symbol() {
        "" => String::new(),
        "°" => "°".into(),
        unit => format!(" {unit}"),
    }
}

impl Range {
    const fn new(name: &'static str, quantity: Quantity, min: f64, max: f64) -> Self {
        Self {
            name,
            quantity,
            min,
            max,
        }
    }

    /// Whether a number is in the range.
    ///
    /// # Errors
    /// [`OutOfRange`] where it is not, or is no number.
    pub fn check(self, value: f64) -> Result<(), OutOfRange> {
        let inside = (self.min..=self.max).contains(&value);
        if inside {
            Ok(())
        } else {
            Err(OutOfRange { range: self, value })
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Board;

    #[test]
    fn the_board_one_starts_from_is_in_range() {
        assert_eq!(out_of_range(&Board::default()), []);
    }

    #[test]
    fn not_a_number_is_out_of_every_range() {
        assert!(ranges::PITCH.check(f64::NAN).is_err());
        assert!(ranges::ROTATION.check(f64::INFINITY).is_err());
        assert!(ranges::PITCH.check(0.1).is_ok());
    }

    #[test]
    fn each_number_out_of_range_is_named_with_what_it_may_be() {
        let mut board = Board {
            pitch: -3.0,
            ..Board::default()
        };
        board.blank.thickness = 1e9;
        let found: Vec<String> = out_of_range(&board)
            .iter()
            .map(ToString::to_string)
            .collect();
        assert_eq!(
            found,
            [
                "pitch is -3 mm; it may be 0.1 to 1000 mm",
                "board thickness is 1000000000 mm; it may be 0.5 to 500 mm"
            ]
        );
    }
}
