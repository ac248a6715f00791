//! The work plan: every operation that a board implies, in an order that follows from what each one needs.
//!
//! The modules of the subjects list the operations and how they are done; [`needs`] lists which task comes before which, and
//! why; [`order`] puts both together. The method that the maker has chosen decides which operations there are.

mod batch;
mod method;
mod needs;
mod order;
mod stage;
mod task;
#[cfg(test)]
mod tests;

use board::{PieceKind, Timed};

use crate::caution::at_work;
use crate::{
    Caution, Workpiece, base, blank, bores, colors, filling, finish, grooves, hardboard, jig,
    machine, recess, template,
};

pub(crate) use batch::for_each;
pub use batch::{BatchTime, batch_time, is_shared};
pub(crate) use board::counted;
pub use method::Method;
pub use stage::WorkStage;
pub use task::{Room, Task};

/// Source of a number of minutes or hours that the maker has not typed.
pub(crate) const USUAL: &str = "common practice, no source";
/// Source of a number of minutes or hours that the maker has typed.
pub(crate) const TIMED: &str = "as typed by the maker";

/// The work on a board.
#[derive(Debug, Clone, PartialEq)]
pub struct WorkPlan {
    /// The method by which the holes are made.
    pub method: Method,
    /// The operations, in the order of the work.
    pub operations: Vec<Operation>,
}

/// One operation, done without a break between steps, with its tools, its time and its needs.
///
/// Hands-on time and waits are separate: other work can be done during a wait, which costs only days.
#[derive(Debug, Clone, PartialEq)]
pub struct Operation {
    /// The task.
    pub task: Task,
    /// Its number among the operations of its task, from 1.
    pub number: u32,
    /// The operations that must come before it, with the reasons.
    pub needs: Vec<Need>,
    /// Tool and setup, in words.
    pub tool: String,
    /// The hands-on time.
    pub hands_on: HandsOn,
    /// The time that it must be left alone afterward, before anything that needs it.
    pub wait: Option<Wait>,
    /// The cautions for it.
    pub cautions: Vec<Caution>,
    /// The work, one sentence per step.
    pub work: Vec<String>,
    /// The groups of shop math that belong to it, by their headings.
    pub sums: &'static [&'static str],
}

/// An operation that must come before another.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Need {
    /// Its index in [`WorkPlan::operations`]; always less than that of the operation with the need.
    pub operation: usize,
    /// The reason.
    pub why: &'static str,
}

/// The hands-on time of an operation.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HandsOn {
    /// Minutes.
    pub minutes: f64,
    /// Their source.
    pub source: &'static str,
}

/// A time during which something is left alone.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Wait {
    /// Hours.
    pub hours: f64,
    /// The reason, as a sentence without its period: "the glue sets".
    pub reason: &'static str,
    /// Its source.
    pub source: &'static str,
}

impl Operation {
    /// An operation of a task, with only the cautions that apply with any tool.
    pub(crate) fn of(task: Task) -> Self {
        Self {
            task,
            number: 1,
            needs: Vec::new(),
            tool: String::new(),
            hands_on: HandsOn {
                minutes: 0.0,
                source: USUAL,
            },
            wait: None,
            cautions: at_work(task).to_vec(),
            work: Vec::new(),
            sums: &[],
        }
    }

    /// The operation with its tool and its usual time, minutes.
    pub(crate) fn with(mut self, tool: impl Into<String>, minutes: f64) -> Self {
        self.tool = tool.into();
        self.hands_on.minutes = minutes;
        self
    }

    /// The operation with its sentences.
    pub(crate) fn says(mut self, work: impl IntoIterator<Item = String>) -> Self {
        self.work.extend(work);
        self
    }

    /// The operation with further cautions, each once, in the order lists show them.
    pub(crate) fn minding(mut self, cautions: &[Caution]) -> Self {
        self.cautions.extend(cautions);
        self.cautions.sort_unstable();
        self.cautions.dedup();
        self
    }

    /// The operation followed by a wait of this many hours, by common practice.
    pub(crate) const fn waiting(mut self, hours: f64, reason: &'static str) -> Self {
        self.wait = Some(Wait {
            hours,
            reason,
            source: USUAL,
        });
        self
    }
}

/// The cautions of some operations, each once, in the order of the table of cautions.
///
/// ```
/// use board::Board;
/// use workshop::{Workpiece, cautions_of};
/// let workpiece = Workpiece::of(&Board::default())?;
/// let all = cautions_of(&workpiece.work_plan().operations);
/// assert!(all.is_sorted() && all.len() > 3);
/// # Ok::<(), board::BuildError>(())
/// ```
pub fn cautions_of(operations: &[Operation]) -> Vec<Caution> {
    let all = operations.iter().flat_map(|operation| &operation.cautions);
    let mut all: Vec<Caution> = all.copied().collect();
    all.sort_unstable();
    all.dedup();
    all
}

impl WorkPlan {
    /// The operations of a task, in the order of their numbers.
    ///
    /// ```
    /// use board::{Board, Coat};
    /// use workshop::{Task, Workpiece};
    /// let board = Board { finish: vec![Coat::default(); 3], ..Board::default() };
    /// let workpiece = Workpiece::of(&board)?;
    /// assert_eq!(workpiece.work_plan().of(Task::Coat).count(), 3);
    /// # Ok::<(), board::BuildError>(())
    /// ```
    pub fn of(&self, task: Task) -> impl Iterator<Item = &Operation> {
        self.operations
            .iter()
            .filter(move |operation| operation.task == task)
    }

    /// The tasks, each once, in the order in which they begin.
    ///
    /// ```
    /// use board::{Board, Coat};
    /// use workshop::{Task, Workpiece};
    /// let board = Board { finish: vec![Coat::default(); 3], ..Board::default() };
    /// let workpiece = Workpiece::of(&board)?;
    /// let tasks = workpiece.work_plan().tasks();
    /// assert_eq!(tasks.iter().filter(|task| **task == Task::Coat).count(), 1);
    /// # Ok::<(), board::BuildError>(())
    /// ```
    pub fn tasks(&self) -> Vec<Task> {
        let mut tasks: Vec<Task> = Vec::new();
        for operation in &self.operations {
            if !tasks.contains(&operation.task) {
                tasks.push(operation.task);
            }
        }
        tasks
    }

    /// Whether a task is in the plan.
    pub fn has(&self, task: Task) -> bool {
        self.of(task).next().is_some()
    }

    /// Total hands-on minutes.
    pub fn hands_on_minutes(&self) -> f64 {
        let each = self.operations.iter().map(|it| it.hands_on.minutes);
        each.sum()
    }

    /// Total hours of waits, counting only waits during which nothing else is done.
    ///
    /// ```
    /// use board::{Board, Filling};
    /// use workshop::Workpiece;
    /// let hours = |board: &Board| Workpiece::of(board).map(|it| it.work_plan().waiting_hours());
    /// let plain = hours(&Board::default())?;
    /// let filled = hours(&Board { filling: Some(Filling::default()), ..Board::default() })?;
    /// // Resin takes days until it can be cut.
    /// assert!(filled >= plain + 24.0);
    /// # Ok::<(), board::BuildError>(())
    /// ```
    pub fn waiting_hours(&self) -> f64 {
        let waits = self.operations.iter().filter_map(|it| it.wait);
        waits.map(|wait| wait.hours).sum()
    }
}

/// The work on a board, collected from the modules and put in order, for what its document plans and the method it chooses.
pub(crate) fn work_plan(workpiece: &Workpiece) -> WorkPlan {
    let method = Method::of(workpiece.board());
    let mut all = blank::steps::operations(workpiece);
    all.extend(template::steps::operations(workpiece));
    all.extend(hardboard::steps::operations(workpiece));
    all.extend(jig::steps::operations(workpiece));
    all.extend(bores::steps::operations(workpiece));
    all.extend(machine::steps::operations(workpiece));
    all.extend(filling::steps::operations(workpiece));
    all.extend(grooves::steps::operations(workpiece));
    all.extend(recess::steps::operations(workpiece));
    all.extend(base::steps::operations(workpiece));
    all.extend(colors::steps::operations(workpiece));
    all.extend(finish::steps::operations(workpiece));
    all.push(hand_over(workpiece));
    timed(&mut all, &workpiece.board().schedule.timed);
    WorkPlan {
        method,
        operations: order::ordered(all),
    }
}

/// Replaces usual times with the maker's own, for every operation of a task.
fn timed(all: &mut [Operation], times: &[Timed]) {
    for time in times {
        let Some(task) = Task::of_word(&time.task) else {
            continue;
        };
        for operation in all.iter_mut().filter(|it| it.task == task) {
            operation.hands_on = HandsOn {
                minutes: time.minutes,
                source: TIMED,
            };
        }
    }
}

/// Preparing the papers and parts that go with the board.
fn hand_over(workpiece: &Workpiece) -> Operation {
    let piece = workpiece.board().piece;
    let mut cautions = vec![Caution::SmallParts];
    if piece.kind == PieceKind::Magnet {
        cautions.push(Caution::Magnets);
    }
    let count = recess::pieces(workpiece.board());
    Operation {
        sums: &["pieces"],
        ..Operation::of(Task::HandOver)
    }
    .with("the pieces", 20.0)
    .minding(&cautions)
    .says([
        format!(
            "Count {count} {} of {}, try each in its hole, and turn and tilt the board.",
            piece.kind.label(),
            workpiece.length(piece.diameter)
        ),
        format!(
            "Put a label on it: for ages {} and up, and the reason.",
            piece.youngest
        ),
    ])
}
