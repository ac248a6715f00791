//! Templates of hardboard on sheets: the router's, and the sector jig.

pub mod router;
pub mod sector;
