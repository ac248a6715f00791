//! Repair: what was measured after the work, and what a hole that went wrong needs.
//!
//! Distances are typed as they were read. [`model`] tells how each would come out if one thing or another had gone wrong, a
//! straight line in each unknown; [`cause`] tries them and keeps the one that earns its unknowns. [`plug`] finds the bore
//! that takes in all of a wrong hole, and [`words`] tells it for the findings and the repair page.

pub mod cause;
pub mod check;
pub mod measure;
mod model;
pub mod plug;
pub mod sums;
pub mod words;
