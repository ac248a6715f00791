//! Distances from a profile to a vertical solid beside or below it.

use kurbo::Circle;

use super::{Piece, Profile};

/// A vertical solid as seen from an axis; lengths in mm.
///
/// A vertical solid is nearest to a round one where its outline is nearest to the axis: the distance between the two in space
/// is one in the half-plane of radius and depth.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Upright {
    /// From the axis to its nearest side; 0 if the axis passes through it.
    pub away: f64,
    /// Depth of its upper end.
    pub top: f64,
    /// Depth of its lower end.
    pub bottom: f64,
}

impl Upright {
    /// Distance from a point at this radius from the axis and at this depth; 0 inside.
    fn from(self, radius: f64, depth: f64) -> f64 {
        let across = (self.away - radius).max(0.0);
        let along = (self.top - depth).max(depth - self.bottom).max(0.0);
        libm::hypot(across, along)
    }
}

impl Profile {
    /// Distance in space from the profile's solid to a vertical one, mm; 0 if they touch or overlap.
    ///
    /// ```
    /// use geometry::{Piece, Profile, Upright};
    /// let screw = Upright { away: 8.0, top: 5.0, bottom: 20.0 };
    /// // From half a ball of 12 mm with its middle at the top face to the upper end of the screw.
    /// let bore = Profile::from(Piece::cap(6.0, 0.0, 6.0));
    /// assert!((bore.distance(screw) - (89_f64.sqrt() - 6.0)).abs() < 1e-12);
    /// ```
    pub fn distance(&self, other: Upright) -> f64 {
        let distances = self.pieces().map(|piece| piece.distance(other));
        distances.fold(f64::INFINITY, f64::min)
    }
}

impl Piece {
    fn distance(&self, other: Upright) -> f64 {
        let (from, to) = (self.top.max(other.top), self.bottom.min(other.bottom));
        if from <= to && self.widest(from, to) >= other.away {
            return 0.0;
        }
        // From either end, and from the side between them.
        let above = other.from(self.above, self.top);
        let below = other.from(self.below, self.bottom);
        let side = match self.bend {
            None => self.off_flank(other),
            Some(circle) => self.off_bend(circle, other),
        };
        above.min(below).min(side)
    }

    /// Its largest radius between two of its depths.
    fn widest(&self, from: f64, to: f64) -> f64 {
        let ends = self.radius(from).max(self.radius(to));
        let middle = self.bend.map(|circle| circle.center.y);
        let middle = middle.filter(|middle| (from..=to).contains(middle));
        middle.map_or(ends, |middle| ends.max(self.radius(middle)))
    }

    /// From the two corners of the other solid to a straight side.
    fn off_flank(&self, other: Upright) -> f64 {
        let (inward, length) = (self.below - self.above, self.height());
        let square = inward * inward + length * length;
        if square == 0.0 {
            return f64::INFINITY;
        }
        let corner = |depth: f64| {
            let (out, down) = (other.away - self.above, depth - self.top);
            let on = ((out * inward + down * length) / square).clamp(0.0, 1.0);
            libm::hypot(out - on * inward, down - on * length)
        };
        corner(other.top).min(corner(other.bottom))
    }

    /// From a circular side, if its nearest point is on the circle: on the line from the circle's center to the nearest point
    /// of the other solid.
    fn off_bend(&self, circle: Circle, other: Upright) -> f64 {
        let across = (other.away - circle.center.x).max(0.0);
        let middle = circle.center.y;
        let down = middle.min(other.bottom).max(other.top) - middle;
        let far = libm::hypot(across, down);
        if far > circle.radius && self.has(middle + circle.radius * down / far) {
            far - circle.radius
        } else {
            f64::INFINITY
        }
    }
}
