//! The bores in a section, and what is in them.

use board::{Board, Hole, PieceKind};
use geometry::{Piece, Profile};

use crate::bores::holds::{insert_below, insert_profile, peg_stand};
use crate::bores::profile::{bore_profile, lowest};
use crate::filling::open_bore;
use crate::section::revolved::Revolved;

/// A bore as the drill leaves it.
pub fn bore(hole: &Hole, spur: f64) -> Revolved {
    Revolved {
        center: hole.center,
        profile: bore_profile(hole.bore, spur),
    }
}

/// The ball or disc set into a hole for a magnet piece.
pub fn insert(board: &Board, hole: &Hole) -> Revolved {
    Revolved {
        center: hole.center,
        profile: insert_profile(&board.piece, hole.bore),
    }
}

/// The piece in or on a hole; `None` if it does not fit.
pub fn piece(board: &Board, hole: &Hole) -> Option<Revolved> {
    let (piece, bore) = (&board.piece, hole.bore);
    let radius = piece.diameter / 2.0;
    let profile = match piece.kind {
        PieceKind::Marble => {
            let lowest = lowest(open_bore(board, bore), piece.diameter);
            Profile::ball(lowest - radius, radius)
        }
        PieceKind::Peg => {
            let open = open_bore(board, bore);
            let stand = peg_stand(piece, open)?;
            let shank = (bore.diameter - stand.play) / 2.0;
            // Its largest diameter belongs to the part above the top face.
            let head = Piece::cylinder(radius.max(shank), -stand.above, 0.0);
            let shank = Piece::cylinder(shank, (-stand.above).max(0.0), open.depth);
            Profile::from(head).with(shank)
        }
        PieceKind::Magnet => {
            let foot = foot(board, hole);
            Piece::cylinder(radius, foot - piece.height, foot).into()
        }
    };
    Some(Revolved {
        center: hole.center,
        profile,
    })
}

/// The magnet in the foot of a piece; `None` if it was not measured.
pub fn magnet(board: &Board, hole: &Hole) -> Option<Revolved> {
    let magnet = board.piece.magnet?;
    let bottom = foot(board, hole) - magnet.set_back;
    Some(Revolved {
        center: hole.center,
        profile: Piece::cylinder(magnet.diameter / 2.0, bottom - magnet.thickness, bottom).into(),
    })
}

/// Depth of the underside of a magnet piece, which stands on the top face or on a ball or disc that is proud of it.
fn foot(board: &Board, hole: &Hole) -> f64 {
    insert_below(&board.piece, hole.bore).min(0.0)
}
