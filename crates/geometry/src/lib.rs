//! Where every hole of a round board lies.
//!
//! # Frame
//!
//! Millimetres, `f64`. The origin is the center pin; x points right and y up, as seen from the board's
//! top face. A bearing is an [`Angle`] measured clockwise from 12 o'clock, so that a point at radius `r`
//! and bearing `b` is `(r sin b, r cos b)`. A [`Sector`] is one player's share of the circle; its local
//! frame has u to the clockwise side and v outward along the axis. Every public item of this crate keeps
//! to that frame unless it says otherwise.
//!
//! # What is inside
//!
//! * [`Angle`], [`point_at`], [`bearing_of`], [`Sector`]: angles, polar points, a player's frame.
//!
//! The crate knows nothing of windows, files, clocks, paper or money.

mod angle;
mod sector;

pub use angle::Angle;
pub use kurbo::{Circle, Point, Vec2};
pub use sector::{Sector, bearing_of, point_at};
