//! The order: boards and dates, the maker's hours, and finished steps.

use crate::Quantity::{Count, Time};
use crate::field::Kind::{Entries, Number, Text, Written};
use crate::field::Written::{Clock, Day, DaysOff, MaybeDay, Zone};
use crate::{Done, Range, TimeUnit, Timed};

/// Hours of work per day.
const HOURS: Range = Time(TimeUnit::Hour).of(0.0, 24.0);
/// Letters of the word for a task.
const WORD: Range = Count.range("letters", 0.0, 60.0);

fields! {
    /// The order, and the maker's hours.
    SCHEDULE_FIELDS:
    ORDERED "schedule.boards", [.schedule.boards] "Boards ordered", Number(Count.of(1.0, 200.0)),
        "All alike; calendar, filling plan, shopping and price are for all of them";
    FIRST_DAY "schedule.start", [.schedule.start] "First day", Written(MaybeDay("today")),
        "No work is planned before it";
    PROMISED "schedule.promised", [.schedule.promised] "Promised for", Written(MaybeDay("as early as possible")),
        "Everything is finished by the end of this day; the work is planned as late as that allows";
    HOURS_MONDAY "schedule.hours.monday_h", [.schedule.hours.monday] "Monday", Number(HOURS), "Hours at the bench", of shop;
    HOURS_TUESDAY "schedule.hours.tuesday_h", [.schedule.hours.tuesday] "Tuesday", Number(HOURS), "Hours at the bench", of shop;
    HOURS_WEDNESDAY "schedule.hours.wednesday_h", [.schedule.hours.wednesday] "Wednesday", Number(HOURS), "Hours at the bench", of shop;
    HOURS_THURSDAY "schedule.hours.thursday_h", [.schedule.hours.thursday] "Thursday", Number(HOURS), "Hours at the bench", of shop;
    HOURS_FRIDAY "schedule.hours.friday_h", [.schedule.hours.friday] "Friday", Number(HOURS), "Hours at the bench", of shop;
    HOURS_SATURDAY "schedule.hours.saturday_h", [.schedule.hours.saturday] "Saturday", Number(HOURS), "Hours at the bench", of shop;
    HOURS_SUNDAY "schedule.hours.sunday_h", [.schedule.hours.sunday] "Sunday", Number(HOURS), "Hours at the bench", of shop;
    BEGINS "schedule.begins", [.schedule.begins] "Work begins at", Written(Clock), "On the days that you work", of shop;
    DAYS_OFF "schedule.days_off", [.schedule.days_off] "Days off", Written(DaysOff(Count.range("days off", 0.0, 100.0))),
        "Holidays and vacation, separated by semicolons", of shop;
    ZONE "schedule.zone", [.schedule.zone] "Time zone", Written(Zone),
        "By its name in the IANA database, such as America/New_York; empty: that of this computer", of shop;
    CLAMPS "schedule.clamps", [.schedule.clamps] "Glue-ups at once", Number(Count.of(1.0, 200.0)),
        "How many boards your clamps can hold at once", of shop;
    DRYING "schedule.drying", [.schedule.drying] "Boards drying at once", Number(Count.of(1.0, 200.0)),
        "Level places, free of dust, where a board can lie while resin or finish dries", of shop;
    TIMED "schedule.timed", [.schedule.timed] "Own times", Entries(Count.range("own times", 0.0, 100.0)),
        "Your own minutes instead of common practice";
    DONE "schedule.done", [.schedule.done] "Work done", Entries(Count.range("work done", 0.0, 200.0)),
        "A step that is ticked off stays on its day; the rest is planned around it";
}

fields! {
    /// A time measured by the maker.
    TIMED_FIELDS:
    TIMED_TASK "schedule.timed[].task", [.schedule.timed[] .task] "Time #, task", Text(WORD), "The name of the task in the plan of the work, such as glue or coat";
    TIMED_MINUTES "schedule.timed[].each_min", [.schedule.timed[] .minutes] "Time #, each", Number(Time(TimeUnit::Minute).of(0.0, 10_000.0)),
        "By hand, for one board; with several coats, for each of them";
}

fields! {
    /// A finished operation.
    DONE_FIELDS:
    DONE_TASK "schedule.done[].task", [.schedule.done[] .task] "Done #, task", Text(WORD), "The name of the task in the plan of the work, such as glue or coat";
    DONE_NUMBER "schedule.done[].number", [.schedule.done[] .number] "Done #, number", Number(Count.of(1.0, 1000.0)),
        "Which one, where a task repeats, such as coats";
    DONE_DAY "schedule.done[].day", [.schedule.done[] .day] "Done #, on", Written(Day), "The day it was done, on all boards";
}

usual!(Timed, Done);
