//! The job sheet: all of the work step by step, with what to mind, boxes to tick and the figures that go with it.
//!
//! The steps come from the rooms of crate `workshop` in the order of the work, each with the headings of the sums that belong to it;
//! the figures are looked up by those. Findings are told first: a board that is stopped should not be cut by its sheet.

use board::{Board, Measure, Quantity};
use workshop::{FIRST, Finding, Severity, Step, SumGroup, Workpiece, job_steps, paper_size};

use crate::{Align, Block, Cell, Column, Head, Sheet, Stamp, Table, pages};

/// The job sheet of a board on the paper of its template: what is still found on it, then every step of the work in its
/// order, with what to mind, boxes to tick, and the figures that the step needs.
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
    let mut blocks = vec![Block::Words(about(workpiece)), Block::Caution(FIRST.into())];
    blocks.extend(found(workpiece.findings()));
    let steps = job_steps(workpiece);
    for (step, number) in steps.iter().zip(1_u32..) {
        blocks.extend(told(workpiece, step, number));
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

/// A step: its heading, what to mind, its work, its figures.
///
/// Cautions come before the work, where they are read before a switch is turned on, and only those of this step.
fn told(workpiece: &Workpiece, step: &Step, number: u32) -> Vec<Block> {
    let mut blocks = vec![Block::Heading(format!("{number}. {}", step.title))];
    if !step.cautions.is_empty() {
        let words: Vec<&str> = step
            .cautions
            .iter()
            .map(|caution| caution.words())
            .collect();
        blocks.push(Block::Caution(words.join(" ")));
    }
    let rows = step
        .work
        .iter()
        .map(|work| vec![Cell::Tick, Cell::Words(work.clone())]);
    blocks.push(Block::Table(Table {
        columns: Column::all(&[("", Align::Start), ("Work", Align::Start)]),
        rows: rows.collect(),
    }));
    let groups = workpiece
        .sums()
        .iter()
        .filter(|group| step.sums.contains(&group.heading));
    blocks.extend(groups.map(|group| figures(workpiece.board(), group)));
    blocks
}

/// The figures of a group that are of the whole board or of a bore; those of batches and sectors are on the filling plan.
fn figures(board: &Board, group: &SumGroup) -> Block {
    let counted = |at: Option<Measure>| at.is_some_and(|at| at.quantity == Quantity::Count);
    let sums = group.brief().into_iter().filter(|sum| !counted(sum.at));
    let rows = sums.map(|sum| {
        vec![
            Cell::Words(sum.titled(board.units)),
            Cell::Words(sum.shown(board.units)),
        ]
    });
    Block::Table(Table {
        columns: Column::all(&[("Figure", Align::Start), ("Value", Align::End)]),
        rows: rows.collect(),
    })
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
            "1. Blank",
            "5. Circle",
            "4. Filling",
            "6. Hand-over",
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
}
