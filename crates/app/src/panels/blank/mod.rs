//! Controls of the blank, and of how it is joined.

pub mod joining;
pub mod stock;
