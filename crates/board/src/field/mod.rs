//! The table of fields: every number, choice, checkbox and text of the document, each described once.
//!
//! A row says where the field is in the file, what it is called, what values are allowed, and how it is read and replaced. The
//! table drives the range checks, the fields of the window, the page on the file format, the commands that read and change a
//! file, and the boards that tests generate.
//!
//! To add a field, add its member to the document and one row to `table`, in the order of the file. A test fails for any member
//! that no row names, and for two rows with the same label.
//!
//! ```
//! use board::{Board, Value, field};
//! let mut board = Board::default();
//! assert_eq!(field::PITCH.value(&board, 0), Some(Value::Number(19.0)));
//! field::PITCH.set(&mut board, 0, &Value::Number(20.0));
//! assert_eq!(board.pitch, 20.0);
//! ```

#[macro_use]
mod reach;
#[macro_use]
mod choice;
mod differs;
mod file;
mod held;
mod kind;
#[cfg(test)]
pub(crate) mod made;
mod table;
#[cfg(test)]
mod tests;
mod total;
mod typed;
mod us;
mod written;

pub use choice::Choice;
pub use differs::{Difference, begun, changes, differences, step_name};
pub use file::{find, find_in_list, plain};
pub use held::Value;
pub use kind::Kind;
pub use table::*;
pub use typed::{TypedError, read_numbers};
pub use us::of_shop;
pub use written::Written;

use crate::{Board, HoleId, OutOfRange, Range, Units};

/// One number, choice, checkbox or text of the document.
///
/// ```
/// use board::field;
/// let field = &field::DOME;
/// assert_eq!((field.path, field.label), ("filling.dome_mm", "Crown"));
/// assert!(field.hint.starts_with("How much higher it stands in the middle"));
/// ```
#[derive(Debug)]
pub struct Field {
    /// Where it is in the file, below `board`; `[]` is a list entry.
    pub path: &'static str,
    /// Its name on screens; `#` stands for the number of a list entry.
    pub label: &'static str,
    /// The tooltip, with what the label cannot say; empty if the label says it all. Measures are written as [`Units::spell`]
    /// reads them.
    pub hint: &'static str,
    /// Its kind, with the range of its values.
    pub kind: Kind,
    /// Its initial value on a board in inches, as typed; empty if it is the same on any board.
    us: &'static str,
    /// Whether it is a property of the maker's shop: the same from board to board.
    pub of_shop: bool,
    /// Reads the value, for a list entry.
    read: fn(&Board, usize) -> Option<Value>,
    /// Sets the value; `None` if the value is not allowed, or the board does not have the field.
    write: fn(&mut Board, usize, &Value) -> Option<()>,
    /// Removes an entry from the list in this field; `None` if there is no such list or entry.
    take_out: fn(&mut Board, usize, usize) -> Option<()>,
    /// The words of the choices.
    choices: fn() -> Vec<&'static str>,
}

/// Paths are unique.
impl PartialEq for Field {
    fn eq(&self, other: &Self) -> bool {
        self.path == other.path
    }
}

impl Field {
    /// The value on a board; `None` if the board does not have the field now. List entries count from 0; use 0 for fields
    /// outside lists.
    ///
    /// ```
    /// use board::{Board, Value, field};
    /// let board = Board::default();
    /// assert_eq!(field::BOARD_DIAMETER.value(&board, 0), Some(Value::Number(board.blank.diameter)));
    /// // Nothing is grooved, so that grooves have no width.
    /// assert_eq!(field::GROOVE_WIDTH.value(&board, 0), None);
    /// ```
    pub fn value(&self, board: &Board, entry: usize) -> Option<Value> {
        (self.read)(board, entry)
    }

    /// Replaces the board's value, whether in range or not; returns whether that was possible.
    ///
    /// Ranges are enforced on input, by [`Field::check`]: a window shows a value out of range without applying it.
    ///
    /// ```
    /// use board::{Board, Value, field};
    /// let mut board = Board::default();
    /// assert!(field::PLAYERS.set(&mut board, 0, &Value::Number(4.0)));
    /// assert!(!field::PLAYERS.set(&mut board, 0, &Value::Number(4.5)));
    /// assert_eq!(board.players, 4);
    /// ```
    pub fn set(&self, board: &mut Board, entry: usize, value: &Value) -> bool {
        let brings = matches!(self.kind, Kind::Part | Kind::Choice | Kind::Entries(_));
        let before = (brings && board.units.is_inch()).then(|| board.clone());
        let is_set = (self.write)(board, entry, value).is_some();
        if let Some(before) = before.filter(|before| before != board) {
            self.bring_in_inches(&before, board);
        }
        is_set
    }

    /// The tooltip in the maker's system of units.
    ///
    /// ```
    /// use board::{Units, field};
    /// let hint = field::POT_LIFE_AT.hint_in(Units::INCH);
    /// assert_eq!(hint, "The label's temperature, such as 77 °F");
    /// ```
    pub fn hint_in(&self, units: Units) -> String {
        units.spell(self.hint)
    }

    /// Removes the entry `gone` from the field's list, moving up those after it; returns whether it was there.
    ///
    /// ```
    /// use board::{Board, field};
    /// let mut board = Board::default();
    /// board.jig.plates = vec![24, 36, 48];
    /// assert!(field::PLATES.take_out(&mut board, 0, 1));
    /// assert_eq!(board.jig.plates, [24, 48]);
    /// ```
    pub fn take_out(&self, board: &mut Board, entry: usize, gone: usize) -> bool {
        (self.take_out)(board, entry, gone).is_some()
    }

    /// Its name on screens, for a list entry.
    ///
    /// ```
    /// assert_eq!(board::field::SCREW_DEPTH.label(1), "Circle 2, depth");
    /// ```
    pub fn label(&self, entry: usize) -> String {
        self.label.replace('#', &(entry + 1).to_string())
    }

    /// The range of its numbers, letters or entries; for a field that has none, any number.
    ///
    /// ```
    /// use board::field;
    /// assert_eq!(field::PLAYERS.range().max, 24.0);
    /// assert_eq!(field::UNITS.range().max, f64::INFINITY);
    /// ```
    pub const fn range(&self) -> Range {
        match self.kind.range() {
            Some(range) => range,
            None => crate::Quantity::Number.range(self.label, f64::NEG_INFINITY, f64::INFINITY),
        }
    }

    /// The words of the choices, in the order lists show them; empty for fields that are not choices.
    ///
    /// ```
    /// use board::field;
    /// assert_eq!(field::CUT.choices(), ["flat-sawn", "quarter-sawn"]);
    /// assert!(field::PITCH.choices().is_empty());
    /// ```
    pub fn choices(&self) -> Vec<&'static str> {
        (self.choices)()
    }

    /// Checks that a value is in range, for a list entry.
    ///
    /// ```
    /// use board::{Value, field};
    /// assert!(field::PITCH.check(&Value::Number(19.0), 0).is_ok());
    /// assert!(field::PITCH.check(&Value::Number(-1.0), 0).is_err());
    /// ```
    ///
    /// # Errors
    /// The first number that is out of range.
    pub fn check(&self, value: &Value, entry: usize) -> Result<(), OutOfRange> {
        let mut first = Ok(());
        self.measure(value, |range, number| {
            if first.is_ok() {
                first = range.check_entry(number, entry);
            }
        });
        first
    }

    /// Passes every number of a value to `held`, with the range it must be in.
    fn measure(&self, value: &Value, mut held: impl FnMut(Range, f64)) {
        match (self.kind, value) {
            (
                Kind::Number(range)
                | Kind::Auto(range, _)
                | Kind::Open(range, _)
                | Kind::Ticked(range, _),
                Value::Number(number),
            ) => {
                held(range, *number);
            }
            (Kind::Text(letters), Value::Text(text)) => held(letters, text.chars().count() as f64),
            (Kind::Hole(number), Value::Text(name)) => match name.parse() {
                Ok(HoleId::CENTER) | Err(_) => {}
                Ok(hole) => held(number, f64::from(hole.number())),
            },
            (Kind::Written(form), Value::Text(text)) => {
                if let Some((count, number)) = form.counted(text) {
                    held(count, number);
                }
            }
            (Kind::Entries(count), Value::Entries(entries)) => held(count, *entries as f64),
            (Kind::Numbers { each, count, .. }, Value::Numbers(numbers)) => {
                held(count, numbers.len() as f64);
                for number in numbers {
                    held(each, *number);
                }
            }
            (Kind::Corners { each, count }, Value::Numbers(numbers)) => {
                held(count, (numbers.len() / 2) as f64);
                for number in numbers {
                    held(each, *number);
                }
            }
            _ => {}
        }
    }
}
