//! The base in a section.

use board::Board;
use geometry::{Piece, Point};

use crate::section::revolved::Revolved;

/// A turntable, as a disc under the board.
pub fn turntable(board: &Board, diameter: f64, height: f64) -> Revolved {
    let top = board.blank.thickness;
    Revolved {
        center: Point::ORIGIN,
        profile: Piece::cylinder(diameter / 2.0, top, top + height).into(),
    }
}
