//! Rule: the roundover leaves an edge for the bit's bearing to run on.

use board::Measure;

use crate::Workpiece;
use crate::check::{Finding, HAIR, Rule, Severity};

pub const STATEMENT: &str = "A roundover is no larger than the board is thick, and leaves {3 mm|1/8\"} or more of \
     straight edge below it for the bearing of the bit; common practice, no source.";

/// Height of straight edge that a bearing needs, mm.
const EDGE: f64 = 3.0;

/// A finding if the roundover is larger than the edge of the board, or leaves too little of it for the bearing.
pub fn check(workpiece: &Workpiece) -> Option<Finding> {
    let blank = &workpiece.board().blank;
    let edge = blank.thickness - blank.roundover;
    if blank.roundover <= 0.0 || edge >= EDGE - HAIR {
        return None;
    }
    let length = |mm| Measure::mm(mm).shown(workpiece.units());
    let (severity, message) = if edge < -HAIR {
        let message = format!(
            "The roundover ({}) is larger than the board is thick ({}). Use a smaller roundover.",
            length(blank.roundover),
            length(blank.thickness)
        );
        (Severity::Stop, message)
    } else {
        let message = format!(
            "The roundover leaves {} of straight edge for the bit's bearing, which needs {}. Use a smaller roundover, \
             or guide the router along a template below the board.",
            length(edge.max(0.0)),
            length(EDGE)
        );
        (Severity::Caution, message)
    };
    let finding = Finding::new(severity, Rule::Roundover, message);
    Some(finding.measuring(Measure::mm(edge), Measure::mm(EDGE)))
}

#[cfg(test)]
mod tests {
    use super::*;
    use board::Board;

    #[test]
    fn a_bearing_needs_a_straight_edge() {
        let severity = |roundover, thickness| {
            let mut board = Board::default();
            (board.blank.roundover, board.blank.thickness) = (roundover, thickness);
            check(&Workpiece::of(&board).unwrap()).map(|found| found.severity)
        };
        assert_eq!(severity(0.0, 2.0), None);
        assert_eq!(severity(5.0, 8.0), None);
        assert_eq!(severity(5.01, 8.0), Some(Severity::Caution));
        assert_eq!(severity(8.0, 8.0), Some(Severity::Caution));
        assert_eq!(severity(8.01, 8.0), Some(Severity::Stop));
    }
}
