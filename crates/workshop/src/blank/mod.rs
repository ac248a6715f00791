//! Blank and joinery: where the board lies on its blank, how the blank is sawn and glued, and the rotation that keeps the
//! pattern off the seams.

pub mod check;
pub mod panel;
pub mod profile;
pub mod section;
pub mod steps;
pub mod stock;
pub mod thickness;
pub mod turn;
