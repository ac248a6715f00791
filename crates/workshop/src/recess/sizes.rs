//! The sizes shown in the section of the recess.

use board::{LidHold, Recess};
use geometry::Angle;

use crate::{Lid, Workpiece};

/// The sizes of a storage recess, across the grain through its center; lengths in mm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RecessSizes {
    /// Its width.
    pub width: f64,
    /// Its depth from the underside.
    pub depth: f64,
    /// The wood above it.
    pub over: f64,
    /// Thickness of the board.
    pub thickness: f64,
    /// Its lid, if it has one.
    pub lid: Option<LidPlace>,
}

/// The sizes of a lid's place across the grain; lengths in mm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LidPlace {
    /// Thickness of the lid, and depth of the cut for it.
    pub thickness: f64,
    /// Width of ledge or groove beyond the recess on each side, at the underside.
    pub overlap: f64,
    /// Slant of the sides from upright; `None` if they are upright.
    pub leans: Option<Angle>,
    /// Width of its place at the underside.
    pub mouth: f64,
    /// Width of its place at its upper end.
    pub inside: f64,
    /// Width of its place less that of the lid.
    pub clearance: f64,
}

/// The sizes of the recess of a board; `None` if none is planned.
pub fn recess_sizes(workpiece: &Workpiece) -> Option<RecessSizes> {
    let board = workpiece.board();
    let recess = board.recess?;
    Some(RecessSizes {
        width: recess.shape.sides().1,
        depth: recess.depth,
        over: board.blank.thickness - recess.depth,
        thickness: board.blank.thickness,
        lid: (recess.lid > 0.0).then(|| lid_place(workpiece.lid(), &recess)),
    })
}

/// The cut for a lid, across the grain.
fn lid_place(lid: &Lid, recess: &Recess) -> LidPlace {
    let fit = recess.lid_fit;
    // Across the grain.
    let width = |cut: Recess| cut.shape.sides().1;
    let inside = width(lid.cut.unwrap_or(*recess));
    let leans = match fit.hold {
        LidHold::LiesIn => None,
        LidHold::Slides { angle, .. } => Some(Angle::degrees(angle)),
    };
    LidPlace {
        thickness: recess.lid,
        overlap: fit.overlap,
        leans,
        mouth: lid.mouth.map_or(inside, width),
        inside,
        clearance: fit.clearance,
    }
}
