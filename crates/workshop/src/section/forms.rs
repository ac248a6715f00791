//! The forms of what is cut into a board and of what stands in it, each made from what already says where it is.

use board::{Board, Hole, LidHold, PieceKind, Recess, RecessShape, Toward};
use geometry::{Angle, Piece, Point, Profile};

use super::block::{Block, Sides};
use super::plane::View;
use super::revolved::Revolved;
use crate::Workpiece;
use crate::blank::panel::{ScrewPlace, TenonPlace};
use crate::blank::profile::blank_profile;
use crate::bores::holds::{insert_below, insert_profile, peg_stand};
use crate::bores::profile::{bore_profile, lowest};
use crate::filling::open_bore;
use crate::recess::middle;

/// A form that can be cut.
pub enum Form {
    /// Round about an upright axis.
    Round(Revolved),
    /// With straight sides.
    Straight(Block),
}

impl Form {
    /// What a plane cuts of it; of what has straight sides no farther than `reach` from where s is 0.
    pub fn cut(&self, view: &View, reach: f64) -> Option<Vec<Point>> {
        match self {
            Self::Round(round) => round.cut(view),
            Self::Straight(block) => block.cut(view, reach),
        }
    }
}

/// The board itself, with its roundover.
pub fn blank(board: &Board) -> Revolved {
    Revolved {
        center: Point::ORIGIN,
        profile: blank_profile(&board.blank),
    }
}

/// A bore as the drill leaves it.
pub fn bore(hole: &Hole, spur: f64) -> Revolved {
    Revolved {
        center: hole.center,
        profile: bore_profile(hole.bore, spur),
    }
}

/// A screw from below.
pub fn screw(screw: &ScrewPlace, thickness: f64) -> Revolved {
    Revolved {
        center: screw.circle.center,
        profile: Piece::cylinder(screw.circle.radius, thickness - screw.depth, thickness).into(),
    }
}

/// The two mortises of a loose tenon.
pub fn mortise(board: &Board, tenon: &TenonPlace) -> Block {
    let size = board.panel.tenons.unwrap_or_default();
    Block {
        sides: [
            Sides::upright(tenon.center.x, 2.0 * tenon.half_length),
            Sides::upright(tenon.center.y, 2.0 * tenon.reach),
        ],
        top: size.below_top,
        bottom: size.below_top + size.thickness,
        corner: 0.0,
    }
}

/// The recess itself, without what is cut for its lid.
pub fn recess(board: &Board, recess: &Recess) -> Form {
    from_below(board, recess, recess.depth, 0.0)
}

/// What is cut for the lid.
pub fn place_of_lid(workpiece: &Workpiece) -> Option<Form> {
    lid_form(workpiece.board(), &workpiece.lid().cut?, 0.0)
}

/// The lid in its place, with half of its clearance on each side; one that slides has none along the grain.
pub fn lid(workpiece: &Workpiece) -> Option<Form> {
    let board = workpiece.board();
    let recess = board.recess.filter(|recess| recess.lid > 0.0)?;
    // Where nothing is cut for it, it lies in the recess.
    let place = workpiece.lid().cut.unwrap_or(recess);
    lid_form(board, &place, recess.lid_fit.clearance / 2.0)
}

fn lid_form(board: &Board, place: &Recess, clear: f64) -> Option<Form> {
    match (place.lid_fit.hold, place.shape) {
        (LidHold::Slides { angle, toward }, RecessShape::Straight { length, width, .. }) => {
            if length <= 0.0 {
                return None;
            }
            let leans = Angle::degrees(angle).tan();
            let [x, y] = place.at;
            // A lid meets the closed end.
            let mut along = Sides::leaning(x, length, leans);
            // It is open at the edge, and so goes on beyond it.
            match toward {
                Toward::Left => (along.low, along.low_leans) = (f64::NEG_INFINITY, 0.0),
                Toward::Right => (along.high, along.high_leans) = (f64::INFINITY, 0.0),
            }
            let thickness = board.blank.thickness;
            Some(Form::Straight(Block {
                sides: [along, Sides::leaning(y, width, leans).narrowed(clear)],
                top: thickness - place.lid,
                bottom: thickness,
                corner: 0.0,
            }))
        }
        _ => Some(from_below(board, place, place.lid, clear)),
    }
}

/// So deep from the underside, and on each side narrower by so much.
fn from_below(board: &Board, recess: &Recess, depth: f64, clear: f64) -> Form {
    let bottom = board.blank.thickness;
    let top = bottom - depth;
    let at = middle(recess);
    match recess.shape {
        RecessShape::Round { diameter } => Form::Round(Revolved {
            center: at,
            profile: Piece::cylinder(diameter / 2.0 - clear, top, bottom).into(),
        }),
        RecessShape::Straight { length, width, .. } => Form::Straight(Block {
            sides: [
                Sides::upright(at.x, length).narrowed(clear),
                Sides::upright(at.y, width).narrowed(clear),
            ],
            top,
            bottom,
            corner: (recess.shape.corner() - clear).max(0.0),
        }),
    }
}

/// A turntable, as a disc under the board.
pub fn turntable(board: &Board, diameter: f64, height: f64) -> Revolved {
    let top = board.blank.thickness;
    Revolved {
        center: Point::ORIGIN,
        profile: Piece::cylinder(diameter / 2.0, top, top + height).into(),
    }
}

/// What is set into a hole for a magnet piece.
pub fn insert(board: &Board, hole: &Hole) -> Revolved {
    Revolved {
        center: hole.center,
        profile: insert_profile(&board.piece, hole.bore),
    }
}

/// The piece that stands in or on a hole; none where it does not go in.
pub fn piece(board: &Board, hole: &Hole) -> Option<Revolved> {
    let (piece, bore) = (&board.piece, hole.bore);
    let radius = piece.diameter / 2.0;
    let profile = match piece.kind {
        PieceKind::Marble => {
            let lowest = lowest(open_bore(board, bore), piece.diameter);
            Profile::ball(lowest - radius, radius)
        }
        PieceKind::Peg => {
            let stand = peg_stand(piece, bore)?;
            let shank = (bore.diameter - stand.play) / 2.0;
            // Its largest diameter is that of what stands out.
            let head = Piece::cylinder(radius.max(shank), -stand.above, 0.0);
            let shank = Piece::cylinder(shank, (-stand.above).max(0.0), bore.depth);
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

/// The magnet in the foot of a piece; none where it was not measured.
pub fn magnet(board: &Board, hole: &Hole) -> Option<Revolved> {
    let magnet = board.piece.magnet?;
    let bottom = foot(board, hole) - magnet.set_back;
    Some(Revolved {
        center: hole.center,
        profile: Piece::cylinder(magnet.diameter / 2.0, bottom - magnet.thickness, bottom).into(),
    })
}

/// Depth of the foot of a magnet piece: on the top face, or on what stands above it.
fn foot(board: &Board, hole: &Hole) -> f64 {
    insert_below(&board.piece, hole.bore).min(0.0)
}
