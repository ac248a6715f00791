//! The time of an operation on several boards: the part spent once, and the part for each board.
//!
//! Calendar and price both use it, so that the promised days and the charged hours agree.

use super::{Operation, Task};
use crate::Workpiece;

/// Hands-on minutes of an operation on any number of boards.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BatchTime {
    /// Spent once, before the first board: setup, or parts made once for all boards.
    pub set_up: f64,
    /// Spent on each board after that.
    pub each: f64,
}

impl BatchTime {
    /// Minutes on this many boards, setup included.
    pub fn of(self, boards: u32) -> f64 {
        self.set_up + self.run(boards)
    }

    /// Minutes on this many boards after the setup.
    pub fn run(self, boards: u32) -> f64 {
        self.each * f64::from(boards)
    }
}

/// The time of an operation in a workpiece's plan; on one board it is that of the plan.
///
/// A typed time is per board: none of it counts as setup, or further boards could cost nothing.
pub fn batch_time(operation: &Operation, workpiece: &Workpiece) -> BatchTime {
    let timed = &workpiece.board().schedule.timed;
    let is_timed = timed
        .iter()
        .any(|it| Task::of_word(&it.task) == Some(operation.task));
    let one = operation.hands_on.minutes;
    let set_up = if is_timed && !is_shared(operation.task) {
        0.0
    } else {
        set_up(operation.task).min(one)
    };
    BatchTime {
        set_up,
        each: one - set_up,
    }
}

/// What an amount of the work plan is for, where the order has several boards: " for each board"; empty for a single one.
pub(crate) const fn for_each(boards: u32) -> &'static str {
    match boards {
        0 | 1 => "",
        _ => " for each board",
    }
}

/// Whether a task is done once, however many boards there are: templates and jigs serve for all of them, the wood rests
/// together, and one test piece shows the finish for them all.
pub const fn is_shared(task: Task) -> bool {
    matches!(
        task,
        Task::Rest | Task::Trial | Task::Print | Task::RouterTemplate | Task::SectorJig
    )
}

/// Minutes of an operation that are spent once, however many boards there are: setting fences, stops and bits, cleaning a
/// brush. Common practice, no source.
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

#[cfg(test)]
mod tests {
    use super::*;
    use board::{Board, Coat, Timed};
    use testkit::assert_near;

    /// The minutes of a task on this many boards, where the maker typed a time.
    fn minutes(task: Task, typed: Option<f64>, boards: u32) -> f64 {
        let mut board = Board {
            finish: vec![Coat::default()],
            ..Board::default()
        };
        let timed = |minutes| Timed {
            task: task.word(),
            minutes,
        };
        board.schedule.timed = typed.map(timed).into_iter().collect();
        let workpiece = Workpiece::of(&board).unwrap();
        let operation = workpiece.work_plan().of(task).next().unwrap();
        batch_time(operation, &workpiece).of(boards)
    }

    #[test]
    fn a_typed_time_counts_for_each_board() {
        // Cutting the circle takes 20 minutes to set up by common practice; a maker who typed 12 needs 12 for each board.
        assert_near!(minutes(Task::Circle, Some(12.0), 5), 60.0, 1e-9);
        assert_near!(minutes(Task::Print, Some(12.0), 5), 12.0, 1e-9);
    }

    #[test]
    fn one_test_board_shows_the_finish_of_the_order() {
        let one = minutes(Task::Trial, None, 1);
        assert_near!(minutes(Task::Trial, None, 5), one, 1e-9);
    }
}
