//! Findings about the printed template.

pub mod joint;
pub mod risk;
pub mod sheets;
