//! Shop math about the storage in the underside.

use board::{Measure, RecessShape};

use crate::Workpiece;
use crate::bores::check::inside::least_inside;
use crate::recess::lid_size::LidSize;
use crate::sums::{GEOMETRY, Sum, SumGroup};

/// The group; `None` if no recess is planned.
pub fn group(workpiece: &Workpiece) -> Option<SumGroup> {
    let mut sums = room(workpiece)?;
    if let Some((mm, hole)) = least_inside(workpiece) {
        let formula =
            "in three dimensions, with point or spur, to recess, lid, screws and mortises";
        let least = Sum::mm(
            "least wood between a hole and a cut inside",
            mm,
            formula,
            GEOMETRY,
        );
        sums.push(least.about(vec![hole]));
    }
    sums.extend(workpiece.lid().size.iter().flat_map(lid));
    Some(SumGroup {
        heading: "storage",
        sums,
        notes: Vec::new(),
    })
}

/// The number of pieces, the number that fits, and the height inside.
fn room(workpiece: &Workpiece) -> Option<Vec<Sum>> {
    let board = workpiece.board();
    let (recess, storage) = (board.recess?, workpiece.storage()?);
    let count =
        |name, count, formula, source| Sum::new(name, Some(Measure::count(count)), formula, source);
    Some(vec![
        Sum::mm(
            "height inside",
            storage.room,
            "depth of the recess - lid",
            GEOMETRY,
        ),
        Sum::mm(
            "wood above the recess",
            board.blank.thickness - recess.depth,
            "thickness of the board - depth of the recess",
            GEOMETRY,
        ),
        count(
            "pieces to store",
            storage.pieces,
            "players · start holes (or home holes, where more) + spare ones",
            GEOMETRY,
        ),
        count(
            "pieces it holds, about",
            storage.holds,
            "laid in rows, or lying loose, whichever is more",
            "an estimate",
        ),
        count(
            "pieces it holds at most",
            storage.at_most,
            "a bound: no packing holds more",
            "an estimate",
        ),
    ])
}

/// The size that the lid is cut to.
fn lid(lid: &LidSize) -> Vec<Sum> {
    let size = |name, mm| Sum::mm(name, mm, "its place in the board - clearance", GEOMETRY);
    let mut sums = match lid.shape {
        RecessShape::Round { diameter } => vec![size("diameter of the lid", diameter)],
        RecessShape::Straight { length, width, .. } => vec![
            size("lid along the grain", length),
            size("lid across the grain, inner face", width),
        ],
    };
    if let RecessShape::Straight { corner, .. } = lid.shape
        && corner > 0.0
    {
        sums.push(size("corners of the lid", corner));
    }
    if lid.leans_in > 0.0 {
        sums.push(Sum::mm(
            "lid across the grain, outer face",
            lid.outer(),
            "inner face - 2 · thickness · tan of the lean",
            GEOMETRY,
        ));
    }
    sums
}

#[cfg(test)]
mod tests {
    use super::*;
    use board::{Board, LidHold, Recess, Toward, Units, show_length};

    /// Work steps and drawings show lengths as typed, tables to a hundredth; for a lid both are the same.
    #[test]
    fn a_lid_measures_the_same_in_every_table_and_sentence() {
        for thickness in [3.0, 4.7, 25.4 / 4.0] {
            let mut recess = Recess {
                lid: thickness,
                ..Recess::default()
            };
            recess.lid_fit.overlap = 25.4 / 8.0;
            recess.lid_fit.hold = LidHold::Slides {
                angle: 14.0,
                toward: Toward::Left,
            };
            let board = Board {
                recess: Some(recess),
                ..Board::default()
            };
            let size = Workpiece::of(&board).unwrap().lid().size.unwrap();
            let told = lid(&size);
            let (length, width) = size.shape.sides();
            for units in [Units::Mm, Units::INCH] {
                let shown: Vec<String> = told.iter().map(|sum| sum.shown(units)).collect();
                let said = [length, width, size.outer()].map(|mm| show_length(mm, units));
                assert_eq!(shown, said);
            }
        }
    }
}
