//! Wood through the seasons: its moisture from the air, and the board's size and weight from its moisture.
//!
//! The grain runs along x over the whole board, also for bookmatched halves and for strips; across it, along y, the width of
//! the board changes with the seasons. Along the grain wood hardly moves, and is assumed not to, so a round board becomes oval.
//!
//! The air of a room determines the moisture that wood settles at; the species determines the movement per percent. Both have
//! their sources beside them.

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

/// The movement of a board's wood through the seasons.
///
/// # Errors
/// [`WoodError`] if none is chosen, or its movement is neither typed nor in the table.
pub(crate) fn of_board(board: &Board) -> Result<WoodMoves, WoodError> {
    wood_moves(board.wood.as_ref().ok_or(WoodError::NoWood)?)
}
