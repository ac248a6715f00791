//! Template and tolerance: sheets of paper, a printer's errors, and the errors of holes.

pub mod budget;
pub mod check;
pub mod correction;
pub mod paper;
pub mod print_scale;
pub mod sheets;
pub mod steps;
