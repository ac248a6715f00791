//! The calendar on paper: bars over the days, and a row with times for each operation, to tick off.
//!
//! Days, times and slack come from the calendar of the workpiece; this module only prints them, in the maker's time zone.

mod bars;

use board::{Day, Measure};
use workshop::{Calendar, Dated, Operation, WorkPlan, Workpiece, paper_size};

use crate::{Align, Block, Cell, Column, Head, Sheet, Stamp, Table, pages};

/// The most operations in one figure of bars, so that each figure fits on a page with its dates.
const ROWS: usize = 24;

/// The calendar of a board on the paper of its template: a summary, bars over the days, and a table of all operations with
/// their times; empty if there is no calendar.
///
/// It is designed for black ink: hands-on work is a filled bar, a wait is hatched, days off are gray, and the critical path has
/// a heavy frame and its name in bold.
///
/// ```
/// use board::{Board, Schedule};
/// use drawing::{Stamp, calendar_pages};
/// use workshop::Workpiece;
///
/// let mut board = Board::default();
/// assert!(calendar_pages(&Workpiece::of(&board)?, &Stamp::default()).is_empty());
/// board.schedule = Schedule { start: "2026-11-30".parse().ok(), ..Schedule::default() };
/// assert!(!calendar_pages(&Workpiece::of(&board)?, &Stamp::default()).is_empty());
/// # Ok::<(), board::BuildError>(())
/// ```
pub fn calendar_pages(workpiece: &Workpiece, stamp: &Stamp) -> Vec<Sheet> {
    let Ok(calendar) = workpiece.calendar() else {
        return Vec::new();
    };
    let board = workpiece.board();
    let head = Head::of("Calendar", "calendar", workpiece, stamp);
    let (paper, margin) = (paper_size(board.template.paper), board.template.margin);
    let plan = workpiece.work_plan();
    let mut blocks = vec![
        Block::Words(about(workpiece, calendar)),
        Block::Words(
            "Filled: hands-on time. Hatched: waiting. Gray: days off. Heavy outline and bold name: critical path; a day late there makes the \
             order a day late. Times that you have not entered are common practice, no source; labels come first."
                .into(),
        ),
    ];
    let operations: Vec<usize> = (0..plan.operations.len()).collect();
    for rows in operations.chunks(ROWS) {
        let width = paper.width - 2.0 * margin;
        blocks.push(Block::Figure(bars::figure(
            workpiece, calendar, rows, width,
        )));
    }
    blocks.push(Block::Heading("Times".into()));
    blocks.push(Block::Table(times(workpiece, calendar)));
    pages(paper, margin, &head, &blocks)
}

/// The order and its days, in sentences.
///
/// They say whether a promise can be kept, where one was made: a page on the wall should not look better than the plan is.
fn about(workpiece: &Workpiece, calendar: &Calendar) -> String {
    let told = |day: Day| day.with_weekday(workpiece.units());
    let boards = match calendar.boards {
        1 => "One board".into(),
        boards => format!("{boards} boards"),
    };
    let mut words = format!(
        "{boards}: work begins {} and is done {}.",
        told(calendar.first),
        told(calendar.last)
    );
    if let Some(promise) = calendar.promise {
        let kept = if promise.is_kept {
            ""
        } else {
            ", which cannot be kept"
        };
        words.push_str(&[" Promised for ", &told(promise.day), kept, "."].concat());
    }
    words
}

/// The title of an operation, with its number if there are several of its task.
///
/// The document ticks operations off by the same numbers.
fn title(operation: &Operation, plan: &WorkPlan) -> String {
    let title = operation.task.title();
    if plan.of(operation.task).count() > 1 {
        return format!("{title} {}", operation.number);
    }
    title.into()
}

/// A row for each operation: from the first board's start to the last board's end, its wait, and how far it can be postponed.
///
/// A wait is in hours. Work that cannot be postponed is called critical.
fn times(workpiece: &Workpiece, calendar: &Calendar) -> Table {
    let (plan, units) = (workpiece.work_plan(), workpiece.units());
    let row = |(at, operation): (usize, &Operation)| {
        let all = calendar.of_operation(at);
        let when = match all {
            [] => String::new(),
            [one] => calendar.when_words(one, units),
            [first, .., last] => format!(
                "{}; last board {}",
                calendar.when_words(first, units),
                calendar.when_words(last, units)
            ),
        };
        let wait = operation
            .wait
            .map_or_else(String::new, |wait| Measure::hours(wait.hours).shown(units));
        let slack = match all.iter().map(|it| it.slack).min() {
            Some(0) | None => "critical".into(),
            Some(days) => format!("{days} d"),
        };
        let is_done = all.iter().any(|it: &Dated| it.done.is_some());
        vec![
            Cell::Tick,
            Cell::Words(title(operation, plan)),
            Cell::Words(when),
            Cell::Words(wait),
            Cell::Words(if is_done { "done".into() } else { slack }),
        ]
    };
    Table {
        columns: Column::all(&[
            ("", Align::Start),
            ("Operation", Align::Start),
            ("Hands-on", Align::Start),
            ("Then waits", Align::End),
            ("Can wait", Align::End),
        ]),
        rows: plan.operations.iter().enumerate().map(row).collect(),
    }
}
