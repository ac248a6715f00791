//! The order: boards and dates.

use crate::Quantity::Count;
use crate::field::Kind::Number;

fields! {
    /// The order.
    SCHEDULE_FIELDS:
    ORDERED "schedule.boards", [.schedule.boards] "Boards ordered", Number(Count.of(1.0, 200.0)),
        "All alike; calendar, shopping and price are for all of them";
}
