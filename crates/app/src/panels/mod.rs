//! The panels around the board. Each gets the narrowest part it may change, and reads the rest.

pub mod bar;
mod blame;
mod bores;
pub mod controls;
pub mod findings;
mod hole;
mod pattern;
pub mod status;
mod template;
