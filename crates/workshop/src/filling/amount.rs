//! The amount of resin in one bore.

use board::{Board, Bore, Bottom, Filling, PieceKind};
use geometry::{Piece, Profile};

use crate::Workpiece;
use crate::bores::holds::insert_profile;
use crate::bores::profile::bore_profile;

/// Whether the bore of a hole that holds a piece is filled: whether it is deeper than the level of the resin.
pub fn is_filled(board: &Board, filling: &Filling, bore: Bore) -> bool {
    amount(board, filling, bore).takes(filling) > 0.0
}

/// The part of a bore that is open to a marble or a peg: of a filled bore, the part above the resin. A piece is lowest where a dome
/// is highest; resin above the top face is leveled off. For magnet pieces, which stand on top, it is the bore as drilled.
pub fn open_bore(board: &Board, bore: Bore) -> Bore {
    let goes_in = board.piece.kind != PieceKind::Magnet;
    let filled = board
        .filling
        .filter(|filling| goes_in && is_filled(board, filling, bore));
    filled.map_or(bore, |filling| Bore {
        depth: bore.depth.min((filling.below_top - filling.dome).max(0.0)),
        bottom: Bottom::Flat,
        ..bore
    })
}

/// Clearance for resin or glue around a ball or disc, mm: 0.004 in; common practice, no source.
pub const LEAST_GAP: f64 = 0.1;

/// The diameter of a ball or disc that leaves room for resin in every filled bore, mm; `None` if no diameter does.
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
    /// Resin below the top face.
    pub within: f64,
    /// Resin above the top face.
    pub above: f64,
}

impl Amount {
    /// Resin poured into the bore, waste included, ml.
    pub fn takes(self, filling: &Filling) -> f64 {
        (self.within + self.above) / 1000.0 * (1.0 + filling.waste)
    }
}

/// The resin in a bore, with its dome, a spherical cap over the mouth of the bore. A bore that ends above the resin's level has
/// neither resin nor dome. A ball or disc that is set in it and rises above the level counts as covered by the dome.
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
    // A rounding error of a level at the floor is no resin.
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
