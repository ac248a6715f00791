//! Parts of a line: the spans within outlines, and what remains of them outside others.
//!
//! A section is drawn by finding the parts of lines that run in wood. Sets of parts of a line can be cut and compared by just
//! sorting numbers, while cutting areas out of each other would need a polygon library, and would meet its special cases
//! wherever a bore touches a groove.

use geometry::{Angle, point_at};
use kurbo::{Circle, Point, Rect, Vec2};

use super::around;

/// Distance from an edge at which both sides are tested for wood, mm on paper.
pub const BESIDE: f64 = 1e-6;
/// Edges of a polygon drawn for a circle.
const PARTS: i64 = 120;

/// Parts of a line as pairs of distances along it, in order and disjoint.
pub type Spans = Vec<(f64, f64)>;

/// A straight line of infinite length.
#[derive(Debug, Clone, Copy)]
pub struct Ray {
    /// The origin of distances along it.
    pub from: Point,
    /// Its direction, a unit vector.
    pub along: Vec2,
}

impl Ray {
    /// The line along an edge, and its length, mm; `None` for an edge without length.
    pub fn over(from: Point, to: Point) -> Option<(Self, f64)> {
        let way = to - from;
        let length = way.hypot();
        let along = way / length;
        (length > 1e-9).then_some((Self { from, along }, length))
    }

    /// The parallel line at this distance to the left.
    pub fn beside(self, left: f64) -> Self {
        Self {
            from: self.from + Vec2::new(-self.along.y, self.along.x) * left,
            ..self
        }
    }

    /// The point at a distance along it.
    pub fn at(&self, distance: f64) -> Point {
        self.from + self.along * distance
    }

    /// Distance of a point to the left of it, mm.
    fn left(&self, point: Point) -> f64 {
        self.along.cross(point - self.from)
    }
}

/// A closed outline to draw.
#[derive(Debug, Clone)]
pub enum Contour {
    /// Straight edges.
    Corners {
        /// Its corners in order.
        corners: Vec<Point>,
        /// The box around it.
        bounds: Rect,
    },
    /// A circle.
    Disc(Circle),
}

impl Contour {
    /// Straight edges between corners.
    pub fn new(corners: Vec<Point>) -> Self {
        let bounds = around(&corners);
        Self::Corners { corners, bounds }
    }

    /// The box around it.
    pub fn bounds(&self) -> Rect {
        match self {
            Self::Corners { bounds, .. } => *bounds,
            Self::Disc(circle) => {
                Rect::from_center_size(circle.center, (2.0 * circle.radius, 2.0 * circle.radius))
            }
        }
    }

    /// Its edges; for a circle, those of its polygon.
    pub fn edges(&self) -> Vec<(Point, Point)> {
        let corners = match self {
            Self::Corners { corners, .. } => corners,
            Self::Disc(circle) => {
                let at = |part| {
                    circle.center + point_at(circle.radius, Angle::turn_part(part, PARTS)).to_vec2()
                };
                &(0..PARTS).map(at).collect()
            }
        };
        let after = corners.iter().cycle().skip(1);
        corners.iter().copied().zip(after.copied()).collect()
    }

    /// The parts of a line that are inside.
    ///
    /// For straight edges they are between every other pair of crossings (the even-odd rule), for a disc along one chord.
    pub fn spans(&self, ray: &Ray) -> Spans {
        match self {
            Self::Corners { corners, bounds } => {
                if misses(*bounds, ray) {
                    return Vec::new();
                }
                let mut met = crossings(ray, corners);
                met.sort_by(f64::total_cmp);
                let (pairs, _) = met.as_chunks();
                pairs.iter().map(|[from, to]| (*from, *to)).collect()
            }
            Self::Disc(circle) => {
                let off = ray.left(circle.center);
                let square = circle.radius * circle.radius - off * off;
                let middle = (circle.center - ray.from).dot(ray.along);
                let half = square.max(0.0).sqrt();
                let met = (square > 0.0).then_some((middle - half, middle + half));
                met.into_iter().collect()
            }
        }
    }
}

/// Whether a line misses a box.
fn misses(bounds: Rect, ray: &Ray) -> bool {
    let half = Vec2::new(bounds.width() / 2.0, bounds.height() / 2.0);
    let reach = half.x * ray.along.y.abs() + half.y * ray.along.x.abs();
    ray.left(bounds.center()).abs() > reach
}

/// The distances along a line at which edges between corners cross it. A corner on the line counts as being to its left, so
/// that an outline is crossed an even number of times.
fn crossings(ray: &Ray, corners: &[Point]) -> Vec<f64> {
    let Some(&last) = corners.last() else {
        return Vec::new();
    };
    let mut met = Vec::new();
    let (mut from, mut here) = (last, ray.left(last));
    for &to in corners {
        let there = ray.left(to);
        if (here < 0.0) != (there < 0.0) {
            let crossed = from.lerp(to, here / (here - there));
            met.push((crossed - ray.from).dot(ray.along));
        }
        (from, here) = (to, there);
    }
    met
}

/// The given parts clipped to a range of distances.
pub fn within(spans: &Spans, low: f64, high: f64) -> Spans {
    let cut = spans.iter().map(|(from, to)| (from.max(low), to.min(high)));
    cut.filter(|(from, to)| from < to).collect()
}

/// The parts that are in none of the others.
pub fn without(spans: &Spans, others: &Spans) -> Spans {
    others.iter().fold(spans.clone(), |left, &(low, high)| {
        let around = left
            .iter()
            .flat_map(|&(from, to)| [(from, to.min(low)), (from.max(high), to)]);
        around.filter(|(from, to)| from < to).collect()
    })
}

/// The parts in one of two sets but not in both.
pub fn in_one(these: &Spans, those: &Spans) -> Spans {
    let mut either = without(these, those);
    either.extend(without(those, these));
    either.sort_by(|a, b| a.0.total_cmp(&b.0));
    either
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;
    use testkit::assert_near;

    #[test]
    fn a_line_is_inside_after_an_odd_number_of_crossings() {
        let u = [
            (0, 0),
            (6, 0),
            (6, 4),
            (4, 4),
            (4, 2),
            (2, 2),
            (2, 4),
            (0, 4),
        ];
        let u = Contour::new(
            u.map(|(x, y)| Point::new(f64::from(x), f64::from(y)))
                .into(),
        );
        let level = |y| Ray {
            from: Point::new(-1.0, y),
            along: Vec2::new(1.0, 0.0),
        };
        assert_eq!(u.spans(&level(3.0)), [(1.0, 3.0), (5.0, 7.0)]);
        assert_eq!(u.spans(&level(1.0)), [(1.0, 7.0)]);
        assert_eq!(u.spans(&level(-0.1)), []);
        let disc = Contour::Disc(Circle::new((4.0, 4.0), 5.0));
        let [(from, to)] = disc.spans(&level(0.0))[..] else {
            panic!()
        };
        assert_near!(from, 2.0, 1e-12);
        assert_near!(to, 8.0, 1e-12);
    }

    proptest! {
        #[test]
        fn set_operations_on_parts_agree_with_points(
            these in prop::collection::vec((0.0..9.0_f64, 0.1..2.0_f64), 0..4),
            those in prop::collection::vec((0.0..9.0_f64, 0.1..2.0_f64), 0..4),
            at in 0.0..11.0_f64,
        ) {
            let apart = |parts: &[(f64, f64)]| {
                let mut spans: Spans = Vec::new();
                for &(from, long) in parts {
                    let new = without(&vec![(from, from + long)], &spans);
                    spans.extend(new);
                }
                spans.sort_by(|a, b| a.0.total_cmp(&b.0));
                spans
            };
            let has = |spans: &Spans| spans.iter().any(|(from, to)| (*from..*to).contains(&at));
            let (these, those) = (apart(&these), apart(&those));
            prop_assert_eq!(has(&without(&these, &those)), has(&these) && !has(&those));
            prop_assert_eq!(has(&in_one(&these, &those)), has(&these) != has(&those));
            prop_assert_eq!(has(&within(&these, 2.0, 7.0)), has(&these) && (2.0..7.0).contains(&at));
        }
    }
}
