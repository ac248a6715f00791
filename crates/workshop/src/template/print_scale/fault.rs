//! The reasons why readings allow no correction.

use core::fmt;

use board::{Units, show_length};

use crate::template::print_scale::{PrintLength, PrintReadings};

/// A reason why readings allow no correction.
#[derive(Debug, Clone, PartialEq)]
pub enum PrintFault {
    /// A length has not been measured.
    Missing {
        /// The length.
        length: PrintLength,
    },
    /// There are more readings of a length than fields for them.
    TooMany {
        /// The length.
        length: PrintLength,
        /// Number of readings.
        count: usize,
    },
    /// A nominal length is not a positive number.
    NoNominal {
        /// The length.
        length: PrintLength,
        /// The value given, mm.
        value: f64,
    },
    /// The rule's division is not a positive number.
    NoDivision {
        /// The value given, mm.
        value: f64,
    },
    /// A reading is zero, negative or not a number.
    NoLength {
        /// The length.
        length: PrintLength,
        /// The value given, mm.
        value: f64,
    },
    /// A reading is so far off that it must be a misreading.
    FarOff {
        /// The length.
        length: PrintLength,
        /// The reading, mm.
        value: f64,
        /// The nominal length, mm.
        nominal: f64,
    },
    /// Readings of one length differ by more than measuring errors explain.
    Disagree {
        /// The length.
        length: PrintLength,
        /// The least reading, mm.
        least: f64,
        /// The greatest reading, mm.
        most: f64,
        /// The most that they may differ, mm.
        limit: f64,
    },
    /// Bars and diagonals are not from the same print.
    Unlike {
        /// The size of the diagonals as the root of their mean square, mm.
        diagonals: f64,
        /// The same size calculated from the bars, mm.
        by_bars: f64,
        /// The most that the two may differ, mm.
        limit: f64,
    },
}

impl PrintFault {
    /// The length it is about; `None` if it is about all of them, or about the rule.
    pub const fn length(&self) -> Option<PrintLength> {
        match *self {
            Self::Missing { length }
            | Self::TooMany { length, .. }
            | Self::NoNominal { length, .. }
            | Self::NoLength { length, .. }
            | Self::FarOff { length, .. }
            | Self::Disagree { length, .. } => Some(length),
            Self::NoDivision { .. } | Self::Unlike { .. } => None,
        }
    }

    /// The fault and what to do about it, with lengths in the given units.
    fn words(&self, units: Units) -> String {
        let show = |mm: f64| show_length(mm, units);
        let name = |length: PrintLength| length.label().to_lowercase();
        match *self {
            Self::Missing { length } => {
                format!("the {} is not measured yet", name(length))
            }
            Self::TooMany { length, count } => format!(
                "there are {count} readings of the {}; enter one to {}",
                name(length),
                PrintReadings::MOST
            ),
            Self::NoNominal { length, value } => format!(
                "the {} should be {}, which is not a length; enter the length printed on the test sheet",
                name(length),
                show(value)
            ),
            Self::NoDivision { value } => format!(
                "the rule is divided into {}; enter a length over 0, such as {}",
                show(value),
                show(PrintReadings::default().division)
            ),
            Self::NoLength { length, value } => format!(
                "{} is no length of the {}; measure it again",
                show(value),
                name(length)
            ),
            Self::FarOff {
                length,
                value,
                nominal,
            } => format!(
                "{} is more than 10 % off the {} that the {} should be; measure it again",
                show(value),
                show(nominal),
                name(length)
            ),
            Self::Disagree {
                length,
                least,
                most,
                limit,
            } => format!(
                "readings of the {} range from {} to {}; they may be {} apart at most, so measure it again",
                name(length),
                show(least),
                show(most),
                show(limit)
            ),
            Self::Unlike {
                diagonals,
                by_bars,
                limit,
            } => format!(
                "the diagonals measure {}, but by the bars they should {}; the difference may be {} at most, so measure both on \
                 one print",
                show(diagonals),
                show(by_bars),
                show(limit)
            ),
        }
    }
}

impl fmt::Display for PrintFault {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str(&self.words(Units::of(out)))
    }
}

impl core::error::Error for PrintFault {}
