//! Rules about distances measured after the work, and about holes drilled wrong.

pub mod holes;
pub mod readings;
