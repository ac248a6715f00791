//! The cut for a lid, and the lid, in a section.

use board::{Board, LidHold, Recess, RecessShape, Toward};
use geometry::Angle;

use crate::Workpiece;
use crate::recess::{prism, recess_outline};
use crate::section::block::{Block, Sides};
use crate::section::form::Form;

/// The cut for the lid.
pub fn place_of_lid(workpiece: &Workpiece) -> Option<Form> {
    lid_form(workpiece.board(), &workpiece.lid().cut?, 0.0)
}

/// The lid in its place, with half of its clearance on each side; a sliding lid has no clearance along the grain.
pub fn lid(workpiece: &Workpiece) -> Option<Form> {
    let board = workpiece.board();
    let recess = board.recess.filter(|recess| recess.lid > 0.0)?;
    // A lid without a cut of its own lies in the recess.
    let place = workpiece.lid().cut.unwrap_or(recess);
    lid_form(board, &place, recess.lid_fit.clearance / 2.0)
}

/// A lid in its place, narrower by its clearance.
fn lid_form(board: &Board, place: &Recess, clear: f64) -> Option<Form> {
    let thickness = board.blank.thickness;
    let (LidHold::Slides { angle, toward }, RecessShape::Straight { length, width, .. }) =
        (place.lid_fit.hold, place.shape)
    else {
        let outline = recess_outline(place).less(clear)?;
        return Some(prism(outline, place.lid, thickness).into());
    };
    if length <= 0.0 {
        return None;
    }
    let leans = Angle::degrees(angle).tan();
    let [x, y] = place.at;
    // A lid meets the closed end.
    let mut along = Sides::leaning(x, length, leans);
    // The place is open at the edge, and so extends beyond it.
    match toward {
        Toward::Left => (along.low, along.low_leans) = (f64::NEG_INFINITY, 0.0),
        Toward::Right => (along.high, along.high_leans) = (f64::INFINITY, 0.0),
    }
    Some(Form::Leaning(Block {
        sides: [along, Sides::leaning(y, width, leans).narrowed(clear)],
        top: thickness - place.lid,
        bottom: thickness,
    }))
}
