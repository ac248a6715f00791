//! Rule: wood is left between a bore and the board's edge after the edge is rounded over.

use board::{Board, HoleName, Measure, counted};

use super::{Finding, HAIR, Rule, Severity};
use crate::Mend;
use crate::Workpiece;
use crate::figures::rim_margin;

pub const STATEMENT: &str = "Between a hole and the start of the roundover at least the set rim margin is left, so \
     that the router's bearing and a sanding block have wood to ride on. The default, {6 mm|1/4\"}, is common practice, no \
     source.";

/// One finding for bores that reach beyond the flat top, one for margins that are too small.
pub fn check(workpiece: &Workpiece) -> Vec<Finding> {
    let (board, layout) = (workpiece.board(), workpiece.layout());
    let flat = board.blank.flat_radius();
    let margins = layout
        .holes
        .iter()
        .map(|hole| (rim_margin(flat, hole.mouth()), hole.name));
    let close: Vec<_> = margins
        .filter(|(margin, _)| *margin < board.limits.rim - HAIR)
        .collect();
    let (over, thin): (Vec<_>, Vec<_>) = close.into_iter().partition(|(margin, _)| *margin < 0.0);
    let parts = [(over, Severity::Stop), (thin, Severity::Caution)];
    parts
        .into_iter()
        .filter_map(|(holes, severity)| found(board, &holes, severity))
        .collect()
}

/// A finding for holes of one severity, with the one nearest to the rim; none without holes.
fn found(board: &Board, holes: &[(f64, HoleName)], severity: Severity) -> Option<Finding> {
    let &(worst, name) = holes.iter().min_by(|a, b| a.0.total_cmp(&b.0))?;
    let length = |mm| Measure::mm(mm).shown(board.units);
    let count = |one, many| counted(holes.len(), one, many);
    let mend = mend(board, &length(2.0 * (board.limits.rim - worst)));
    let message = if severity == Severity::Stop {
        format!(
            "{} into the roundover or over the edge. Worst: {name}, by {}. {mend}.",
            count("hole runs", "holes run"),
            length(-worst)
        )
    } else {
        format!(
            "{} too close to the roundover. Worst: {name}, {} from it; the limit is {}. {mend}.",
            count("hole is", "holes are"),
            length(worst),
            length(board.limits.rim)
        )
    };
    Some(
        Finding::new(severity, Rule::Rim, message)
            .measuring(Measure::mm(worst), Measure::mm(board.limits.rim))
            .about(holes.iter().map(|(_, name)| *name).collect())
            .mended_by(&[Mend::FitBoard, Mend::FitPitch]),
    )
}

/// The remedy in words: a larger board and its size, or how to find it where pockets move with the edge.
fn mend(board: &Board, wider: &str) -> String {
    let pocket = board.pocket;
    let fixed = board.start == 0 || (pocket.bearing.is_some() && pocket.radius.is_some());
    if fixed {
        format!("Make the board {wider} larger, or the spacing smaller")
    } else {
        "Fit the board to the pattern, or make the spacing smaller".into()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use board::Blank;
    use testkit::assert_near;

    fn on_board(diameter: f64, roundover: f64) -> Vec<Finding> {
        let blank = Blank {
            diameter,
            thickness: 20.0,
            roundover,
        };
        let board = Board {
            blank,
            start: 0,
            ..Board::default()
        };
        check(&Workpiece::of(&board).unwrap())
    }

    #[test]
    fn the_margin_is_measured_after_the_roundover() {
        let outermost = geometry::ring_radius(19.0, 96) + 6.0;
        let found = on_board(2.0 * (outermost + 3.0 + 4.0), 4.0);
        assert_eq!(found.len(), 1);
        assert_eq!(found[0].severity, Severity::Caution);
        let Some(Measure {
            value: measured, ..
        }) = found[0].measured
        else {
            panic!("no measure")
        };
        assert_near!(measured, 3.0, 1e-9);
        assert_eq!(found[0].holes.len(), 96);
    }

    #[test]
    fn a_large_board_has_no_finding_and_a_small_one_a_stop() {
        assert_eq!(on_board(680.0, 4.0), []);
        assert_eq!(on_board(580.0, 4.0)[0].severity, Severity::Stop);
    }

    #[test]
    fn the_named_fix_works() {
        let found = on_board(580.0, 4.0);
        let Some(Measure {
            value: measured, ..
        }) = found[0].measured
        else {
            panic!("no measure")
        };
        assert_eq!(on_board(580.0 + 2.0 * (6.0 - measured) + 1e-9, 4.0), []);
    }
}
