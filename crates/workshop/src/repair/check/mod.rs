//! Rules about distances measured after the work, and about misdrilled holes.

pub mod holes;
pub mod readings;
