//! The panels around the board. Each gets the narrowest part it may change, and reads the rest.

mod accuracy;
pub mod bar;
mod bench;
mod blame;
mod bores;
pub mod controls;
mod drills;
mod filling;
pub mod findings;
mod grooves;
#[cfg(test)]
mod hand;
mod hardboard;
mod hole;
mod joining;
mod lid;
mod limits;
mod machine;
mod pattern;
mod piece;
mod printer;
mod rows;
pub mod status;
mod stock;
mod sums;
mod template;
mod wood;
