//! Profiles: solids of revolution around a vertical axis, given by half of their cross section.
//!
//! # Frame
//!
//! The half-plane of radius and depth, millimeters. The radius is the distance from the axis. Depth increases downward from a
//! level that the caller chooses, which for a board is its top face; parts above it have negative depths.
//!
//! A profile is exact: straight pieces form cylinders and cones, circular pieces balls and roundovers, and only
//! [`Profile::cut`] approximates a curve by straight lines. Numbers that are not finite give results that are not.

mod cut;
mod near;
mod piece;
mod rest;
#[cfg(test)]
mod tests;

pub use cut::flatten;
pub use near::Upright;
pub use piece::Piece;
pub use rest::{Rest, RestsOn};

use kurbo::Circle;

/// Half of the cross section of a solid of revolution around a vertical axis: pieces one below the other, from its upper end
/// down.
///
/// A 12 mm hole made by a 118° drill, 5 mm deep to where its full diameter ends:
///
/// ```
/// use geometry::{Piece, Profile};
/// let length = 12.0 * 0.300_430_309_5;
/// let hole = Profile::from(Piece::cylinder(6.0, 0.0, 5.0)).with(Piece::straight((5.0, 6.0), (5.0 + length, 0.0)));
/// assert_eq!(hole.mouth(), 6.0);
/// assert_eq!(hole.radius_at(5.0 + length / 2.0), Some(3.0));
/// assert_eq!(hole.bottom(), 5.0 + length);
/// let volume = core::f64::consts::PI * 36.0 * (5.0 + length / 3.0);
/// assert!((hole.volume() - volume).abs() < 1e-9);
/// ```
#[derive(Debug, Clone, PartialEq)]
pub struct Profile {
    first: Piece,
    /// The pieces below the first.
    others: Vec<Piece>,
}

impl From<Piece> for Profile {
    fn from(first: Piece) -> Self {
        Self {
            first,
            others: Vec::new(),
        }
    }
}

impl Profile {
    /// The profile with another piece, which begins at the depth where the profile ended.
    #[must_use]
    pub fn with(mut self, piece: Piece) -> Self {
        self.others.push(piece);
        self
    }

    /// A whole ball with its center at a depth, mm.
    pub fn ball(middle: f64, radius: f64) -> Self {
        let circle = Circle::new((0.0, middle), radius);
        Piece::round(circle, middle - radius, middle + radius).into()
    }

    fn pieces(&self) -> impl Iterator<Item = &Piece> {
        core::iter::once(&self.first).chain(&self.others)
    }

    /// The circle that forms it, in its half-plane, if it is a whole ball.
    pub fn as_ball(&self) -> Option<Circle> {
        let circle = self.first.bend?;
        let is_ball = self.others.is_empty() && circle.center.x == 0.0;
        (is_ball && self.first.height() >= 2.0 * circle.radius).then_some(circle)
    }

    /// Depth of its upper end, mm.
    pub const fn top(&self) -> f64 {
        self.first.top
    }

    /// Its radius at its upper end, mm.
    pub const fn mouth(&self) -> f64 {
        self.first.above
    }

    /// Depth of its deepest point, mm.
    pub fn bottom(&self) -> f64 {
        self.last().bottom
    }

    /// Its radius at a depth, mm, the larger one at a step; `None` above its upper end and below its lower one.
    pub fn radius_at(&self, depth: f64) -> Option<f64> {
        let there = self.pieces().filter(|piece| piece.has(depth));
        there.map(|piece| piece.radius(depth)).reduce(f64::max)
    }

    /// The lowest depth at which it has at least this radius, mm; `None` if it has it nowhere.
    pub fn depth_at(&self, radius: f64) -> Option<f64> {
        let ends = self.pieces().filter_map(|piece| piece.span(radius));
        ends.map(|(_, lowest)| lowest).reduce(f64::max)
    }

    /// Its volume, mm³.
    pub fn volume(&self) -> f64 {
        self.volume_between(f64::NEG_INFINITY, f64::INFINITY)
    }

    /// The volume between two depths, mm³; 0 if the second is not below the first.
    pub fn volume_between(&self, upper: f64, lower: f64) -> f64 {
        let parts = self.pieces().map(|piece| piece.volume(upper, lower));
        parts.sum()
    }

    fn last(&self) -> &Piece {
        self.others.last().unwrap_or(&self.first)
    }
}
