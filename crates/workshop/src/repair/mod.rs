//! Repair: distances measured after the work, and remedies for misdrilled holes.
//!
//! Distances are typed as they were read. [`model`] predicts each for every possible fault, a straight line in each unknown;
//! [`cause`] tries them and keeps the one that earns its unknowns. [`plug`] finds the bore that takes in all of a wrong hole, and
//! [`words`] puts it into sentences for the findings and the repair page.

pub mod cause;
pub mod check;
pub mod measure;
mod model;
pub mod plug;
pub mod sums;
pub mod words;
