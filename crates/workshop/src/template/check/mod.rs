//! Findings about the printed template.

pub mod risk;
pub mod sheets;
