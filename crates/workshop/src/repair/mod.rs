//! Repair: what was measured after the work, and what a hole that went wrong needs.

pub mod cause;
pub mod check;
mod model;
pub mod plug;
pub mod sums;
