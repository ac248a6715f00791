//! Repair: distances measured after the work, and remedies for misdrilled holes.
//!
//! Distances are typed as they were read. [`model`] predicts each for every possible fault, linear in each unknown; [`cause`]
//! tries the faults and keeps the one whose unknowns are justified. [`plug`] finds the bore that covers all of a misdrilled
//! hole, and [`words`] puts it into sentences for the findings and the repair page.

pub mod cause;
pub mod check;
pub mod measure;
mod model;
pub mod plug;
pub mod sums;
pub mod words;
