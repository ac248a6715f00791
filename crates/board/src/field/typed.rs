//! Field values as makers type and read them.

use super::{Field, Kind, Value, Written};
use crate::{
    Board, NameError, OutOfRange, Quantity, QuantityError, Range, Rgb, RgbError, Units, WhenError,
};

/// The reason why a text is not a value of a field: it names what was typed and what would work.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum TypedError {
    /// Not a number of the expected kind.
    #[error(transparent)]
    Quantity(#[from] QuantityError),
    /// A number out of range, and the units to show it in.
    #[error("{}", .1.say(.0))]
    Range(OutOfRange, Units),
    /// None of the known words.
    #[error("\"{typed}\" is not one of {words}")]
    Word {
        /// The text typed.
        typed: String,
        /// The accepted words, separated by commas.
        words: String,
    },
    /// Not a hole name.
    #[error(transparent)]
    Hole(#[from] NameError),
    /// Not a color.
    #[error(transparent)]
    Color(#[from] RgbError),
    /// Not a day, a time of day or days off.
    #[error(transparent)]
    When(#[from] WhenError),
    /// A corner with only one coordinate.
    #[error("the last corner has no y; each corner is x; y")]
    HalfCorner,
}

/// The words to type for an automatic number, and for an omitted one.
const AUTO: &str = "auto";
const NONE: &str = "none";
/// The words for any color.
const COLORS: &str = "#rrggbb or a name, as in sky blue";
/// The word to type for an optional part, and for a number that has an initial value.
const DEFAULT: &str = "default";

impl Field {
    /// The value that a text gives for a field of a board, in range.
    ///
    /// # Errors
    /// [`TypedError`] if it gives none.
    ///
    /// ```
    /// use board::{Board, Value, field};
    /// let board = Board::default();
    /// assert_eq!(field::PITCH.read("3/4", &board, 0), Ok(Value::Number(19.05)));
    /// assert_eq!(field::PATTERN.read("polygon", &board, 0), Ok(Value::Choice(2)));
    /// assert!(field::PATTERN.read("star", &board, 0).is_err());
    /// ```
    pub fn read(&self, text: &str, board: &Board, entry: usize) -> Result<Value, TypedError> {
        let units = board.units;
        let word = text.trim().to_lowercase();
        let value = match (self.kind, word.as_str()) {
            (
                Kind::Auto(..)
                | Kind::Open(..)
                | Kind::Ticked(..)
                | Kind::AutoColor(_)
                | Kind::Written(Written::MaybeDay(_)),
                AUTO | NONE,
            ) => Value::Open,
            (Kind::Color | Kind::AutoColor(_), _) => Value::Color(text.parse::<Rgb>()?),
            (Kind::Ticked(..), DEFAULT) => Value::Number(self.begun(units)),
            (Kind::Part, DEFAULT) | (Kind::Part | Kind::Tick, "yes" | "true" | "on") => {
                Value::Tick(true)
            }
            (Kind::Part, AUTO | NONE) | (Kind::Part | Kind::Tick, "no" | "false" | "off") => {
                Value::Tick(false)
            }
            (Kind::Part | Kind::Tick, _) => return Err(self.none_of(text, board, entry)),
            (Kind::Choice, word) => return self.chosen(word, text, board, entry),
            (Kind::Text(_), _) => Value::Text(text.into()),
            (Kind::Hole(_), _) => Value::Text(text.trim().parse::<crate::HoleId>()?.to_string()),
            (Kind::Written(Written::DaysOff(_) | Written::Zone), NONE) => {
                Value::Text(String::new())
            }
            (Kind::Written(form), _) => Value::Text(form.read(text)?),
            (Kind::Entries(_), NONE) => Value::Entries(0),
            (Kind::Entries(count), _) => Value::Entries(count.quantity.read(text, units)? as usize),
            (Kind::Numbers { each, count, .. }, _) => {
                return read_numbers(text, [each, count], 1, units).map(Value::Numbers);
            }
            (Kind::Corners { each, count }, _) => {
                return read_numbers(text, [each, count], 2, units).map(Value::Numbers);
            }
            (
                Kind::Number(range)
                | Kind::Auto(range, _)
                | Kind::Open(range, _)
                | Kind::Ticked(range, _),
                _,
            ) => Value::Number(range.meant(range.quantity.read(text, units)?, units)),
        };
        let checked = self.check(&value, entry);
        checked.map_err(|fault| TypedError::Range(fault, units))?;
        Ok(value)
    }

    /// A value as screens and commands show it: it reads back unchanged, except for rounded numbers and the words of lists.
    ///
    /// ```
    /// use board::{Units, Value, field};
    /// assert_eq!(field::PITCH.shown(&Value::Number(19.05), Units::INCH), "3/4\"");
    /// assert_eq!(field::POCKET_RADIUS.shown(&Value::Open, Units::Mm), "auto");
    /// ```
    pub fn shown(&self, value: &Value, units: Units) -> String {
        let quantity = self.range().quantity;
        match value {
            Value::Number(number) => quantity.typed(*number, units),
            Value::Open if matches!(self.kind, Kind::Auto(..) | Kind::AutoColor(_)) => AUTO.into(),
            Value::Open => NONE.into(),
            Value::Tick(false) if self.kind == Kind::Part => NONE.into(),
            Value::Tick(on) => if *on { "yes" } else { "no" }.into(),
            Value::Choice(place) => self
                .choices()
                .get(*place)
                .copied()
                .unwrap_or_default()
                .into(),
            Value::Color(color) => color.to_string(),
            Value::Text(text) => match self.kind {
                Kind::Written(form) => form.shown(text, units),
                _ => text.clone(),
            },
            Value::Numbers(numbers) => {
                let each: Vec<String> = numbers
                    .iter()
                    .map(|number| quantity.typed(*number, units))
                    .collect();
                each.join("; ")
            }
            Value::Entries(count) => count.to_string(),
        }
    }

    /// The allowed values, worded for a command's message.
    ///
    /// ```
    /// use board::{Board, field};
    /// let board = Board::default();
    /// assert_eq!(field::HOLE_NAMES.may_be(&board, 0), "yes, no");
    /// assert_eq!(field::BORDER.may_be(&board, 0), "0 mm to 500 mm, or none");
    /// ```
    pub fn may_be(&self, board: &Board, entry: usize) -> String {
        let range = |range: Range| range.ends(board.units);
        match self.kind {
            Kind::Number(numbers) => range(numbers),
            Kind::Auto(numbers, without) => format!("{}, or {AUTO}: {without}", range(numbers)),
            Kind::Open(numbers, without) => format!("{}, or {NONE}: {without}", range(numbers)),
            Kind::Ticked(numbers, _) => format!("{}, or {NONE}", range(numbers)),
            Kind::Choice => self.words(board, entry).join(", "),
            Kind::Color => COLORS.into(),
            Kind::AutoColor(without) => format!("{COLORS}, or {AUTO}: {without}"),
            Kind::Tick => "yes, no".into(),
            Kind::Part => format!("{DEFAULT}, {NONE}"),
            Kind::Text(letters) => format!("up to {} letters", letters.max),
            Kind::Hole(_) => "the name of a hole, as in T3-07".into(),
            Kind::Written(form) => {
                let example = form.example(board.units);
                match form {
                    Written::Day => format!("a date, as {example}"),
                    Written::MaybeDay(without) => {
                        format!("a date, as {example}, or {NONE}: {without}")
                    }
                    Written::Clock => format!("a time of day, as {example}"),
                    Written::Zone => {
                        format!(
                            "a name of the IANA database, as {example}, or {NONE}: that of the computer"
                        )
                    }
                    Written::DaysOff(count) => {
                        format!(
                            "up to {} days or spans, separated by ;, as {example}",
                            count.max
                        )
                    }
                }
            }
            Kind::Entries(count) if count.max.is_infinite() => "a number of entries".into(),
            Kind::Entries(count) => format!("up to {} entries", count.max),
            Kind::Numbers { each, count, .. } => {
                format!("up to {} of {}, separated by ;", count.max, range(each))
            }
            Kind::Corners { each, count } => {
                format!("up to {} of x; y, each {}", count.max, range(each))
            }
        }
    }

    /// The choice identified by the file's word or by the screen's.
    fn chosen(
        &self,
        word: &str,
        typed: &str,
        board: &Board,
        entry: usize,
    ) -> Result<Value, TypedError> {
        let words = self.words(board, entry);
        let of_file = words.iter().position(|known| known.to_lowercase() == word);
        let place = of_file.or_else(|| {
            self.choices()
                .iter()
                .position(|known| known.to_lowercase() == word)
        });
        place
            .map(Value::Choice)
            .ok_or_else(|| self.none_of(typed, board, entry))
    }

    fn none_of(&self, typed: &str, board: &Board, entry: usize) -> TypedError {
        TypedError::Word {
            typed: typed.trim().into(),
            words: self.may_be(board, entry),
        }
    }
}

/// Numbers separated by semicolons, line ends, or commas followed by a space; counts also by spaces. Requires the given number
/// per entry, each in range, and not too many entries.
///
/// A comma between two digits is a decimal comma, except in a list with fractions, which has no decimals.
///
/// # Errors
/// [`TypedError`] for the first number that violates this.
///
/// ```
/// use board::{Quantity, Units, read_numbers};
/// let lengths = [Quantity::Length.range("Offset", 0.0, 100.0), Quantity::Count.range("Offsets", 0.0, 5.0)];
/// assert_eq!(read_numbers("0; 12,5; 1/2\"", lengths, 1, Units::Mm), Ok(vec![0.0, 12.5, 12.7]));
/// assert_eq!(read_numbers("3/8, 1/2", lengths, 1, Units::INCH), Ok(vec![9.525, 12.7]));
/// ```
pub fn read_numbers(
    text: &str,
    [each, count]: [Range; 2],
    for_each: usize,
    units: Units,
) -> Result<Vec<f64>, TypedError> {
    let parts: &[char] = match each.quantity {
        Quantity::Count => &[';', '\n', ',', ' '],
        _ if text.contains('/') && !text.contains([';', '\n']) => &[';', ','],
        _ => &[';', '\n'],
    };
    let text = text.replace(", ", ";");
    let words = text
        .split(parts)
        .map(str::trim)
        .filter(|word| !word.is_empty());
    let numbers: Vec<f64> = words
        .map(|word| Ok(each.meant(each.quantity.read(word, units)?, units)))
        .collect::<Result<_, TypedError>>()?;
    if !numbers.len().is_multiple_of(for_each) {
        return Err(TypedError::HalfCorner);
    }
    let told = |fault| TypedError::Range(fault, units);
    count
        .check((numbers.len() / for_each) as f64)
        .map_err(told)?;
    for number in &numbers {
        each.check(*number).map_err(told)?;
    }
    Ok(numbers)
}
