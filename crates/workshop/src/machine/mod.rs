//! Data for a machine: the hole table, and the order in which its holes are drilled.

pub mod hole_table;
pub mod order;
pub mod steps;
