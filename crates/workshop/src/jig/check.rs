//! Rule: the drill press reaches every hole.

use board::{HoleName, Measure};

use crate::Workpiece;
use crate::check::{Finding, HAIR, Rule, Severity, counted};

pub const STATEMENT: &str = "A drill press reaches holes no farther from the edge of the board than its chuck is from \
     its column. This is checked with the board cut round; on a blank with its corners still on, the press reaches \
     less far.";

/// A finding about the holes that are too far from the edge.
pub fn check(workpiece: &Workpiece) -> Option<Finding> {
    let throat = workpiece.board().jig.throat?;
    let edge = workpiece.board().blank.radius();
    let holes = workpiece.layout().holes.iter();
    let far: Vec<(f64, HoleName)> = holes
        .map(|hole| (edge - hole.center.to_vec2().length(), hole.name))
        .filter(|(away, _)| *away > throat + HAIR)
        .collect();
    let farthest = far.iter().map(|(away, _)| *away).max_by(f64::total_cmp)?;
    let message = format!(
        "The drill press reaches {} in from the edge, too short for {}. Drill them with a plunge router or a portable \
         drill guide, or on a press with a deeper throat.",
        Measure::mm(throat).shown(workpiece.units()),
        counted(far.len(), "hole")
    );
    let finding = Finding::new(Severity::Caution, Rule::Throat, message);
    let finding = finding.measuring(Measure::mm(farthest), Measure::mm(throat));
    Some(finding.about(far.into_iter().map(|(_, name)| name).collect()))
}

#[cfg(test)]
mod tests {
    use super::*;
    use board::Board;

    #[test]
    fn holes_deeper_in_than_the_throat_are_told() {
        let found = |throat| {
            let mut board = Board::default();
            board.jig.throat = throat;
            check(&Workpiece::of(&board).unwrap())
        };
        assert_eq!(found(None), None);
        // The center of a board of 640 is 320 in from the edge.
        assert_eq!(found(Some(320.0)), None);
        let center = found(Some(319.9)).unwrap();
        assert_eq!(
            (center.holes.len(), center.measured),
            (1, Some(Measure::mm(320.0)))
        );
        assert!(
            center.message.contains("too short for 1 hole."),
            "{center:?}"
        );
        assert!(found(Some(100.0)).unwrap().holes.len() > 20);
    }
}
