//! Random typed words, read as every quantity, list and notation there is.

use board::{Board, Units, Value, field};

use crate::{Draw, Fault, is_plain};

/// Parts of texts that makers type, and of some that they never would.
const PARTS: &[&str] = &[
    "0",
    "1",
    "7",
    "12",
    "25.4",
    ".5",
    "5.",
    "1e9",
    "1e400",
    "-",
    "+",
    "*",
    "/",
    "(",
    ")",
    " ",
    "  ",
    "\"",
    "'",
    "″",
    "mm",
    "cm",
    "in",
    "ft",
    "1/2",
    "3/4",
    "1/0",
    "0/0",
    "13/64",
    "½",
    "¾",
    "⅛",
    "°",
    "%",
    "kg",
    "lb",
    "oz",
    "g",
    "ml",
    "fl oz",
    "rpm",
    "min",
    "h",
    "d",
    "s",
    "°F",
    "°C",
    "N",
    "lbf",
    "$",
    "€",
    ",",
    ";",
    ":",
    "-0",
    "--",
    "((((",
    "))))",
    "T1-03",
    "C",
    "E99999-1",
    "2026-02-29",
    "2026-11-30",
    "8:30 am",
    "24:00",
    "x",
    "×",
    "auto",
    "none",
    "banana",
    "\u{202e}",
    "\0",
    "𝔸",
    "9999999999999999999999",
    "0.0000000000000000001",
];

/// Reads random words, and some that failed earlier, with every field of a board.
///
/// # Errors
///
/// A sentence if an accepted value is out of range or not finite, or is shown in a form that does not read back.
pub fn typed_case(seed: u64, from: &[Board], typed: &[String]) -> Result<(), Fault> {
    let mut draw = Draw::new(seed);
    let words = if !typed.is_empty() && draw.once_in(4) {
        draw.one(typed).clone()
    } else {
        (0..=draw.below(7)).map(|_| *draw.one(PARTS)).collect()
    };
    let mut board = draw.one(from).clone();
    board.units = *draw.one(&Units::ALL);
    holds(&words, &board)
}

/// Checks any words with every field that a board has.
fn holds(words: &str, board: &Board) -> Result<(), Fault> {
    for (field, entry, _) in field::fields_of(board) {
        let path = field.path_of(entry);
        match field.read(words, board, entry) {
            Ok(value) => {
                // Files may contain values that a window accepts; ranges are shown beside the field.
                if field.check(&value, entry).is_ok() {
                    taken(&value).map_err(|fault| format!("{words:?} as {path}: {fault}"))?;
                    let shown = field.shown(&value, board.units);
                    let is_number = matches!(value, Value::Number(_) | Value::Numbers(_));
                    let plain = if is_number { is_plain(&shown) } else { Ok(()) };
                    plain.map_err(|fault| format!("{words:?} as {path} is shown as {fault}"))?;
                }
            }
            Err(error) => {
                let said = board.units.say(&error);
                if said.chars().count() > words.chars().count() + 600 {
                    return Err(format!("{path} says too much of {words:?}: {said}"));
                }
            }
        }
    }
    Ok(())
}

/// Checks that an accepted value is finite.
fn taken(value: &Value) -> Result<(), Fault> {
    let numbers: &[f64] = match value {
        Value::Number(number) => core::slice::from_ref(number),
        Value::Numbers(numbers) => numbers,
        _ => &[],
    };
    match numbers.iter().find(|number| !number.is_finite()) {
        Some(number) => Err(format!("{number} is taken")),
        None => Ok(()),
    }
}
