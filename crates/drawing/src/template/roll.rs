//! A whole-board sheet as wide as the roll of a print shop's plotter.
//!
//! Plotters print from rolls of a few widths. A page as wide as the roll is printed as it is; a narrower one is often centered,
//! scaled or rotated at the print shop.

use core::fmt;

use board::{INCH, Quantity, Units};
use kurbo::{Size, Vec2};

use crate::Sheet;

/// Rolls that print shops commonly have, as name and width in mm; from memory.
///
/// ```
/// use drawing::ROLLS;
/// let fits = ROLLS.iter().find(|(_, width)| *width >= 620.0);
/// assert_eq!(fits.map(|(name, _)| *name), Some("914 mm"));
/// ```
pub const ROLLS: [(&str, f64); 4] = [
    ("24\"", 24.0 * INCH),
    ("610 mm", 610.0),
    ("914 mm", 914.0),
    ("36\"", 36.0 * INCH),
];

/// The error that a sheet is wider than the roll.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RollError {
    /// Width of the sheet, mm.
    pub needed: f64,
    /// Width of the roll, mm.
    pub roll: f64,
}

/// ```
/// use board::Units;
/// let error = drawing::RollError { needed: 635.0, roll: 609.6 };
/// let said = Units::INCH.say(&error);
/// assert!(said.contains("25\"") && said.contains("24\"") && said.contains("914 mm"));
/// ```
impl fmt::Display for RollError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let units = Units::of(f);
        let [needed, roll] = [self.needed, self.roll].map(|mm| Quantity::Length.typed(mm, units));
        write!(
            f,
            "the whole board needs paper {needed} wide, but the roll is {roll}; "
        )?;
        match ROLLS.iter().find(|(_, roll)| *roll >= self.needed) {
            Some((name, _)) => write!(f, "use a roll of {name}"),
            None => f.write_str("no common roll is so wide: print the board in sheets"),
        }
    }
}

impl core::error::Error for RollError {}

impl Sheet {
    /// The sheet on paper as wide as a roll (mm), with its content centered.
    ///
    /// ```
    /// use board::Board;
    /// use drawing::{Stamp, whole_sheet};
    /// use workshop::Workpiece;
    ///
    /// let sheet = whole_sheet(&Workpiece::of(&Board::default())?, &Stamp::default());
    /// let plotted = sheet.clone().on_roll(914.0)?;
    /// assert_eq!(plotted.size.width, 914.0);
    /// let aside = plotted.view.page_from_board.x - sheet.view.page_from_board.x;
    /// assert_eq!(aside, (914.0 - sheet.size.width) / 2.0);
    /// assert!(sheet.on_roll(300.0).is_err());
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    ///
    /// # Errors
    /// [`RollError`] if the sheet is wider than the roll.
    pub fn on_roll(self, roll: f64) -> Result<Self, RollError> {
        let needed = self.size.width;
        if roll < needed {
            return Err(RollError { needed, roll });
        }
        let aside = Vec2::new((roll - needed) / 2.0, 0.0);
        let size = Size::new(roll, self.size.height);
        let mut view = self.view;
        view.window = size.to_rect();
        view.page_from_board += aside;
        let marks = self.marks.into_iter();
        Ok(Self {
            size,
            view,
            marks: marks.map(|item| item.moved(aside)).collect(),
            ..self
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Stamp, whole_sheet};
    use board::Board;
    use kurbo::Point;
    use testkit::assert_near;
    use workshop::Workpiece;

    fn whole() -> Sheet {
        let board = Board::default();
        whole_sheet(&Workpiece::of(&board).unwrap(), &Stamp::default())
    }

    #[test]
    fn the_paper_is_as_wide_as_the_roll_with_the_board_centered() {
        let mut board = Board {
            spaces: 12,
            ..Board::default()
        };
        board.blank.diameter = 500.0;
        let workpiece = Workpiece::of(&board).unwrap();
        for (_, roll) in ROLLS {
            let sheet = whole_sheet(&workpiece, &Stamp::default());
            let sheet = sheet.on_roll(roll).unwrap();
            assert_near!(sheet.size.width, roll, 0.0);
            let pin = Point::ORIGIN + sheet.view.page_from_board;
            assert_near!(pin.x, roll / 2.0, 1e-9);
            let page = sheet.size.to_rect();
            for item in &sheet.marks {
                assert!(page.contains_rect(item.shape.bounds()), "{:?}", item.shape);
            }
        }
    }

    #[test]
    fn marks_move_with_the_board() {
        let (before, after) = (whole(), whole().on_roll(914.0).unwrap());
        let by = after.view.page_from_board - before.view.page_from_board;
        for (before, after) in before.marks.iter().zip(&after.marks) {
            let way = after.shape.bounds().center() - before.shape.bounds().center();
            assert_near!(way.x, by.x, 1e-9);
            assert_near!(way.y, 0.0, 1e-9);
        }
    }

    #[test]
    fn the_error_about_a_narrow_roll_names_one_that_is_wide_enough() {
        let error = whole().on_roll(500.0).unwrap_err();
        assert_eq!(
            error.to_string(),
            "the whole board needs paper 670 mm wide, but the roll is 500 mm; use a roll of 914 mm"
        );
        assert!(Units::INCH.say(&error).contains("roll is 19.685\""));
        let wide = RollError {
            needed: 2000.0,
            roll: 500.0,
        };
        assert!(wide.to_string().contains("print the board in sheets"));
    }
}
