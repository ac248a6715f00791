//! Guides that a dragged thing snaps to.

use geometry::{Circle, Point, Vec2};

/// A line, circle or point that a dragged thing snaps to, with the reason.
#[derive(Debug, Clone, PartialEq)]
pub struct Guide {
    /// Its geometry.
    pub way: Way,
    /// Name of the guide, in the maker's words.
    pub words: String,
}

/// The geometry of a guide.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Way {
    /// A point.
    Place(Point),
    /// A circle.
    Circle(Circle),
    /// A straight line through a point, along a unit vector.
    Line(Point, Vec2),
}

impl Way {
    /// The point on it nearest to another.
    ///
    /// ```
    /// use drawing::Way;
    /// use geometry::{Circle, Point};
    /// let ring = Way::Circle(Circle::new(Point::ORIGIN, 50.0));
    /// assert_eq!(ring.nearest(Point::new(30.0, 0.0)), Point::new(50.0, 0.0));
    /// ```
    pub fn nearest(&self, at: Point) -> Point {
        match *self {
            Self::Place(place) => place,
            Self::Circle(circle) => {
                let way = at - circle.center;
                if way.length() > 0.0 {
                    circle.center + way * (circle.radius / way.length())
                } else {
                    circle.center + (circle.radius, 0.0)
                }
            }
            Self::Line(through, along) => through + along * (at - through).dot(along),
        }
    }

    /// Distance of a point from it, mm.
    fn miss(&self, at: Point) -> f64 {
        self.nearest(at).distance(at)
    }
}

/// The point on the guides nearest to another, with the guides it is on; `None` if no guide is within `reach`, mm.
///
/// Points have priority over lines; where two lines or circles cross within reach, the crossing is chosen.
///
/// ```
/// use drawing::{Guide, Way, snapped};
/// use geometry::{Circle, Point, Vec2};
/// let guides = [
///     Guide { way: Way::Circle(Circle::new(Point::ORIGIN, 50.0)), words: "radius".into() },
///     Guide { way: Way::Line(Point::ORIGIN, Vec2::new(0.0, 1.0)), words: "axis".into() },
/// ];
/// let (at, on) = snapped(Point::new(0.6, 51.0), &guides, 2.0).unwrap();
/// assert!(at.distance(Point::new(0.0, 50.0)) < 1e-9 && on.len() == 2);
/// assert!(snapped(Point::new(20.0, 20.0), &guides, 2.0).is_none());
/// ```
pub fn snapped(at: Point, guides: &[Guide], reach: f64) -> Option<(Point, Vec<&Guide>)> {
    let near = guides.iter().filter(|guide| guide.way.miss(at) <= reach);
    let by_miss = |a: &&Guide, b: &&Guide| a.way.miss(at).total_cmp(&b.way.miss(at));
    let (places, mut ways): (Vec<&Guide>, Vec<&Guide>) =
        near.partition(|guide| matches!(guide.way, Way::Place(_)));
    if let Some(place) = places.into_iter().min_by(by_miss) {
        return Some((place.way.nearest(at), vec![place]));
    }
    ways.sort_by(by_miss);
    let (first, others) = ways.split_first()?;
    let crossing = others.iter().find_map(|second| {
        let cross = crossing(&first.way, &second.way, at)?;
        (cross.distance(at) <= reach).then(|| (cross, vec![*first, *second]))
    });
    Some(crossing.unwrap_or_else(|| (first.way.nearest(at), vec![first])))
}

/// The crossing of two guides near a point, found by alternating between them; `None` if they do not meet there.
fn crossing(one: &Way, other: &Way, from: Point) -> Option<Point> {
    let mut at = from;
    for _ in 0..200 {
        at = one.nearest(other.nearest(at));
    }
    (other.miss(at) < 1e-9).then_some(at)
}

#[cfg(test)]
mod tests {
    use super::*;
    use testkit::assert_near;

    fn guide(way: Way) -> Guide {
        Guide {
            way,
            words: String::new(),
        }
    }

    #[test]
    fn a_point_has_priority_over_a_nearer_line() {
        let line = guide(Way::Line(Point::ORIGIN, Vec2::new(1.0, 0.0)));
        let place = guide(Way::Place(Point::new(10.0, 1.0)));
        let guides = [line, place];
        let (at, on) = snapped(Point::new(9.0, 0.1), &guides, 2.0).unwrap();
        assert_eq!((at, on.len()), (Point::new(10.0, 1.0), 1));
        let (at, _) = snapped(Point::new(5.0, 0.1), &guides, 2.0).unwrap();
        assert_eq!(at, Point::new(5.0, 0.0));
    }

    #[test]
    fn two_circles_cross_and_parallel_lines_do_not() {
        let circle = |x, radius| guide(Way::Circle(Circle::new((x, 0.0), radius)));
        let guides = [circle(0.0, 5.0), circle(6.0, 5.0)];
        let (at, on) = snapped(Point::new(3.2, 4.1), &guides, 1.0).unwrap();
        assert_near!(at, Point::new(3.0, 4.0), 1e-6);
        assert_eq!(on.len(), 2);
        let level = |y| guide(Way::Line(Point::new(0.0, y), Vec2::new(1.0, 0.0)));
        let guides = [level(0.0), level(0.5)];
        let (at, on) = snapped(Point::new(3.0, 0.2), &guides, 1.0).unwrap();
        assert_eq!((at, on.len()), (Point::new(3.0, 0.0), 1));
    }
}
