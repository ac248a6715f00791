//! Findings about bores and pieces.

pub mod floor;
pub mod inside;
pub mod pieces;
pub mod pilot;
pub mod seat;
pub mod spin;
