//! Sums about the storage in the underside.

use board::Board;

use super::{GEOMETRY, Sum, SumGroup};
use crate::{Measure, storage};

/// The group; none where no recess is planned.
pub fn group(board: &Board) -> Option<SumGroup> {
    let (recess, storage) = (board.recess?, storage(board)?);
    let count = |count| Some(Measure::Count(count));
    Some(SumGroup {
        heading: "storage",
        sums: vec![
            Sum::mm(
                "height inside",
                storage.room,
                "depth of the recess - lid",
                GEOMETRY,
            ),
            Sum::mm(
                "wood over the recess",
                board.blank.thickness - recess.depth,
                "thickness of the board - depth of the recess",
                GEOMETRY,
            ),
            Sum::new(
                "pieces to store",
                count(storage.pieces),
                "players · start holes (or home holes, where more) + spare ones",
                GEOMETRY,
            ),
            Sum::new(
                "pieces it holds, about",
                count(storage.holds),
                "laid in rows, or lying loose, whichever is more",
                "an estimate",
            ),
            Sum::new(
                "pieces it holds at most",
                count(storage.at_most),
                "a bound: no packing holds more",
                "an estimate",
            ),
        ],
        notes: Vec::new(),
    })
}
