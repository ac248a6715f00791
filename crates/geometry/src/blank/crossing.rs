//! Whether a closed line intersects itself, by a sweep from left to right over its corners.
//!
//! The edges under the sweep line are kept in order from the bottom up; edges that cross are adjacent in that order before they
//! do. Every comparison is exact, so the order is correct until the first intersection is found, and the time grows as n log n
//! (except for shifting a list of at most n small numbers) for any shape of the line: comparing the bounding boxes of edges, or
//! all edges under the sweep line, is quadratic for a comb.

use core::cmp::Ordering;

use robust::{Coord, orient2d};

use crate::Point;

/// The indices of the corners from left to right, and from bottom to top among corners in a vertical line.
pub(super) fn in_sweep_order(corners: &[Point]) -> Vec<usize> {
    let mut order: Vec<usize> = (0..corners.len()).collect();
    let place = |index: &usize| corners.get(*index).copied().unwrap_or_default();
    order.sort_by(|one, other| {
        let (one, other) = (place(one), place(other));
        one.x.total_cmp(&other.x).then(one.y.total_cmp(&other.y))
    });
    order
}

/// Two edges that meet anywhere except at a shared corner, the smaller index first; edge `k` runs from corner `k` to the next.
/// Adjacent corners must be distinct; `order` is their [`in_sweep_order`].
pub(super) fn crossing(corners: &[Point], order: &[usize]) -> Option<(usize, usize)> {
    let sweep = Sweep { corners };
    let found = sweep.run(order).err();
    found.map(|(one, other)| (one.min(other), one.max(other)))
}

/// The side of the line from one point to another on which a third lies: `Greater` on the left, `Less` on the right, `Equal` on
/// the line. Exact for finite points, however close to the line they are.
pub(super) fn side(from: Point, to: Point, point: Point) -> Ordering {
    let [from, to, point] = [from, to, point].map(|Point { x, y }| Coord { x, y });
    let area = orient2d(from, to, point);
    area.partial_cmp(&0.0).unwrap_or(Ordering::Equal)
}

struct Sweep<'a> {
    corners: &'a [Point],
}

/// Two edges that meet.
type Meeting = (usize, usize);

impl Sweep<'_> {
    fn run(&self, order: &[usize]) -> Result<(), Meeting> {
        for pair in order.windows(2) {
            match pair {
                [one, other] if self.corner(*one) == self.corner(*other) => {
                    return Err((*one, *other));
                }
                _ => {}
            }
        }
        let mut under = Vec::new();
        order
            .iter()
            .try_for_each(|corner| self.pass(*corner, &mut under))
    }

    /// Moves the sweep line past a corner: edges that end there are removed from the list of edges under it, edges that begin
    /// there take their place, and each edge with a new neighbor is compared with it.
    fn pass(&self, corner: usize, under: &mut Vec<usize>) -> Result<(), Meeting> {
        let own = [self.edge_before(corner), corner];
        let at = self.corner(corner);
        let first = under.partition_point(|edge| self.side(*edge, at).is_gt());
        let through: Vec<usize> = under
            .iter()
            .skip(first)
            .take_while(|edge| self.side(**edge, at).is_eq())
            .copied()
            .collect();
        if let Some(edge) = through.iter().find(|edge| !own.contains(edge)) {
            return Err((*edge, corner));
        }
        let mut begin: Vec<usize> = own
            .into_iter()
            .filter(|edge| self.ends(*edge).0 == at)
            .collect();
        if let [one, other] = begin.as_mut_slice() {
            match self.side(*one, self.ends(*other).1) {
                Ordering::Greater => {}
                Ordering::Less => core::mem::swap(one, other),
                Ordering::Equal => return Err((*one, *other)),
            }
        }
        let next = first + begin.len();
        under.splice(first..first + through.len(), begin);
        self.compare(under, first)?;
        self.compare(under, next)
    }

    /// Compares the edge at a position in the list with the one below it.
    fn compare(&self, under: &[usize], place: usize) -> Result<(), Meeting> {
        let below = place.checked_sub(1).and_then(|below| under.get(below));
        match (below, under.get(place)) {
            (Some(one), Some(other)) if self.cross(*one, *other) => Err((*one, *other)),
            _ => Ok(()),
        }
    }

    /// Whether each edge's ends lie on different sides of the other. An end that lies on the other edge is detected when the
    /// sweep reaches that corner.
    fn cross(&self, one: usize, other: usize) -> bool {
        let parts = |edge: usize, other: usize| {
            let (left, right) = self.ends(other);
            let (left, right) = (self.side(edge, left), self.side(edge, right));
            left.is_ne() && left == right.reverse()
        };
        parts(one, other) && parts(other, one)
    }

    /// Whether a point lies above an edge (`Greater`), below it (`Less`) or in line with it.
    fn side(&self, edge: usize, point: Point) -> Ordering {
        let (left, right) = self.ends(edge);
        side(left, right, point)
    }

    /// The ends of an edge in sweep order.
    fn ends(&self, edge: usize) -> (Point, Point) {
        let (from, to) = (self.corner(edge), self.corner(edge + 1));
        if (from.x, from.y) <= (to.x, to.y) {
            (from, to)
        } else {
            (to, from)
        }
    }

    fn edge_before(&self, corner: usize) -> usize {
        corner.checked_sub(1).unwrap_or(self.corners.len() - 1)
    }

    fn corner(&self, index: usize) -> Point {
        let index = if index < self.corners.len() { index } else { 0 };
        self.corners.get(index).copied().unwrap_or_default()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn meeting(corners: &[Point]) -> Option<(usize, usize)> {
        crossing(corners, &in_sweep_order(corners))
    }

    fn points(corners: &[(f64, f64)]) -> Vec<Point> {
        corners.iter().copied().map(Point::from).collect()
    }

    #[test]
    fn a_simple_outline_does_not_meet_itself() {
        let with_corners_on_a_line = [
            (0.0, 0.0),
            (2.0, 0.0),
            (4.0, 0.0),
            (4.0, 4.0),
            (4.0, 8.0),
            (0.0, 8.0),
        ];
        assert_eq!(meeting(&points(&with_corners_on_a_line)), None);
    }

    #[test]
    fn every_kind_of_contact_is_found() {
        let corner_on_edge = [(0.0, 0.0), (8.0, 0.0), (8.0, 4.0), (4.0, 0.0), (0.0, 4.0)];
        assert_eq!(meeting(&points(&corner_on_edge)), Some((0, 3)));
        let corner_on_corner = [
            (0.0, 0.0),
            (4.0, 4.0),
            (8.0, 0.0),
            (8.0, 8.0),
            (4.0, 4.0),
            (0.0, 8.0),
        ];
        assert_eq!(meeting(&points(&corner_on_corner)), Some((1, 4)));
        let back_and_forth = [(0.0, 0.0), (8.0, 0.0), (4.0, 0.0), (4.0, 4.0)];
        assert_eq!(meeting(&points(&back_and_forth)), Some((0, 2)));
        let spike_up = [(0.0, 0.0), (8.0, 0.0), (8.0, 8.0), (8.0, 4.0), (0.0, 4.0)];
        assert_eq!(meeting(&points(&spike_up)), Some((1, 3)));
        let edge_on_edge = [
            (0.0, 0.0),
            (9.0, 0.0),
            (9.0, 5.0),
            (6.0, 0.0),
            (3.0, 0.0),
            (0.0, 5.0),
        ];
        assert!(meeting(&points(&edge_on_edge)).is_some());
    }

    /// Whether two closed segments have a point in common, computed with integers.
    fn touch(one: [(i64, i64); 2], other: [(i64, i64); 2]) -> bool {
        let turn = |[a, b]: [(i64, i64); 2], p: (i64, i64)| {
            ((b.0 - a.0) * (p.1 - a.1) - (b.1 - a.1) * (p.0 - a.0)).signum()
        };
        let within = |[a, b]: [(i64, i64); 2], p: (i64, i64)| {
            turn([a, b], p) == 0
                && (a.0.min(b.0)..=a.0.max(b.0)).contains(&p.0)
                && (a.1.min(b.1)..=a.1.max(b.1)).contains(&p.1)
        };
        let parted = |one, other: [(i64, i64); 2]| turn(one, other[0]) * turn(one, other[1]) < 0;
        (parted(one, other) && parted(other, one))
            || other.iter().any(|p| within(one, *p))
            || one.iter().any(|p| within(other, *p))
    }

    /// All pairs of edges that meet anywhere except at a shared corner, by comparing all pairs.
    fn all_meetings(corners: &[(i64, i64)]) -> Vec<(usize, usize)> {
        let count = corners.len();
        let edge = |k: usize| [corners[k % count], corners[(k + 1) % count]];
        let pairs = (0..count).flat_map(|one| (one + 1..count).map(move |other| (one, other)));
        let meets = |(one, other): &(usize, usize)| {
            let folds = |a: [(i64, i64); 2], b: [(i64, i64); 2]| {
                // `b` follows `a`: their far ends must not lie on each other.
                touch(b, [a[0], a[0]]) || touch(a, [b[1], b[1]])
            };
            if (one + 1) % count == *other {
                folds(edge(*one), edge(*other))
            } else if (other + 1) % count == *one {
                folds(edge(*other), edge(*one))
            } else {
                touch(edge(*one), edge(*other))
            }
        };
        pairs.filter(meets).collect()
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(4000))]

        #[test]
        fn the_sweep_finds_an_intersection_whenever_comparing_all_pairs_does(
            corners in proptest::collection::vec((0i64..7, 0i64..7), 3..9)
        ) {
            let count = corners.len();
            prop_assume!((0..count).all(|k| corners[k] != corners[(k + 1) % count]));
            let plain: Vec<Point> = corners.iter().map(|(x, y)| Point::new(*x as f64, *y as f64)).collect();
            let all = all_meetings(&corners);
            match meeting(&plain) {
                None => prop_assert!(all.is_empty(), "{all:?} was not found"),
                Some(pair) => prop_assert!(all.contains(&pair), "{pair:?} is not among {all:?}"),
            }
        }
    }
}
