//! Hardboard templates: one for a router with a guide bushing, and one for a single sector that is turned from player to
//! player.

pub mod check;
pub mod owned;
pub mod router;
pub mod sector;
pub mod steps;
