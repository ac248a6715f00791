//! Template and tolerance: sheets of paper, what a printer does wrong, and how far off holes may come out.

pub mod budget;
pub mod check;
pub mod correction;
pub mod paper;
pub mod print_scale;
pub mod sheets;
pub mod steps;
