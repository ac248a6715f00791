//! The order of the work, derived from what each operation needs.

use super::needs::{NEEDS, Needs};
use super::{Need, Operation, Task};

/// The operations, each with its needs, in an order in which everything is done before it is needed.
///
/// Of the operations possible next, the first in [`Task::ALL`] is chosen, and of one task the lowest number, so that the result
/// does not depend on the order of the input.
pub fn ordered(mut left: Vec<Operation>) -> Vec<Operation> {
    left.sort_by_key(|operation| (operation.task, operation.number));
    let mut done: Vec<Operation> = Vec::with_capacity(left.len());
    while !left.is_empty() {
        let waiting = left.iter().fold(0_u64, |all, it| all | bit(it.task));
        let waits = |needs: &Needs| needs.before.iter().any(|task| waiting & bit(*task) != 0);
        let ready = |operation: &Operation| {
            let mut needs = NEEDS.iter().filter(|needs| needs.task == operation.task);
            !needs.any(waits)
        };
        // A compile-time check on the needs proves that one is always ready.
        let next = left.iter().position(ready).unwrap_or_default();
        let mut next = left.remove(next);
        next.needs = needs(next.task, &done);
        done.push(next);
    }
    done
}

/// A set with one task in it.
const fn bit(task: Task) -> u64 {
    1 << task as u64
}

const _: () = assert!(Task::ALL.len() <= 64, "a set of tasks is a u64");

/// The earlier operations that a task needs: the last one of each needed task, since each operation of a task needs the one
/// before it.
///
/// Needs are given as indices, so that the calendar and the critical path need no search.
fn needs(task: Task, done: &[Operation]) -> Vec<Need> {
    let mut told = 0_u64;
    let before = |(at, earlier): (usize, &Operation)| {
        if told & bit(earlier.task) != 0 {
            return None;
        }
        told |= bit(earlier.task);
        let why = if earlier.task == task {
            "each is done before the next"
        } else {
            let found = NEEDS
                .iter()
                .find(|needs| needs.task == task && needs.before.contains(&earlier.task));
            found?.why
        };
        Some(Need { operation: at, why })
    };
    let mut needs: Vec<Need> = done.iter().enumerate().rev().filter_map(before).collect();
    needs.reverse();
    needs
}

#[cfg(test)]
mod tests {
    use super::*;

    fn bare(task: Task, number: u32) -> Operation {
        Operation {
            number,
            ..Operation::of(task)
        }
    }

    #[test]
    fn every_task_can_be_put_in_order_from_any_input_order() {
        let all: Vec<Operation> = Task::ALL.iter().map(|task| bare(*task, 1)).collect();
        let order = ordered(all.clone());
        assert_eq!(order.len(), all.len());
        assert_eq!(ordered(all.into_iter().rev().collect()), order);
        for (at, operation) in order.iter().enumerate() {
            assert!(operation.needs.iter().all(|need| need.operation < at));
        }
    }

    #[test]
    fn operations_of_one_task_follow_their_numbers() {
        let coats = vec![
            bare(Task::Coat, 2),
            bare(Task::Coat, 1),
            bare(Task::Sand, 1),
        ];
        let order = ordered(coats);
        let told: Vec<(Task, u32)> = order.iter().map(|it| (it.task, it.number)).collect();
        assert_eq!(told, [(Task::Sand, 1), (Task::Coat, 1), (Task::Coat, 2)]);
        let needs: Vec<usize> = order[2].needs.iter().map(|need| need.operation).collect();
        assert_eq!(needs, [0, 1]);
    }

    #[test]
    fn an_operation_names_only_the_last_of_each_task_before_it() {
        let coats = (1..=400).map(|number| bare(Task::Coat, number));
        let order = ordered(
            coats
                .chain([bare(Task::Sand, 1), bare(Task::Harden, 1)])
                .collect(),
        );
        let places = |at: usize| -> Vec<usize> {
            order[at].needs.iter().map(|need| need.operation).collect()
        };
        assert_eq!(places(400), [0, 399]);
        assert_eq!((order[401].task, places(401)), (Task::Harden, vec![400]));
    }

    #[test]
    fn every_need_has_a_reason_and_occurs_once() {
        let mut seen = std::collections::BTreeSet::new();
        for needs in NEEDS {
            assert!(
                needs.why.len() > 10 && !needs.why.ends_with('.'),
                "{}",
                needs.why
            );
            for before in needs.before {
                assert!(seen.insert((needs.task, *before)), "{:?}", needs.task);
            }
        }
    }
}
