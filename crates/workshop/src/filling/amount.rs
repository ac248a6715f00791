//! The resin that one bore takes.

use board::{Board, Bore, Bottom, Filling, PieceKind};

use crate::bores::holds::insert_part_below;
use crate::bores::volume::{bore_volume, crown_volume};

/// Whether the bore of a hole that holds a piece is filled: it is deeper than the level of the resin.
pub fn is_filled(board: &Board, filling: &Filling, bore: Bore) -> bool {
    amount(board, filling, bore).takes(filling) > 0.0
}

/// What a marble finds of a bore: of a filled one, what the resin leaves open of it. A marble is lowest where a dome is
/// highest; what of that stands above the top face is leveled off. Other pieces find it as it was drilled.
pub fn open_bore(board: &Board, bore: Bore) -> Bore {
    let is_marble = board.piece.kind == PieceKind::Marble;
    let filled = board
        .filling
        .filter(|filling| is_marble && is_filled(board, filling, bore));
    filled.map_or(bore, |filling| Bore {
        depth: bore.depth.min((filling.below_top - filling.dome).max(0.0)),
        bottom: Bottom::Flat,
        ..bore
    })
}

/// Resin in one bore, mm³.
#[derive(Debug, Clone, Copy)]
pub struct Amount {
    /// Below the top face.
    pub within: f64,
    /// Above it.
    pub above: f64,
}

impl Amount {
    /// What is poured for it, waste included, ml.
    pub fn takes(self, filling: &Filling) -> f64 {
        (self.within + self.above) / 1000.0 * (1.0 + filling.waste)
    }
}

/// The resin in a bore. One that ends above the resin's level has none, nor has it a dome. What is set in it and
/// stands out of the level counts as covered by the dome.
pub fn amount(board: &Board, filling: &Filling, bore: Bore) -> Amount {
    let level = filling.below_top;
    let set = |level: f64| {
        let is_set = filling.around_insert && board.piece.kind == PieceKind::Magnet;
        if is_set {
            insert_part_below(&board.piece, bore, level)
        } else {
            0.0
        }
    };
    let body = bore_volume(bore, board.bores.spur, level) - set(level);
    // Rounding of a level at the floor is no resin.
    if body < 1e-6 {
        return Amount {
            within: 0.0,
            above: 0.0,
        };
    }
    let crown = |above: f64| {
        let covered = set(level - filling.dome) - set(level - filling.dome + above);
        (crown_volume(bore.radius(), filling.dome, above) - covered).max(0.0)
    };
    let above = crown((filling.dome - level).max(0.0));
    Amount {
        within: body + (crown(filling.dome) - above).max(0.0),
        above,
    }
}
