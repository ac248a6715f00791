//! The order: how many boards, by when, the maker's hours, and the finished steps.

use serde::{Deserialize, Serialize};

use crate::when::{Clock, Day, DaysOff};

/// The number of boards, and the days on which they are made.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct Schedule {
    /// Number of identical boards that are made together.
    pub boards: u32,
    /// The first day of work; none: today.
    pub start: Option<Day>,
    /// The day by the end of which all work is done; none: as early as possible.
    pub promised: Option<Day>,
    /// Hours of work on each day of the week.
    pub hours: WorkHours,
    /// The time at which work begins each day.
    pub begins: Clock,
    /// Days on which nobody works.
    pub days_off: Vec<DaysOff>,
    /// The maker's time zone by its name in the IANA database; empty: the computer's.
    pub zone: String,
    /// Number of boards that can be in clamps at the same time.
    pub clamps: u32,
    /// Number of boards that can lie drying at the same time.
    pub drying: u32,
    /// Times measured by the maker.
    pub timed: Vec<Timed>,
    /// The finished operations.
    pub done: Vec<Done>,
}

/// Hours of work on each day of the week.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct WorkHours {
    /// On Mondays.
    #[serde(rename = "monday_h")]
    pub monday: f64,
    /// On Tuesdays.
    #[serde(rename = "tuesday_h")]
    pub tuesday: f64,
    /// On Wednesdays.
    #[serde(rename = "wednesday_h")]
    pub wednesday: f64,
    /// On Thursdays.
    #[serde(rename = "thursday_h")]
    pub thursday: f64,
    /// On Fridays.
    #[serde(rename = "friday_h")]
    pub friday: f64,
    /// On Saturdays.
    #[serde(rename = "saturday_h")]
    pub saturday: f64,
    /// On Sundays.
    #[serde(rename = "sunday_h")]
    pub sunday: f64,
}

impl WorkHours {
    /// The hours of each day of the week, starting on Monday.
    pub const fn days(&self) -> [f64; 7] {
        [
            self.monday,
            self.tuesday,
            self.wednesday,
            self.thursday,
            self.friday,
            self.saturday,
            self.sunday,
        ]
    }
}

/// The time that a maker takes for a task, as measured.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Timed {
    /// The word for the task, as in the plan of the work.
    pub task: String,
    /// Minutes of hands-on work for each operation of the task, per board.
    #[serde(rename = "each_min")]
    pub minutes: f64,
}

/// An operation that is finished on all boards.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Done {
    /// The word for its task, as in the plan of the work.
    pub task: String,
    /// Its number among the operations of its task, from 1.
    pub number: u32,
    /// The day it was done.
    pub day: Day,
}

impl Default for Schedule {
    /// One board by a maker who works from 8 to 4 on weekdays, with two sets of clamps and space for four boards to dry; common
    /// practice, no source.
    fn default() -> Self {
        Self {
            boards: 1,
            start: None,
            promised: None,
            hours: WorkHours::default(),
            begins: Clock::USUAL,
            days_off: Vec::new(),
            zone: String::new(),
            clamps: 2,
            drying: 4,
            timed: Vec::new(),
            done: Vec::new(),
        }
    }
}

impl Default for WorkHours {
    /// Eight hours on weekdays; common practice, no source.
    fn default() -> Self {
        Self {
            monday: 8.0,
            tuesday: 8.0,
            wednesday: 8.0,
            thursday: 8.0,
            friday: 8.0,
            saturday: 0.0,
            sunday: 0.0,
        }
    }
}

impl Default for Timed {
    /// Half an hour for the bores, as a starting point.
    fn default() -> Self {
        Self {
            task: "punched-bores".into(),
            minutes: 30.0,
        }
    }
}

impl Default for Done {
    /// Resting the wood, as a starting point.
    fn default() -> Self {
        Self {
            task: "rest".into(),
            number: 1,
            day: Day::FIRST,
        }
    }
}
