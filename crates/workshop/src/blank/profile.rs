//! The shape of the board itself, with its roundover, as a profile about the center pin.

use board::Blank;
use geometry::{Circle, Piece, Profile};

/// The board before anything is cut into it; depths are measured down from the top face.
pub fn blank_profile(blank: &Blank) -> Profile {
    let rounded = blank.roundover.min(blank.thickness);
    let circle = Circle::new((blank.flat_radius(), blank.roundover), blank.roundover);
    let edge = Piece::cylinder(blank.radius(), rounded, blank.thickness);
    Profile::from(Piece::round(circle, 0.0, rounded)).with(edge)
}
