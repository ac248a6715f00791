//! Rule: the template takes no more sheets than the maker cares to tape together, and their overlap is enough to join them.

use crate::check::{Finding, Rule, Severity};
use crate::{LEAST_OVERLAP, Tiling, Workpiece};
use board::{Measure, show_length};

pub const STATEMENT: &str = "The tiled template takes no more sheets than you care to tape together, since each joint \
     adds its error. Sheets overlap by {5 mm} or more, so that both show the crosses whole. The default of 24 sheets \
     and the {5 mm} are common practice, no source.";

/// Findings where the template takes more sheets than wanted, cannot be cut into sheets, or shows only half of each cross.
pub fn check(workpiece: &Workpiece) -> Vec<Finding> {
    match workpiece.tiling() {
        Ok(tiling) => many(workpiece, tiling)
            .into_iter()
            .chain(halved(workpiece, tiling))
            .collect(),
        Err(error) => vec![uncut(&workpiece.units().say(&error))],
    }
}

/// The finding about more sheets than wanted.
fn many(workpiece: &Workpiece, tiling: &Tiling) -> Option<Finding> {
    let (sheets, most) = (tiling.tiles.len() as u32, workpiece.board().limits.sheets);
    (sheets > most).then(|| {
        let message = format!(
            "The template takes {sheets} sheets; the limit is {most}. Larger paper, or one whole sheet from a print shop, has fewer joints."
        );
        Finding::new(Severity::Caution, Rule::Sheets, message)
            .measuring(Measure::count(sheets), Measure::count(most))
    })
}

/// The finding about an overlap narrower than a cross, of which each sheet shows a part.
fn halved(workpiece: &Workpiece, tiling: &Tiling) -> Option<Finding> {
    let overlap = tiling.overlap;
    let is_cut = tiling.tiles.len() > 1 && overlap < LEAST_OVERLAP - 1e-9;
    is_cut.then(|| {
        let length = |mm| show_length(mm, workpiece.units());
        let message = format!(
            "Sheets overlap by {} and cut off the crosses that join them. An overlap of {} shows them whole.",
            length(overlap),
            length(LEAST_OVERLAP)
        );
        Finding::new(Severity::Caution, Rule::Sheets, message)
            .measuring(Measure::mm(overlap), Measure::mm(LEAST_OVERLAP))
    })
}

/// The finding about a template that cannot be cut into sheets, for this reason.
fn uncut(reason: &str) -> Finding {
    let message = format!(
        "The template cannot be cut into sheets: {reason}. Check paper, margin and overlap."
    );
    Finding::new(Severity::Caution, Rule::Sheets, message)
}

#[cfg(test)]
mod tests {
    use super::*;
    use board::Board;

    #[test]
    fn only_more_sheets_than_wanted_give_a_finding() {
        let mut board = Board::default();
        let sheets = Workpiece::of(&board).unwrap().tiling().unwrap().tiles.len() as u32;
        board.limits.sheets = sheets;
        assert_eq!(check(&Workpiece::of(&board).unwrap()), []);
        board.limits.sheets = sheets - 1;
        let found = check(&Workpiece::of(&board).unwrap());
        assert_eq!(found.len(), 1);
        assert_eq!(found[0].measured, Some(Measure::count(sheets)));
    }

    #[test]
    fn an_overlap_narrower_than_a_cross_is_reported_for_joined_sheets() {
        let mut board = Board::default();
        let found = |board: &Board| check(&Workpiece::of(board).unwrap());
        board.template.overlap = 5.0;
        assert_eq!(found(&board), []);
        board.template.overlap = 1.0;
        assert!(found(&board)[0].message.contains("overlap by 1 mm"));
        board.template.paper = board::Paper::Custom {
            width: 700.0,
            height: 700.0,
        };
        assert_eq!(found(&board), []);
    }
}
