//! Findings about the blank and its joints.

pub mod joinery;
pub mod planer;
pub mod seam;
pub mod stock;
