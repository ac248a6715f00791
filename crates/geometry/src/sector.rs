//! One player's share of the circle, and the polar coordinates it is based on.

use crate::{Angle, Point, Vec2};

/// The point at a radius (mm) from the center pin and a bearing.
///
/// ```
/// use geometry::{Angle, point_at};
/// let right = point_at(40.0, Angle::degrees(90.0));
/// assert!((right.x - 40.0).abs() < 1e-12 && right.y.abs() < 1e-12);
/// ```
pub fn point_at(radius: f64, bearing: Angle) -> Point {
    Point::new(radius * bearing.sin(), radius * bearing.cos())
}

/// The bearing of a point, from 0 up to, but not including, a full turn; zero at the center pin itself.
///
/// ```
/// use geometry::{Point, bearing_of};
/// assert!((bearing_of(Point::new(-5.0, 0.0)).as_degrees() - 270.0).abs() < 1e-12);
/// ```
pub fn bearing_of(point: Point) -> Angle {
    Angle::atan2(point.x, point.y).wrapped()
}

/// One player's share of the circle: `index` counts clockwise from 0, out of `count`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Sector {
    axis: Angle,
    outward: Vec2,
    clockwise: Vec2,
}

impl Sector {
    /// The sector whose axis lies at `rotation + index * 360 / count`.
    ///
    /// ```
    /// use geometry::{Angle, Point, Sector};
    /// let second_of_four = Sector::new(1, 4, Angle::ZERO);
    /// let placed = second_of_four.place(Point::new(2.0, 10.0));
    /// assert!(placed.distance(Point::new(10.0, -2.0)) < 1e-12);
    /// ```
    pub fn new(index: u32, count: u32, rotation: Angle) -> Self {
        let axis = rotation + Angle::turn_part(i64::from(index), i64::from(count));
        let (sin, cos) = (axis.sin(), axis.cos());
        Self {
            axis,
            outward: Vec2::new(sin, cos),
            clockwise: Vec2::new(cos, -sin),
        }
    }

    /// The bearing of the sector's axis.
    pub fn axis(&self) -> Angle {
        self.axis
    }

    /// The board point of a local point: `x` is u (toward the clockwise side), `y` is v (outward).
    pub fn place(&self, local: Point) -> Point {
        (self.clockwise * local.x + self.outward * local.y).to_point()
    }

    /// The local point (u, v) of a board point; the inverse of [`Sector::place`].
    ///
    /// ```
    /// use geometry::{Angle, Sector, point_at};
    /// let sector = Sector::new(2, 6, Angle::ZERO);
    /// let on_axis = sector.local(point_at(80.0, sector.axis()));
    /// assert!(on_axis.x.abs() < 1e-12 && (on_axis.y - 80.0).abs() < 1e-12);
    /// ```
    pub fn local(&self, point: Point) -> Point {
        let arm = point.to_vec2();
        Point::new(arm.dot(self.clockwise), arm.dot(self.outward))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use testkit::assert_near;

    #[test]
    fn bearings_increase_clockwise_from_twelve_o_clock() {
        assert_near!(point_at(10.0, Angle::ZERO), Point::new(0.0, 10.0), 1e-12);
        assert_near!(
            point_at(10.0, Angle::degrees(90.0)),
            Point::new(10.0, 0.0),
            1e-12
        );
        assert_near!(bearing_of(Point::new(-5.0, 0.0)).as_degrees(), 270.0, 1e-12);
        assert_eq!(bearing_of(Point::ORIGIN), Angle::ZERO);
    }

    #[test]
    fn placing_and_localizing_are_inverses() {
        for index in 0..7 {
            let sector = Sector::new(index, 7, Angle::degrees(11.0));
            let local = Point::new(-3.25, 81.5);
            assert_near!(sector.local(sector.place(local)), local, 1e-12);
            let on_axis = sector.place(Point::new(0.0, 50.0));
            assert_near!(on_axis, point_at(50.0, sector.axis()), 1e-12);
        }
    }
}
