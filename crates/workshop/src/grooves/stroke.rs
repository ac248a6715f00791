//! One stroke of the bit: a straight line, an arc, or a full circle.

use geometry::{Arc, Circle, Point};
use kurbo::{Line, Rect, Shape as _};

/// One stroke of the bit, along the center line of the groove.
///
/// ```
/// use geometry::{Circle, Point};
/// use workshop::Stroke;
/// let ring = Stroke::Circle(Circle::new((0.0, 0.0), 50.0));
/// assert!(ring.start().distance(ring.end()) < 1e-9);
/// assert!((ring.distance(Point::new(30.0, 0.0)) - 20.0).abs() < 1e-9);
/// assert!((ring.farthest() - 50.0).abs() < 1e-9);
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Stroke {
    /// A straight line from one end to the other.
    Line(Line),
    /// Along a part of a circle.
    Arc(Arc),
    /// A full circle, clockwise from 12 o'clock.
    Circle(Circle),
}

impl Stroke {
    /// The point where the bit starts.
    pub fn start(&self) -> Point {
        self.at(0.0)
    }

    /// The point where it ends; for a circle, where it started.
    pub fn end(&self) -> Point {
        self.at(1.0)
    }

    /// The point after a share of the length, 0 to 1.
    pub fn at(&self, share: f64) -> Point {
        match self {
            Self::Line(line) => line.p0.lerp(line.p1, share),
            Self::Arc(arc) => arc.at(share),
            Self::Circle(circle) => Arc::from(*circle).at(share),
        }
    }

    /// Length, mm.
    pub fn length(&self) -> f64 {
        match self {
            Self::Line(line) => (line.p1 - line.p0).length(),
            Self::Arc(arc) => arc.length(),
            Self::Circle(circle) => Arc::from(*circle).length(),
        }
    }

    /// The same stroke in the other direction; a circle stays unchanged.
    ///
    /// ```
    /// use workshop::Stroke;
    /// let line = Stroke::Line(kurbo::Line::new((0.0, 0.0), (30.0, 40.0)));
    /// assert_eq!(line.reversed().start(), line.end());
    /// assert_eq!(line.reversed().length(), 50.0);
    /// ```
    pub fn reversed(&self) -> Self {
        match *self {
            Self::Line(line) => Self::Line(Line::new(line.p1, line.p0)),
            Self::Arc(arc) => Self::Arc(arc.reversed()),
            Self::Circle(_) => *self,
        }
    }

    /// Distance from a point to the stroke, mm.
    pub fn distance(&self, point: Point) -> f64 {
        match self {
            Self::Line(line) => {
                let way = line.p1 - line.p0;
                let square = way.hypot2();
                let share = if square > 0.0 {
                    ((point - line.p0).dot(way) / square).clamp(0.0, 1.0)
                } else {
                    0.0
                };
                (point - (line.p0 + way * share)).length()
            }
            Self::Arc(arc) => arc.distance(point),
            Self::Circle(circle) => Arc::from(*circle).distance(point),
        }
    }

    /// Distance of its farthest point from the center pin, mm.
    pub fn farthest(&self) -> f64 {
        match self {
            Self::Line(line) => line.p0.to_vec2().length().max(line.p1.to_vec2().length()),
            Self::Arc(arc) => arc.farthest(Point::ORIGIN),
            Self::Circle(circle) => Arc::from(*circle).farthest(Point::ORIGIN),
        }
    }

    /// The box around it.
    pub fn bounds(&self) -> Rect {
        match self {
            Self::Line(line) => Rect::from_points(line.p0, line.p1),
            Self::Arc(arc) => arc.bounds(),
            Self::Circle(circle) => circle.bounding_box(),
        }
    }

    /// The least value of a distance along the stroke, to within `slack`; any larger value where the least exceeds `enough`.
    /// The distance must be one from a region (0 inside it), so that it changes by no more than the length traveled.
    ///
    /// The stroke is bisected repeatedly; a part is dropped as soon as the distance at its midpoint, less half its length,
    /// cannot beat the best value so far.
    pub fn least(&self, distance: impl Fn(Point) -> f64, enough: f64, slack: f64) -> f64 {
        let mut best = distance(self.start()).min(distance(self.end()));
        let mut open = vec![(0.0, 1.0)];
        let length = self.length();
        while let Some((from, to)) = open.pop().filter(|_| best > 0.0) {
            let middle = f64::midpoint(from, to);
            let here = distance(self.at(middle));
            best = best.min(here);
            // No point of this part is closer than the midpoint's distance less half the part's length.
            let bound = here - (to - from) * length / 2.0;
            if bound < (best - slack).min(enough) {
                open.push((from, middle));
                open.push((middle, to));
            }
        }
        best
    }
}

#[cfg(test)]
pub mod tests {
    use super::*;
    use geometry::Angle;
    use proptest::prelude::*;

    pub fn strokes() -> impl Strategy<Value = Stroke> {
        let place = || (-50.0..50.0_f64, -50.0..50.0_f64).prop_map(|(x, y)| Point::new(x, y));
        let arc = (place(), 0.5..60.0_f64, 0.0..360.0_f64, -360.0..360.0_f64).prop_map(
            |(center, radius, start, sweep)| {
                Stroke::Arc(Arc {
                    center,
                    radius,
                    start: Angle::degrees(start),
                    sweep: Angle::degrees(sweep),
                })
            },
        );
        prop_oneof![
            (place(), place()).prop_map(|(from, to)| Stroke::Line(Line::new(from, to))),
            arc,
            (place(), 0.5..60.0_f64)
                .prop_map(|(center, radius)| Stroke::Circle(Circle::new(center, radius))),
        ]
    }

    proptest! {
        #[test]
        fn distance_box_and_reach_match_its_points(stroke in strokes(), x in -80.0..80.0_f64, y in -80.0..80.0_f64) {
            let point = Point::new(x, y);
            let steps = 2000;
            let points = || (0..=steps).map(|step| stroke.at(f64::from(step) / f64::from(steps)));
            let step = stroke.length() / f64::from(steps);
            let nearest = points().map(|at| at.distance(point)).fold(f64::INFINITY, f64::min);
            prop_assert!((stroke.distance(point) - nearest).abs() <= step, "{stroke:?}");
            let farthest = points().map(|at| at.to_vec2().length()).fold(0.0, f64::max);
            prop_assert!((stroke.farthest() - farthest).abs() <= step, "{stroke:?}");
            let around = stroke.bounds().inflate(1e-9, 1e-9);
            prop_assert!(points().all(|at| around.x0 <= at.x && at.x <= around.x1 && around.y0 <= at.y && at.y <= around.y1));
            let least = stroke.least(|at| at.distance(point), f64::INFINITY, 1e-3);
            prop_assert!((least - stroke.distance(point)).abs() <= 1e-3 + 1e-9);
        }

        #[test]
        fn a_reversed_stroke_has_the_same_points(stroke in strokes(), share in 0.0..1.0_f64) {
            let back = stroke.reversed();
            prop_assert!((back.length() - stroke.length()).abs() < 1e-9);
            prop_assert!(stroke.distance(back.at(share)) < 1e-9);
            if !matches!(stroke, Stroke::Circle(_)) {
                prop_assert!((back.at(share) - stroke.at(1.0 - share)).length() < 1e-9);
            }
        }
    }
}
