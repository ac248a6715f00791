//! Why readings make no sense.

use core::fmt;

use board::{Units, show_length};

use crate::template::print_scale::{PrintLength, PrintReadings};

/// Readings that allow no correction.
#[derive(Debug, Clone, PartialEq)]
pub enum PrintFault {
    /// Nothing has been measured there.
    Missing {
        /// Where.
        length: PrintLength,
    },
    /// There are more readings than fields for them.
    TooMany {
        /// Of what.
        length: PrintLength,
        /// Number of readings.
        count: usize,
    },
    /// The nominal length is no length.
    NoNominal {
        /// Of what.
        length: PrintLength,
        /// The value given, in mm.
        value: f64,
    },
    /// The rule's division is no length.
    NoDivision {
        /// The value given, in mm.
        value: f64,
    },
    /// A reading is no length: nothing, less than nothing, or not a number.
    NoLength {
        /// Of what.
        length: PrintLength,
        /// The value given, in mm.
        value: f64,
    },
    /// A reading is so far off that it must have been misread.
    FarOff {
        /// Of what.
        length: PrintLength,
        /// The reading, in mm.
        value: f64,
        /// The nominal length, in mm.
        nominal: f64,
    },
    /// Readings of one length differ by more than measuring explains.
    Disagree {
        /// Of what.
        length: PrintLength,
        /// The least of them, in mm.
        least: f64,
        /// The greatest, in mm.
        most: f64,
        /// The most that they may differ, in mm.
        limit: f64,
    },
    /// Bars and diagonals are not of one print.
    Unlike {
        /// The measure of the diagonals, as the root of their mean square, in mm.
        diagonals: f64,
        /// Their measure by the bars, in mm.
        by_bars: f64,
        /// The most that they may differ, in mm.
        limit: f64,
    },
}

impl PrintFault {
    /// The length that it is about; none where it is about all of them, or about the rule.
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

    /// The fault and the way out, lengths in the units given.
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
