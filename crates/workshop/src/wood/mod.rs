//! Wood in the seasons: its moisture from the air, and the board's size and weight from its moisture.
//!
//! The grain runs along x over the whole board, also of bookmatched halves and of strips; across it, along y, the
//! board is as wide as the season makes it. Along the grain wood hardly moves, and is taken not to.
//!
//! Wood moves across its grain with the moisture of the air and along it hardly at all, so that a round board goes oval. The air of a
//! room gives the moisture that wood comes to; the species gives the movement for each percent; both have their source beside them.

pub mod check;
mod look;
mod moisture;
pub mod movement;
mod species;
pub mod sums;
mod weight;

pub use look::{Look, NEUTRAL as NEUTRAL_WOOD, Pores, look, tone, tone_of};
pub use moisture::{equilibrium_moisture, equilibrium_moisture_at_fahrenheit};
pub(crate) use movement::species_of;
pub use movement::{Season, WoodError, WoodMoves, change_of_size, wood_moves};
pub use species::{Known, Species, species};
pub use weight::BoardMass;
pub(crate) use weight::board_mass;

use board::Board;

/// The wood of a board in the seasons.
///
/// # Errors
/// [`WoodError`] where none is chosen, or its movement is neither typed nor in the table.
pub(crate) fn of_board(board: &Board) -> Result<WoodMoves, WoodError> {
    wood_moves(board.wood.as_ref().ok_or(WoodError::NoWood)?)
}
