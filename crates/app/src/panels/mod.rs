//! The panels around the board. Each may change only the part that it controls, and reads the rest.

pub mod bar;
mod base;
mod blame;
mod blank;
mod bores;
mod calendar;
mod colors;
pub mod controls;
pub mod faces;
mod filling;
pub mod findings;
mod finish;
mod grooves;
#[cfg(test)]
pub mod hand;
mod hardboard;
mod jig;
mod key_sizes;
mod limits;
mod machine;
mod pattern;
mod price;
mod recess;
mod repair;
mod rows;
pub mod status;
mod summary;
mod template;
pub mod tools;
mod wood;
