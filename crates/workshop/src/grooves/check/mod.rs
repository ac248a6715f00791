//! Findings about grooves.

pub mod bores;
pub mod depth;
pub mod rim;
pub mod sides;
