//! What a section shows of the blank: its outline, screws, mortises.

use board::Board;
use geometry::{Piece, Point};

use crate::blank::panel::{ScrewPlace, TenonPlace};
use crate::blank::profile::blank_profile;
use crate::section::block::{Block, Sides};
use crate::section::revolved::Revolved;

/// The board itself, with its roundover.
pub fn blank(board: &Board) -> Revolved {
    Revolved {
        center: Point::ORIGIN,
        profile: blank_profile(&board.blank),
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
