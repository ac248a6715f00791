//! Findings about the recess and its lid.

pub mod lid;
pub mod storage;
