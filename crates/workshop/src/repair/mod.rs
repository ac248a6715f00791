//! Repair: what was measured after the work, and what a hole that went wrong needs.

pub mod cause;
pub mod check;
pub mod measure;
mod model;
pub mod plug;
pub mod sums;
pub mod words;
