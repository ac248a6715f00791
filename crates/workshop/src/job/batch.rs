//! The time of an operation on several boards: what is spent once, and what each board takes.
//!
//! Calendar and price both count by it, so that the days that the customer is told and the hours that are charged agree.

use board::Timed;

use super::{Operation, Task};
use crate::Workpiece;

/// Minutes that hands are at an operation, on any number of boards.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BatchTime {
    /// Spent once, before the first board: setting up, or all of what is made once for all boards.
    pub set_up: f64,
    /// On each board after that.
    pub each: f64,
}

impl BatchTime {
    /// Minutes on so many boards, set-up included.
    pub fn of(self, boards: u32) -> f64 {
        self.set_up + self.run(boards)
    }

    /// Minutes on so many boards once all is set up.
    pub fn run(self, boards: u32) -> f64 {
        self.each * f64::from(boards)
    }
}

/// The time of an operation of a workpiece's plan; on one board it is that of the plan.
///
/// The plan has the time of filling for all boards that are filled one after the other, unless the maker has timed one of them.
pub fn batch_time(operation: &Operation, workpiece: &Workpiece) -> BatchTime {
    let is_fill = |timed: &Timed| Task::of_word(&timed.task) == Some(Task::Fill);
    let filled = match workpiece.pour() {
        Some(pour) if operation.task == Task::Fill => {
            let is_timed = workpiece.board().schedule.timed.iter().any(is_fill);
            if is_timed { 1 } else { pour.boards.max(1) }
        }
        _ => 1,
    };
    let one = operation.hands_on.minutes / f64::from(filled);
    let set_up = set_up(operation.task).min(one);
    BatchTime {
        set_up,
        each: one - set_up,
    }
}

/// Whether a task is done once, however many boards there are: templates and jigs serve for all of them, and the wood rests together.
pub const fn is_shared(task: Task) -> bool {
    matches!(
        task,
        Task::Rest | Task::Print | Task::RouterTemplate | Task::SectorJig
    )
}

/// Minutes of an operation that are spent once, however many boards there are: fences, stops and bits are set, a brush is cleaned.
/// Common practice, no source.
const fn set_up(task: Task) -> f64 {
    if is_shared(task) {
        return f64::INFINITY;
    }
    match task {
        Task::RoutedBores
        | Task::SectorBores
        | Task::PivotBores
        | Task::MachinedBores
        | Task::Circle
        | Task::Grooves
        | Task::Recess => 20.0,
        Task::PunchedBores
        | Task::Mortise
        | Task::Resaw
        | Task::MachinedGrooves
        | Task::MachinedEdge
        | Task::Lid
        | Task::Undercoat
        | Task::Coat => 15.0,
        Task::PinHole | Task::Corners | Task::CenterBore | Task::Seal | Task::Mask | Task::Base => {
            5.0
        }
        Task::Fill | Task::Ease | Task::Harden | Task::HandOver => 0.0,
        _ => 10.0,
    }
}
