//! Blank and joining: where the board lies on its blank, how that is sawn and glued, and the pattern turned off the seams.

pub mod check;
pub mod panel;
pub mod profile;
pub mod section;
pub mod steps;
pub mod stock;
pub mod thickness;
pub mod turn;
