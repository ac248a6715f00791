//! Rule: the template does not take more sheets than the maker cares to tape together.

use crate::Workpiece;
use crate::check::{Finding, Rule, Severity};
use board::Measure;

pub const STATEMENT: &str = "The tiled template takes no more sheets than the maker cares to tape together, since \
     each joint adds its error. The default of 24 is common practice, no source.";

/// A finding where the template takes more sheets than wanted, or cannot be cut into any.
pub fn check(workpiece: &Workpiece) -> Option<Finding> {
    let tiling = match workpiece.tiling() {
        Ok(tiling) => tiling,
        Err(error) => return Some(uncut(&workpiece.units().say(&error))),
    };
    let (sheets, most) = (tiling.tiles.len() as u32, workpiece.board().limits.sheets);
    (sheets > most).then(|| {
        let message = format!(
            "the template takes {sheets} sheets, {most} at most are wanted; larger paper, or a whole sheet from a print shop, has fewer joints"
        );
        Finding::new(Severity::Caution, Rule::Sheets, message)
            .measuring(Measure::count(sheets), Measure::count(most))
    })
}

/// The finding where the template cannot be cut into sheets at all, for this reason.
fn uncut(reason: &str) -> Finding {
    let message =
        format!("the template cannot be cut into sheets: {reason}; see paper, margin and overlap");
    Finding::new(Severity::Caution, Rule::Sheets, message)
}

#[cfg(test)]
mod tests {
    use super::*;
    use board::Board;

    #[test]
    fn only_more_than_wanted_is_a_finding() {
        let mut board = Board::default();
        let sheets = Workpiece::of(&board).unwrap().tiling().unwrap().tiles.len() as u32;
        board.limits.sheets = sheets;
        assert_eq!(check(&Workpiece::of(&board).unwrap()), None);
        board.limits.sheets = sheets - 1;
        let found = check(&Workpiece::of(&board).unwrap()).unwrap();
        assert_eq!(found.measured, Some(Measure::count(sheets)));
    }
}
