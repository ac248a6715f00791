//! Rules about readings after the work, and about holes that went wrong.

pub mod holes;
pub mod readings;
