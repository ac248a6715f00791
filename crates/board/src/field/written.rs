//! Fields with a notation of their own: days, times of day, days off, time zones.

use crate::when::{Clock, Day, DaysOff, WhenError, zone_name};
use crate::{Range, Units};

/// The notation of a text.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Written {
    /// A day.
    Day,
    /// A day, or none; the words say what applies without one.
    MaybeDay(&'static str),
    /// A time of day.
    Clock,
    /// A time zone by its name in the IANA database, or none.
    Zone,
    /// Days off, separated by semicolons; the range applies to their number.
    DaysOff(Range),
}

impl Written {
    /// The file's text for a typed one.
    ///
    /// # Errors
    ///
    /// [`WhenError`] if it is not in this notation.
    pub(crate) fn read(self, text: &str) -> Result<String, WhenError> {
        Ok(match self {
            Self::Day | Self::MaybeDay(_) => text.parse::<Day>()?.to_string(),
            Self::Clock => text.parse::<Clock>()?.to_string(),
            Self::Zone => zone_name(text)?,
            Self::DaysOff(_) => joined(&days_off(text)?),
        })
    }

    /// A text from the file as a maker reads it.
    pub(super) fn shown(self, text: &str, units: Units) -> String {
        let shown = match self {
            Self::Day | Self::MaybeDay(_) => text.parse().map(|day: Day| day.shown(units)).ok(),
            Self::Clock => text.parse().map(|clock: Clock| clock.shown(units)).ok(),
            Self::Zone => None,
            Self::DaysOff(_) => days_off(text).ok().map(|all| {
                let each: Vec<String> = all.iter().map(|off| off.shown(units)).collect();
                each.join("; ")
            }),
        };
        shown.unwrap_or_else(|| text.to_owned())
    }

    /// An example of this notation, shown in an empty field and in the help of commands.
    ///
    /// ```
    /// use board::{Units, Written};
    /// assert_eq!(Written::Day.example(Units::INCH), "12/24/2026");
    /// assert_eq!(Written::Clock.example(Units::Mm), "08:00");
    /// ```
    pub fn example(self, units: Units) -> String {
        match self {
            Self::Day | Self::MaybeDay(_) => self.shown("2026-12-24", units),
            Self::Clock => self.shown("08:00", units),
            Self::Zone => "America/New_York".into(),
            Self::DaysOff(_) => self.shown("2026-11-26; 2026-12-24/2027-01-02", units),
        }
    }

    /// The number that a text represents, with its range.
    pub(super) fn counted(self, text: &str) -> Option<(Range, f64)> {
        match self {
            Self::DaysOff(count) => Some((count, parts(text).count() as f64)),
            _ => None,
        }
    }
}

/// The parts of a list, separated by semicolons or line ends.
fn parts(text: &str) -> impl Iterator<Item = &str> {
    let all = text.split([';', '\n']).map(str::trim);
    all.filter(|part| !part.is_empty())
}

/// The days off in a list.
pub(super) fn days_off(text: &str) -> Result<Vec<DaysOff>, WhenError> {
    parts(text).map(str::parse).collect()
}

/// A list of days off as one text.
pub(super) fn joined(all: &[DaysOff]) -> String {
    let each: Vec<String> = all.iter().map(ToString::to_string).collect();
    each.join("; ")
}
