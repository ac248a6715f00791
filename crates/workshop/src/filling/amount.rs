//! The resin that one bore takes.

use board::{Board, Bore, Bottom, Filling, PieceKind};
use geometry::{Piece, Profile};

use crate::Workpiece;
use crate::bores::holds::insert_profile;
use crate::bores::profile::bore_profile;

/// Whether the bore of a hole that holds a piece is filled: it is deeper than the level of the resin.
pub fn is_filled(board: &Board, filling: &Filling, bore: Bore) -> bool {
    amount(board, filling, bore).takes(filling) > 0.0
}

/// The bore as a marble finds it: of a filled one, the part that the resin leaves open. A marble is lowest where a dome is
/// highest; resin above the top face is leveled off. Other pieces find it as it was drilled.
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

/// Room for resin or glue all round a ball or disc, mm: 0.004 in; common practice, no source.
pub const LEAST_GAP: f64 = 0.1;

/// The diameter of a ball or disc with room for resin in every bore that is filled, mm; none where there is none.
pub fn insert_with_room(workpiece: &Workpiece) -> Option<f64> {
    let board = workpiece.board();
    let filling = board.filling?;
    let seats = workpiece.seats().iter();
    let filled = seats.filter(|seat| is_filled(board, &filling, seat.bore));
    let narrowest = filled
        .map(|seat| seat.bore.diameter)
        .min_by(f64::total_cmp)?;
    let insert = narrowest - 2.0 * LEAST_GAP;
    (insert > 0.0).then_some(insert)
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
    /// Resin poured for it, waste included, ml.
    pub fn takes(self, filling: &Filling) -> f64 {
        (self.within + self.above) / 1000.0 * (1.0 + filling.waste)
    }
}

/// The resin in a bore, with its dome, a part of a ball over the mouth of the bore. A bore that ends above the resin's level has
/// neither resin nor dome. A ball or disc set in it and stands out of the level counts as covered by the dome.
pub fn amount(board: &Board, filling: &Filling, bore: Bore) -> Amount {
    let level = filling.below_top;
    let is_set = filling.around_insert && board.piece.kind == PieceKind::Magnet;
    let set = is_set.then(|| insert_profile(&board.piece, bore));
    let set = |upper: f64, lower: f64| {
        let set = set.as_ref();
        set.map_or(0.0, |set| set.volume_between(upper, lower))
    };
    let profile = bore_profile(bore, board.bores.spur);
    let body = profile.volume_between(level, f64::INFINITY) - set(level, f64::INFINITY);
    // Rounding of a level at the floor is no resin.
    if body < 1e-6 {
        return Amount {
            within: 0.0,
            above: 0.0,
        };
    }
    let peak = level - filling.dome;
    let crown = Profile::from(Piece::cap(bore.radius(), level, peak));
    let down_to = |lower: f64| (crown.volume_between(peak, lower) - set(peak, lower)).max(0.0);
    let above = down_to(0.0);
    Amount {
        within: body + (down_to(level) - above).max(0.0),
        above,
    }
}
