//! Fixes that change the bores.

use board::{Board, Bore, Center, Hole, HoleId, layout};

use super::MendError;
use crate::bores::owned::{OwnedBit, owned_bit};
use crate::bores::profile::tip;
use crate::bores::seat::{MarbleSeat, marble_seat};

/// Makes bores as deep as possible while they leave the least floor.
pub fn shallower_bores(board: &mut Board) -> Result<(), MendError> {
    let least = board.blank.thickness - board.limits.floor;
    each_bore(board, |bore, spur| {
        bore.depth = bore.depth.min((least - tip(*bore, spur)).max(0.0));
    })
}

/// Makes bores deep enough for a marble to rest on the rim.
pub fn deeper_bores(board: &mut Board) -> Result<(), MendError> {
    let marble = board.piece.diameter;
    each_seat(board, |bore, _| {
        if let MarbleSeat::OnFloor { wants, .. } = marble_seat(*bore, marble) {
            bore.depth = bore.depth.max(wants);
        }
    })
}

/// Makes bores as wide as the nearest of the maker's bits that suits the piece.
pub fn owned_bits(board: &mut Board) -> Result<(), MendError> {
    let before = board.clone();
    each_seat(board, |bore, _| {
        if let Some(OwnedBit::Near(bit)) = owned_bit(&before, *bore) {
            *bore = bore.by_cutter(bit);
        }
    })?;
    let nothing = MendError::Nothing("no bit in your shop suits the piece better");
    if *board == before {
        return Err(nothing);
    }
    Ok(())
}

/// Changes the bores of every role, of the center hole, and of holes with bores of their own; a pivot's hole too.
fn each_bore(board: &mut Board, change: impl Fn(&mut Bore, f64)) -> Result<(), MendError> {
    let before = layout(board)?;
    if let Center::Pivot { diameter, depth } = &mut board.center {
        let mut bore = Bore {
            diameter: *diameter,
            depth: *depth,
            bottom: board::Bottom::Flat,
        };
        change(&mut bore, board.bores.spur);
        *depth = bore.depth;
    }
    change_bores(board, &before.holes, change);
    Ok(())
}

/// Changes the bores that hold a piece: those of every role, of a playing hole at the center, and of holes with bores of their
/// own.
pub fn each_seat(board: &mut Board, change: impl Fn(&mut Bore, f64)) -> Result<(), MendError> {
    let before = layout(board)?;
    let seats = before.seats(board).to_vec();
    change_bores(board, &seats, change);
    Ok(())
}

/// Changes the bores of every role, of a playing hole at the center, and of those of the given holes that have bores of their
/// own.
///
/// A bore of its own was set by hand, and the hole keeps a bore of its own after the change.
fn change_bores(board: &mut Board, holes: &[Hole], change: impl Fn(&mut Bore, f64)) {
    let spur = board.bores.spur;
    let differs = |hole: &&Hole| role_bore(board, hole.name.id()) != Some(hole.bore);
    let own = holes.iter().filter(differs);
    let own: Vec<(HoleId, Bore)> = own.map(|hole| (hole.name.id(), hole.bore)).collect();
    let bores = &mut board.bores;
    for bore in [&mut bores.track, &mut bores.home, &mut bores.start] {
        change(bore, spur);
    }
    if let Center::Hole { bore, .. } = &mut board.center {
        change(bore, spur);
    }
    for (hole, mut bore) in own {
        let before = bore;
        change(&mut bore, spur);
        if bore != before {
            board.set_bore(hole, false, Some(bore));
        }
    }
}

/// The document's bore for a hole's role; none for a hole added by hand, which has its own.
fn role_bore(board: &Board, hole: HoleId) -> Option<Bore> {
    match hole.role() {
        board::Role::Track => Some(board.bores.track),
        board::Role::Home => Some(board.bores.home),
        board::Role::Start => Some(board.bores.start),
        board::Role::Center => board.center.bore(),
        board::Role::Extra => None,
    }
}
