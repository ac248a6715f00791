//! The jobs of an order: every operation of the work plan on every board.

use std::collections::BTreeMap;

use board::{Day, Schedule};

use super::days::Days;
use super::place::{Job, KINDS, Predecessor, StationUse};
use crate::WorkPlan;
use crate::job::{BatchTime, Need, Operation, Task, is_shared};

/// The station index of places in clamps.
const CLAMPS: usize = 0;
/// The station index of places to dry.
const DRYING: usize = 1;
/// Minutes in clamps: at least an hour by most labels, four to be safe; from memory.
const CLAMPED: i64 = 4 * 60;
/// Work of no more minutes than this is not left half done in the evening.
const SHORT: i64 = 60;

/// The work of an order.
///
/// A job is one operation on one board, or on all boards where it is shared; several jobs may need the same kind of station,
/// such as clamps or a place to dry.
pub struct Jobs<'a> {
    /// Every operation of the plan.
    pub work: Vec<Work<'a>>,
    /// The number of boards.
    pub boards: u32,
    /// Number of stations of each kind.
    pub stations: [u32; KINDS],
}

/// An operation of the plan, with what matters for its days.
pub struct Work<'a> {
    /// The operation.
    pub operation: &'a Operation,
    /// Hands-on minutes: on the first board, with the setup, and on each further one.
    pub minutes: [i64; 2],
    /// Minutes that it is left alone afterward.
    pub wait: i64,
    /// Whether it is done once for all boards.
    pub is_shared: bool,
    /// The day it was done, and the clock minute at which that day's work was over.
    pub done: Option<(Day, i64)>,
    /// Index of the last open operation of its task, up to this one; `None` if all of them are done.
    pub open: Option<usize>,
}

/// A job and its operation.
#[derive(Debug, Clone)]
pub struct Listed {
    /// The job.
    pub job: Job,
    /// Index of its operation in the plan.
    pub operation: usize,
    /// The board, from 1; none for all of them.
    pub board: Option<u32>,
    /// Minutes that it is left alone afterward.
    pub wait: i64,
    /// The clock minute at which its wait began, for an operation without hands-on work whose predecessors are all ticked off.
    pub since: Option<i64>,
}

/// Whether a task cannot be left half done however long it takes: glue and resin set, and a coat must keep a wet edge.
const fn is_whole(task: Task) -> bool {
    matches!(
        task,
        Task::Glue
            | Task::Inserts
            | Task::Seal
            | Task::Fill
            | Task::GrooveFill
            | Task::Undercoat
            | Task::Coat
    )
}

impl<'a> Jobs<'a> {
    /// The work of a plan with the given minutes for its operations.
    ///
    /// `schedule` has the number of boards, the stations and the ticks. A tick for an operation that is not in the plan is
    /// ignored here and reported by the check.
    pub fn of(
        plan: &'a WorkPlan,
        schedule: &Schedule,
        days: &Days,
        time: impl Fn(&Operation) -> BatchTime,
    ) -> Self {
        let ticks: Vec<(Option<Task>, u32, Day)> = schedule
            .done
            .iter()
            .map(|it| (Task::of_word(&it.task), it.number, it.day))
            .collect();
        let work = plan.operations.iter().map(|operation| {
            let is_it = |(task, number, _): &&(Option<Task>, u32, Day)| {
                *task == Some(operation.task) && *number == operation.number
            };
            let done = ticks.iter().find(is_it).map(|(.., day)| *day);
            let time = time(operation);
            Work {
                operation,
                minutes: [whole(time.of(1)), whole(time.each)],
                wait: operation.wait.map_or(0, |wait| whole(wait.hours * 60.0)),
                is_shared: is_shared(operation.task),
                done: done.map(|day| (day, days.closes(day.date()).unwrap_or_default())),
                open: None,
            }
        });
        Self {
            work: opened(work.collect()),
            boards: schedule.boards,
            stations: [schedule.clamps, schedule.drying],
        }
    }

    /// The number of open jobs.
    pub fn count(&self) -> usize {
        let left = self.work.iter().filter(|it| it.done.is_none());
        left.map(|it| {
            if it.is_shared {
                1
            } else {
                self.boards as usize
            }
        })
        .sum()
    }

    /// The clock minute at which every ticked operation is over, waits included; none without ticks.
    pub fn done_by(&self) -> Option<i64> {
        let done = self.work.iter().filter_map(|it| Some(it.done?.1 + it.wait));
        done.max()
    }

    /// The clock minute at which an operation without hands-on work began: when everything before it was over.
    ///
    /// It is none while an operation before it is open, or if none comes before it.
    fn since(&self, operation: usize) -> Option<i64> {
        let work = self.work.get(operation)?;
        let needs = &work.operation.needs;
        let is_done = |need: &Need| {
            let before = self.work.get(need.operation);
            before.is_some_and(|it| it.open.is_none())
        };
        let waits = work.minutes == [0, 0] && !needs.is_empty() && needs.iter().all(is_done);
        waits.then(|| self.not_before(operation))
    }

    /// The earliest clock minute of an operation, given the finished ones and their waits.
    ///
    /// It is the smallest possible number if nothing before it is done.
    pub fn not_before(&self, operation: usize) -> i64 {
        let needs = self
            .work
            .get(operation)
            .map_or(&[][..], |it| &it.operation.needs);
        let done = needs.iter().filter_map(|need| {
            let before = self.work.get(need.operation)?;
            Some(before.done?.1 + before.wait)
        });
        done.max().unwrap_or(i64::MIN)
    }

    /// The open jobs in working order, none before a clock minute.
    pub fn listed(&self, begin: i64) -> Vec<Listed> {
        let mut listed = self.left();
        for job in &mut listed {
            job.job.trail = job.wait;
            job.since = self.since(job.operation);
            job.job.not_before = match job.since {
                Some(since) => since,
                None => self.not_before(job.operation).max(begin),
            };
        }
        let firsts = self.firsts();
        for at in 0..listed.len() {
            let Some((operation, board)) = listed.get(at).map(|it| (it.operation, it.board)) else {
                continue;
            };
            let after = self.needed(operation, board, &firsts);
            if let Some(job) = listed.get_mut(at) {
                job.job.after = after;
            }
        }
        listed
    }

    /// The open jobs in reverse order, on a clock that runs backward, none before a minute of that clock.
    ///
    /// The predecessors of a job become its successors here, so that the same placing serves both directions.
    pub fn turned(&self, begin: i64) -> Vec<Listed> {
        let forward = self.listed(begin);
        let last = forward.len().saturating_sub(1);
        let mut turned: Vec<Listed> = forward
            .iter()
            .rev()
            .map(|it| {
                let mut it = it.clone();
                it.job.after = Vec::new();
                it.job.trail = 0;
                // On a clock that runs backward, work that has begun stays where it is.
                let begun = it.since.map_or(i64::MIN, |since| -since);
                it.job.not_before = (begin + it.wait).max(begun);
                it.job.station = it.job.station.map(StationUse::reversed);
                it
            })
            .collect();
        for (at, later) in forward.iter().enumerate() {
            for before in &later.job.after {
                if let Some(job) = turned.get_mut(last - before.job) {
                    job.job.after.push(Predecessor {
                        job: last - at,
                        lag: before.lag,
                    });
                }
            }
        }
        turned
    }

    /// The open jobs, without their predecessors.
    fn left(&self) -> Vec<Listed> {
        let mut left = Vec::new();
        for (operation, work) in self.work.iter().enumerate() {
            if work.done.is_some() {
                continue;
            }
            let boards = if work.is_shared { 1 } else { self.boards };
            for board in 1..=boards {
                let minutes = work.on(board);
                left.push(Listed {
                    job: Job {
                        minutes,
                        whole: work.is_whole(minutes),
                        station: work.station(),
                        ..Job::default()
                    },
                    operation,
                    board: (!work.is_shared).then_some(board),
                    wait: work.wait,
                    since: None,
                });
            }
        }
        left
    }

    /// The index of the first job of each operation in the list; `None` for an operation that is done.
    fn firsts(&self) -> Vec<Option<usize>> {
        let mut next = 0;
        let first = |work: &Work<'_>| {
            if work.done.is_some() {
                return None;
            }
            let first = next;
            next += if work.is_shared {
                1
            } else {
                self.boards as usize
            };
            Some(first)
        };
        self.work.iter().map(first).collect()
    }

    /// The predecessors of an operation on a board, with the waits between; a setup on the first board comes before the
    /// operation on any other.
    fn needed(
        &self,
        operation: usize,
        board: Option<u32>,
        firsts: &[Option<usize>],
    ) -> Vec<Predecessor> {
        let Some(work) = self.work.get(operation) else {
            return Vec::new();
        };
        let mut needed = Vec::new();
        if let (Some(2..), Some(Some(first))) = (board, firsts.get(operation))
            && work.on(1) > work.on(2)
        {
            needed.push(Predecessor {
                job: *first,
                lag: 0,
            });
        }
        for need in &work.operation.needs {
            let open = self.work.get(need.operation).and_then(|it| it.open);
            let Some((before, Some(first))) =
                open.and_then(|open| Some((self.work.get(open)?, firsts.get(open)?)))
            else {
                continue;
            };
            let lag = before.wait;
            let jobs = match (before.is_shared, board) {
                (true, _) => *first..first + 1,
                (false, Some(board)) => first + board as usize - 1..first + board as usize,
                (false, None) => *first..first + self.boards as usize,
            };
            needed.extend(jobs.map(|job| Predecessor { job, lag }));
        }
        needed
    }
}

/// The work of a plan with the last open operation of each task filled in.
///
/// An operation names the last one of each task before it. Where that is ticked off and an earlier one is not, it waits for the
/// earlier one.
fn opened(mut work: Vec<Work<'_>>) -> Vec<Work<'_>> {
    let mut last: BTreeMap<Task, usize> = BTreeMap::new();
    for (at, it) in work.iter_mut().enumerate() {
        if it.done.is_none() {
            last.insert(it.operation.task, at);
        }
        it.open = last.get(&it.operation.task).copied();
    }
    work
}

impl Work<'_> {
    /// Hands-on minutes on a board, counted from 1.
    pub const fn on(&self, board: u32) -> i64 {
        let [first, further] = self.minutes;
        if board == 1 { first } else { further }
    }

    /// Whether this many minutes of it are worked in one go.
    pub const fn is_whole(&self, minutes: i64) -> bool {
        is_whole(self.operation.task) || minutes <= SHORT
    }

    /// The kind of station that the board occupies, and for how many minutes before and after the hands-on work.
    fn station(&self) -> Option<StationUse> {
        let (kind, trail) = match self.operation.task {
            Task::Glue => (CLAMPS, self.wait.min(CLAMPED)),
            Task::Inserts
            | Task::Seal
            | Task::Fill
            | Task::GrooveFill
            | Task::Undercoat
            | Task::Stain
            | Task::Paint
            | Task::Coat => (DRYING, self.wait),
            _ => return None,
        };
        Some(StationUse {
            kind,
            lead: 0,
            trail,
        })
    }
}

/// Whole minutes, rounded up.
fn whole(minutes: f64) -> i64 {
    (minutes - 1e-6).ceil().max(0.0) as i64
}
