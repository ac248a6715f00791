//! The steps of the job sheet, each with its tools, its time, its reasons, its cautions and its work; their shop math comes
//! after all of them, out of the way.

use board::{Board, INCH, Measure, Quantity, Role, in_a_row};
use workshop::{
    Caution, Operation, Sum, SumGroup, WorkPlan, Workpiece, batch_time, cautions_of, is_shared,
};

use super::front::time;
use crate::{Align, Block, Cell, Column, Table};

/// Size of words such that sentences with boxes are 11 pt, which can be read at arm's length, mm.
const STEP: f64 = 11.0 / 72.0 * INCH / 0.9;
/// Size of tools, reasons and cautions, mm: 9 pt.
const BESIDE: f64 = 9.0 / 72.0 * INCH;

/// Builds the steps of a job sheet; a caution is printed in full where it first applies.
pub struct Steps<'a> {
    /// The board, for its shop math.
    workpiece: &'a Workpiece,
    /// Its operations, for their reasons.
    plan: &'a WorkPlan,
    /// The cautions already printed in full.
    minded: Vec<Caution>,
    /// Number of the last step.
    number: u32,
    /// The shop math of the steps that have some, each under the step's heading.
    figures: Vec<Block>,
}

impl<'a> Steps<'a> {
    /// The steps of a board, before any is printed.
    pub const fn new(workpiece: &'a Workpiece, plan: &'a WorkPlan) -> Self {
        Self {
            workpiece,
            plan,
            minded: Vec::new(),
            number: 0,
            figures: Vec::new(),
        }
    }

    /// The steps of a stage, each kept together; consecutive operations of one task are one step.
    pub fn of_stage(&mut self, operations: &[Operation]) -> Vec<Block> {
        let steps = operations.chunk_by(|one, next| one.task == next.task);
        steps
            .map(|step| Block::Kept(self.blocks_of(step)))
            .collect()
    }

    /// The shop math of all printed steps, under the headings of the steps; empty if none has any.
    pub fn figures(self) -> Vec<Block> {
        self.figures
    }

    /// A step: its heading, tool and time, the reasons for its place, its cautions, its work. Its shop math is kept for the
    /// end.
    ///
    /// Cautions come before the work, where they are read before a switch is turned on, and only those of this step.
    fn blocks_of(&mut self, step: &[Operation]) -> Vec<Block> {
        let Some(first) = step.first() else {
            return Vec::new();
        };
        self.number += 1;
        let heading = format!("{}. {}", self.number, first.task.title());
        self.keep_figures(first, &heading);
        let mut blocks = vec![Block::Type(BESIDE), Block::Heading(heading)];
        let again = self.again(step).unwrap_or_default();
        let set_up = self.set_up(step) + &again;
        if !set_up.is_empty() {
            blocks.push(Block::Words(set_up));
        }
        blocks.extend(self.reasons(first).map(Block::Words));
        blocks.extend(self.cautions(step).into_iter().map(Block::Caution));
        let work = step.iter().flat_map(|operation| &operation.work);
        blocks.extend([
            Block::Type(STEP),
            Block::Ticked(work.cloned().collect()),
            Block::Type(BESIDE),
        ]);
        blocks
    }

    /// Keeps the shop math that belongs to an operation, under the heading of its step.
    fn keep_figures(&mut self, operation: &Operation, heading: &str) {
        let groups = self.workpiece.sums().iter();
        let groups = groups.filter(|group| operation.sums.contains(&group.heading));
        let tables = groups.map(|group| figures(self.workpiece.board(), group));
        let mut blocks = vec![Block::Type(BESIDE), Block::Heading(heading.to_owned())];
        blocks.extend(tables);
        if blocks.len() > 2 {
            self.figures.push(Block::Kept(blocks));
        }
    }

    /// The reasons why it comes after the operations it needs, one sentence each; `None` if it needs none.
    ///
    /// A maker who knows the reasons knows which steps may be swapped, and which swap would ruin the board.
    fn reasons(&self, operation: &Operation) -> Option<String> {
        let mut reasons: Vec<(&str, Vec<String>)> = Vec::new();
        for need in &operation.needs {
            let Some(before) = self.plan.operations.get(need.operation) else {
                continue;
            };
            let title = before.task.title().to_lowercase();
            match reasons.iter_mut().find(|(why, _)| *why == need.why) {
                // Several coats of finish are one step.
                Some((_, titles)) if titles.contains(&title) => {}
                Some((_, titles)) => titles.push(title),
                None => reasons.push((need.why, vec![title])),
            }
        }
        let told = reasons.iter().map(|(why, titles)| {
            let titles: Vec<&str> = titles.iter().map(String::as_str).collect();
            format!("After {}: {why}.", in_a_row(&titles))
        });
        let told: Vec<String> = told.collect();
        (!told.is_empty()).then(|| told.join(" "))
    }

    /// The cautions that no earlier step had, in full.
    fn cautions(&mut self, step: &[Operation]) -> Vec<String> {
        let new = cautions_of(step)
            .into_iter()
            .filter(|caution| !self.minded.contains(caution));
        let new: Vec<Caution> = new.collect();
        self.minded.extend(&new);
        new.into_iter().map(Caution::in_full).collect()
    }

    /// The cautions that an earlier step had in full, by name.
    fn again(&self, step: &[Operation]) -> Option<String> {
        let known = cautions_of(step)
            .into_iter()
            .filter(|caution| self.minded.contains(caution));
        let known: Vec<String> = known.map(|caution| within(caution.label())).collect();
        (!known.is_empty()).then(|| format!(" Cautions as before: {}.", known.join(", ")))
    }

    /// Tool, time and waiting of a step.
    ///
    /// In a step of several operations, such as coats of finish, times add up, and the reason of the first wait stands for all.
    fn set_up(&self, step: &[Operation]) -> String {
        let tool = step.first().map_or("", |operation| &operation.tool);
        let mut told = Vec::new();
        if !tool.is_empty() {
            told.push(format!("Tools: {tool}."));
        }
        told.extend(self.hands_on(step));
        let waits: Vec<_> = step.iter().filter_map(|operation| operation.wait).collect();
        let hours: f64 = waits.iter().map(|wait| wait.hours).sum();
        if let Some(wait) = waits.first().filter(|_| hours > 0.0) {
            told.push(format!("Then wait {}: {}.", time(hours), wait.reason));
        }
        told.join(" ")
    }

    /// The hands-on time of a step: of one board, and of all boards of the order; none where it takes none.
    fn hands_on(&self, step: &[Operation]) -> Option<String> {
        let all = self.workpiece.board().schedule.boards;
        let one = hands_on_hours(self.workpiece, step, 1);
        let once = step.iter().all(|operation| is_shared(operation.task));
        (one > 0.0).then(|| match all {
            0 | 1 => format!("Hands-on: {}.", time(one)),
            _ if once => format!("Hands-on: {}, once for all {all} boards.", time(one)),
            _ => {
                let in_all = hands_on_hours(self.workpiece, step, all);
                format!(
                    "Hands-on: {} for one board, {} for all {all}.",
                    time(one),
                    time(in_all)
                )
            }
        })
    }
}

/// Hands-on time of operations on this many boards, hours: set up once, as in the calendar and the price.
pub fn hands_on_hours(workpiece: &Workpiece, operations: &[Operation], boards: u32) -> f64 {
    let minutes = operations
        .iter()
        .map(|operation| batch_time(operation, workpiece).of(boards));
    minutes.sum::<f64>() / 60.0
}

/// A name for use within a sentence: in lower case, except abbreviations.
fn within(name: &str) -> String {
    match name.strip_prefix("CNC") {
        Some(rest) => format!("CNC{}", rest.to_lowercase()),
        None => name.to_lowercase(),
    }
}

/// The sums of a group that are about the whole board or a bore; those about batches and sectors are on the filling plan.
fn figures(board: &Board, group: &SumGroup) -> Block {
    let counted = |at: Option<Measure>| at.is_some_and(|at| at.quantity == Quantity::Count);
    let sums = group.brief().into_iter().filter(|sum| !counted(sum.at));
    let sums: Vec<&Sum> = sums.collect();
    let titled = |sum: &Sum| sum.titled(board.units);
    let rows = sums.iter().map(|sum| {
        let title = titled(sum);
        // Holes of one diameter and two depths are distinguished by role.
        let alike = sums.iter().filter(|other| titled(other) == title).count();
        let roles = if alike > 1 { roles(sum) } else { String::new() };
        vec![
            Cell::Words(title + &roles),
            Cell::Words(sum.shown(board.units)),
        ]
    });
    Block::Table(Table {
        columns: Column::all(&[("Figure", Align::Start), ("Value", Align::End)]),
        rows: rows.collect(),
    })
}

/// The roles of a sum's holes, as in " (home, start)"; empty if it names no holes.
fn roles(sum: &Sum) -> String {
    let mut roles: Vec<Role> = sum.holes.iter().map(|hole| hole.id().role()).collect();
    roles.sort_unstable();
    roles.dedup();
    let names: Vec<&str> = roles.iter().map(|role| role.id()).collect();
    if names.is_empty() {
        return String::new();
    }
    format!(" ({})", names.join(", "))
}
