//! Findings about bores and pieces.

pub mod floor;
pub mod inside;
pub mod owned;
pub mod pieces;
pub mod pilot;
pub mod seat;
pub mod spin;
