//! Rule: a misdrilled hole is repaired, or off by too little to be seen.

use board::Units;

use super::readings::unknown;
use crate::Workpiece;
use crate::check::{Finding, Rule, Severity};
use crate::repair::plug::{Remedy, Repair, repairs, unknown_holes};

pub const STATEMENT: &str = "A misdrilled hole is plugged with the same wood, its grain along the board's, and drilled \
     again with the board clamped and the bit guided. A plug leaves {2 mm|5/64\"} of its wood around the new hole \
     and {1 mm|3/64\"} of the board's to the next hole; {0.5 mm|1/64\"} out of place goes unseen: common practice, \
     no source. Let the glue dry, as its label says, before you trim and drill the plug.";

/// One finding for each misdrilled hole, and one for names that the board does not have.
pub fn check(workpiece: &Workpiece) -> Vec<Finding> {
    let units = workpiece.board().units;
    let missing = unknown_holes(workpiece);
    let mut findings: Vec<Finding> = repairs(workpiece)
        .iter()
        .map(|repair| found(repair, units))
        .collect();
    if !missing.is_empty() {
        findings.push(Finding {
            rule: Rule::WrongHoles,
            ..unknown(&missing)
        });
    }
    findings
}

/// The finding about one hole: a note where no repair is needed.
fn found(repair: &Repair, units: Units) -> Finding {
    let severity = match repair.remedy {
        Remedy::Leave => Severity::Note,
        _ => Severity::Caution,
    };
    let message = repair.sentences(units);
    Finding::new(severity, Rule::WrongHoles, message).about(vec![repair.hole])
}

#[cfg(test)]
mod tests {
    use super::*;
    use board::{Board, Fault, WrongHole};

    fn told(hole: &str, fault: Fault, units: Units) -> Finding {
        let hole = hole.parse().unwrap();
        let board = Board {
            units,
            wrong: vec![WrongHole { hole, fault }],
            ..Board::default()
        };
        check(&Workpiece::of(&board).unwrap()).remove(0)
    }

    #[test]
    fn a_misdrilled_hole_is_reported_with_the_wood_left_and_its_remedy() {
        let off = told("T1-03", Fault::Off { u: 2.0, v: 0.0 }, Units::Mm);
        assert_eq!(off.severity, Severity::Caution);
        assert!(
            off.message
                .starts_with("T1-03 is 2 mm out of place. Wood left: 5"),
            "{}",
            off.message
        );
        assert!(off.message.contains("Bore a 16 mm hole"), "{}", off.message);
        let inch = told("T1-03", Fault::Off { u: 2.0, v: 0.0 }, Units::INCH);
        assert!(
            inch.message.contains("Bore an 11/16\" hole"),
            "{}",
            inch.message
        );
        let seen = told("T1-03", Fault::Off { u: 0.2, v: 0.0 }, Units::Mm);
        assert_eq!(seen.severity, Severity::Note);
    }

    #[test]
    fn a_name_that_the_board_does_not_have_is_reported() {
        let finding = told("T9-01", Fault::Deep { by: 1.0 }, Units::Mm);
        assert_eq!(finding.rule, Rule::WrongHoles);
        assert!(finding.message.contains("T9-1"), "{}", finding.message);
    }
}
