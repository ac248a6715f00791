//! US defaults: a board in inches, and every part of one, starts with values that are round in inches. They are in the rows of
//! the table; the metric ones are in the `Default` of each part.

use super::{CENTER, Field, Kind, Value, all_fields, fields_of};
use crate::{Board, Units};

impl Board {
    /// A new board with the defaults for a unit.
    ///
    /// ```
    /// use board::{Board, Paper, Units};
    /// let board = Board::begun(Units::INCH);
    /// assert_eq!((board.pitch, board.template.paper), (19.05, Paper::Letter));
    /// assert_eq!(Board::begun(Units::Mm), Board::default());
    /// ```
    pub fn begun(units: Units) -> Self {
        let mut board = Self {
            units,
            ..Self::default()
        };
        if !units.is_inch() {
            return board;
        }
        let rows: Vec<_> = fields_of(&board).collect();
        for (field, entry, before) in rows {
            if before != Value::Open
                && let Some(value) = field.us_default()
            {
                field.set(&mut board, entry, &value);
            }
        }
        // The center depends on the pin and the bores.
        if let Some(kind) = CENTER.value(&board, 0) {
            CENTER.set(&mut board, 0, &Value::Choice(0));
            CENTER.set(&mut board, 0, &kind);
        }
        board
    }

    /// The board in another unit, with every value that is still the default for the old unit replaced by the default for the
    /// new one: paper, margins, limits, allowances. Pattern, bores, pin, pieces and the finished board stay as they are.
    ///
    /// ```
    /// use board::{Board, Paper, Units};
    /// let board = Board::default().in_defaults_of(Units::INCH);
    /// assert_eq!((board.template.paper, board.limits.web), (Paper::Letter, 3.175));
    /// assert_eq!((board.pitch, board.blank.diameter), (19.0, 640.0));
    /// ```
    #[must_use]
    pub fn in_defaults_of(&self, units: Units) -> Self {
        const STAYS: [&str; 6] = [
            "pitch_mm",
            "center.",
            "bores.",
            "piece.",
            "blank.",
            "jig.pin_mm",
        ];
        let mut board = Self {
            units,
            ..self.clone()
        };
        for (field, entry, value) in fields_of(self) {
            let stays = STAYS.iter().any(|member| field.path.starts_with(member));
            let defaults = [field.metric_default(), field.us_default()];
            let (Some(metric), Some(us)) = (&defaults[0], &defaults[1]) else {
                continue;
            };
            let (was, is) = if units.is_inch() {
                (metric, us)
            } else {
                (us, metric)
            };
            if value == *was && value != Value::Open && !stays {
                field.set(&mut board, entry, is);
            }
        }
        board
    }
}

impl Field {
    /// The initial value on a board in inches, if it differs from that on a board in millimeters.
    ///
    /// ```
    /// use board::{Value, field};
    /// assert_eq!(field::PLANER.us_default(), Some(Value::Number(12.5 * 25.4)));
    /// assert_eq!(field::PLAYERS.us_default(), None);
    /// ```
    pub fn us_default(&self) -> Option<Value> {
        if self.us.is_empty() {
            return None;
        }
        let inches = Board {
            units: Units::INCH,
            ..Board::default()
        };
        self.read(self.us, &inches, 0).ok()
    }

    /// The initial number of an optional field when it is switched on, on a board in this unit.
    ///
    /// ```
    /// use board::{Units, field};
    /// assert_eq!(field::THROAT.begun(Units::Mm), 150.0);
    /// assert!((field::THROAT.begun(Units::INCH) - 6.0 * 25.4).abs() < 1e-9);
    /// ```
    pub fn begun(&self, units: Units) -> f64 {
        let us = self.us_default().filter(|_| units.is_inch());
        match (us, self.kind) {
            (Some(Value::Number(number)), _) | (_, Kind::Ticked(_, number)) => number,
            _ => self.range().min,
        }
    }

    /// Gives fields that were added to a board in inches their US defaults. The initial values of a kind may depend on the
    /// board, such as a footing as wide as the previous one: of the numbers added by a choice, only those at their metric
    /// defaults are replaced.
    pub(super) fn bring_in_inches(&self, before: &Board, board: &mut Board) {
        let came: Vec<_> = fields_of(board)
            .filter(|(field, entry, value)| {
                !field.us.is_empty()
                    && *value != Value::Open
                    && field.value(before, *entry).is_none()
            })
            .collect();
        for (field, entry, value) in came {
            let is_usual = self.kind != Kind::Choice || field.metric_default() == Some(value);
            if let Some(us) = field.us_default().filter(|_| is_usual) {
                (field.write)(board, entry, &us);
            }
        }
    }

    /// The initial value on a board in millimeters.
    fn metric_default(&self) -> Option<Value> {
        self.value(&self.brought(&Board::default())?, 0)
    }
}

/// The fields that belong to the maker's shop, in the order of the document.
///
/// ```
/// use board::field;
/// assert!(field::of_shop().any(|field| *field == field::PAPER));
/// assert!(field::of_shop().all(|field| *field != field::PLAYERS));
/// ```
pub fn of_shop() -> impl Iterator<Item = &'static Field> {
    all_fields().filter(|field| field.of_shop)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Quantity;
    use crate::field::made::full_boards;
    use testkit::assert_near;

    /// Boards in inches that together have every part, entry and kind with its initial values.
    fn begun_whole() -> Vec<Board> {
        let brought = all_fields().filter_map(|field| field.brought(&Board::begun(Units::INCH)));
        brought.collect()
    }

    #[test]
    fn every_us_default_can_be_read_and_differs_from_the_metric_one() {
        for field in all_fields().filter(|field| !field.us.is_empty()) {
            let us = field.us_default();
            assert!(us.is_some(), "{}: {}", field.path, field.us);
            assert_ne!(us, field.metric_default(), "{}", field.path);
        }
    }

    #[test]
    fn every_length_of_a_new_board_in_inches_is_round_in_inches() {
        for board in begun_whole() {
            for (field, entry, value) in fields_of(&board) {
                let numbers = match value {
                    Value::Number(number) => vec![number],
                    Value::Numbers(numbers) => numbers,
                    _ => continue,
                };
                if field.range().quantity != Quantity::Length {
                    continue;
                }
                for number in numbers {
                    let shown = Quantity::Length.shown(number, Units::INCH);
                    let path = field.path_of(entry);
                    assert!(!shown.contains('≈'), "{path} begins with {shown}");
                }
            }
        }
    }

    #[test]
    fn an_optional_number_starts_round_in_inches() {
        for field in all_fields() {
            if let Kind::Ticked(range, _) = field.kind {
                let begun = field.begun(Units::INCH);
                assert!(range.check(begun).is_ok(), "{}", field.path);
                let shown = range.quantity.shown(begun, Units::INCH);
                assert!(!shown.contains('≈'), "{} begins with {shown}", field.path);
            }
        }
    }

    #[test]
    fn a_kind_whose_initial_values_depend_on_the_board_keeps_them() {
        let mut board = Board::begun(Units::INCH);
        board.bores.track.diameter = 12.0;
        CENTER.set(&mut board, 0, &Value::Choice(0));
        CENTER.set(&mut board, 0, &Value::Choice(2));
        assert_near!(board.center.bore().unwrap().diameter, 12.0, 0.0);
    }

    #[test]
    fn a_metric_board_is_left_unchanged() {
        for mut board in full_boards() {
            board.units = Units::Mm;
            board.router = None;
            super::super::ROUTER.set(&mut board, 0, &Value::Tick(true));
            assert_eq!(board.router, Some(crate::Router::default()));
        }
    }
}
