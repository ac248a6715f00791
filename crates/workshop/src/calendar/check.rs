//! Rule: the work can be finished by the promised day within the available hours.

use board::{Day, Done, Timed};

use super::{Calendar, CalendarError, Promise};
use crate::check::{Finding, Rule, Severity, counted};
use crate::{Task, Workpiece};

/// The rule in words, as the list of rules shows it.
pub const STATEMENT: &str = "The work can be finished by the end of the promised day: within your hours, one task at a time, \
     with every wait kept, and with no more boards in clamps or drying than you have room for. Times and waits are common \
     practice unless you typed your own; labels come first. Each step ticked off is in the plan, and was done by today.";

/// Every finding about the schedule.
pub fn check(workpiece: &Workpiece) -> Vec<Finding> {
    let mut found = Vec::new();
    let schedule = &workpiece.board().schedule;
    match workpiece.calendar_by_now() {
        Some(Ok(calendar)) => found.extend(promise(workpiece, calendar)),
        Some(Err(error)) => found.extend(none(error)),
        None => {}
    }
    found.extend(start_after_promise(workpiece));
    found.extend(
        schedule
            .done
            .iter()
            .filter_map(|done| tick(workpiece, done)),
    );
    found.extend(before_its_needs(workpiece));
    found.extend(
        schedule
            .timed
            .iter()
            .filter_map(|timed| own_time(workpiece, timed)),
    );
    found.extend(stations(workpiece));
    found
}

/// A finding about something to settle before wood is cut.
fn caution(message: String) -> Finding {
    Finding::new(Severity::Caution, Rule::Calendar, message)
}

/// A finding that is only good to know.
fn note(message: String) -> Finding {
    Finding::new(Severity::Note, Rule::Calendar, message)
}

/// A day in the maker's format with the day of the week, since people make promises by weekday.
fn day_words(workpiece: &Workpiece, day: Day) -> String {
    day.with_weekday(workpiece.units())
}

/// The reason why there is no calendar and the remedy; `None` if merely no day is known.
fn none(error: &CalendarError) -> Option<Finding> {
    let way = match error {
        CalendarError::NoDay => return None,
        CalendarError::Zone(_) => {
            "choose one by its name in the IANA database, such as America/New_York"
        }
        CalendarError::NoHours => "enter hours for at least one day",
        CalendarError::TooLong { .. } => "make one workday longer, or enter your own time for it",
        CalendarError::TooMany { .. } => "make fewer boards at a time, or plan fewer coats",
        CalendarError::TooFar => "take out some days off, or make fewer boards",
    };
    Some(caution(format!("no calendar can be made: {error}; {way}")))
}

/// A promised day that is in the past, or too early.
///
/// The message gives the first day that can be kept and the day on which the work should have begun: the maker may change
/// either.
fn promise(workpiece: &Workpiece, calendar: &Calendar) -> Option<Finding> {
    let Promise {
        day,
        is_kept,
        first_day,
        earliest,
    } = calendar.promise?;
    let today = workpiece.today().map(|today| today.day);
    let is_left = calendar.work.iter().any(|it| it.done.is_none());
    let is_past = is_left && today.is_some_and(|today| day < today);
    if is_kept && !is_past {
        return None;
    }
    let promised = day_words(workpiece, day);
    let mut message = if is_past {
        format!("the board is promised for {promised}, which has passed: change the date")
    } else {
        format!("the board cannot be done by {promised}")
    };
    if let Some(earliest) = earliest {
        message.push_str("; the first possible day is ");
        message.push_str(&day_words(workpiece, earliest));
    }
    let can_begin = |first: &Day| today.is_none_or(|today| *first >= today);
    if let Some(first) = first_day.filter(|first| !is_past && can_begin(first)) {
        message.push_str(", or begin by ");
        message.push_str(&day_words(workpiece, first));
    }
    Some(caution(message))
}

/// A start day after the promised one.
fn start_after_promise(workpiece: &Workpiece) -> Option<Finding> {
    let schedule = &workpiece.board().schedule;
    let (start, promised) = (schedule.start?, schedule.promised?);
    (start > promised).then(|| {
        let (start, promised) = (day_words(workpiece, start), day_words(workpiece, promised));
        caution(format!(
            "the first day, {start}, is after the promised day, {promised}: change one of them"
        ))
    })
}

/// The title of a task, or the word itself in quotes where no task has that name.
fn spoken(word: &str) -> String {
    Task::of_word(word).map_or_else(|| format!("\"{word}\""), |task| task.title().to_owned())
}

/// A tick for an operation that is not in the plan, or with a day in the future.
///
/// It needs no calendar: a tick is compared with the work plan and with today.
///
/// A tick outlives its operation, for example when a coat is removed from the finish: nothing is removed silently.
fn tick(workpiece: &Workpiece, done: &Done) -> Option<Finding> {
    let task = Task::of_word(&done.task);
    let is_planned = task.is_some_and(|task| {
        workpiece
            .work_plan()
            .of(task)
            .any(|it| it.number == done.number)
    });
    let day = day_words(workpiece, done.day);
    if !is_planned {
        return Some(note(format!(
            "{} {}, ticked off on {day}, is not in the plan of the work: clear the mark",
            spoken(&done.task),
            done.number
        )));
    }
    let today = workpiece.today()?;
    let title = task.map_or("", Task::title);
    (done.day > today.day).then(|| {
        caution(format!(
            "{title} is ticked off on {day}, which is yet to come: change the day"
        ))
    })
}

/// The finding for an operation that is ticked off although an earlier one is not.
///
/// Only the first such pair is reported. It may be right, for example when the plan was changed after the work, so it is a
/// note.
fn before_its_needs(workpiece: &Workpiece) -> Option<Finding> {
    let calendar = workpiece.calendar_by_now()?.ok()?;
    let operations = &workpiece.work_plan().operations;
    let is_done = |operation: usize| {
        calendar
            .of_operation(operation)
            .iter()
            .any(|it| it.done.is_some())
    };
    let early = operations.iter().enumerate().find_map(|(at, operation)| {
        let open = operation
            .needs
            .iter()
            .find(|need| !is_done(need.operation))?;
        is_done(at).then_some((operation.task, operations.get(open.operation)?.task))
    });
    let (later, before) = early?;
    Some(note(format!(
        "{} is ticked off, and {}, which comes before it, is not",
        later.title(),
        before.title()
    )))
}

/// A typed time for an operation that is not in the plan.
///
/// Like a tick, a time outlives the method or the finish for which it was typed.
fn own_time(workpiece: &Workpiece, timed: &Timed) -> Option<Finding> {
    let task = Task::of_word(&timed.task);
    let is_planned = task.is_some_and(|task| workpiece.work_plan().has(task));
    (!is_planned).then(|| {
        note(format!(
            "your own time for {} is not used: the plan of the work has no such step",
            spoken(&timed.task)
        ))
    })
}

/// More clamping or drying places than boards to fill them, where that exceeds the few that every shop has.
fn stations(workpiece: &Workpiece) -> Option<Finding> {
    /// Number of places that every shop has room for; common practice, no source.
    const FEW: u32 = 10;
    let schedule = &workpiece.board().schedule;
    let most = schedule.boards.max(FEW);
    let (count, what) = match (schedule.clamps > most, schedule.drying > most) {
        (true, _) => (schedule.clamps, "glue-ups at once"),
        (_, true) => (schedule.drying, "boards drying at once"),
        _ => return None,
    };
    Some(note(format!(
        "{count} {what} is more than an order of {} can use: enter the number you have room for",
        counted(schedule.boards as usize, "board")
    )))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Today;
    use board::{Board, Schedule, WorkHours};

    /// The findings of a schedule on Monday 30 Nov 2026.
    fn found(change: impl FnOnce(&mut Schedule)) -> Vec<String> {
        let mut board = Board::default();
        change(&mut board.schedule);
        let today = Today {
            day: "2026-11-30".parse().unwrap(),
            zone: "America/New_York".into(),
        };
        let workpiece = Workpiece::of(&board).unwrap().on(today);
        check(&workpiece)
            .into_iter()
            .map(|found| found.message)
            .collect()
    }

    fn one(change: impl FnOnce(&mut Schedule), begins: &str) -> String {
        let all = found(change);
        let it = all
            .iter()
            .find(|message| message.starts_with(&board::capital(begins)));
        it.unwrap_or_else(|| panic!("{all:?}")).clone()
    }

    #[test]
    fn an_order_that_can_be_done_gives_no_finding() {
        assert!(found(|_| {}).is_empty());
        assert!(found(|it| it.promised = "2027-03-01".parse().ok()).is_empty());
    }

    #[test]
    fn a_promise_past_or_too_early_names_the_first_possible_day() {
        let past = one(
            |it| it.promised = "2026-11-27".parse().ok(),
            "the board is promised",
        );
        assert!(
            past.contains(
                "Fri 2026-11-27, which has passed: change the date; the first possible day is "
            ),
            "{past}"
        );
        let early = one(
            |it| it.promised = "2026-12-02".parse().ok(),
            "the board cannot be done",
        );
        assert!(!early.contains("begin by"), "that day has passed: {early}");
        let late = one(
            |it| {
                it.start = "2027-03-01".parse().ok();
                it.promised = "2027-03-03".parse().ok();
            },
            "the board cannot be done",
        );
        assert!(late.contains("or begin by "), "{late}");
        // The named day can be promised.
        let day = early.split("first possible day is ").nth(1).unwrap();
        let day: String = day.chars().skip(4).take(10).collect();
        assert!(
            found(|it| it.promised = day.parse().ok()).is_empty(),
            "{day}"
        );
    }

    #[test]
    fn hours_zones_and_days_that_make_no_calendar_are_reported() {
        let none = |it: &mut Schedule| {
            it.hours = WorkHours {
                monday: 0.0,
                tuesday: 0.0,
                wednesday: 0.0,
                thursday: 0.0,
                friday: 0.0,
                ..it.hours
            };
        };
        assert!(one(none, "no calendar can be made").contains("no day of the week"));
        let lost = one(
            |it| it.zone = "Nowhere/Else".into(),
            "no calendar can be made",
        );
        assert!(lost.contains("\"Nowhere/Else\""), "{lost}");
        let off = |it: &mut Schedule| it.days_off = vec!["2026-01-01/2199-12-31".parse().unwrap()];
        assert!(one(off, "no calendar can be made").contains("a hundred years"));
        let short = |it: &mut Schedule| it.hours.monday = 0.0;
        assert!(found(short).is_empty());
        one(
            |it| {
                it.start = "2027-02-01".parse().ok();
                it.promised = "2027-01-01".parse().ok();
            },
            "the first day, Mon 2027-02-01, is after",
        );
    }

    #[test]
    fn ticks_times_and_stations_beyond_the_plan_are_reported() {
        let done = |task: &str, day: &str| Done {
            task: task.into(),
            number: 1,
            day: day.parse().unwrap(),
        };
        one(
            |it| it.done.push(done("coat", "2026-11-20")),
            "Finish 1, ticked off",
        );
        one(
            |it| it.done.push(done("rest", "2026-12-01")),
            "Resting the wood is ticked off on",
        );
        one(
            |it| it.done.push(done("flatten", "2026-11-20")),
            "Flattening the top is ticked off, and",
        );
        let timed = Timed {
            task: "varnish".into(),
            minutes: 5.0,
        };
        one(|it| it.timed.push(timed), "your own time for \"varnish\"");
        let many = one(|it| it.clamps = 150, "150 glue-ups at once");
        assert!(many.contains("order of 1 board can"), "{many}");
        assert!(found(|it| (it.drying, it.boards) = (150, 150)).is_empty());
    }
}
