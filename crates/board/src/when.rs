//! Days, times of day and days off, as makers type and read them and as files store them.
//!
//! Files use ISO 8601 in either system of units: `2026-12-24`, `08:30`, and a span as `2026-12-24/2027-01-02`. A maker who
//! works in inches types and reads `12/24/2026` and `8:30 am`; both notations are accepted on any board, since they cannot be
//! confused.

use core::fmt::{self, Display, Formatter};
use core::str::FromStr;
use std::sync::LazyLock;

use jiff::civil::{Date, Weekday};
use jiff::tz::{TimeZone, TimeZoneDatabase};
use serde::{Deserialize, Serialize};

use crate::Units;

/// The years that a day can be in.
const YEARS: core::ops::RangeInclusive<i16> = 2000..=2199;
/// Minutes in a day.
const DAY: u16 = 24 * 60;

/// The expected form of a text that is not a day, a time of day or a span of days.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Wanted {
    Day,
    Clock,
    DaysOff,
    Zone,
}

/// The reason why a text is not a day, a time of day or a span of days: names what was typed and what would work.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct WhenError {
    wanted: Wanted,
    typed: String,
}

impl core::error::Error for WhenError {}

impl Display for WhenError {
    fn fmt(&self, f: &mut Formatter<'_>) -> fmt::Result {
        let typed = &self.typed;
        match self.wanted {
            Wanted::Day => write!(
                f,
                "Not a date: \"{typed}\". Try 2026-12-24 or 12/24/2026, of the years {} to {}.",
                YEARS.start(),
                YEARS.end()
            ),
            Wanted::Clock => write!(
                f,
                "Not a time of day: \"{typed}\". Try 8:30, 8:30 am or 14:00."
            ),
            Wanted::DaysOff => write!(
                f,
                "Not days off: \"{typed}\". Try 2026-12-24, or 2026-12-24 to 2027-01-02, the first day first."
            ),
            Wanted::Zone => write!(
                f,
                "Not a time zone: \"{typed}\". Try America/New_York, America/Chicago, America/Denver, America/Los_Angeles or \
                 Europe/Berlin."
            ),
        }
    }
}

impl Wanted {
    fn fault(self, typed: &str) -> WhenError {
        let typed = typed.trim().chars().take(40).collect();
        WhenError {
            wanted: self,
            typed,
        }
    }
}

/// A calendar day in the years 2000 to 2199.
///
/// ```
/// use board::{Day, Units};
/// let eve: Day = "12/24/2026".parse()?;
/// assert_eq!(eve, "2026-12-24".parse()?);
/// assert_eq!(eve.shown(Units::INCH), "12/24/2026");
/// assert!("2027-02-29".parse::<Day>().is_err());
/// # Ok::<(), board::WhenError>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(try_from = "String", into = "String")]
pub struct Day(Date);

impl Day {
    /// The earliest day.
    pub const FIRST: Self = Self(jiff::civil::date(*YEARS.start(), 1, 1));

    /// The day of a date; `None` outside the years.
    pub fn of(date: Date) -> Option<Self> {
        YEARS.contains(&date.year()).then_some(Self(date))
    }

    /// Its date.
    pub const fn date(self) -> Date {
        self.0
    }

    /// The day as a maker reads it, in digits.
    pub fn shown(self, units: Units) -> String {
        let Self(date) = self;
        if units.is_inch() {
            format!("{}/{}/{}", date.month(), date.day(), date.year())
        } else {
            self.to_string()
        }
    }

    /// The day as a maker reads it, with its weekday.
    ///
    /// ```
    /// use board::{Day, Units};
    /// let leap: Day = "2028-02-29".parse()?;
    /// assert_eq!(leap.with_weekday(Units::INCH), "Tue 2/29/2028");
    /// assert_eq!(leap.with_weekday(Units::Mm), "Tue 2028-02-29");
    /// # Ok::<(), board::WhenError>(())
    /// ```
    pub fn with_weekday(self, units: Units) -> String {
        format!("{} {}", weekday_word(self.0.weekday()), self.shown(units))
    }
}

/// The abbreviation of a weekday.
///
/// ```
/// assert_eq!(board::weekday_word(jiff::civil::Weekday::Friday), "Fri");
/// ```
pub const fn weekday_word(weekday: Weekday) -> &'static str {
    match weekday {
        Weekday::Monday => "Mon",
        Weekday::Tuesday => "Tue",
        Weekday::Wednesday => "Wed",
        Weekday::Thursday => "Thu",
        Weekday::Friday => "Fri",
        Weekday::Saturday => "Sat",
        Weekday::Sunday => "Sun",
    }
}

impl Display for Day {
    fn fmt(&self, f: &mut Formatter<'_>) -> fmt::Result {
        let Self(date) = self;
        write!(
            f,
            "{:04}-{:02}-{:02}",
            date.year(),
            date.month(),
            date.day()
        )
    }
}

impl FromStr for Day {
    type Err = WhenError;

    fn from_str(text: &str) -> Result<Self, WhenError> {
        let fault = || Wanted::Day.fault(text);
        let iso: Vec<&str> = text.trim().split('-').collect();
        let us: Vec<&str> = text.trim().split('/').collect();
        let ((&[year, month, day], _) | (_, &[month, day, year])) = (iso.as_slice(), us.as_slice())
        else {
            return Err(fault());
        };
        let is_whole = |part: &str| part.bytes().all(|byte| byte.is_ascii_digit());
        if year.len() != 4 || ![year, month, day].into_iter().all(is_whole) {
            return Err(fault());
        }
        let numbers = (year.parse().ok(), month.parse().ok(), day.parse().ok());
        let (Some(year), Some(month), Some(day)) = numbers else {
            return Err(fault());
        };
        let date = Date::new(year, month, day).ok();
        date.and_then(Self::of).ok_or_else(fault)
    }
}

/// A time of day, to the minute.
///
/// ```
/// use board::{Clock, Units};
/// let early: Clock = "8:30 am".parse()?;
/// assert_eq!(early.minutes(), 8 * 60 + 30);
/// assert_eq!((early.to_string(), early.shown(Units::INCH)), ("08:30".into(), "8:30 am".into()));
/// assert_eq!("2 pm".parse::<Clock>()?.to_string(), "14:00");
/// assert!("25:00".parse::<Clock>().is_err() && "13 pm".parse::<Clock>().is_err());
/// # Ok::<(), board::WhenError>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(try_from = "String", into = "String")]
pub struct Clock(u16);

impl Clock {
    /// Eight in the morning.
    pub const USUAL: Self = Self(8 * 60);

    /// The time this many minutes after midnight; `None` if that is past the day's end.
    pub const fn of(minutes: u16) -> Option<Self> {
        if minutes < DAY {
            Some(Self(minutes))
        } else {
            None
        }
    }

    /// Minutes after midnight.
    pub const fn minutes(self) -> u16 {
        self.0
    }

    /// The time as a maker reads it.
    pub fn shown(self, units: Units) -> String {
        let (hour, minute) = (self.0 / 60, self.0 % 60);
        if !units.is_inch() {
            return self.to_string();
        }
        let half = if hour < 12 { "am" } else { "pm" };
        let hour = match hour % 12 {
            0 => 12,
            hour => hour,
        };
        format!("{hour}:{minute:02} {half}")
    }
}

impl Display for Clock {
    fn fmt(&self, f: &mut Formatter<'_>) -> fmt::Result {
        write!(f, "{:02}:{:02}", self.0 / 60, self.0 % 60)
    }
}

impl FromStr for Clock {
    type Err = WhenError;

    fn from_str(text: &str) -> Result<Self, WhenError> {
        let fault = || Wanted::Clock.fault(text);
        let lower = text.trim().to_lowercase();
        let (figures, half) = match (lower.strip_suffix("am"), lower.strip_suffix("pm")) {
            (Some(figures), _) => (figures, Some(0)),
            (_, Some(figures)) => (figures, Some(12)),
            _ => (lower.as_str(), None),
        };
        let (hour, minute) = figures
            .trim()
            .split_once(':')
            .unwrap_or((figures.trim(), "00"));
        let is_time = (1..=2).contains(&hour.len()) && minute.len() == 2;
        let (Ok(hour), Ok(minute), true) = (hour.parse::<u16>(), minute.parse::<u16>(), is_time)
        else {
            return Err(fault());
        };
        let hour = match half {
            Some(added) if (1..=12).contains(&hour) => hour % 12 + added,
            Some(_) => return Err(fault()),
            None => hour,
        };
        if hour > 23 || minute > 59 {
            return Err(fault());
        }
        Self::of(hour * 60 + minute).ok_or_else(fault)
    }
}

/// One or more consecutive days on which nobody works.
///
/// ```
/// use board::{DaysOff, Units};
/// let winter: DaysOff = "2026-12-24 to 2027-01-02".parse()?;
/// assert!(winter.has("2027-01-01".parse()?));
/// assert_eq!(winter.to_string(), "2026-12-24/2027-01-02");
/// assert_eq!(winter.shown(Units::INCH), "12/24/2026 to 1/2/2027");
/// # Ok::<(), board::WhenError>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(try_from = "String", into = "String")]
pub struct DaysOff {
    first: Day,
    last: Day,
}

impl DaysOff {
    /// The days from the first to the last; `None` if the last is before the first.
    pub fn of(first: Day, last: Day) -> Option<Self> {
        (first <= last).then_some(Self { first, last })
    }

    /// Whether a day is among them.
    pub fn has(&self, day: Day) -> bool {
        (self.first..=self.last).contains(&day)
    }

    /// The days as a maker reads them.
    pub fn shown(&self, units: Units) -> String {
        let Self { first, last } = self;
        if first == last {
            return first.shown(units);
        }
        format!("{} to {}", first.shown(units), last.shown(units))
    }
}

impl Display for DaysOff {
    fn fmt(&self, f: &mut Formatter<'_>) -> fmt::Result {
        if self.first == self.last {
            return self.first.fmt(f);
        }
        write!(f, "{}/{}", self.first, self.last)
    }
}

impl FromStr for DaysOff {
    type Err = WhenError;

    fn from_str(text: &str) -> Result<Self, WhenError> {
        let fault = || Wanted::DaysOff.fault(text);
        // ISO separates two days with one slash; a single US date has two.
        let parted = match text.split_once(" to ") {
            Some(parted) => Some(parted),
            None if text.matches('/').count() == 1 => text.split_once('/'),
            None => None,
        };
        let (first, last) = parted.unwrap_or((text, text));
        let days = (first.parse().ok(), last.parse().ok());
        let (Some(first), Some(last)) = days else {
            return Err(fault());
        };
        Self::of(first, last).ok_or_else(fault)
    }
}

/// The time zone with this name in the IANA database that the program contains, ignoring case; `None` for a name that is not in
/// it.
///
/// The program contains its own database, so that the same document gives the same days on every computer.
///
/// ```
/// assert!(board::time_zone("America/New_York").is_some());
/// assert!(board::time_zone("Nowhere/Else").is_none());
/// ```
pub fn time_zone(name: &str) -> Option<TimeZone> {
    static KNOWN: LazyLock<TimeZoneDatabase> = LazyLock::new(TimeZoneDatabase::bundled);
    KNOWN.get(name).ok()
}

/// The name of a time zone as spelled in the database; an empty name means the computer's.
pub fn zone_name(typed: &str) -> Result<String, WhenError> {
    let typed = typed.trim();
    if typed.is_empty() {
        return Ok(String::new());
    }
    let zone = time_zone(typed).ok_or_else(|| Wanted::Zone.fault(typed))?;
    Ok(zone.iana_name().unwrap_or(typed).to_owned())
}

/// Conversions between a type and its text in files.
macro_rules! as_text {
    ($($kind:ty),+) => {
        $(impl From<$kind> for String {
            fn from(it: $kind) -> Self {
                it.to_string()
            }
        }

        impl TryFrom<String> for $kind {
            type Error = WhenError;

            fn try_from(text: String) -> Result<Self, WhenError> {
                text.parse()
            }
        })+
    };
}

as_text!(Day, Clock, DaysOff);

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn day(text: &str) -> Result<Day, WhenError> {
        text.parse()
    }

    #[test]
    fn days_are_read_in_both_notations_and_leap_days_only_in_leap_years() {
        assert_eq!(day(" 2028-2-29 "), day("02/29/2028"));
        for wrong in [
            "",
            "banana",
            "2027-02-29",
            "2026-13-01",
            "24/12/2026",
            "26-12-24",
            "12/24/26",
            "2026-12",
            "1999-12-31",
            "2200-01-01",
            "2026-12-24-1",
            "+026-12-24",
        ] {
            assert!(day(wrong).is_err(), "{wrong}");
        }
        let words = day("banana").unwrap_err().to_string();
        assert!(
            words.starts_with("Not a date: \"banana\". Try 2026-12-24"),
            "{words}"
        );
    }

    #[test]
    fn midnight_and_noon_are_distinguished() {
        let clock = |text: &str| text.parse::<Clock>().map(Clock::minutes);
        assert_eq!(clock("12 am"), Ok(0));
        assert_eq!(clock("12:30 pm"), Ok(12 * 60 + 30));
        assert_eq!(clock("7"), Ok(7 * 60));
        for wrong in ["", "24:00", "8:5", "8:60", "0 am", "noon", "8:30:00", "-1"] {
            assert!(clock(wrong).is_err(), "{wrong}");
        }
    }

    #[test]
    fn days_off_are_one_day_or_a_span_with_the_first_day_first() {
        let off = |text: &str| text.parse::<DaysOff>();
        assert_eq!(off("12/24/2026"), off("2026-12-24"));
        assert_eq!(off("12/24/2026 to 1/2/2027"), off("2026-12-24/2027-01-02"));
        for wrong in [
            "2027-01-02 to 2026-12-24",
            "2026-12-24 to",
            "12/24/2026/1/2/2027",
            "",
        ] {
            assert!(off(wrong).is_err(), "{wrong}");
        }
    }

    proptest! {
        #[test]
        fn shown_values_read_back(days in 0..70_000_i32, span in 0..400_i32, minutes in 0..DAY) {
            let at = |days: i32| {
                let date = jiff::civil::date(2000, 1, 1) + jiff::Span::new().days(days);
                Day::of(date).unwrap()
            };
            let (first, clock) = (at(days), Clock::of(minutes).unwrap());
            let off = DaysOff::of(first, at(days + span)).unwrap();
            for units in [Units::Mm, Units::INCH] {
                prop_assert_eq!(first.shown(units).parse(), Ok(first));
                prop_assert_eq!(clock.shown(units).parse(), Ok(clock));
                prop_assert_eq!(off.shown(units).parse(), Ok(off));
            }
            prop_assert_eq!(first.to_string().parse(), Ok(first));
            prop_assert_eq!(clock.to_string().parse(), Ok(clock));
            prop_assert_eq!(off.to_string().parse(), Ok(off));
        }
    }
}
