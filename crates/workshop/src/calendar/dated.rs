//! The calendar with dates: operations with their days, the promised day, and the working days.

use board::{Day, Units};
use jiff::civil::{Date, DateTime};
use jiff::tz::TimeZone;
use jiff::{SignedDuration, Timestamp};

use super::Plan;
use super::axis::TooFar;
use super::days::{Days, timestamp};
use super::jobs::Jobs;

/// Every operation of an order with its days.
#[derive(Debug, Clone, PartialEq)]
pub struct Calendar {
    /// The operations on the boards, in the order of the work plan and then of the boards.
    pub work: Vec<Dated>,
    /// Number of boards.
    pub boards: u32,
    /// The promised day; `None` if nothing is promised.
    pub promise: Option<Promise>,
    /// Whether it is planned backward from the promised day, with everything as late as possible.
    pub is_backward: bool,
    /// The first day with any work, ticked operations included.
    pub first: Day,
    /// The day on which everything is finished, waits included.
    pub last: Day,
    /// The maker's working days.
    pub(super) days: Days,
}

/// An operation on a board, with its days.
#[derive(Debug, Clone, PartialEq)]
pub struct Dated {
    /// Index in the work plan.
    pub operation: usize,
    /// The board, from 1; `None` if it is done once for all boards, or is ticked off.
    pub board: Option<u32>,
    /// The times of hands-on work: several stretches where it continues on another day, and one of zero length where it only
    /// waits.
    pub stretches: Vec<Stretch>,
    /// The time at which the next operation can begin: the end of this one plus its wait.
    pub ready: Timestamp,
    /// Working days by which it can be postponed without moving the end; in a calendar planned backward, days by which it can
    /// be done earlier without moving the first day.
    pub slack: u32,
    /// The day on which it was ticked off.
    pub done: Option<Day>,
}

/// A stretch of time.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Stretch {
    /// Its begin.
    pub from: Timestamp,
    /// Its end.
    pub to: Timestamp,
}

/// A promised day, and whether it can be kept.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Promise {
    /// The day.
    pub day: Day,
    /// Whether the work can be finished by the end of that day.
    pub is_kept: bool,
    /// The latest day on which the work would have to begin; `None` if no work is left.
    pub first_day: Option<Day>,
    /// The earliest day on which the work can be finished; `None` if today's date is unknown.
    pub earliest: Option<Day>,
}

impl Dated {
    /// Whether it cannot be moved to another working day without moving the end, or the first day of a calendar planned backward.
    pub const fn is_critical(&self) -> bool {
        self.slack == 0 && self.done.is_none()
    }

    /// The time from its start to its end; none without stretches.
    pub fn span(&self) -> Option<Stretch> {
        let (first, last) = (self.stretches.first()?, self.stretches.last()?);
        Some(Stretch {
            from: first.from,
            to: last.to,
        })
    }
}

impl Calendar {
    /// The calendar of a plan.
    ///
    /// # Errors
    /// [`TooFar`] where part of it would be after the last date that can be represented.
    pub(super) fn of(
        jobs: &Jobs<'_>,
        days: Days,
        plan: &Plan,
        promise: Option<Promise>,
    ) -> Result<Self, TooFar> {
        let is_backward = plan.is_backward;
        let mut work = done(jobs, &days);
        let left = plan.listed.iter().zip(&plan.stretches).zip(&plan.slack);
        work.extend(left.map(|((job, stretches), slack)| {
            Dated {
                operation: job.operation,
                board: job.board,
                ready: timestamp(stretches.last().map_or(0, |it| it[1]) + job.wait),
                stretches: stretches
                    .iter()
                    .map(|[from, to]| Stretch::of(*from, *to))
                    .collect(),
                slack: u32::try_from(*slack).unwrap_or(u32::MAX),
                done: None,
            }
        }));
        work.sort_by_key(|it| (it.operation, it.board));
        let begins = work.iter().filter_map(Dated::span).map(|it| it.from);
        let first = day(&days, begins.min())?;
        let ends = work.iter().map(|it| it.ready.max(it.last_minute())).max();
        // Work that ends at midnight counts as ending on the day before.
        let before = ends.map(|end| end.saturating_sub(SignedDuration::from_secs(1)));
        let last = day(&days, before.and_then(Result::ok).or(ends))?;
        Ok(Self {
            boards: jobs.boards,
            promise,
            is_backward,
            first,
            last: last.max(first),
            work,
            days,
        })
    }

    /// The maker's time zone.
    pub const fn zone(&self) -> &TimeZone {
        &self.days.zone
    }

    /// Date and time of an instant in the maker's time zone.
    pub fn local(&self, at: Timestamp) -> DateTime {
        self.days.zone.to_datetime(at)
    }

    /// Working hours on a day.
    pub fn hours_on(&self, day: Day) -> f64 {
        self.days.minutes(day.date()) as f64 / 60.0
    }

    /// The instants at which a day begins and ends.
    ///
    /// Bars are drawn by them, as every day is drawn equally wide however long it is: in most zones, two days a year have 23 or
    /// 25 hours.
    pub fn bounds(&self, day: Day) -> Stretch {
        let at = |date: Date| {
            let midnight = self.days.zone.to_timestamp(date.at(0, 0, 0, 0));
            midnight.unwrap_or(Timestamp::UNIX_EPOCH)
        };
        let next = day.date().tomorrow().unwrap_or_else(|_| day.date());
        Stretch {
            from: at(day.date()),
            to: at(next),
        }
    }

    /// Every day from the first to the last.
    pub fn every_day(&self) -> impl Iterator<Item = Day> {
        let first = self.first.date();
        let days = std::iter::successors(Some(first), |date| date.tomorrow().ok());
        let last = self.last;
        days.map_while(Day::of).take_while(move |day| *day <= last)
    }

    /// The work of one operation on all boards, in their order; for a ticked operation, only the tick.
    pub fn of_operation(&self, operation: usize) -> &[Dated] {
        let from = self.work.partition_point(|it| it.operation < operation);
        let to = self.work.partition_point(|it| it.operation <= operation);
        self.work.get(from..to).unwrap_or_default()
    }

    /// The slack of an operation in words, as a clause without a period.
    ///
    /// In a calendar planned backward from a promise everything is as late as possible, so the clause says what could be done
    /// earlier.
    pub fn slack_words(&self, dated: &Dated) -> String {
        let days = match dated.slack {
            1 => "1 day of work".into(),
            days => format!("{days} days of work"),
        };
        match (dated.done, dated.slack, self.is_backward) {
            (Some(_), ..) => "done".into(),
            (_, 0, false) => "no slack: a day late here makes the order a day late".into(),
            (_, 0, true) => "no slack: an extra day here means starting a day earlier".into(),
            (_, _, false) => format!("can wait up to {days}"),
            (_, _, true) => format!("could be done up to {days} sooner"),
        }
    }

    /// Start and end of an operation in the maker's time, in words.
    ///
    /// The day is given once where both are on it; a wait has one time, and a ticked operation only its day.
    pub fn when_words(&self, dated: &Dated, units: Units) -> String {
        if let Some(day) = dated.done {
            return format!("done {}", day.with_weekday(units));
        }
        let Some(span) = dated.span() else {
            return String::new();
        };
        let (from, to) = (self.local(span.from), self.local(span.to));
        let day = |at: DateTime| {
            Day::of(at.date()).map_or_else(String::new, |day| day.with_weekday(units))
        };
        let time = |at: DateTime| {
            let minutes = u16::try_from(i32::from(at.hour()) * 60 + i32::from(at.minute()));
            let clock = minutes.ok().and_then(board::Clock::of);
            clock.map_or_else(String::new, |clock| clock.shown(units))
        };
        match (span.from == span.to, from.date() == to.date()) {
            (true, _) => format!("{} {}", day(from), time(from)),
            (_, true) => format!("{} {} to {}", day(from), time(from), time(to)),
            _ => format!("{} {} to {} {}", day(from), time(from), day(to), time(to)),
        }
    }
}

impl Dated {
    /// The last minute of its work.
    fn last_minute(&self) -> Timestamp {
        self.stretches.last().map_or(self.ready, |it| it.to)
    }
}

impl Stretch {
    /// A stretch between two clock minutes.
    fn of(from: i64, to: i64) -> Self {
        Self {
            from: timestamp(from),
            to: timestamp(to),
        }
    }
}

/// The day of an instant, or the first day that can be represented if there is no instant.
fn day(days: &Days, at: Option<Timestamp>) -> Result<Day, TooFar> {
    let date = at.map(|at| days.zone.to_datetime(at).date());
    date.map_or(Ok(Day::FIRST), |date| Day::of(date).ok_or(TooFar))
}

/// The ticked operations, each in the hours of its day.
fn done(jobs: &Jobs<'_>, days: &Days) -> Vec<Dated> {
    let each = jobs
        .work
        .iter()
        .enumerate()
        .filter_map(|(operation, work)| {
            let (day, close) = work.done?;
            let open = days.opens(day.date()).unwrap_or(close);
            Some(Dated {
                operation,
                board: None,
                stretches: vec![Stretch::of(open, close)],
                ready: timestamp(close + work.wait),
                slack: 0,
                done: Some(day),
            })
        });
    each.collect()
}
