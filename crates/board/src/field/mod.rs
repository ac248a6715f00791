//! The table of fields: every number, choice, tick and text of the document, each told once.
//!
//! A row says where the field stands in the file, what it is called, what it may be, and how it is read and replaced. From
//! the table come the walk over the ranges, the fields of the window, the page of the file format, the commands that read
//! and change a file, and the boards that tests make up.
//!
//! To add a field, write its member in the document and one row here, in the order of the file. A member that no row names is
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
mod bench;
mod bores;
mod choices;
mod differs;
mod drilling;
mod file;
mod held;
mod jigs;
mod limits;
#[cfg(test)]
pub(crate) mod made;
mod pattern;
mod piece;
mod stock;
#[cfg(test)]
mod tests;
mod typed;
mod wood;

pub use bench::*;
pub use bores::*;
pub use differs::{Difference, changes, differences, step_name};
pub use drilling::*;
pub use file::{find, plain};
pub use held::{Choice, Value};
pub use jigs::*;
pub use limits::*;
pub use pattern::*;
pub use piece::*;
pub use stock::*;
pub use typed::{TypedError, read_numbers};
pub use wood::*;

use crate::{Board, HoleId, OutOfRange, Range};

/// One number, choice, tick or text of the document.
#[derive(Debug)]
pub struct Field {
    /// Where it stands in the file, below `board`; `[]` is the entry of a list.
    pub path: &'static str,
    /// What screens call it; `#` stands for the place of an entry.
    pub label: &'static str,
    /// What the label cannot say; empty where it says all.
    pub hint: &'static str,
    /// What it may be.
    pub kind: Kind,
    /// What stands there, for an entry of a list.
    read: fn(&Board, usize) -> Option<Value>,
    /// Puts a value there; none where it cannot stand there, or the board has no such field.
    write: fn(&mut Board, usize, &Value) -> Option<()>,
    /// The words of what can be chosen.
    choices: fn() -> Vec<&'static str>,
}

/// What a field may be.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Kind {
    /// A number.
    Number(Range),
    /// A number, or one that the program finds; the words say which.
    Auto(Range, &'static str),
    /// A number, or none; the words say what holds without one.
    Open(Range, &'static str),
    /// A number, or none; where it is wanted it begins with this one.
    Ticked(Range, f64),
    /// One of several.
    Choice,
    /// On or off.
    Tick,
    /// A part that may be there.
    Part,
    /// A text; the range is of its letters.
    Text(Range),
    /// A hole by its name; the range is of its number.
    Hole(Range),
    /// A list of numbers.
    Numbers {
        /// What each may be.
        each: Range,
        /// How many there may be.
        count: Range,
        /// How a list may be typed.
        example: &'static str,
    },
    /// A list of corners, each an x and a y.
    Corners {
        /// What each coordinate may be.
        each: Range,
        /// How many corners there may be.
        count: Range,
    },
    /// A list of entries that have fields of their own; the range is of their number.
    Entries(Range),
}

impl Kind {
    /// The same kind, its range under this name if it has none of its own.
    const fn named(self, label: &'static str) -> Self {
        match self {
            Self::Number(range) => Self::Number(range.named(label)),
            Self::Auto(range, without) => Self::Auto(range.named(label), without),
            Self::Open(range, without) => Self::Open(range.named(label), without),
            Self::Ticked(range, begun) => Self::Ticked(range.named(label), begun),
            Self::Numbers {
                each,
                count,
                example,
            } => Self::Numbers {
                each: each.named(label),
                count: count.named(label),
                example,
            },
            Self::Corners { each, count } => Self::Corners {
                each: each.named(label),
                count: count.named(label),
            },
            other => other,
        }
    }

    /// The range of its numbers, letters or entries; none of a choice, a tick and a part.
    pub const fn range(self) -> Option<Range> {
        match self {
            Self::Number(range)
            | Self::Auto(range, _)
            | Self::Open(range, _)
            | Self::Ticked(range, _)
            | Self::Text(range)
            | Self::Hole(range)
            | Self::Entries(range)
            | Self::Numbers { each: range, .. }
            | Self::Corners { each: range, .. } => Some(range),
            Self::Choice | Self::Tick | Self::Part => None,
        }
    }
}

/// Each row is the only one with its path.
impl PartialEq for Field {
    fn eq(&self, other: &Self) -> bool {
        self.path == other.path
    }
}

impl Field {
    /// What the board has there; none where it has no such field now. Entries of lists count from 0; fields of no list
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

    /// Replaces what the board has there, in range or not; tells whether it could.
    ///
    /// Ranges are held where a value comes in, by [`Field::check`]: a window shows what is out of range before it takes it.
    pub fn set(&self, board: &mut Board, entry: usize, value: &Value) -> bool {
        (self.write)(board, entry, value).is_some()
    }

    /// What screens call it.
    pub fn label(&self, entry: usize) -> String {
        self.label.replace('#', &(entry + 1).to_string())
    }

    /// What its numbers, letters or entries may be; of a field that has none, everything.
    pub const fn range(&self) -> Range {
        match self.kind.range() {
            Some(range) => range,
            None => crate::Quantity::Number.range(self.label, f64::NEG_INFINITY, f64::INFINITY),
        }
    }

    /// The words of what can be chosen, in the order lists show them; none where nothing is chosen.
    ///
    /// ```
    /// use board::field;
    /// assert_eq!(field::UNITS.choices(), ["millimeters", "inches"]);
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

/// The table, in the order of the document: rows that stand together, those of an entry of a list in a block of their own.
const TABLE: &[&[&Field]] = &[
    PATTERN_FIELDS,
    CENTER_FIELDS,
    CENTER_BORE,
    TRACK_BORE,
    HOME_BORE,
    START_BORE,
    SPUR_FIELDS,
    GROOVE_FIELDS,
    PIECE_FIELDS,
    WEIGHT_FIELDS,
    MAGNET_FIELDS,
    BOARD_FIELDS,
    STOCK_FIELDS,
    FLAW_FIELDS,
    PLACE_FIELDS,
    JOINING_FIELDS,
    SCREW_FIELDS,
    WOOD_FIELDS,
    WOOD_DETAILS,
    SHOP_AIR,
    DRY_AIR,
    HUMID_AIR,
    BASE_FIELDS,
    RECESS_FIELDS,
    LID_FIELDS,
    FILLING_FIELDS,
    FINISH_FIELDS,
    COAT_FIELDS,
    JIG_FIELDS,
    LIMIT_FIELDS,
    TEMPLATE_FIELDS,
    ROUTER_FIELDS,
    SECTOR_FIELDS,
    ORDER_FIELDS,
    MACHINE_FIELDS,
    BIT_FIELDS,
    EDGE_FIELDS,
    GROOVE_RUN_FIELDS,
    ERROR_FIELDS,
    EDITS_FIELDS,
    EDIT_FIELDS,
    EDIT_BORE,
];

/// Every field, in the order of the document.
pub fn all_fields() -> impl Iterator<Item = &'static Field> {
    TABLE.iter().copied().flatten().copied()
}

/// Every field that a board has now, with the entry of a list that it belongs to, in the order of the document.
pub fn fields_of(board: &Board) -> impl Iterator<Item = (&'static Field, usize, Value)> {
    TABLE.iter().flat_map(move |rows| {
        entries(board, rows).flat_map(move |entry| {
            let has =
                move |field: &&'static Field| Some((*field, entry, field.value(board, entry)?));
            rows.iter().filter_map(has)
        })
    })
}

/// The entries that a block of rows is about: as many as its first field has, and one where it is of no list.
fn entries(board: &Board, rows: &'static [&'static Field]) -> impl Iterator<Item = usize> {
    let listed = rows.first().filter(|field| field.is_of_entry());
    let has = move |entry: &usize| match listed {
        Some(field) => field.value(board, *entry).is_some(),
        None => *entry == 0,
    };
    (0..).take_while(has)
}

/// Every number of the document that is out of its range, in the order of the document.
pub fn out_of_range(board: &Board) -> Vec<OutOfRange> {
    let mut found = Vec::new();
    for (field, entry, value) in fields_of(board) {
        field.measure(&value, |range, number| {
            found.extend(range.check_entry(number, entry).err());
        });
    }
    found
}
