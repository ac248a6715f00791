//! The calendar: every operation of the work plan with its days, for all boards of the order.
//!
//! Work is placed forward from the first day, or, where the board is promised for a day, backward from that day and as late as
//! the promise allows. Waits run through nights and weekends in real hours; hands work only in the maker's hours, at one thing
//! at a time. The caller supplies the clock ([`Today`]): without it, without a first day and without a promise there is no
//! calendar.

mod axis;
pub mod check;
mod dated;
mod days;
mod jobs;
mod late;
mod place;
pub mod sums;
#[cfg(test)]
mod tests;

use board::{Day, Schedule, time_zone};
use jiff::tz::TimeZone;

use crate::job::{BatchTime, batch_time};
use crate::{Operation, WorkPlan, Workpiece};
use axis::{Axis, TooFar};
use days::Days;
use jobs::{Jobs, Listed};
use late::days_of_slack;
use place::{Job, Placed, place};

pub use dated::{Calendar, Dated, Promise, Stretch};

/// The date and the time zone, from a caller that has a clock.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Today {
    /// The day.
    pub day: Day,
    /// The name of the computer's time zone in the IANA database; empty if it is not known.
    pub zone: String,
}

/// The most operations on all boards together that are planned: a year or more of work, worked out within a frame or two.
const MOST_JOBS: usize = 20_000;

/// The reason why there is no calendar.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum CalendarError {
    /// Today's date is unknown, and there is no first day and no promise.
    #[error("no day to begin with is known")]
    NoDay,
    /// The time zone is in no database.
    #[error("no time zone is called \"{0}\"")]
    Zone(String),
    /// No day of the week has working hours.
    #[error("no day of the week has any hours of work")]
    NoHours,
    /// An operation that must be done in one go takes longer than any working day.
    #[error("{title} takes {minutes} min in one go, and your longest day has {longest} min")]
    TooLong {
        /// The title of its task.
        title: &'static str,
        /// Minutes it takes.
        minutes: i64,
        /// Minutes of the longest day.
        longest: i64,
    },
    /// There are more operations, on all boards together, than can be planned.
    #[error(
        "{jobs} operations on all boards together are more than the {MOST_JOBS} that can be laid out in days"
    )]
    TooMany {
        /// Open operations on all boards together.
        jobs: usize,
    },
    /// The work does not end within a hundred years.
    #[error("with these hours and days off the work would not be done within a hundred years")]
    TooFar,
}

impl From<TooFar> for CalendarError {
    fn from(_: TooFar) -> Self {
        Self::TooFar
    }
}

/// The calendar of a workpiece.
///
/// Times are those of the work plan, which includes the times that the maker typed.
pub(crate) fn calendar(workpiece: &Workpiece) -> Result<Calendar, CalendarError> {
    let time = |operation: &Operation| batch_time(operation, workpiece);
    scheduled(
        workpiece.work_plan(),
        &workpiece.board().schedule,
        workpiece.today(),
        time,
    )
}

/// The calendar of a work plan with the given minutes for its operations.
///
/// The first day is the typed one, or today where that is later: no work is planned in the past.
fn scheduled(
    plan: &WorkPlan,
    schedule: &Schedule,
    today: Option<&Today>,
    time: impl Fn(&Operation) -> BatchTime,
) -> Result<Calendar, CalendarError> {
    let days = Days::new(zone(&schedule.zone, today)?, schedule.clone());
    let today = today.map(|today| today.day);
    let first = match (schedule.start, today) {
        (Some(start), Some(today)) => Some(start.max(today)),
        (start, today) => start.or(today),
    };
    if first.is_none() && schedule.promised.is_none() {
        return Err(CalendarError::NoDay);
    }
    if days.longest() == 0 {
        return Err(CalendarError::NoHours);
    }
    let jobs = Jobs::of(plan, schedule, &days, time);
    if jobs.count() > MOST_JOBS {
        return Err(CalendarError::TooMany { jobs: jobs.count() });
    }
    in_one_go(&jobs, days.longest())?;
    let forward = first.map(|first| ahead(&jobs, &days, first)).transpose()?;
    match (schedule.promised, forward) {
        (None, Some(forward)) => Ok(Calendar::of(&jobs, days, &forward, None)?),
        (None, None) => Err(CalendarError::NoDay),
        (Some(promised), forward) => promised_for(&jobs, days, forward, first, promised),
    }
}

/// The calendar of boards that are promised for a day: as late as possible, or as early as possible where that day is too
/// early.
///
/// `forward` is the plan from the first day, for a promise that cannot be kept. Without a first day there is none, and the
/// backward plan is returned.
fn promised_for(
    jobs: &Jobs<'_>,
    days: Days,
    forward: Option<Plan>,
    first: Option<Day>,
    promised: Day,
) -> Result<Calendar, CalendarError> {
    let backward = back(jobs, &days, promised)?;
    let opens = first.and_then(|first| days.opens(first.date()));
    let begins = backward.begins();
    let begins_in_time = opens
        .zip(begins)
        .is_none_or(|(opens, begins)| begins >= opens);
    let fits = backward.is_after(jobs) && begins_in_time;
    let deadline = days.deadline(promised.date());
    let is_waited_for = deadline.is_none_or(|deadline| jobs.done_by() <= Some(deadline));
    let ends = |plan: &Plan| plan.ends().max(jobs.done_by());
    let earliest = forward.as_ref().and_then(ends);
    let is_early = earliest
        .zip(deadline)
        .is_some_and(|(earliest, deadline)| earliest <= deadline);
    let promise = Promise {
        day: promised,
        is_kept: (fits || is_early) && is_waited_for,
        first_day: begins.and_then(|minute| Day::of(days.date_of(minute))),
        earliest: earliest.and_then(|minute| Day::of(days.done_on(minute))),
    };
    let plan = match forward {
        Some(forward) if !fits => forward,
        _ => backward,
    };
    Ok(Calendar::of(jobs, days, &plan, Some(promise))?)
}

/// Jobs with their places in time, in forward clock minutes.
///
/// Clock minutes are counted from the same instant for all jobs, nights included.
pub(crate) struct Plan {
    /// The jobs.
    listed: Vec<Listed>,
    /// The work stretches of each job, from one clock minute to another; one of zero length if there is no hands-on work.
    stretches: Vec<Vec<[i64; 2]>>,
    /// Working days by which each job can be moved without moving the end, or the start of a plan made backward.
    slack: Vec<usize>,
    /// Whether it is planned backward from a promise.
    is_backward: bool,
}

impl Plan {
    /// The clock minute at which its first work begins; `None` if only waits are left.
    fn begins(&self) -> Option<i64> {
        let each = self.listed.iter().zip(&self.stretches);
        let left = each.filter(|(job, _)| job.since.is_none());
        left.filter_map(|(_, all)| Some(all.first()?[0])).min()
    }

    /// The clock minute at which everything is over, waits included; `None` if no work is left.
    fn ends(&self) -> Option<i64> {
        let over = self.listed.iter().zip(&self.stretches);
        let over = over.filter_map(|(job, all)| Some(all.last()?[1] + job.wait));
        over.max()
    }

    /// Whether every open job comes after the finished ones and their waits.
    fn is_after(&self, jobs: &Jobs<'_>) -> bool {
        let mut begins = self.listed.iter().zip(&self.stretches);
        begins.all(|(job, all)| {
            all.first()
                .is_none_or(|it| it[0] >= jobs.not_before(job.operation))
        })
    }
}

/// The work from a day on, each job as early as possible.
///
/// The slack of a job is in whole working days.
fn ahead(jobs: &Jobs<'_>, days: &Days, first: Day) -> Result<Plan, TooFar> {
    let opens = days.opens(first.date()).unwrap_or_default();
    let mut axis = Axis::new(days.forward(first.date()));
    let listed = jobs.listed(opens);
    let list: Vec<Job> = listed.iter().map(|it| it.job.clone()).collect();
    let placed = place(&list, &mut axis, jobs.stations)?;
    let slack = days_of_slack(&list, &placed, &axis, jobs.stations);
    let stretches = placed
        .iter()
        .map(|at| at.stretches(axis.stretches()))
        .collect();
    Ok(Plan {
        listed,
        stretches,
        slack,
        is_backward: false,
    })
}

/// The work back from the end of a day, each job as late as possible.
///
/// It is forward planning with time reversed: the clock runs backward, and predecessors become successors.
fn back(jobs: &Jobs<'_>, days: &Days, last: Day) -> Result<Plan, TooFar> {
    let deadline = days.deadline(last.date()).unwrap_or_default();
    let mut axis = Axis::new(days.backward(last.date()));
    let mut listed = jobs.turned(-deadline);
    let list: Vec<Job> = listed.iter().map(|it| it.job.clone()).collect();
    let placed = place(&list, &mut axis, jobs.stations)?;
    let mut slack = days_of_slack(&list, &placed, &axis, jobs.stations);
    let turned = |at: &Placed| {
        let all = at.stretches(axis.stretches()).into_iter().rev();
        all.map(|[from, to]| [-to, -from]).collect()
    };
    let mut stretches: Vec<Vec<[i64; 2]>> = placed.iter().map(turned).collect();
    listed.reverse();
    stretches.reverse();
    slack.reverse();
    Ok(Plan {
        listed,
        stretches,
        slack,
        is_backward: true,
    })
}

/// The maker's time zone: the typed one, otherwise the computer's, otherwise UTC.
///
/// An unknown typed name is an error, while an unknown name from the computer is ignored: the maker can fix the first and not
/// the second.
fn zone(named: &str, today: Option<&Today>) -> Result<TimeZone, CalendarError> {
    if named.is_empty() {
        let computer = today.and_then(|today| time_zone(&today.zone));
        return Ok(computer.unwrap_or(TimeZone::UTC));
    }
    time_zone(named).ok_or_else(|| CalendarError::Zone(named.into()))
}

/// Rejects work that cannot be interrupted and is longer than every working day.
///
/// Work that is already done is left out: it evidently fitted.
fn in_one_go(jobs: &Jobs<'_>, longest: i64) -> Result<(), CalendarError> {
    let left = jobs.work.iter().filter(|it| it.done.is_none());
    let each =
        left.flat_map(|work| (1..=jobs.boards.min(2)).map(move |board| (work, work.on(board))));
    let mut too_long = each.filter(|(work, minutes)| work.is_whole(*minutes) && *minutes > longest);
    match too_long.next() {
        Some((work, minutes)) => Err(CalendarError::TooLong {
            title: work.operation.task.title(),
            minutes,
            longest,
        }),
        None => Ok(()),
    }
}
