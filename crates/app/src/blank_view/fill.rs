//! The inside of an outline cut into pieces that can be painted: slices between upright lines, and hatching.
//!
//! Painters of triangles fill convex shapes only, and a waney edge is anything but. The slices are found in one
//! sweep from left to right; there are at most three for each corner.

use geometry::Point;

/// The corners of a slice: lower left, lower right, upper right, upper left.
pub type Slice = [Point; 4];

/// Slices that together cover the inside of a polygon that neither crosses nor touches itself; what it is given beside
/// that, it leaves unfilled.
pub fn slices(corners: &[Point]) -> Vec<Slice> {
    let mut order: Vec<usize> = (0..corners.len()).collect();
    order.sort_by(|a, b| before(&corners[*a], &corners[*b]));
    let mut sweep = Sweep {
        corners,
        active: Vec::new(),
        starts: Vec::new(),
        done: Vec::new(),
    };
    for corner in order {
        if sweep.pass(corner).is_none() {
            return Vec::new();
        }
    }
    sweep.done
}

/// The parts inside a polygon of parallel lines, `step` apart, that run at `slope`: a way of length 1.
pub fn hatching(
    corners: &[Point],
    slope: kurbo::Vec2,
    steps: impl Iterator<Item = f64>,
) -> Vec<[Point; 2]> {
    // Turned so that the lines lie level.
    let along = |at: Point| Point::new(at.to_vec2().dot(slope), slope.cross(at.to_vec2()));
    let turned: Vec<Point> = corners.iter().copied().map(along).collect();
    let back = |x: f64, y: f64| Point::new(x * slope.x - y * slope.y, x * slope.y + y * slope.x);
    let bottom = turned.iter().map(|at| at.y).fold(f64::INFINITY, f64::min);
    let top = turned
        .iter()
        .map(|at| at.y)
        .fold(f64::NEG_INFINITY, f64::max);
    let mut lines = Vec::new();
    let mut y = bottom;
    for step in steps.filter(|step| *step > 0.0) {
        y += step;
        if y >= top {
            break;
        }
        let crossings = crossings(&turned, y);
        let ends = crossings.chunks_exact(2);
        lines.extend(ends.map(|ends| [back(ends[0], y), back(ends[1], y)]));
    }
    lines
}

/// Whether a point lies inside a polygon.
pub fn contains(corners: &[Point], at: Point) -> bool {
    crossings(corners, at.y)
        .iter()
        .filter(|x| **x > at.x)
        .count()
        % 2
        == 1
}

/// Where a level line meets the edges, from left to right.
fn crossings(corners: &[Point], y: f64) -> Vec<f64> {
    let ends = corners.iter().cycle().skip(1);
    let mut found: Vec<f64> = corners
        .iter()
        .zip(ends)
        // Half-open, so that a corner on the line counts for one of its edges only.
        .filter(|(from, to)| (from.y <= y) != (to.y <= y))
        .map(|(from, to)| from.x + (y - from.y) / (to.y - from.y) * (to.x - from.x))
        .collect();
    found.sort_by(f64::total_cmp);
    found
}

/// From left to right, and on one upright line from below.
fn before(a: &Point, b: &Point) -> core::cmp::Ordering {
    a.x.total_cmp(&b.x).then(a.y.total_cmp(&b.y))
}

/// An upright line that sweeps over a polygon.
struct Sweep<'a> {
    corners: &'a [Point],
    /// The edges that the line meets, from below: between the first and the second is inside, and so on. Edge `k`
    /// runs from corner `k` to the next.
    active: Vec<usize>,
    /// Where the slices begin that lie between them.
    starts: Vec<f64>,
    done: Vec<Slice>,
}

impl Sweep<'_> {
    /// Moves the line over a corner; none where the polygon is not as it should be.
    fn pass(&mut self, corner: usize) -> Option<()> {
        let count = self.corners.len();
        let (into, out) = ((corner + count - 1) % count, corner);
        let at = *self.corners.get(corner)?;
        let earlier = |other: usize| before(&self.corners[other], &at).is_lt();
        match (earlier(into), earlier((corner + 1) % count)) {
            (false, false) => self.begin(at, into, out),
            (true, true) => self.end(at, into, out),
            (true, false) => self.bend(at, into, out),
            (false, true) => self.bend(at, out, into),
        }
    }

    /// Two edges begin: a slice of their own, or a notch in one.
    fn begin(&mut self, at: Point, one: usize, other: usize) -> Option<()> {
        let (a, b) = (self.way(one)?, self.way(other)?);
        let (low, high) = if a.cross(b) > 0.0 {
            (one, other)
        } else {
            (other, one)
        };
        let place = self
            .active
            .partition_point(|edge| self.height(*edge, at.x) < at.y);
        let slice = place / 2;
        if place % 2 == 1 {
            self.close(slice, at.x)?;
            *self.starts.get_mut(slice)? = at.x;
            self.starts.insert(slice + 1, at.x);
        } else {
            self.starts.insert(slice, at.x);
        }
        self.active.splice(place..place, [low, high]);
        Some(())
    }

    /// Two edges end: their slice, or a notch between two.
    fn end(&mut self, at: Point, one: usize, other: usize) -> Option<()> {
        let place = self
            .active
            .iter()
            .position(|edge| *edge == one || *edge == other)?;
        let last = *self.active.get(place + 1)?;
        if last != one && last != other {
            return None;
        }
        let slice = place / 2;
        self.close(slice, at.x)?;
        if place % 2 == 1 {
            self.close(slice + 1, at.x)?;
            *self.starts.get_mut(slice + 1)? = at.x;
        }
        self.starts.remove(slice);
        self.active.drain(place..place + 2);
        Some(())
    }

    /// One edge ends where another begins.
    fn bend(&mut self, at: Point, ends: usize, begins: usize) -> Option<()> {
        let place = self.active.iter().position(|edge| *edge == ends)?;
        self.close(place / 2, at.x)?;
        *self.starts.get_mut(place / 2)? = at.x;
        *self.active.get_mut(place)? = begins;
        Some(())
    }

    /// Takes what lies between two edges, as far as the line has come.
    fn close(&mut self, slice: usize, x: f64) -> Option<()> {
        let from = *self.starts.get(slice)?;
        let (low, high) = (
            *self.active.get(2 * slice)?,
            *self.active.get(2 * slice + 1)?,
        );
        if x > from {
            let on = |edge: usize, x: f64| Point::new(x, self.height(edge, x));
            self.done
                .push([on(low, from), on(low, x), on(high, x), on(high, from)]);
        }
        Some(())
    }

    /// The way an edge runs, from left to right.
    fn way(&self, edge: usize) -> Option<kurbo::Vec2> {
        let (left, right) = self.ends(edge)?;
        Some(right - left)
    }

    /// How high an edge is at a place along.
    fn height(&self, edge: usize, x: f64) -> f64 {
        let Some((left, right)) = self.ends(edge) else {
            return f64::NAN;
        };
        if x >= right.x && right.x > left.x {
            return right.y;
        }
        let share = if right.x > left.x {
            (x - left.x) / (right.x - left.x)
        } else {
            0.0
        };
        left.y + share * (right.y - left.y)
    }

    fn ends(&self, edge: usize) -> Option<(Point, Point)> {
        let one = *self.corners.get(edge)?;
        let other = *self.corners.get((edge + 1) % self.corners.len())?;
        Some(if before(&one, &other).is_lt() {
            (one, other)
        } else {
            (other, one)
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;
    use testkit::assert_near;

    fn points(corners: &[(f64, f64)]) -> Vec<Point> {
        corners.iter().copied().map(Point::from).collect()
    }

    /// The shoelace formula.
    fn area(corners: &[Point]) -> f64 {
        let ends = corners.iter().cycle().skip(1);
        let twice: f64 = corners
            .iter()
            .zip(ends)
            .map(|(a, b)| a.to_vec2().cross(b.to_vec2()))
            .sum();
        twice / 2.0
    }

    fn covered(corners: &[Point]) -> f64 {
        slices(corners).iter().map(|slice| area(slice)).sum()
    }

    #[test]
    fn a_rectangle_is_one_slice() {
        let slab = points(&[(0.0, 0.0), (900.0, 0.0), (900.0, 300.0), (0.0, 300.0)]);
        assert_eq!(slices(&slab), [[slab[0], slab[1], slab[2], slab[3]]]);
    }

    #[test]
    fn notches_and_teeth_are_left_out() {
        let comb = points(&[
            (0.0, 0.0),
            (10.0, 0.0),
            (10.0, 8.0),
            (7.0, 2.0),
            (6.0, 8.0),
            (4.0, 8.0),
            (3.0, 1.0),
            (0.0, 8.0),
        ]);
        let turned: Vec<Point> = comb.iter().map(|at| Point::new(-at.y, at.x)).collect();
        for shape in [comb, turned] {
            assert_near!(covered(&shape), area(&shape), 1e-9);
            assert!(slices(&shape).iter().all(|slice| area(slice) > 0.0));
        }
    }

    #[test]
    fn crossed_corners_are_no_reason_to_fall_over() {
        let crossed = points(&[(0.0, 0.0), (9.0, 9.0), (9.0, 0.0), (0.0, 9.0)]);
        slices(&crossed);
        for few in 0..3 {
            assert!(covered(&crossed[..few]).abs() < 1e-12);
            let level = kurbo::Vec2::new(1.0, 0.0);
            let lines = hatching(&crossed[..few], level, core::iter::repeat_n(1.0, 9));
            assert!(lines.iter().all(|[from, to]| from == to));
        }
    }

    #[test]
    fn hatching_stays_inside_and_runs_its_way() {
        let notched = points(&[
            (0.0, 0.0),
            (10.0, 0.0),
            (10.0, 10.0),
            (5.0, 1.0),
            (0.0, 10.0),
        ]);
        let level = hatching(
            &notched,
            kurbo::Vec2::new(1.0, 0.0),
            core::iter::repeat_n(2.5, 3),
        );
        // Below the notch it would be one line; above, it is two.
        assert_eq!(level.len(), 6);
        let steep = kurbo::Vec2::new(0.6, 0.8);
        for [from, to] in hatching(&notched, steep, core::iter::repeat_n(0.7, 100)) {
            assert!(contains(&notched, from.midpoint(to)));
            assert_near!((to - from).cross(steep), 0.0, 1e-9);
        }
    }

    #[test]
    fn a_jagged_slab_of_ten_thousand_corners_is_covered() {
        let below = (0..5000_u32).map(|at| Point::new(f64::from(at), f64::from(at * 7919 % 41)));
        let above = (0..5000_u32)
            .rev()
            .map(|at| Point::new(f64::from(at), 400.0 - f64::from(at * 104_729 % 37)));
        let slab: Vec<Point> = below.chain(above).collect();
        assert_near!(covered(&slab), area(&slab), 1e-3);
        assert!(slices(&slab).len() <= 3 * slab.len());
    }

    proptest! {
        #[test]
        fn any_star_is_covered_exactly(reaches in prop::collection::vec(5.0..100.0_f64, 3..40), turn in 0.0..6.0_f64) {
            let count = reaches.len() as f64;
            let corner = |(at, reach): (usize, &f64)| {
                let bearing = turn + at as f64 / count * core::f64::consts::TAU;
                Point::new(reach * libm::cos(bearing), reach * libm::sin(bearing))
            };
            let star: Vec<Point> = reaches.iter().enumerate().map(corner).collect();
            prop_assert!((covered(&star) - area(&star)).abs() < 1e-6);
        }
    }
}
