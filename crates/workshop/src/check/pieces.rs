//! Rule: pieces that stand side by side do not touch.

use board::{Board, Layout, show_length};
use geometry::{Circle, Web};

use super::{Finding, HAIR, Measure, Rule, Severity, counted, in_order};

pub const STATEMENT: &str = "Between pieces in neighboring holes the set gap is left, so that one can be lifted \
     without knocking the next. The default of 2 mm is common practice, no source.";

/// One finding for pieces that touch, one for gaps that are too small.
pub fn check(board: &Board, layout: &Layout) -> Vec<Finding> {
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
        .filter_map(|(gaps, severity)| found(board, layout, gaps, severity))
        .collect()
}

fn found(board: &Board, layout: &Layout, gaps: &[Web], severity: Severity) -> Option<Finding> {
    let worst = gaps.first()?;
    let name = |at: usize| layout.holes.get(at).map(|hole| hole.name);
    let (a, b) = (name(worst.a)?, name(worst.b)?);
    let length = |mm| show_length(mm, board.units);
    let pairs = counted(gaps.len(), "pair");
    let piece = length(board.piece.diameter);
    let message = if severity == Severity::Stop {
        format!(
            "{pairs} of holes cannot both hold a piece of {piece}; worst {a} and {b}: {} short",
            length(-worst.mm)
        )
    } else {
        let (gap, wanted) = (length(worst.mm), length(board.limits.piece_gap));
        format!(
            "{pairs} of pieces of {piece} stand too close; worst {a} and {b}: a gap of {gap}, {wanted} wanted"
        )
    };
    let holes = gaps
        .iter()
        .flat_map(|gap| [name(gap.a), name(gap.b)])
        .flatten()
        .collect();
    Some(Finding {
        severity,
        rule: Rule::Pieces,
        message,
        measured: Some(Measure::Mm(worst.mm)),
        wanted: Some(Measure::Mm(board.limits.piece_gap)),
        holes: in_order(holes),
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use board::{Piece, layout};

    fn with_marbles(diameter: f64) -> Vec<Severity> {
        let piece = Piece {
            diameter,
            ..Piece::default()
        };
        let board = Board {
            piece,
            ..Board::default()
        };
        check(&board, &layout(&board).unwrap())
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
