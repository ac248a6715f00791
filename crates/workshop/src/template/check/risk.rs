//! Rule: the errors of the work leave the webs thick enough.

use board::{Measure, show_length};

use crate::Workpiece;
use crate::check::{Finding, Rule, Severity};

pub const STATEMENT: &str = "With every step of the work as far off as you say it may be, the chance that wood between \
     any two holes comes out under its limit stays below the set risk; the chances of all pairs are added. The \
     default, 5 %, is common practice, no source.";

/// A finding where the risk is larger than wanted.
pub fn check(workpiece: &Workpiece) -> Option<Finding> {
    let board = workpiece.board();
    let &(budget, chance) = workpiece.budget()?;
    let web = budget.likely_web?;
    // Webs that are too thin as laid out are found by their own rule.
    let sound = budget.nominal_web?.mm >= board.limits.web;
    (sound && chance > board.limits.risk).then(|| {
        let message = format!(
            "With the errors of the work, wood between two holes may come out under {}; expect {} at the thinnest. Increase the \
             spacing, or work to smaller errors.",
            show_length(board.limits.web, board.units),
            Measure::mm(web.mm.max(0.0)).shown(board.units),
        );
        Finding::new(Severity::Caution, Rule::Risk, message)
            .measuring(Measure::share(chance), Measure::share(board.limits.risk))
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use board::Board;

    fn found(web: f64) -> Option<Finding> {
        let mut board = Board::default();
        board.limits.web = web;
        check(&Workpiece::of(&board).unwrap())
    }

    #[test]
    fn webs_far_over_the_limit_are_no_risk_and_near_it_they_are() {
        assert_eq!(found(3.0), None);
        let near = found(6.95).unwrap();
        assert!(matches!(near.measured, Some(Measure { value: share, .. }) if share > 0.5));
        // As laid out every web is 7 mm or more: beyond that it is the rule of webs that finds it.
        assert_eq!(found(7.5), None);
    }
}
