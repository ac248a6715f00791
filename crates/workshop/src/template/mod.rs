//! Template and tolerance: what a printer does wrong, and how far off holes may come out.

pub mod budget;
pub mod check;
pub mod print_scale;
pub mod steps;
