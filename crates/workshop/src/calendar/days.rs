//! The maker's working days, and the hours of each.

use board::{Day, Schedule};
use jiff::civil::{Date, Time};
use jiff::tz::TimeZone;
use jiff::{SignedDuration, Timestamp};

/// The most days searched for work, a hundred years.
const MOST_DAYS: usize = 36_525;

/// The maker's working days in the maker's time zone.
#[derive(Debug, Clone, PartialEq)]
pub struct Days {
    /// The time zone.
    pub zone: TimeZone,
    schedule: Schedule,
}

impl Days {
    /// The working days of a schedule in a time zone.
    pub const fn new(zone: TimeZone, schedule: Schedule) -> Self {
        Self { zone, schedule }
    }

    /// Work minutes on a day: the hours of its weekday, and none on a day off.
    pub fn minutes(&self, date: Date) -> i64 {
        let off =
            Day::of(date).is_none_or(|day| self.schedule.days_off.iter().any(|it| it.has(day)));
        if off {
            return 0;
        }
        let weekday = date.weekday().to_monday_zero_offset();
        let hours = usize::try_from(weekday)
            .ok()
            .and_then(|at| self.schedule.hours.days().get(at).copied());
        (hours.unwrap_or(0.0) * 60.0).round() as i64
    }

    /// The most work minutes on any day of the week.
    pub fn longest(&self) -> i64 {
        let hours = self.schedule.hours.days().into_iter().fold(0.0, f64::max);
        (hours * 60.0).round() as i64
    }

    /// The clock minute at which work begins on a day, or would begin.
    pub fn opens(&self, date: Date) -> Option<i64> {
        let minutes = self.schedule.begins.minutes();
        let time = Time::new((minutes / 60) as i8, (minutes % 60) as i8, 0, 0).ok()?;
        let at = self.zone.to_timestamp(date.to_datetime(time)).ok()?;
        Some(at.as_second().div_euclid(60))
    }

    /// The clock minute at which the work of a day is over: when its hours have passed or the next day's begin. On a day
    /// without work it is the minute at which work would begin.
    pub fn closes(&self, date: Date) -> Option<i64> {
        let minutes = self.minutes(date);
        let opens = self.opens(date)?;
        if minutes == 0 {
            return Some(opens);
        }
        let next = date.tomorrow().ok().and_then(|next| self.opens(next));
        Some((opens + minutes).min(next.unwrap_or(i64::MAX)))
    }

    /// The clock minute at which both the work of a day and the day itself are over. A night shift counts as promised for the
    /// evening on which it begins.
    pub fn deadline(&self, date: Date) -> Option<i64> {
        let close = self.closes(date)?;
        let midnight = self
            .zone
            .to_timestamp(date.tomorrow().ok()?.at(0, 0, 0, 0))
            .ok()?;
        Some(close.min(midnight.as_second().div_euclid(60)))
    }

    /// The work of a day as two clock minutes; none on a day off.
    ///
    /// Hours count as they pass, also in the night when clocks change.
    fn work(&self, date: Date) -> Option<(i64, i64)> {
        let (from, to) = (self.opens(date)?, self.closes(date)?);
        (from < to).then_some((from, to))
    }

    /// The work of every day from this one on.
    pub fn forward(&self, first: Date) -> impl Iterator<Item = (i64, i64)> {
        let days = std::iter::successors(Some(first), |date| date.tomorrow().ok());
        days.take(MOST_DAYS).filter_map(|date| self.work(date))
    }

    /// The work of every day from this one back, with clock minutes negated.
    pub fn backward(&self, last: Date) -> impl Iterator<Item = (i64, i64)> {
        let days = std::iter::successors(Some(last), |date| date.yesterday().ok());
        let works = days.take(MOST_DAYS).filter_map(|date| self.work(date));
        works.map(|(from, to)| (-to, -from))
    }

    /// The day of a clock minute.
    pub fn date_of(&self, minute: i64) -> Date {
        self.zone.to_datetime(timestamp(minute)).date()
    }

    /// The first day by whose end work that is over at a clock minute is done.
    pub fn done_on(&self, minute: i64) -> Date {
        let date = self.date_of(minute.saturating_sub(1));
        let is_late = self.deadline(date).is_some_and(|end| end < minute);
        let next = date.tomorrow().ok().filter(|_| is_late);
        next.unwrap_or(date)
    }
}

/// The instant of a clock minute, or the last instant there is where the minute is beyond all calendars.
pub fn timestamp(minute: i64) -> Timestamp {
    let since = SignedDuration::from_secs(minute.saturating_mul(60));
    Timestamp::UNIX_EPOCH
        .saturating_add(since)
        .unwrap_or(Timestamp::MAX)
}
