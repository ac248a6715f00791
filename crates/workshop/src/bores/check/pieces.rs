//! Rule: neighboring pieces do not touch.

use board::{Board, Measure, counted};
use geometry::Circle;

use crate::Mend;
use crate::Workpiece;
use crate::check::pairs::Pairs;
use crate::check::{Finding, HAIR, Rule, Severity};

pub const STATEMENT: &str = "Between pieces in neighboring holes at least the set gap is left, so that one can be \
     picked up without knocking the next. The default, {2 mm|1/16\"}, is common practice, no source.";

/// One finding for pieces that touch, one for gaps that are too small.
pub fn check(workpiece: &Workpiece) -> Vec<Finding> {
    let (board, layout) = (workpiece.board(), workpiece.layout());
    let radius = board.piece.diameter / 2.0;
    let pieces: Vec<Circle> = layout
        .seats(board)
        .iter()
        .map(|hole| Circle::new(hole.center, radius))
        .collect();
    let gaps = geometry::close_webs(&pieces, board.limits.piece_gap - HAIR);
    let (touching, close) = gaps.split_at(gaps.partition_point(|gap| gap.mm < -HAIR));
    let parts = [(touching, Severity::Stop), (close, Severity::Caution)];
    parts
        .into_iter()
        .filter_map(|(gaps, severity)| Some(found(board, &Pairs::of(layout, gaps)?, severity)))
        .collect()
}

/// A finding for pairs of one severity, naming the closest.
fn found(board: &Board, pairs: &Pairs<'_>, severity: Severity) -> Finding {
    let length = |mm| Measure::mm(mm).shown(board.units);
    let (a, b) = (pairs.a, pairs.b);
    let count = counted(pairs.count(), "pair of holes", "pairs of holes");
    let piece = length(board.piece.diameter);
    let message = if severity == Severity::Stop {
        format!(
            "{count} cannot hold two pieces of {piece}. Worst: {a} and {b}, {} too close. Increase the spacing.",
            length(-pairs.mm)
        )
    } else {
        let (gap, wanted) = (length(pairs.mm), length(board.limits.piece_gap));
        format!(
            "Pieces of {piece} stand too close in {count}. Worst: {a} and {b}, {gap} apart; the limit is {wanted}. \
             Increase the spacing."
        )
    };
    Finding::new(severity, Rule::Pieces, message)
        .measuring(Measure::mm(pairs.mm), Measure::mm(board.limits.piece_gap))
        .about(pairs.holes())
        .mended_by(&[Mend::WiderPitch])
}

#[cfg(test)]
mod tests {
    use super::*;
    use board::Piece;

    fn with_marbles(diameter: f64) -> Vec<Severity> {
        let piece = Piece {
            diameter,
            ..Piece::default()
        };
        let board = Board {
            piece,
            ..Board::default()
        };
        check(&Workpiece::of(&board).unwrap())
            .iter()
            .map(|found| found.severity)
            .collect()
    }

    #[test]
    fn pieces_larger_than_the_pitch_stop_and_close_ones_caution() {
        assert_eq!(with_marbles(16.0), []);
        assert_eq!(with_marbles(18.0), [Severity::Caution]);
        assert_eq!(with_marbles(20.0), [Severity::Stop]);
    }
}
