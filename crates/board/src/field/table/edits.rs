//! Hand edits of holes.

use super::bores::{BORE, bore};
use crate::Quantity::{Count, Length};
use crate::field::Kind::{Choice, Entries, Hole, Number, Tick};
use crate::field::choice;
use crate::{Board, Change, Edit, HoleId, Range, Role};

/// A hand-made move: no farther than across a board.
const OFFSET: Range = Length.of(-5000.0, 5000.0);

/// The most hand edits: at a few seconds each, a day's work.
pub(super) const MOST_BY_HAND: f64 = 2_000.0;

fields! {
    /// Hand edits.
    EDITS_FIELDS:
    EDITS "edits", [.edits] "Edited holes", Entries(Count.range("changes by hand", 0.0, MOST_BY_HAND)),
        "In the order they were made";
}

fields! {
    /// A hand edit. A hole is moved relative to where the pattern puts it, and added relative to the center pin in the player's
    /// frame.
    EDIT_FIELDS:
    EDIT_HOLE "edits[].hole", [.edits[] .hole] "Edit #, hole",
        Hole(Count.range("number of a hole changed by hand", 1.0, 9999.0)), "Its name on the board, as in T3-07; C is the center";
    EDIT_MIRRORED "edits[].mirrored", [.edits[] .mirrored] "Edit #, for all", Tick, "The same hole of every player";
    EDIT_KIND "edits[].change.kind", [.edits[] .change] "Edit #, change", Choice, "";
    EDIT_U "edits[].change.u_mm", [.edits[] .change {Change::Move | Change::Add => u}] "Moved clockwise", Number(OFFSET),
        "From its place in the pattern; for an added hole, from the player's axis";
    EDIT_V "edits[].change.v_mm", [.edits[] .change {Change::Move | Change::Add => v}] "Moved outward", Number(OFFSET),
        "From its place in the pattern; for an added hole, from the center pin";
}

bore! {
    /// The bore of an edited hole.
    EDIT_BORE: EDIT_DIAMETER EDIT_DEPTH EDIT_BOTTOM
        "edits[].change.bore", [.edits[] .change {Change::Bore | Change::Add => bore}] "Edited", us: "1/2" by "3/16"
}

kinds! {
    Change:
    "moved" => Move { u: 0.0, v: 0.0 },
    "left out" => Drop,
    "another bore" => Bore { bore: BORE },
    "added" => Add { u: 0.0, v: 0.0, bore: BORE },
}

impl choice::Part for Edit {
    /// A move by zero: it moves nothing until it is given a distance.
    fn begun(_: &Board) -> Self {
        Self {
            hole: HoleId::new(Role::Track, 1, 1),
            mirrored: true,
            change: Change::Move { u: 0.0, v: 0.0 },
        }
    }
}
