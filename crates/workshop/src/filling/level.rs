//! The level of the resin that leaves marbles and pegs their seat.

use board::{Board, Bore, Bottom, PieceKind, field};

use crate::Workpiece;
use crate::bores::seat::{MarbleSeat, marble_seat};
use crate::check::HAIR;

/// Room between a marble and the resin below it, mm; our own choice.
const UNDER_MARBLE: f64 = 0.5;

/// The depth that must stay open above the resin for a piece to sit in a bore, mm: what a marble sinks, with some room below it, or
/// for a peg as much as its shank is wide, which is common practice, no source. None for pieces that stand on top, and for a marble
/// that falls in.
pub fn seat_depth(board: &Board, bore: Bore) -> Option<f64> {
    match board.piece.kind {
        PieceKind::Marble => {
            let deep = Bore {
                depth: bore.depth.max(board.piece.diameter),
                bottom: Bottom::Flat,
                ..bore
            };
            match marble_seat(deep, board.piece.diameter) {
                MarbleSeat::OnRim { sinks, .. } => Some(sinks + UNDER_MARBLE),
                MarbleSeat::OnFloor { .. } | MarbleSeat::FallsIn => None,
            }
        }
        PieceKind::Peg => Some(board.piece.shank.unwrap_or(bore.diameter)),
        PieceKind::Magnet => None,
    }
}

/// The highest level of the resin, mm below the top face, at which every piece has its seat, rounded to what the maker can set; none
/// where no hole is deep enough for resin below that.
pub fn level_below_pieces(workpiece: &Workpiece) -> Option<f64> {
    let board = workpiece.board();
    let filling = board.filling?;
    let seats = workpiece.seats();
    let needed = seats.iter().filter_map(|seat| seat_depth(board, seat.bore));
    let deepest = needed.max_by(f64::total_cmp)? + filling.dome;
    let below_top = board.units.round_up(deepest);
    field::FILL_BELOW.range().check(below_top).ok()?;
    let has_room = seats.iter().any(|seat| seat.bore.depth > below_top + HAIR);
    has_room.then_some(below_top)
}

#[cfg(test)]
mod tests {
    use super::*;
    use board::{Filling, Units};

    fn level(change: impl FnOnce(&mut Board)) -> Option<f64> {
        let mut board = Board {
            filling: Some(Filling::default()),
            ..Board::default()
        };
        change(&mut board);
        level_below_pieces(&Workpiece::of(&board).unwrap())
    }

    /// 16 on 12 mm sinks 2.708497 mm.
    #[test]
    fn a_marble_keeps_half_a_millimeter_above_the_resin() {
        assert_eq!(level(|_| ()), Some(3.21));
        assert_eq!(
            level(|board| board.filling.as_mut().unwrap().dome = 1.0),
            Some(4.21)
        );
        let inches = level(|board| board.units = Units::INCH);
        assert_eq!(inches.map(|mm| mm / 25.4 * 64.0), Some(9.0));
    }

    #[test]
    fn a_peg_keeps_a_hole_as_deep_as_its_shank_is_wide() {
        let peg = |shank, depth: f64| {
            level(|board| {
                (board.piece.kind, board.piece.shank) = (PieceKind::Peg, Some(shank));
                for bore in [
                    &mut board.bores.track,
                    &mut board.bores.home,
                    &mut board.bores.start,
                ] {
                    bore.depth = depth;
                }
            })
        };
        assert_eq!(peg(6.0, 12.0), Some(6.0));
        assert_eq!(peg(6.0, 5.0), None);
    }
}
