//! Rule: the template does not take more sheets than the maker cares to tape together.

use board::Board;

use crate::check::{Finding, Measure, Rule, Severity};

pub const STATEMENT: &str = "The tiled template takes no more sheets than the maker cares to tape together, since \
     each joint adds its error. The default of 24 is common practice, no source.";

/// A finding where the template takes more sheets than wanted.
pub fn check(board: &Board, sheets: u32) -> Option<Finding> {
    let most = board.limits.sheets;
    (sheets > most).then(|| {
        let message = format!(
            "the template takes {sheets} sheets, {most} at most are wanted; larger paper, or a whole sheet from a print shop, has fewer joints"
        );
        Finding::new(Severity::Caution, Rule::Sheets, message)
            .measuring(Measure::Count(sheets), Measure::Count(most))
    })
}

/// The finding where the template cannot be cut into sheets at all, for this reason.
pub fn uncut(reason: &str) -> Finding {
    let message =
        format!("the template cannot be cut into sheets: {reason}; see paper, margin and overlap");
    Finding::new(Severity::Caution, Rule::Sheets, message)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_more_than_wanted_is_a_finding() {
        let board = Board::default();
        assert_eq!(check(&board, 24), None);
        assert_eq!(
            check(&board, 25).unwrap().measured,
            Some(Measure::Count(25))
        );
    }
}
