//! Rule: the lid of the recess neither binds nor falls out in any season.

use board::{Measure, show_length};

use crate::Workpiece;
use crate::check::{Finding, HAIR, Rule, Severity};
use crate::recess::lid_moves::{LidMoves, lid_moves};

pub const STATEMENT: &str = "In every season of the customer's rooms the lid has play in its place, and the ledge or \
     groove holds it on both sides when it is pushed to one. Checked with board and lid at rest in the season and, \
     for a lid across the grain or of plywood, with the lid at rest and the board still as it was cut, since thin \
     wood follows the air faster (common practice, no source). A lid of the same wood with its grain along the \
     board's moves with it. The movement is that of the Wood Handbook (FPL-GTR-190, Eq. 13-2).";

/// A finding if the lid binds or falls out.
pub fn check(workpiece: &Workpiece) -> Option<Finding> {
    let board = workpiece.board();
    let moves = lid_moves(workpiece)?.ok()?;
    let planned = board.recess?.lid_fit.clearance;
    let (wrong, wanted) = wrong(&moves)?;
    let length = |mm: f64| show_length((mm * 100.0).round() / 100.0, board.units);
    let advice = match moves.most {
        Some(most) if most < moves.least => format!(
            "No clearance suits every season: below {} it binds, above {} it comes out. Let the ledge or groove hold more.",
            length(moves.least),
            length(most)
        ),
        Some(most) => format!(
            "{} is planned; a clearance of {} to {} is right.",
            length(planned),
            length(moves.least),
            length(most)
        ),
        None => format!(
            "{} is planned; a clearance of {} or more is right.",
            length(planned),
            length(moves.least)
        ),
    };
    Some(
        Finding::new(
            Severity::Caution,
            Rule::Lid,
            format!("The lid {wrong}. {advice}"),
        )
        .measuring(Measure::mm(planned), Measure::mm(wanted)),
    )
}

/// The fault of a lid, and the clearance that it needs.
fn wrong(moves: &LidMoves) -> Option<(&'static str, f64)> {
    if moves.tightest < -HAIR {
        return Some(("binds in one season", moves.least));
    }
    let most = moves.most?;
    (moves.widest > moves.held + HAIR).then_some(("comes out in one season", most))
}

#[cfg(test)]
mod tests {
    use super::*;
    use board::Board;
    use board::{LidFit, LidGrain, LidHold, Recess, Toward, Wood};

    /// The findings for a lid whose grain runs across that of the board.
    fn found(hold: LidHold, overlap: f64, clearance: f64) -> Option<Finding> {
        with_grain(hold, overlap, clearance, LidGrain::AcrossBoard)
    }

    fn with_grain(hold: LidHold, overlap: f64, clearance: f64, grain: LidGrain) -> Option<Finding> {
        check(
            &Workpiece::of(&Board {
                recess: Some(Recess {
                    lid: 6.0,
                    lid_fit: LidFit {
                        hold,
                        overlap,
                        clearance,
                        grain,
                    },
                    ..Recess::default()
                }),
                wood: Some(Wood {
                    moisture: Some(9.0),
                    ..Wood::default()
                }),
                ..Board::default()
            })
            .unwrap(),
        )
    }

    #[test]
    fn a_lid_made_to_fit_tightly_binds() {
        let tight = found(LidHold::LiesIn, 5.0, 0.2).unwrap();
        assert!(tight.message.starts_with("The lid binds"), "{tight:?}");
        assert_eq!(tight.measured, Some(Measure::mm(0.2)));
        assert_eq!(found(LidHold::LiesIn, 5.0, 1.5), None);
        // A lid of the board's own wood moves with the board.
        let own = |clearance| with_grain(LidHold::LiesIn, 5.0, clearance, LidGrain::WithBoard);
        assert_eq!((own(0.2), own(0.01)), (None, None));
        // Only its buttons hold a lid without a ledge.
        assert_eq!(found(LidHold::LiesIn, 0.0, 9.0), None);
    }

    #[test]
    fn a_lid_that_is_loose_comes_out_of_its_groove() {
        let slides = |clearance| {
            let hold = LidHold::Slides {
                angle: 20.0,
                toward: Toward::Left,
            };
            found(hold, 2.0, clearance)
        };
        // The groove holds 6 tan 20° = 2.18 mm.
        assert_eq!(slides(1.1), None);
        let loose = slides(1.9).unwrap();
        assert!(loose.message.starts_with("The lid comes out"), "{loose:?}");
        let steep = LidHold::Slides {
            angle: 5.0,
            toward: Toward::Left,
        };
        let never = found(steep, 2.0, 0.5).unwrap();
        assert!(
            never.message.contains("No clearance suits every season"),
            "{never:?}"
        );
    }
}
