//! Rule: with the expected errors of the work, enough wood is left between holes.

use board::{Measure, show_length};

use crate::Workpiece;
use crate::check::{Finding, Rule, Severity};

pub const STATEMENT: &str = "With the error you entered for each step of the work, the chance that the wood between any \
     two holes comes out under its limit stays below the set risk; the chances of all pairs are added. The \
     default, 5 %, is common practice, no source.";

/// A finding if the risk of too little wood between two holes exceeds the limit that was set.
pub fn check(workpiece: &Workpiece) -> Option<Finding> {
    let board = workpiece.board();
    let &(budget, chance) = workpiece.budget()?;
    let web = budget.likely_web?;
    // Webs already too thin in the layout are reported by the rule about webs.
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
    fn webs_near_the_limit_are_a_risk_and_wide_webs_are_not() {
        assert_eq!(found(3.0), None);
        let near = found(6.95).unwrap();
        assert!(matches!(near.measured, Some(Measure { value: share, .. }) if share > 0.5));
        // The thinnest web of the layout is 7 mm: with a higher limit, the rule about webs reports it instead.
        assert_eq!(found(7.5), None);
    }
}
