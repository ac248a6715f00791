//! The cuts of a board: vertical planes, and their coordinates.

use geometry::{Point, Vec2};

/// A cut straight through the board, or one of two half-planes that meet in a vertical line.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Plane {
    /// The point where s is 0; for two half-planes, where they meet.
    pub origin: Point,
    /// The direction, seen from above, in which s increases to the right; a unit vector.
    pub right: Vec2,
    /// The direction in which s decreases to the left; opposite to `right` for a straight cut.
    pub left: Vec2,
}

impl Plane {
    /// One plane.
    pub fn straight(origin: Point, right: Vec2) -> Self {
        Self {
            origin,
            right,
            left: -right,
        }
    }

    /// Whether both halves are one plane.
    pub fn is_straight(&self) -> bool {
        (self.right + self.left).hypot() < 1e-12
    }

    /// The planes to draw, in order.
    pub(super) fn views(&self) -> Vec<View> {
        let Self { origin, .. } = *self;
        let view = |along, keep| View {
            origin,
            along,
            keep,
        };
        if self.is_straight() {
            vec![view(self.right, Keep::All)]
        } else {
            vec![view(-self.left, Keep::Left), view(self.right, Keep::Right)]
        }
    }
}

/// The part of a plane that belongs to a section.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Keep {
    /// All of it.
    All,
    /// Where s is negative.
    Left,
    /// Where s is positive.
    Right,
}

/// One plane of a section.
#[derive(Debug, Clone, Copy)]
pub struct View {
    /// The point where s is 0.
    pub origin: Point,
    /// The direction in which s increases, seen from above.
    pub along: Vec2,
    /// The part that belongs to the section.
    pub keep: Keep,
}

impl View {
    /// The coordinate s of the point on the plane nearest to a point of the board, and the distance between the two.
    pub fn see(&self, point: Point) -> (f64, f64) {
        let from = point - self.origin;
        (from.dot(self.along), from.cross(self.along).abs())
    }

    /// The point of the board at a coordinate s.
    pub fn at(&self, s: f64) -> Point {
        self.origin + self.along * s
    }

    /// The coordinates that belong to the section, no farther than `reach` from 0.
    pub const fn range(&self, reach: f64) -> (f64, f64) {
        match self.keep {
            Keep::All => (-reach, reach),
            Keep::Left => (-reach, 0.0),
            Keep::Right => (0.0, reach),
        }
    }

    /// The part of a shape that belongs to the section.
    pub fn kept(&self, corners: Vec<Point>) -> Vec<Point> {
        match self.keep {
            Keep::All => corners,
            Keep::Left => clipped(&corners, |at| -at.x),
            Keep::Right => clipped(&corners, |at| at.x),
        }
    }
}

/// The part of a polygon where a linear function of the position is not negative.
///
/// A polygon that is not convex may leave several parts, joined along the line where the function is 0.
pub fn clipped(corners: &[Point], inside: impl Fn(Point) -> f64) -> Vec<Point> {
    let mut kept = Vec::with_capacity(corners.len() + 2);
    let after = corners.iter().cycle().skip(1);
    for (&from, &to) in corners.iter().zip(after) {
        let (here, there) = (inside(from), inside(to));
        if here >= 0.0 {
            kept.push(from);
        }
        if (here < 0.0) != (there < 0.0) {
            kept.push(from.lerp(to, here / (here - there)));
        }
    }
    kept
}
