//! The blank in a section.

use board::Board;
use geometry::Point;

use crate::blank::profile::blank_profile;
use crate::section::revolved::Revolved;

/// The body of the board, with its roundover.
pub fn blank(board: &Board) -> Revolved {
    Revolved {
        center: Point::ORIGIN,
        profile: blank_profile(&board.blank),
    }
}
