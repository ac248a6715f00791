//! What a section shows of the recess and its lid.

use board::{Board, LidHold, Recess, RecessShape, Toward};
use geometry::{Angle, Piece};

use crate::Workpiece;
use crate::recess::middle;
use crate::section::block::{Block, Sides};
use crate::section::form::Form;
use crate::section::revolved::Revolved;

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

/// A lid in its place, as much narrower as its clearance.
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
