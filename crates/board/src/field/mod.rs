//! The table of fields: every number, choice, tick and text of the document, each described once.
//!
//! A row says where the field stands in the file, what it is called, what it may be, and how it is read and replaced. From
//! the table come the walk over the ranges, the fields of the window, the page of the file format, the commands that read
//! and change a file, and the boards that tests make up.
//!
//! To add a field, write its member in the document and one row in `table`, in the order of the file. A member that no row names is
//! refused by a test, and so are two rows with one label.
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
pub use differs::{Difference, changes, differences, step_name};
pub use file::{find, find_in_list, plain};
pub use held::Value;
pub use kind::Kind;
pub use table::*;
pub use typed::{TypedError, read_numbers};
pub use us::of_shop;
pub use written::Written;

use crate::{Board, HoleId, OutOfRange, Range, Units};

/// One number, choice, tick or text of the document.
///
/// ```
/// use board::field;
/// let field = &field::DOME;
/// assert_eq!((field.path, field.label), ("filling.dome_mm", "Crown"));
/// assert!(field.hint.starts_with("How much higher it stands in the middle"));
/// ```
#[derive(Debug)]
pub struct Field {
    /// Where it stands in the file, below `board`; `[]` is the entry of a list.
    pub path: &'static str,
    /// Its name on screens; `#` stands for the place of an entry.
    pub label: &'static str,
    /// The tooltip, with what the label cannot say; empty where it says all. Measures stand in it as [`Units::spell`] reads
    /// them.
    pub hint: &'static str,
    /// Its kind, with the range of its values.
    pub kind: Kind,
    /// The value that it begins with on a board in inches, as it is typed; empty where it is that of any board.
    us: &'static str,
    /// Whether the maker's shop has it: it is the same from board to board.
    pub of_shop: bool,
    /// Reads the value, for an entry of a list.
    read: fn(&Board, usize) -> Option<Value>,
    /// Puts a value there; none where it cannot stand there, or the board has no such field.
    write: fn(&mut Board, usize, &Value) -> Option<()>,
    /// Takes an entry out of the list that stands there; none where there is no such list or entry.
    take_out: fn(&mut Board, usize, usize) -> Option<()>,
    /// The words of the choices.
    choices: fn() -> Vec<&'static str>,
}

/// Each row is the only one with its path.
impl PartialEq for Field {
    fn eq(&self, other: &Self) -> bool {
        self.path == other.path
    }
}

impl Field {
    /// The value on a board; none where it has no such field now. Entries of lists count from 0; fields of no list
    /// are at 0.
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

    /// Replaces what the board has there, in range or not; returns whether it could.
    ///
    /// Ranges are enforced on input, by [`Field::check`]: a window shows a value out of range without taking it.
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

    /// The tooltip in the maker's system.
    ///
    /// ```
    /// use board::{Units, field};
    /// let hint = field::POT_LIFE_AT.hint_in(Units::INCH);
    /// assert_eq!(hint, "The label's temperature, such as 77 °F");
    /// ```
    pub fn hint_in(&self, units: Units) -> String {
        units.spell(self.hint)
    }

    /// Takes the entry `gone` out of the list that the field is, those after it moving up; returns whether it was there.
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

    /// Its name on screens, for an entry of a list.
    ///
    /// ```
    /// assert_eq!(board::field::SCREW_DEPTH.label(1), "Circle 2, depth");
    /// ```
    pub fn label(&self, entry: usize) -> String {
        self.label.replace('#', &(entry + 1).to_string())
    }

    /// The range of its numbers, letters or entries; of a field that has none, everything.
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

    /// The words of the choices, in the order lists show them; empty for fields that are no choice.
    ///
    /// ```
    /// use board::field;
    /// assert_eq!(field::CUT.choices(), ["flat-sawn", "quarter-sawn"]);
    /// assert!(field::PITCH.choices().is_empty());
    /// ```
    pub fn choices(&self) -> Vec<&'static str> {
        (self.choices)()
    }

    /// Whether a value is in range, for an entry of a list.
    ///
    /// ```
    /// use board::{Value, field};
    /// assert!(field::PITCH.check(&Value::Number(19.0), 0).is_ok());
    /// assert!(field::PITCH.check(&Value::Number(-1.0), 0).is_err());
    /// ```
    ///
    /// # Errors
    /// The first number that is not.
    pub fn check(&self, value: &Value, entry: usize) -> Result<(), OutOfRange> {
        let mut first = Ok(());
        self.measure(value, |range, number| {
            if first.is_ok() {
                first = range.check_entry(number, entry);
            }
        });
        first
    }

    /// Every number of a value with the range that it is held against.
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
