//! Templates of hardboard: for a router with a guide bushing, and for one sector that is turned from player to player.

pub mod check;
pub mod owned;
pub mod router;
pub mod sector;
pub mod steps;
