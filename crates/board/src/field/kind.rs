//! The kinds of fields: numbers that may or may not be omitted, choices, checkboxes, texts, days and lists.

use super::Written;
use crate::Range;

/// The kind of a field, with the range of its values.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Kind {
    /// A number.
    Number(Range),
    /// A number, or automatic: the program finds one; the words say which.
    Auto(Range, &'static str),
    /// A number, or none; the words say what applies without one.
    Open(Range, &'static str),
    /// A number, or none; this is the initial value when it is switched on.
    Ticked(Range, f64),
    /// One of several.
    Choice,
    /// A color.
    Color,
    /// A color, or automatic: the program finds one; the words say which.
    AutoColor(&'static str),
    /// On or off.
    Tick,
    /// An optional part.
    Part,
    /// A text; the range applies to its number of letters.
    Text(Range),
    /// A hole by its name; the range applies to the hole's number.
    Hole(Range),
    /// A day, a time of day, or days off.
    Written(Written),
    /// A list of numbers.
    Numbers {
        /// Range of each number.
        each: Range,
        /// Range of their count.
        count: Range,
        /// An example of how the list is typed.
        example: &'static str,
    },
    /// A list of corners, each an x and a y.
    Corners {
        /// Range of each coordinate.
        each: Range,
        /// Range of the number of corners.
        count: Range,
    },
    /// A list of entries that have their own fields; the range applies to their number.
    Entries(Range),
}

impl Kind {
    /// The same kind, with this name for its range if the range has none.
    pub(super) const fn named(self, label: &'static str) -> Self {
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

    /// The range of its numbers, letters or entries; `None` for a choice, a color, a tick and a part.
    ///
    /// ```
    /// use board::field;
    /// assert_eq!(field::JIG_PIN.kind.range().unwrap().max, 100.0);
    /// assert!(field::UNITS.kind.range().is_none());
    /// ```
    pub const fn range(self) -> Option<Range> {
        match self {
            Self::Number(range)
            | Self::Auto(range, _)
            | Self::Open(range, _)
            | Self::Ticked(range, _)
            | Self::Text(range)
            | Self::Hole(range)
            | Self::Entries(range)
            | Self::Written(Written::DaysOff(range))
            | Self::Numbers { each: range, .. }
            | Self::Corners { each: range, .. } => Some(range),
            Self::Choice
            | Self::Color
            | Self::AutoColor(_)
            | Self::Tick
            | Self::Part
            | Self::Written(_) => None,
        }
    }
}
