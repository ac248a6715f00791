//! The work plan tested on random boards, against faults of earlier plans, and against published shop practice.

mod cautions;
mod faults;
mod finishing;
mod implied;
mod made;
mod procedures;

use board::Board;

use super::{Operation, Task, WorkPlan};
use crate::Workpiece;

/// The plan of a board.
fn plan(board: &Board) -> WorkPlan {
    Workpiece::of(board).unwrap().work_plan().clone()
}

/// The tasks of a board in their order.
fn tasks(board: &Board) -> Vec<Task> {
    plan(board).operations.iter().map(|it| it.task).collect()
}

/// The only operation of a task.
fn only(board: &Board, task: Task) -> Operation {
    let plan = plan(board);
    let mut found = plan.of(task);
    let one = found.next().unwrap_or_else(|| panic!("no {task:?}"));
    assert_eq!(found.next(), None, "{task:?} twice");
    one.clone()
}

/// The words of an operation.
fn told(board: &Board, task: Task) -> String {
    only(board, task).work.join(" ")
}

/// Checks that these tasks all occur, in this order.
fn assert_order(board: &Board, order: &[Task]) {
    let all = tasks(board);
    let place = |task: &Task| {
        let found = all.iter().position(|it| it == task);
        found.unwrap_or_else(|| panic!("no {task:?} in {all:?}"))
    };
    for pair in order.windows(2) {
        assert!(place(&pair[0]) < place(&pair[1]), "{pair:?} in {all:?}");
    }
}
