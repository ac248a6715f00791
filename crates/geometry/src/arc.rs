//! Part of a circle, or a full circle.

use core::f64::consts::TAU;
use core::ops::Add;

use kurbo::{Circle, Point, Rect, Vec2};

use crate::{Angle, bearing_of, point_at};

/// Part of a circle, as a path from one end to the other.
///
/// It runs clockwise if its sweep is positive and counterclockwise if it is negative, through at most a full turn.
///
/// ```
/// use geometry::{Angle, Arc, Point};
/// let arc = Arc {
///     center: Point::new(1.0, 0.0),
///     radius: 2.0,
///     start: Angle::ZERO,
///     sweep: Angle::degrees(90.0),
/// };
/// assert!(arc.at(1.0).distance(Point::new(3.0, 0.0)) < 1e-12);
/// assert!((arc.length() - core::f64::consts::PI).abs() < 1e-12);
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Arc {
    /// Center of the circle.
    pub center: Point,
    /// Its radius, mm.
    pub radius: f64,
    /// The bearing of the start, seen from the center.
    pub start: Angle,
    /// Angle from start to end, clockwise; negative if counterclockwise.
    pub sweep: Angle,
}

impl From<Circle> for Arc {
    /// A full circle, clockwise from 12 o'clock.
    fn from(circle: Circle) -> Self {
        Self {
            center: circle.center,
            radius: circle.radius,
            start: Angle::ZERO,
            sweep: Angle::TURN,
        }
    }
}

impl Add<Vec2> for Arc {
    type Output = Self;

    /// The arc moved by a vector.
    fn add(self, by: Vec2) -> Self {
        Self {
            center: self.center + by,
            ..self
        }
    }
}

impl Arc {
    /// The circle that the arc is part of.
    pub const fn circle(&self) -> Circle {
        Circle {
            center: self.center,
            radius: self.radius,
        }
    }

    /// The bearing of its other end, seen from the center.
    pub fn end(&self) -> Angle {
        self.start + self.sweep
    }

    /// The point at this fraction of its length, 0 to 1.
    pub fn at(&self, share: f64) -> Point {
        self.toward(self.start + self.sweep * share)
    }

    /// Its length, mm.
    pub fn length(&self) -> f64 {
        self.radius * self.sweep.as_radians().abs()
    }

    /// The same arc in the opposite direction.
    #[must_use]
    pub fn reversed(&self) -> Self {
        Self {
            start: self.end(),
            sweep: -self.sweep,
            ..*self
        }
    }

    /// The same arc in the clockwise direction.
    #[must_use]
    pub fn clockwise(&self) -> Self {
        if self.sweep < Angle::ZERO {
            self.reversed()
        } else {
            *self
        }
    }

    /// The part up to this fraction of its length, and the rest.
    ///
    /// ```
    /// use geometry::{Arc, Circle};
    /// let [first, rest] = Arc::from(Circle::new((0.0, 0.0), 10.0)).split(0.25);
    /// assert_eq!(first.at(1.0), rest.at(0.0));
    /// assert!((rest.length() - 3.0 * first.length()).abs() < 1e-12);
    /// ```
    pub fn split(&self, share: f64) -> [Self; 2] {
        let first = self.sweep * share;
        [
            Self {
                sweep: first,
                ..*self
            },
            Self {
                start: self.start + first,
                sweep: self.sweep - first,
                ..*self
            },
        ]
    }

    /// Distance from a point to the nearest point of the arc, mm: along the radius if the arc passes the point's bearing,
    /// otherwise to the nearer end.
    ///
    /// ```
    /// use geometry::{Angle, Arc, Point};
    /// let arc = Arc { center: Point::ORIGIN, radius: 10.0, start: Angle::ZERO, sweep: Angle::degrees(90.0) };
    /// assert!((arc.distance(Point::new(6.0, 8.0)) - 0.0).abs() < 1e-12);
    /// assert!((arc.distance(Point::new(10.0, -3.0)) - 3.0).abs() < 1e-12);
    /// assert!((arc.farthest(Point::new(-5.0, 0.0)) - 15.0).abs() < 1e-12);
    /// ```
    pub fn distance(&self, point: Point) -> f64 {
        let from = point - self.center;
        if self.faces(from) {
            (from.length() - self.radius).abs()
        } else {
            let [one, other] = self.ends().map(|end| (point - end).length());
            one.min(other)
        }
    }

    /// Distance from a point to the farthest point of the arc, mm.
    pub fn farthest(&self, point: Point) -> f64 {
        let across = self.center - point;
        if self.faces(across) {
            across.length() + self.radius
        } else {
            let [one, other] = self.ends().map(|end| (end - point).length());
            one.max(other)
        }
    }

    /// Its bounding box: its ends, and those of the circle's four extreme points that it passes.
    ///
    /// ```
    /// use geometry::{Angle, Arc, Point};
    /// let arc = Arc { center: Point::ORIGIN, radius: 10.0, start: Angle::degrees(-30.0), sweep: Angle::degrees(60.0) };
    /// assert!((arc.bounds().y1 - 10.0).abs() < 1e-12);
    /// assert!((arc.bounds().width() - 10.0).abs() < 1e-12);
    /// ```
    pub fn bounds(&self) -> Rect {
        let [from, to] = self.ends();
        let quarters = (0..4).map(|quarter| Angle::turn_part(quarter, 4));
        let passed = quarters.filter(|&quarter| self.passes(quarter));
        passed.fold(Rect::from_points(from, to), |all, quarter| {
            all.union_pt(self.toward(quarter))
        })
    }

    /// Whether all of its numbers are finite.
    pub fn is_finite(&self) -> bool {
        self.circle().is_finite() && self.end().as_radians().is_finite()
    }

    fn ends(&self) -> [Point; 2] {
        [self.at(0.0), self.at(1.0)]
    }

    /// The point of the circle at a bearing seen from its center.
    fn toward(&self, bearing: Angle) -> Point {
        self.center + point_at(self.radius, bearing).to_vec2()
    }

    /// Whether the arc passes the direction of a vector from its center.
    fn faces(&self, way: Vec2) -> bool {
        let is_whole = self.sweep.as_radians().abs() >= TAU;
        is_whole || self.passes(bearing_of(way.to_point()))
    }

    /// Whether the arc passes a bearing seen from its center.
    fn passes(&self, bearing: Angle) -> bool {
        let around = self.clockwise();
        (bearing - around.start).wrapped() <= around.sweep
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;
    use testkit::assert_near;

    fn arc(start: f64, sweep: f64) -> Arc {
        Arc {
            center: Point::new(1.0, 2.0),
            radius: 10.0,
            start: Angle::degrees(start),
            sweep: Angle::degrees(sweep),
        }
    }

    #[test]
    fn a_quarter_arc_runs_in_either_direction() {
        assert_near!(arc(0.0, 90.0).at(1.0), Point::new(11.0, 2.0), 1e-12);
        assert_near!(arc(0.0, -90.0).at(1.0), Point::new(-9.0, 2.0), 1e-12);
        let below = Point::new(1.0, -8.0);
        assert_near!(arc(0.0, 90.0).distance(below), 200.0_f64.sqrt(), 1e-12);
        let right = Point::new(-4.0, 2.0);
        assert_near!(arc(0.0, 90.0).farthest(right), 15.0, 1e-12);
        assert_near!(arc(0.0, -90.0).farthest(right), 125.0_f64.sqrt(), 1e-12);
    }

    #[test]
    fn an_arc_is_bounded_by_its_ends_and_the_extreme_points_it_passes() {
        let around = |arc: Arc| arc.bounds() - Vec2::new(1.0, 2.0);
        let all = around(arc(12.0, 360.0));
        assert_near!(all.origin(), Point::new(-10.0, -10.0), 1e-9);
        // From 2 o'clock to past 3 o'clock: it is an extreme point only at the right.
        let part = around(arc(60.0, 45.0));
        assert_near!(part.x1, 10.0, 1e-9);
        assert_near!(part.x0, 10.0 * Angle::degrees(60.0).sin(), 1e-9);
        assert_near!(part.y1, 10.0 * Angle::degrees(60.0).cos(), 1e-9);
        assert_near!(part.y0, 10.0 * Angle::degrees(105.0).cos(), 1e-9);
    }

    proptest! {
        #[test]
        fn distance_bounds_and_farthest_point_match_sampled_points(
            place in (-50.0..50.0_f64, -50.0..50.0_f64),
            way in (0.5..60.0_f64, 0.0..360.0_f64, -360.0..360.0_f64),
            point in (-80.0..80.0_f64, -80.0..80.0_f64),
            share in 0.0..1.0_f64,
        ) {
            let arc = Arc {
                center: place.into(),
                radius: way.0,
                start: Angle::degrees(way.1),
                sweep: Angle::degrees(way.2),
            };
            let point = Point::from(point);
            let steps = 2000;
            let points = || (0..=steps).map(|step| arc.at(f64::from(step) / f64::from(steps)));
            let step = arc.length() / f64::from(steps);
            let distances = || points().map(|at| at.distance(point));
            let nearest = distances().fold(f64::INFINITY, f64::min);
            prop_assert!((arc.distance(point) - nearest).abs() <= step);
            let farthest = distances().fold(0.0, f64::max);
            prop_assert!((arc.farthest(point) - farthest).abs() <= step);
            let around = arc.bounds().inflate(1e-9, 1e-9);
            prop_assert!(points().all(|at| around.contains(at)));
            // The reversed and clockwise arcs, and both parts together, cover the same points.
            for same in [arc.reversed(), arc.clockwise()] {
                prop_assert!((same.length() - arc.length()).abs() < 1e-9);
                prop_assert!(arc.distance(same.at(share)) < 1e-9);
            }
            let [before, after] = arc.split(share);
            prop_assert!(before.at(1.0).distance(arc.at(share)) < 1e-9);
            prop_assert!(after.at(0.0).distance(arc.at(share)) < 1e-9);
            prop_assert!(after.at(1.0).distance(arc.at(1.0)) < 1e-9);
        }
    }
}
