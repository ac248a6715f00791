//! Shop math about the calendar: hands-on hours and days of the whole order.

use board::Measure;

use crate::Workpiece;
use crate::job::batch_time;
use crate::sums::{Sum, SumGroup};

/// The note on the times of the plan and on the days that were counted.
const COUNTED: &str = "the plan of the work, with your hours; times that you have not typed are common practice, no source";

/// The group; `None` if there is no calendar, or it is not worked out yet.
pub fn group(workpiece: &Workpiece) -> Option<SumGroup> {
    let calendar = workpiece.calendar_by_now()?.ok()?;
    let days = calendar.every_day().count();
    let worked = calendar
        .every_day()
        .filter(|day| calendar.hours_on(*day) > 0.0);
    let count = |name, count: usize, formula| {
        let value = Measure::count(u32::try_from(count).unwrap_or(u32::MAX));
        Sum::new(name, Some(value), formula, COUNTED)
    };
    let sums = vec![
        Sum::new(
            "boards in the order",
            Some(Measure::count(calendar.boards)),
            "as typed",
            COUNTED,
        ),
        Sum::new(
            "work by hand, all boards",
            Some(Measure::hours(hands_on_hours(workpiece))),
            "set-up and one-time work + boards · time for each",
            COUNTED,
        ),
        count(
            "days from the first to the last",
            days,
            "both counted, waits, weekends and holidays included",
        ),
        count(
            "days with hours of work",
            worked.count(),
            "days from the first to the last, days off left out",
        ),
    ];
    Some(SumGroup {
        heading: "calendar",
        sums,
        notes: Vec::new(),
    })
}

/// Hands-on hours on all boards of the order.
pub fn hands_on_hours(workpiece: &Workpiece) -> f64 {
    let boards = workpiece.board().schedule.boards;
    let operations = workpiece.work_plan().operations.iter();
    let minutes = operations.map(|operation| batch_time(operation, workpiece).of(boards));
    minutes.sum::<f64>() / 60.0
}
