//! Rule: pieces stay in their holes while the board is turned.

use crate::Workpiece;
use crate::bores::holds::{any_leaves_below, flights};
use crate::check::{Finding, HAIR, Rule, Severity};
use board::{Measure, counted};

pub const STATEMENT: &str = "Up to the set speed of turning no piece leaves its hole. The default, 30 rpm or a turn in \
     two seconds, is a board turned by hand: our own estimate, no source. The math is statics at a steady speed: a \
     marble rolls out where (turning speed)² r = g · tan of its tilt, a leaning peg is assumed to have no friction, a magnet piece \
     slides where m (turning speed)² r = μ (F + m g). A jerk does more: try it.";

/// A finding where pieces leave below the speed limit that was set.
pub fn check(workpiece: &Workpiece) -> Option<Finding> {
    let board = workpiece.board();
    let limit = board.limits.spin - HAIR;
    if !any_leaves_below(workpiece, limit) {
        return None;
    }
    let flights = flights(workpiece);
    let fast = flights.partition_point(|flight| flight.speed < limit);
    let leaving = flights.get(..fast)?;
    let worst = leaving.first()?;
    let holes: Vec<_> = leaving
        .iter()
        .flat_map(|flight| flight.holes.iter().map(|hole| hole.name))
        .collect();
    let [speed, wanted] = [worst.speed, board.limits.spin].map(Measure::rpm);
    let message = format!(
        "Below {1}, {0}. First: {2}, which {3} at {4}. Seat the pieces deeper (end resin lower), or turn the board more slowly.",
        counted(
            holes.len(),
            "piece leaves its hole",
            "pieces leave their holes"
        ),
        wanted.shown(board.units),
        worst.holes.first()?.name,
        worst.leaving.label(),
        speed.shown(board.units)
    );
    Some(
        Finding::new(Severity::Caution, Rule::Spin, message)
            .measuring(speed, wanted)
            .about(holes),
    )
}

#[cfg(test)]
mod tests {
    use super::*;
    use board::Board;
    use board::{Magnet, PieceKind};

    fn found(board: &Board) -> Option<Finding> {
        check(&Workpiece::of(board).unwrap())
    }

    #[test]
    fn marbles_leave_from_the_outside_in_as_the_board_turns_faster() {
        let mut board = Board::default();
        assert_eq!(found(&board), None);
        board.limits.spin = 66.0;
        let outer = found(&board).unwrap();
        board.limits.spin = 200.0;
        let most = found(&board).unwrap();
        assert!(outer.holes.len() < most.holes.len());
        assert_eq!(outer.measured, most.measured);
        assert!(outer.message.contains("rolls out at"), "{outer:?}");
        // All but the piece at the center pin.
        board.limits.spin = 1000.0;
        assert_eq!(found(&board).unwrap().holes.len(), 144);
    }

    #[test]
    fn a_weak_magnet_lets_go_and_an_unmeasured_one_is_not_judged() {
        let mut board = Board::default();
        board.piece.kind = PieceKind::Magnet;
        assert_eq!(found(&board), None);
        board.piece.magnet = Some(Magnet {
            pull: 0.0,
            friction: 0.2,
            ..Magnet::default()
        });
        assert!(found(&board).unwrap().message.contains("slides off"));
        board.piece.magnet = Some(Magnet::default());
        assert_eq!(found(&board), None);
    }
}
