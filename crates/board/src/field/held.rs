//! Places in the document, of any type, as values that can be read and replaced.

use super::written::{days_off, joined};
use crate::{Board, Clock, Day, DaysOff, HoleId, Rgb};

/// The value of a field.
#[derive(Debug, Clone, PartialEq)]
pub enum Value {
    /// A number; lengths in mm.
    Number(f64),
    /// No number, where it may be omitted.
    Open,
    /// One of several, by its index in their list.
    Choice(usize),
    /// On or off; for an optional part, whether it is present.
    Tick(bool),
    /// A color.
    Color(Rgb),
    /// A text, or a hole's name.
    Text(String),
    /// A list of numbers; the x and y of each corner alternate.
    Numbers(Vec<f64>),
    /// The number of entries of a list.
    Entries(usize),
}

/// A type that can be at a place in the document.
pub trait Held: Sized {
    /// The value it has.
    fn value(&self) -> Value;

    /// The place with a new value; `None` if it cannot have that value.
    fn with(&self, value: &Value, board: &Board) -> Option<Self>;

    /// Removes an entry from a list; `None` if there is no such entry, or no list.
    fn take_out(&mut self, _entry: usize) -> Option<()> {
        None
    }

    /// The words of the choices, in the order lists show them.
    fn choices() -> Vec<&'static str> {
        Vec::new()
    }
}

/// Removes an entry from a list if the list has it.
pub fn removed<T>(list: &mut Vec<T>, entry: usize) -> Option<()> {
    (entry < list.len()).then(|| {
        list.remove(entry);
    })
}

/// The words of the choices at a place.
pub fn choices_of<T: Held>(_: fn(&Board, usize) -> Option<&T>) -> Vec<&'static str> {
    T::choices()
}

impl Held for f64 {
    fn value(&self) -> Value {
        Value::Number(*self)
    }

    fn with(&self, value: &Value, _: &Board) -> Option<Self> {
        number(value)
    }
}

impl Held for u32 {
    fn value(&self) -> Value {
        Value::Number(f64::from(*self))
    }

    fn with(&self, value: &Value, _: &Board) -> Option<Self> {
        number(value).and_then(whole)
    }
}

impl Held for Option<f64> {
    fn value(&self) -> Value {
        self.map_or(Value::Open, Value::Number)
    }

    fn with(&self, value: &Value, _: &Board) -> Option<Self> {
        match value {
            Value::Open => Some(None),
            value => number(value).map(Some),
        }
    }
}

/// A position, which may be left to the program.
impl Held for Option<[f64; 2]> {
    fn value(&self) -> Value {
        Value::Tick(self.is_some())
    }

    fn with(&self, value: &Value, _: &Board) -> Option<Self> {
        match value {
            Value::Tick(given) => Some(given.then_some(self.unwrap_or_default())),
            _ => None,
        }
    }
}

impl Held for Rgb {
    fn value(&self) -> Value {
        Value::Color(*self)
    }

    fn with(&self, value: &Value, _: &Board) -> Option<Self> {
        match value {
            Value::Color(color) => Some(*color),
            _ => None,
        }
    }
}

impl Held for Option<Rgb> {
    fn value(&self) -> Value {
        self.map_or(Value::Open, Value::Color)
    }

    fn with(&self, value: &Value, _: &Board) -> Option<Self> {
        match value {
            Value::Open => Some(None),
            Value::Color(color) => Some(Some(*color)),
            _ => None,
        }
    }
}

impl Held for bool {
    fn value(&self) -> Value {
        Value::Tick(*self)
    }

    fn with(&self, value: &Value, _: &Board) -> Option<Self> {
        match value {
            Value::Tick(on) => Some(*on),
            _ => None,
        }
    }
}

impl Held for String {
    fn value(&self) -> Value {
        Value::Text(self.clone())
    }

    fn with(&self, value: &Value, _: &Board) -> Option<Self> {
        match value {
            Value::Text(text) => Some(text.clone()),
            _ => None,
        }
    }
}

impl Held for HoleId {
    fn value(&self) -> Value {
        Value::Text(self.to_string())
    }

    fn with(&self, value: &Value, _: &Board) -> Option<Self> {
        match value {
            Value::Text(name) => name.parse().ok(),
            _ => None,
        }
    }
}

impl Held for Day {
    fn value(&self) -> Value {
        Value::Text(self.to_string())
    }

    fn with(&self, value: &Value, _: &Board) -> Option<Self> {
        text(value)?.parse().ok()
    }
}

impl Held for Option<Day> {
    fn value(&self) -> Value {
        self.map_or(Value::Open, |day| day.value())
    }

    fn with(&self, value: &Value, _: &Board) -> Option<Self> {
        match value {
            Value::Open => Some(None),
            value => text(value)?.parse().ok().map(Some),
        }
    }
}

impl Held for Clock {
    fn value(&self) -> Value {
        Value::Text(self.to_string())
    }

    fn with(&self, value: &Value, _: &Board) -> Option<Self> {
        text(value)?.parse().ok()
    }
}

impl Held for Vec<DaysOff> {
    fn value(&self) -> Value {
        Value::Text(joined(self))
    }

    fn with(&self, value: &Value, _: &Board) -> Option<Self> {
        days_off(text(value)?).ok()
    }

    fn take_out(&mut self, entry: usize) -> Option<()> {
        removed(self, entry)
    }
}

impl Held for Vec<f64> {
    fn value(&self) -> Value {
        Value::Numbers(self.clone())
    }

    fn with(&self, value: &Value, _: &Board) -> Option<Self> {
        numbers(value).map(<[f64]>::to_vec)
    }

    fn take_out(&mut self, entry: usize) -> Option<()> {
        removed(self, entry)
    }
}

impl Held for Vec<u32> {
    fn value(&self) -> Value {
        Value::Numbers(self.iter().copied().map(f64::from).collect())
    }

    fn with(&self, value: &Value, _: &Board) -> Option<Self> {
        numbers(value)?.iter().copied().map(whole).collect()
    }

    fn take_out(&mut self, entry: usize) -> Option<()> {
        removed(self, entry)
    }
}

impl Held for Vec<[f64; 2]> {
    fn value(&self) -> Value {
        Value::Numbers(self.concat())
    }

    fn with(&self, value: &Value, _: &Board) -> Option<Self> {
        let (corners, rest) = numbers(value)?.as_chunks();
        rest.is_empty().then(|| corners.to_vec())
    }

    fn take_out(&mut self, entry: usize) -> Option<()> {
        removed(self, entry)
    }
}

/// The text of a value, if it is a text.
fn text(value: &Value) -> Option<&str> {
    match value {
        Value::Text(text) => Some(text),
        _ => None,
    }
}

/// The number of a value, if it is a number.
fn number(value: &Value) -> Option<f64> {
    match value {
        // Zero has no sign, however it was typed.
        Value::Number(number) => Some(*number + 0.0),
        _ => None,
    }
}

/// The numbers of a value, if it is a list of numbers.
fn numbers(value: &Value) -> Option<&[f64]> {
    match value {
        Value::Numbers(numbers) => Some(numbers),
        _ => None,
    }
}

/// A number as a count: `None` if it has a fraction or a sign, or is too large.
fn whole(number: f64) -> Option<u32> {
    let fits = number.fract() == 0.0 && (0.0..=f64::from(u32::MAX)).contains(&number);
    fits.then_some(number as u32)
}
