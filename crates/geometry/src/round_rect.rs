//! Rectangles with rounded corners, and vertical solids with such an outline.

use core::f64::consts::PI;

use kurbo::{Circle, Point, Rect, Vec2};

use crate::Upright;

/// Every point within a radius of a rectangle with its sides along x and y; for a circle, the rectangle is just its center.
/// Distances are exact: those to the rectangle, minus the radius.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RoundRect {
    /// Its center.
    pub middle: Point,
    /// Half the sides of the rectangle, mm.
    half: [f64; 2],
    /// The radius of its corners, mm.
    pub corner: f64,
}

impl From<Circle> for RoundRect {
    fn from(circle: Circle) -> Self {
        Self {
            middle: circle.center,
            half: [0.0; 2],
            corner: circle.radius,
        }
    }
}

/// Slack for rounding, mm.
const HAIR: f64 = 1e-9;

impl RoundRect {
    /// A rounded rectangle with a length along x and a width along y, mm, and a corner radius of at most half of either.
    ///
    /// ```
    /// use geometry::{Point, RoundRect};
    /// let outline = RoundRect::new(Point::new(10.0, 0.0), (40.0, 20.0), 4.0);
    /// assert!((outline.away(Point::new(15.0, 14.0)) - 4.0).abs() < 1e-12);
    /// ```
    pub const fn new(middle: Point, (length, width): (f64, f64), corner: f64) -> Self {
        Self {
            middle,
            half: [length / 2.0 - corner, width / 2.0 - corner],
            corner,
        }
    }

    /// Half of its length and half of its width, mm.
    pub fn halves(&self) -> [f64; 2] {
        self.half.map(|half| half + self.corner)
    }

    /// The equivalent circle, if it is one.
    pub fn as_circle(&self) -> Option<Circle> {
        let is_round = self.half == [0.0; 2];
        is_round.then(|| Circle::new(self.middle, self.corner))
    }

    /// Distance from a point, mm; 0 inside.
    pub fn away(&self, point: Point) -> f64 {
        let from = point - self.middle;
        let [x, y] = self.half;
        let across = libm::hypot((from.x.abs() - x).max(0.0), (from.y.abs() - y).max(0.0));
        (across - self.corner).max(0.0)
    }

    /// Distance from another rounded rectangle, mm; 0 if they overlap.
    pub fn away_from(&self, other: &Self) -> f64 {
        let [x, y] = self.half;
        let grown = Self {
            half: [other.half[0] + x, other.half[1] + y],
            corner: other.corner + self.corner,
            ..*other
        };
        grown.away(self.middle)
    }

    /// Distance of its farthest point from the center pin, mm.
    pub fn farthest(&self) -> f64 {
        let [x, y] = self.half;
        libm::hypot(self.middle.x.abs() + x, self.middle.y.abs() + y) + self.corner
    }

    /// Its bounding box.
    pub fn bounds(&self) -> Rect {
        let [x, y] = self.halves();
        Rect::from_center_size(self.middle, (2.0 * x, 2.0 * y))
    }

    /// Its area, mm².
    pub fn area(&self) -> f64 {
        let [length, width] = self.halves().map(|half| 2.0 * half.max(0.0));
        length * width - (4.0 - PI) * self.corner * self.corner
    }

    /// The centers of all discs of this radius that lie completely inside; `None` if none does.
    #[must_use]
    pub fn less(&self, by: f64) -> Option<Self> {
        let corner = (self.corner - by).max(0.0);
        let half = self.half.map(|half| half + self.corner - by - corner);
        let is_left = half[0] > -HAIR && half[1] > -HAIR;
        is_left.then_some(Self {
            half,
            corner,
            ..*self
        })
    }

    /// Half of its width at a height above its center, mm; `None` outside.
    pub fn half_chord(&self, height: f64) -> Option<f64> {
        let [half, straight] = self.half;
        let over = (height.abs() - straight).max(0.0);
        let square = self.corner * self.corner - over * over;
        (over <= self.corner + HAIR).then(|| half + libm::sqrt(square.max(0.0)))
    }

    /// The interval of a line that is inside, in mm along the line from a point in the direction of a unit vector; `None` if
    /// the line misses it.
    pub fn chord(&self, from: Point, along: Vec2) -> Option<(f64, f64)> {
        let ([x, y], corner) = (self.half, self.corner);
        let from = from - self.middle;
        // The shape is two crossed boxes, and a disc on each corner of the rectangle.
        let boxes = [(x, y + corner), (x + corner, y)].map(|half| in_box(from, along, half));
        let corners = [(-x, -y), (-x, y), (x, -y), (x, y)];
        let discs = corners.map(|at| in_disc(from - Vec2::from(at), along, corner));
        // The shape is convex, so the line leaves it once.
        let parts = boxes.into_iter().chain(discs).flatten();
        parts.reduce(|a, b| (a.0.min(b.0), a.1.max(b.1)))
    }
}

/// The interval of a line inside a box around 0 with these half sides.
fn in_box(from: Vec2, along: Vec2, (x, y): (f64, f64)) -> Option<(f64, f64)> {
    let between = |from: f64, along: f64, half: f64| {
        if along == 0.0 {
            let everywhere = (f64::NEG_INFINITY, f64::INFINITY);
            return (from.abs() <= half).then_some(everywhere);
        }
        let ends = ((-half - from) / along, (half - from) / along);
        (half >= 0.0).then(|| (ends.0.min(ends.1), ends.0.max(ends.1)))
    };
    let (a, b) = (between(from.x, along.x, x)?, between(from.y, along.y, y)?);
    let (low, high) = (a.0.max(b.0), a.1.min(b.1));
    (low < high).then_some((low, high))
}

/// The interval of a line inside a disc around 0.
fn in_disc(from: Vec2, along: Vec2, radius: f64) -> Option<(f64, f64)> {
    let (middle, off) = (-from.dot(along), from.cross(along));
    let square = radius * radius - off * off;
    let half = libm::sqrt(square.max(0.0));
    (square > 0.0).then_some((middle - half, middle + half))
}

/// A vertical solid with a constant outline between two depths, mm below the top face.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Prism {
    /// Its outline, seen from above.
    pub outline: RoundRect,
    /// Depth of its upper end.
    pub top: f64,
    /// Depth of its lower end.
    pub bottom: f64,
}

impl Prism {
    /// The solid as seen from a vertical axis at a point of the board.
    pub fn seen_from(&self, axis: Point) -> Upright {
        self.at(self.outline.away(axis))
    }

    /// The solid as seen from an axis at this distance from it.
    pub const fn at(&self, away: f64) -> Upright {
        let Self { top, bottom, .. } = *self;
        Upright { away, top, bottom }
    }

    /// Distance from another prism in space, mm; 0 if they overlap.
    pub fn distance(&self, other: &Self) -> f64 {
        let along = (self.top - other.bottom).max(other.top - self.bottom);
        libm::hypot(self.outline.away_from(&other.outline), along.max(0.0))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Angle, point_at};
    use proptest::prelude::*;
    use testkit::assert_near;

    fn straight(length: f64, width: f64, corner: f64) -> RoundRect {
        RoundRect::new(Point::new(10.0, 0.0), (length, width), corner)
    }

    #[test]
    fn distances_are_measured_to_the_outline() {
        let round = RoundRect::from(Circle::new((10.0, 0.0), 60.0));
        assert_near!(round.away(Point::new(80.0, 0.0)), 10.0, 1e-12);
        assert_near!(round.farthest(), 70.0, 1e-12);
        let square = straight(40.0, 20.0, 0.0);
        assert_near!(square.away(Point::new(33.0, 14.0)), 5.0, 1e-12);
        assert_near!(square.farthest(), libm::hypot(30.0, 10.0), 1e-12);
        let other = |x| RoundRect::new(Point::new(x, 30.0), (40.0, 30.0), 0.0);
        assert_near!(square.away_from(&other(10.0)), 5.0, 1e-12);
        // Corner to corner, 3 and 5 apart; then with a corner of radius 4 around (26, 6).
        let apart = libm::hypot(3.0, 5.0);
        assert_near!(square.away_from(&other(53.0)), apart, 1e-12);
        let rounded = straight(40.0, 20.0, 4.0);
        let apart = libm::hypot(7.0, 9.0) - 4.0;
        assert_near!(rounded.away_from(&other(53.0)), apart, 1e-12);
        let apart = libm::hypot(7.0, 8.0) - 4.0;
        assert_near!(rounded.away(Point::new(33.0, 14.0)), apart, 1e-12);
        assert_near!(rounded.farthest(), libm::hypot(26.0, 6.0) + 4.0, 1e-12);
        assert_eq!(rounded.bounds(), Rect::new(-10.0, -10.0, 30.0, 10.0));
    }

    #[test]
    fn distances_of_prisms_combine_horizontal_and_vertical() {
        let prism = |x: f64, top: f64| Prism {
            outline: RoundRect::from(Circle::new((x, 0.0), 2.0)),
            top,
            bottom: top + 5.0,
        };
        assert_near!(prism(0.0, 1.0).distance(&prism(7.0, 10.0)), 5.0, 1e-12);
        assert_near!(prism(0.0, 10.0).distance(&prism(7.0, 1.0)), 5.0, 1e-12);
        assert_near!(prism(0.0, 1.0).distance(&prism(7.0, 5.0)), 3.0, 1e-12);
        let seen = prism(0.0, 1.0).seen_from(Point::new(5.0, 0.0));
        assert_eq!((seen.away, seen.top, seen.bottom), (3.0, 1.0, 6.0));
    }

    #[test]
    fn a_square_that_is_all_corner_is_a_circle() {
        let shape = straight(40.0, 40.0, 20.0);
        assert_near!(shape.area(), PI * 400.0, 1e-9);
        let circle = shape.as_circle().unwrap();
        assert_near!(RoundRect::from(circle).area(), PI * 400.0, 1e-9);
        assert_near!(straight(40.0, 20.0, 0.0).area(), 800.0, 1e-12);
        assert_eq!(straight(40.0, 20.0, 10.0).as_circle(), None);
    }

    proptest! {
        #[test]
        fn the_area_is_the_sum_of_its_chords(
            sides in (1.0..200.0_f64, 1.0..200.0_f64),
            share in 0.0..1.0_f64,
            strip in 0.0..30.0_f64,
        ) {
            let corner = share * sides.0.min(sides.1) / 2.0;
            let Some(outline) = straight(sides.0, sides.1, corner).less(strip) else {
                prop_assert!(sides.0.min(sides.1) <= 2.0 * strip);
                return Ok(());
            };
            let steps = 20_000;
            let reach = outline.halves()[1];
            let step = 2.0 * reach / f64::from(steps);
            let sum: f64 = (0..steps)
                .map(|at| (f64::from(at) + 0.5) * step - reach)
                .map(|height| 2.0 * outline.half_chord(height).unwrap() * step)
                .sum();
            prop_assert!((sum - outline.area()).abs() < 1e-3 * (1.0 + outline.area()));
        }

        /// No point of the outline is nearer.
        #[test]
        fn the_distance_is_measured_to_the_nearest_point_of_the_outline(
            sides in (2.0..200.0_f64, 2.0..200.0_f64),
            share in 0.0..1.0_f64,
            point in (-200.0..200.0_f64, -200.0..200.0_f64),
        ) {
            let corner = share * sides.0.min(sides.1) / 2.0;
            let outline = straight(sides.0, sides.1, corner);
            let point = Point::from(point);
            let steps = 4000;
            let walked = (0..=steps)
                .flat_map(|at| {
                    let height = (2.0 * f64::from(at) / f64::from(steps) - 1.0) * outline.halves()[1];
                    let half = outline.half_chord(height).unwrap();
                    [-half, half].map(|x| (x, height))
                })
                // From the chord at this height, whose nearest point counts.
                .map(|(x, height)| {
                    let from = point - outline.middle;
                    let along = (from.x.abs() - x.abs()).max(0.0);
                    libm::hypot(along, from.y - height)
                })
                .fold(f64::INFINITY, f64::min);
            prop_assert!((walked - outline.away(point)).abs() < 2.0, "{walked}");
            prop_assert!(walked >= outline.away(point) - 1e-9);
        }

        #[test]
        fn a_line_is_inside_exactly_along_its_chord(
            sides in (2.0..200.0_f64, 2.0..200.0_f64),
            share in 0.0..1.0_f64,
            line in (-100.0..100.0_f64, -100.0..100.0_f64, 0_i64..24),
            at in -150.0..150.0_f64,
        ) {
            let corner = share * sides.0.min(sides.1) / 2.0;
            let outline = straight(sides.0, sides.1, corner);
            let from = Point::new(line.0, line.1);
            let along = point_at(1.0, Angle::turn_part(line.2, 24)).to_vec2();
            let chord = outline.chord(from, along);
            let is_in = |at: f64| chord.is_some_and(|(low, high)| (low..=high).contains(&at));
            let away = |at: f64| outline.away(from + along * at) <= 0.0;
            if away(at - 1e-6) == away(at + 1e-6) {
                prop_assert_eq!(is_in(at), away(at));
            }
        }
    }
}
