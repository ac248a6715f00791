//! The time of the work on several boards: what is set up once, and what each board takes.

use crate::job::{Operation, Task, WorkPlan};

/// The time of an operation on so many boards, minutes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct OperationTime {
    /// The operation.
    pub task: Task,
    /// Its number among those of its task.
    pub number: u32,
    /// Setting up, once.
    pub set_up: f64,
    /// The work on all boards after that.
    pub run: f64,
}

impl OperationTime {
    /// All of it, minutes.
    pub const fn total(self) -> f64 {
        self.set_up + self.run
    }
}

/// Minutes of an operation that are spent once, however many boards there are: fences, stops and bits are set, a brush is cleaned.
/// The sum for one board is that of the plan. Common practice, no source.
const fn set_up(task: Task) -> f64 {
    match task {
        // Templates and jigs are made once.
        Task::Print | Task::RouterTemplate | Task::SectorJig | Task::PinBlock => f64::INFINITY,
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
        | Task::Coat => 15.0,
        Task::PinHole | Task::Corners | Task::CenterBore | Task::Seal | Task::Mask | Task::Base => {
            5.0
        }
        Task::Fill | Task::Ease | Task::Harden | Task::HandOver => 0.0,
        _ => 10.0,
    }
}

/// The time of every operation on so many boards, in the order of the work.
///
/// Resin is timed in the plan for all boards that are filled one after the other, `filled` of them.
pub fn times(plan: &WorkPlan, boards: u32, filled: u32) -> Vec<OperationTime> {
    let time = |operation: &Operation| {
        let all = operation.hands_on.minutes;
        let one = match operation.task {
            Task::Fill => all / f64::from(filled.max(1)),
            _ => all,
        };
        let once = set_up(operation.task).min(one);
        OperationTime {
            task: operation.task,
            number: operation.number,
            set_up: once,
            run: (one - once) * f64::from(boards),
        }
    };
    let worked = plan
        .operations
        .iter()
        .filter(|it| it.hands_on.minutes > 0.0);
    worked.map(time).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Workpiece;
    use board::{Board, Filling};
    use testkit::assert_near;

    #[test]
    fn one_board_takes_what_the_plan_has_and_the_second_less() {
        let workpiece = Workpiece::of(&Board::default()).unwrap();
        let plan = workpiece.work_plan();
        let total = |boards| {
            times(plan, boards, 1)
                .into_iter()
                .map(OperationTime::total)
                .sum::<f64>()
        };
        assert_near!(total(1), plan.hands_on_minutes(), 1e-9);
        assert!(total(2) < 2.0 * total(1) && total(2) > total(1));
        // 15 minutes to set the press up, and one for each hole but the center's.
        let bores = times(plan, 3, 1)
            .into_iter()
            .find(|time| time.task == Task::PunchedBores)
            .unwrap();
        assert_near!(bores.set_up, 15.0, 0.0);
        assert_near!(bores.run, 3.0 * 132.0, 1e-9);
    }

    #[test]
    fn resin_is_timed_for_each_board_once() {
        let filling = |boards| Board {
            filling: Some(Filling {
                boards,
                batch: 500.0,
                ..Filling::default()
            }),
            ..Board::default()
        };
        let fill = |filled: u32| {
            let workpiece = Workpiece::of(&filling(filled)).unwrap();
            let times = times(workpiece.work_plan(), 4, filled);
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
