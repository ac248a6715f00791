//! The calendar as CSV: a row for each operation on each board.
//!
//! RFC 4180, like all tables. Dates and times are the maker's local ones, in ISO 8601 with the offset from UTC; minutes and
//! hours are bare numbers.

use jiff::Timestamp;
use workshop::{Calendar, Dated, WorkPlan};

use crate::Error;
use crate::table::Table;

/// The columns.
const HEADER: [&str; 11] = [
    "step",
    "task",
    "number",
    "board",
    "begin",
    "end",
    "ready",
    "hands_on_min",
    "slack_days",
    "critical",
    "done",
];

/// The calendar as CSV, in the order of the work plan and then of the boards.
///
/// ```
/// use board::{Board, Schedule};
/// use workshop::Workpiece;
/// let schedule = Schedule { start: "2026-11-30".parse().ok(), zone: "America/New_York".into(), ..Schedule::default() };
/// let workpiece = Workpiece::of(&Board { schedule, ..Board::default() })?;
/// let table = export::calendar_csv(workpiece.calendar().unwrap(), workpiece.work_plan())?;
/// let text = String::from_utf8(table)?;
/// let first = "1,Resting the wood,1,,2026-11-30T08:00-05:00,2026-11-30T08:20-05:00,2026-12-07T08:20-05:00,20,0,yes,";
/// assert_eq!(text.split("\r\n").nth(1), Some(first));
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
///
/// # Errors
///
/// [`Error::Table`] where the table cannot be written.
pub fn calendar_csv(calendar: &Calendar, plan: &WorkPlan) -> Result<Vec<u8>, Error> {
    let mut written = Table::new(140 * (calendar.work.len() + 1));
    written.row(HEADER)?;
    for dated in &calendar.work {
        if let Some(operation) = plan.operations.get(dated.operation) {
            written.row([
                (dated.operation + 1).to_string(),
                operation.task.title().into(),
                operation.number.to_string(),
                dated
                    .board
                    .map_or_else(String::new, |board| board.to_string()),
                dated
                    .span()
                    .map_or_else(String::new, |it| local(calendar, it.from)),
                dated
                    .span()
                    .map_or_else(String::new, |it| local(calendar, it.to)),
                local(calendar, dated.ready),
                hands_on_minutes(dated).to_string(),
                dated.slack.to_string(),
                if dated.is_critical() { "yes" } else { "no" }.into(),
                dated.done.map_or_else(String::new, |day| day.to_string()),
            ])?;
        }
    }
    written.finish()
}

/// Its hands-on minutes.
fn hands_on_minutes(dated: &Dated) -> i64 {
    let each = dated
        .stretches
        .iter()
        .map(|it| it.to.duration_since(it.from).as_mins());
    if dated.done.is_some() { 0 } else { each.sum() }
}

/// An instant in the maker's time, with the offset from UTC.
fn local(calendar: &Calendar, at: Timestamp) -> String {
    let time = calendar.local(at);
    let seconds = calendar.zone().to_offset(at).seconds();
    let (sign, minutes) = (if seconds < 0 { '-' } else { '+' }, seconds.abs() / 60);
    format!(
        "{:04}-{:02}-{:02}T{:02}:{:02}{sign}{:02}:{:02}",
        time.year(),
        time.month(),
        time.day(),
        time.hour(),
        time.minute(),
        minutes / 60,
        minutes % 60
    )
}
