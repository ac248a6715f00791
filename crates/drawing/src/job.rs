//! The job sheet: all of the work in its order, with what to mind, boxes to tick and the figures that go with it.
//!
//! Operations come from the plan of the work in crate `workshop`, in its order and with its reasons; each has the headings of the
//! sums that belong to it, by which the figures are looked up. Findings are told first: a board that is stopped should not be
//! cut by its sheet.

use board::{Board, Measure, Quantity, Role};
use workshop::{
    Caution, FIRST, Finding, Operation, Severity, Sum, SumGroup, WorkPlan, Workpiece, paper_size,
};

use crate::{Align, Block, Cell, Column, Head, Sheet, Stamp, Table, pages};

/// The job sheet of a board on the paper of its template: what is still found on it, then every operation in its order, with
/// what to mind, boxes to tick, and the figures that it needs.
///
/// ```
/// use board::Board;
/// use drawing::{Stamp, job_pages};
/// use workshop::Workpiece;
///
/// let sheets = job_pages(&Workpiece::of(&Board::default())?, &Stamp::default());
/// assert!(!sheets.is_empty() && sheets[0].label.starts_with("job sheet"));
/// # Ok::<(), board::BuildError>(())
/// ```
pub fn job_pages(workpiece: &Workpiece, stamp: &Stamp) -> Vec<Sheet> {
    let board = workpiece.board();
    let head = Head::of("Job sheet", "job sheet", workpiece, stamp);
    let plan = workpiece.work_plan();
    let mut blocks = vec![
        Block::Words(about(workpiece)),
        Block::Words(in_all(plan)),
        Block::Caution(FIRST.into()),
    ];
    blocks.extend(found(workpiece.findings()));
    let mut sheet = Steps {
        workpiece,
        plan,
        minded: Vec::new(),
    };
    let steps = plan.operations.chunk_by(|one, next| one.task == next.task);
    for (step, number) in steps.zip(1_u32..) {
        blocks.extend(sheet.told(step, number));
    }
    let paper = paper_size(board.template.paper);
    pages(paper, board.template.margin, &head, &blocks)
}

/// The board in a sentence.
fn about(workpiece: &Workpiece) -> String {
    let (board, layout) = (workpiece.board(), workpiece.layout());
    let length = |mm| board::show_length(mm, board.units);
    format!(
        "For {} players: {} holes, {} across, {} thick, pitch {}, played with {} of {}.",
        board.players,
        layout.holes.len(),
        length(board.blank.diameter),
        length(board.blank.thickness),
        length(board.pitch),
        board.piece.kind.label(),
        length(board.piece.diameter)
    )
}

/// The method, and what all of it takes.
///
/// Waits are added up one after the other, which is the most that they come to: glue sets while paper is printed.
fn in_all(plan: &WorkPlan) -> String {
    format!(
        "Holes by {}. About {} by hand, and {} of waiting if nothing else is done meanwhile; times that you have not typed are \
         common practice, no source.",
        plan.method.label(),
        time(plan.hands_on_minutes() / 60.0),
        time(plan.waiting_hours())
    )
}

/// A time as a shop tells it: minutes by the five, hours, days.
///
/// No estimate here is good to a minute, and none of a wait to an hour.
fn time(hours: f64) -> String {
    let whole = |number: f64, one: &str, many: &str| {
        let what = if number == 1.0 { one } else { many };
        format!("{number} {what}")
    };
    if hours < 1.75 {
        whole(((hours * 12.0).ceil() * 5.0).max(5.0), "minute", "minutes")
    } else if hours < 48.0 {
        whole(hours.round(), "hour", "hours")
    } else {
        whole((hours / 24.0).round(), "day", "days")
    }
}

/// The findings that are left when the sheet is made, worst first, with boxes to tick: a caution that the maker has decided
/// to live with is ticked off on paper. Notes stand in the window.
fn found(findings: &[Finding]) -> Vec<Block> {
    let told: Vec<&Finding> = findings
        .iter()
        .filter(|finding| finding.severity != Severity::Note)
        .collect();
    if told.is_empty() {
        return vec![Block::Words("The program found nothing to mend.".into())];
    }
    let mut blocks = vec![Block::Heading("To settle before wood is cut".into())];
    let row = |finding: &&Finding| {
        let what = match finding.severity {
            Severity::Stop => "stop",
            Severity::Caution | Severity::Note => "caution",
        };
        let rule = format!("{what}: {}", finding.rule.label());
        vec![
            Cell::Tick,
            Cell::Words(rule),
            Cell::Words(finding.message.clone()),
        ]
    };
    blocks.push(Block::Table(Table {
        columns: Column::all(&[
            ("", Align::Start),
            ("Rule", Align::Start),
            ("Found", Align::Start),
        ]),
        rows: told.iter().map(row).collect(),
    }));
    blocks
}

/// The steps of a job sheet, one after the other: a caution is told in full where it is first met.
struct Steps<'a> {
    /// The board, for its figures.
    workpiece: &'a Workpiece,
    /// Its operations, for their reasons.
    plan: &'a WorkPlan,
    /// The cautions that were told in full.
    minded: Vec<Caution>,
}

impl Steps<'_> {
    /// A step: its heading, tool and time, why it comes here, what to mind, its work, its figures.
    ///
    /// Cautions come before the work, where they are read before a switch is turned on, and only those of this step.
    fn told(&mut self, step: &[Operation], number: u32) -> Vec<Block> {
        let Some(first) = step.first() else {
            return Vec::new();
        };
        let mut blocks = vec![Block::Heading(format!("{number}. {}", first.task.title()))];
        let again = self.again(step).unwrap_or_default();
        let set_up = set_up(step) + &again;
        if !set_up.is_empty() {
            blocks.push(Block::Words(set_up));
        }
        blocks.extend(self.reasons(first).map(Block::Words));
        blocks.extend(self.cautions(step).map(Block::Caution));
        let work = step.iter().flat_map(|operation| &operation.work);
        blocks.push(Block::Ticked(work.cloned().collect()));
        let groups = self.workpiece.sums().iter();
        let groups = groups.filter(|group| first.sums.contains(&group.heading));
        blocks.extend(groups.map(|group| figures(self.workpiece.board(), group)));
        blocks
    }

    /// Why it comes after what it needs, a sentence for each reason; none where it needs nothing.
    ///
    /// A maker who knows the reason knows what may be swapped, and what would ruin the board.
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
        let told = reasons
            .iter()
            .map(|(why, titles)| format!("After {}: {why}.", titles.join(", ")));
        let told: Vec<String> = told.collect();
        (!told.is_empty()).then(|| told.join(" "))
    }

    /// The cautions that no step before had, in full.
    fn cautions(&mut self, step: &[Operation]) -> Option<String> {
        let mut words: Vec<&str> = Vec::new();
        for caution in cautions_of(step) {
            if !self.minded.contains(&caution) {
                self.minded.push(caution);
                words.push(caution.words());
            }
        }
        (!words.is_empty()).then(|| words.join(" "))
    }

    /// The cautions that a step before had in full, by name.
    fn again(&self, step: &[Operation]) -> Option<String> {
        let known = cautions_of(step).filter(|caution| self.minded.contains(caution));
        let known: Vec<String> = known.map(|caution| within(caution.label())).collect();
        (!known.is_empty()).then(|| format!(" Cautions as before: {}.", known.join(", ")))
    }
}

/// A name as it stands within a sentence: in small letters, but for letters that stand for words.
fn within(name: &str) -> String {
    match name.strip_prefix("CNC") {
        Some(rest) => format!("CNC{}", rest.to_lowercase()),
        None => name.to_lowercase(),
    }
}

/// The cautions of a step, each once, in the order in which lists show them.
///
/// Operations that make one step often have the same ones.
fn cautions_of(step: &[Operation]) -> impl Iterator<Item = Caution> {
    let all = step.iter().flat_map(|operation| &operation.cautions);
    let mut all: Vec<Caution> = all.copied().collect();
    all.sort_unstable();
    all.dedup();
    all.into_iter()
}

/// Tool, time and waiting of a step.
///
/// Of a step of several operations, as coats of finish are, times add up, and the reason of the first wait stands for all.
fn set_up(step: &[Operation]) -> String {
    let minutes: f64 = step
        .iter()
        .map(|operation| operation.hands_on.minutes)
        .sum();
    let tool = step.first().map_or("", |operation| &operation.tool);
    let mut told = Vec::new();
    if !tool.is_empty() {
        told.push(format!("Tools: {tool}."));
    }
    if minutes > 0.0 {
        told.push(format!("By hand: {}.", time(minutes / 60.0)));
    }
    let waits: Vec<_> = step.iter().filter_map(|operation| operation.wait).collect();
    let hours: f64 = waits.iter().map(|wait| wait.hours).sum();
    if let Some(wait) = waits.first().filter(|_| hours > 0.0) {
        told.push(format!("Then wait {}: {}.", time(hours), wait.reason));
    }
    told.join(" ")
}

/// The figures of a group that are of the whole board or of a bore; those of batches and sectors are on the filling plan.
fn figures(board: &Board, group: &SumGroup) -> Block {
    let counted = |at: Option<Measure>| at.is_some_and(|at| at.quantity == Quantity::Count);
    let sums = group.brief().into_iter().filter(|sum| !counted(sum.at));
    let sums: Vec<&Sum> = sums.collect();
    let titled = |sum: &Sum| sum.titled(board.units);
    let rows = sums.iter().map(|sum| {
        let title = titled(sum);
        // Holes of one diameter and two depths are told apart by what they are for.
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

/// The roles of a figure's holes, as in " (home, start)"; empty where it names no holes.
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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Shape;
    use board::{Filling, Wood};

    fn words(sheets: &[Sheet]) -> String {
        let marks = sheets.iter().flat_map(|sheet| &sheet.marks);
        let texts = marks.filter_map(|item| match &item.shape {
            Shape::Text(text) => Some(text.words.as_str()),
            _ => None,
        });
        texts.collect::<Vec<_>>().join(" ")
    }

    fn said(board: &Board) -> String {
        words(&job_pages(
            &Workpiece::of(board).unwrap(),
            &Stamp::default(),
        ))
    }

    #[test]
    fn steps_are_numbered_with_their_cautions_and_figures() {
        let board = Board {
            wood: Some(Wood::default()),
            filling: Some(Filling::default()),
            ..Board::default()
        };
        let said = said(&board);
        for part in [
            "1. Resting the wood",
            "10. Cutting the circle",
            "Resin",
            "Hand-over",
            "sheets of A4",
            "working time in the shop",
            "Clamp the blank",
        ] {
            assert!(said.contains(part), "{part} in {said}");
        }
        assert!(!said.contains("batch begins"));
        let plain = Workpiece::of(&Board::default()).unwrap();
        let sound = plain
            .findings()
            .iter()
            .all(|found| found.severity == Severity::Note);
        assert_eq!(sound, self::said(plain.board()).contains("nothing to mend"));
    }

    #[test]
    fn what_is_found_is_to_be_settled_first() {
        let board = Board {
            pitch: 11.0,
            ..Board::default()
        };
        let workpiece = Workpiece::of(&board).unwrap();
        let found = |severity: Severity| {
            let all = workpiece.findings().iter();
            let found = all.filter(move |finding| finding.severity == severity);
            found.map(|finding| finding.message.clone()).next().unwrap()
        };
        let said = said(&board);
        assert!(said.contains("stop: web") && said.contains(&found(Severity::Stop)));
        assert!(!said.contains(&found(Severity::Note)) && !said.contains("nothing to mend"));
    }

    /// Bores of one diameter and two depths: their figures say which holes they are about.
    #[test]
    fn figures_of_one_diameter_are_told_apart_by_role() {
        let mut board = Board::default();
        board.bores.start.depth = 8.0;
        let said = said(&board);
        assert!(said.contains("depth of the bore, 12 mm (start)"), "{said}");
        assert!(said.contains("(track, home"), "{said}");
    }
}
