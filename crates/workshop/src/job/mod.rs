//! The plan of the work: every operation that a board implies, in an order that follows from what each needs.
//!
//! The rooms list the operations and how they are done; [`needs`] lists which comes before which, and why; [`order`] puts both
//! together. The method that the maker has chosen decides which operations there are.

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

pub use batch::{BatchTime, batch_time, is_shared};
pub(crate) use board::counted;
pub use method::Method;
pub use stage::WorkStage;
pub use task::{Room, Task};

/// Where a number of minutes or hours comes from that no maker has typed.
pub(crate) const USUAL: &str = "common practice, no source";
/// Where one comes from that the maker has typed.
pub(crate) const TIMED: &str = "as typed by the maker";

/// The work on a board.
#[derive(Debug, Clone, PartialEq)]
pub struct WorkPlan {
    /// The way in which the holes come into the wood.
    pub method: Method,
    /// The operations, in the order of the work.
    pub operations: Vec<Operation>,
}

/// One operation, done in one go, with its tools, its time and its needs.
///
/// Hands-on time and waits are separate: a wait can pass beside other work, and costs only days.
#[derive(Debug, Clone, PartialEq)]
pub struct Operation {
    /// The task.
    pub task: Task,
    /// Which one it is of those of its task, from 1.
    pub number: u32,
    /// The operations that come before it, with the reasons.
    pub needs: Vec<Need>,
    /// Tool and set-up, in words.
    pub tool: String,
    /// The time that hands are at it.
    pub hands_on: HandsOn,
    /// The time that it has to be left alone afterwards, before anything that needs it.
    pub wait: Option<Wait>,
    /// The cautions for it.
    pub cautions: Vec<Caution>,
    /// The work, a sentence for each step.
    pub work: Vec<String>,
    /// The groups of sums that go with it, by their headings.
    pub sums: &'static [&'static str],
}

/// Something that has to be done before an operation.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Need {
    /// Its place in [`WorkPlan::operations`], from 0; always before the operation that has the need.
    pub operation: usize,
    /// The reason.
    pub why: &'static str,
}

/// The time that hands are at an operation.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HandsOn {
    /// Minutes.
    pub minutes: f64,
    /// Where that comes from.
    pub source: &'static str,
}

/// The time that something is left alone.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Wait {
    /// Hours.
    pub hours: f64,
    /// The reason, as a sentence without its full stop: "the glue sets".
    pub reason: &'static str,
    /// Where that comes from.
    pub source: &'static str,
}

impl Operation {
    /// An operation of a task with only the cautions that it needs with any tool.
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

    /// The same with its tool and how long it takes by common practice, minutes.
    pub(crate) fn with(mut self, tool: impl Into<String>, minutes: f64) -> Self {
        self.tool = tool.into();
        self.hands_on.minutes = minutes;
        self
    }

    /// The same with sentences.
    pub(crate) fn says(mut self, work: impl IntoIterator<Item = String>) -> Self {
        self.work.extend(work);
        self
    }

    /// The same with what else to mind, each once, in the order lists show them.
    pub(crate) fn minding(mut self, cautions: &[Caution]) -> Self {
        self.cautions.extend(cautions);
        self.cautions.sort_unstable();
        self.cautions.dedup();
        self
    }

    /// The same, left alone for so many hours by common practice.
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
    /// The operations of a task, by their numbers.
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

    /// Whether a task is in it.
    pub fn has(&self, task: Task) -> bool {
        self.of(task).next().is_some()
    }

    /// Minutes of work by hand.
    pub fn hands_on_minutes(&self) -> f64 {
        let each = self.operations.iter().map(|it| it.hands_on.minutes);
        each.sum()
    }

    /// Hours of waiting where nothing else is done meanwhile.
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

/// The work on a board, room by room and then put in order, from what its document plans for and by the method that it asks for.
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

/// The maker's own times in place of common practice, for every operation of a task.
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

/// The papers and parts that go with the board.
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
