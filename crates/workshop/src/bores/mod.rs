//! Bores and pieces: the shape of a bore, the drill that makes it, how a piece stands in it and what dislodges the piece.

pub mod check;
pub mod drills;
pub mod holds;
pub mod owned;
pub mod piece_sums;
pub mod profile;
pub mod seat;
pub mod section;
pub mod sizes;
pub mod steps;
pub mod strip;
pub mod sums;
