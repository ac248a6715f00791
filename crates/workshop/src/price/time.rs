//! The time of the work on several boards: setup once, and the time for each board.

use crate::Workpiece;
use crate::job::{Operation, Task, batch_time};

/// The time of an operation on several boards, minutes.
///
/// Setup counts once for all boards, which is the time that a second board saves.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct OperationTime {
    /// The operation.
    pub task: Task,
    /// Its number among those of its task.
    pub number: u32,
    /// Setup, once.
    pub set_up: f64,
    /// The work on all boards after the setup.
    pub run: f64,
}

impl OperationTime {
    /// The total, minutes.
    pub const fn total(self) -> f64 {
        self.set_up + self.run
    }
}

/// The time of every operation on this many boards, in the order of the work.
///
/// An operation without hands-on work has no row.
pub fn times(workpiece: &Workpiece, boards: u32) -> Vec<OperationTime> {
    let operations = workpiece.work_plan().operations.iter();
    let worked = operations.filter(|it| it.hands_on.minutes > 0.0);
    let time = |operation: &Operation| {
        let time = batch_time(operation, workpiece);
        OperationTime {
            task: operation.task,
            number: operation.number,
            set_up: time.set_up,
            run: time.run(boards),
        }
    };
    worked.map(time).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use board::{Board, Filling};
    use testkit::assert_near;

    #[test]
    fn one_board_takes_the_time_of_the_plan_and_the_second_less() {
        let workpiece = Workpiece::of(&Board::default()).unwrap();
        let plan = workpiece.work_plan();
        let total = |boards| {
            times(&workpiece, boards)
                .into_iter()
                .map(OperationTime::total)
                .sum::<f64>()
        };
        assert_near!(total(1), plan.hands_on_minutes(), 1e-9);
        assert!(total(2) < 2.0 * total(1) && total(2) > total(1));
        // 15 minutes to set up the press, and one for each hole except the center hole.
        let bores = times(&workpiece, 3)
            .into_iter()
            .find(|time| time.task == Task::PunchedBores)
            .unwrap();
        assert_near!(bores.set_up, 15.0, 0.0);
        assert_near!(bores.run, 3.0 * 144.0, 1e-9);
    }

    #[test]
    fn the_time_for_resin_counts_once_per_board() {
        let filling = |boards| {
            let mut board = Board {
                filling: Some(Filling {
                    batch: 500.0,
                    ..Filling::default()
                }),
                ..Board::default()
            };
            board.schedule.boards = boards;
            board
        };
        let fill = |filled: u32| {
            let workpiece = Workpiece::of(&filling(filled)).unwrap();
            let times = times(&workpiece, 4);
            times
                .into_iter()
                .find(|time| time.task == Task::Fill)
                .unwrap()
                .total()
        };
        assert!(
            (fill(1) - fill(4)).abs() < 0.3 * fill(1),
            "{} {}",
            fill(1),
            fill(4)
        );
    }
}
