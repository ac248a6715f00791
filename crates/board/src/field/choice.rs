//! Choices between kinds, optional parts and list entries: the values each starts with.
//!
//! A kind that has its own numbers starts with usual values, or with values that fit the board: a pivot starts with the
//! diameter of the jig's pin, feet with a circle as wide as the previous turntable. The words are those of lists on the screen,
//! in their order.

use super::Value;
use super::held::{Held, removed};
use crate::Board;

/// One of several kinds, each possibly with its own numbers.
///
/// ```
/// use board::{Choice, Units};
/// assert_eq!(Units::KINDS, Units::ALL);
/// assert_eq!(Units::Mm.words(), "millimeters");
/// ```
pub trait Choice: Clone + 'static {
    /// Every kind with its initial values, in the order lists show them.
    const KINDS: &'static [Self];

    /// The words that screens use.
    fn words(&self) -> &'static str;

    /// Whether another one is of the same kind.
    fn is_kind(&self, other: &Self) -> bool {
        core::mem::discriminant(self) == core::mem::discriminant(other)
    }

    /// The kind with its initial values, on a board that currently has another kind.
    fn begun(&self, _board: &Board) -> Self {
        self.clone()
    }
}

/// An optional part of the document, or the entry of a list.
pub trait Part: Clone {
    /// The part with its initial values on a board.
    fn begun(board: &Board) -> Self;
}

/// The index of a choice in the list of its kinds.
pub fn place_of<T: Choice>(choice: &T) -> usize {
    let is_it = |other: &T| choice.is_kind(other);
    T::KINDS.iter().position(is_it).unwrap_or_default()
}

/// Implements a choice with the words of its kinds, each with its initial values, in the order lists show them; a function may
/// provide initial values that depend on the board.
macro_rules! kinds {
    ($kind:ty $(, begun by $begun:path)?: $($words:literal => $first:ident $({ $($numbers:tt)* })?),+ $(,)?) => {
        impl $crate::field::choice::Choice for $kind {
            const KINDS: &'static [Self] = &[$(Self::$first $({ $($numbers)* })?),+];

            fn words(&self) -> &'static str {
                match self {
                    $(Self::$first { .. } => $words,)+
                }
            }

            $(fn begun(&self, board: &$crate::Board) -> Self {
                $begun(self, board)
            })?
        }
    };
}

/// Choices of kinds without numbers, which provide their own words.
macro_rules! plain {
    ($($kind:ty),+) => {
        $(impl $crate::field::choice::Choice for $kind {
            const KINDS: &'static [Self] = &Self::ALL;

            fn words(&self) -> &'static str {
                self.label()
            }
        })+
    };
}

/// Parts and entries that start the same on every board.
macro_rules! usual {
    ($($part:ty),+) => {
        $(impl $crate::field::choice::Part for $part {
            fn begun(_: &$crate::Board) -> Self {
                Self::default()
            }
        })+
    };
}

impl<T: Choice> Held for T {
    fn value(&self) -> Value {
        Value::Choice(place_of(self))
    }

    /// Choosing the current kind again keeps its numbers.
    fn with(&self, value: &Value, board: &Board) -> Option<Self> {
        match value {
            Value::Choice(place) if *place == place_of(self) => Some(self.clone()),
            Value::Choice(place) => Some(T::KINDS.get(*place)?.begun(board)),
            _ => None,
        }
    }

    fn choices() -> Vec<&'static str> {
        T::KINDS.iter().map(T::words).collect()
    }
}

impl<T: Part> Held for Option<T> {
    fn value(&self) -> Value {
        Value::Tick(self.is_some())
    }

    fn with(&self, value: &Value, board: &Board) -> Option<Self> {
        match (value, self) {
            (Value::Tick(false), _) => Some(None),
            (Value::Tick(true), None) => Some(Some(T::begun(board))),
            (Value::Tick(true), Some(_)) => Some(self.clone()),
            _ => None,
        }
    }
}

impl<T: Part> Held for Vec<T> {
    fn value(&self) -> Value {
        Value::Entries(self.len())
    }

    fn with(&self, value: &Value, board: &Board) -> Option<Self> {
        let Value::Entries(count) = value else {
            return None;
        };
        let mut entries = self.clone();
        entries.resize_with(*count, || T::begun(board));
        Some(entries)
    }

    fn take_out(&mut self, entry: usize) -> Option<()> {
        removed(self, entry)
    }
}
