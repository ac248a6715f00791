//! The outline of a sawn blank: a polygon that neither crosses nor touches itself.
//!
//! An outline measured on a board and typed in may have repeated corners, may go either way around, and is sometimes mistyped;
//! all of that is handled here, so that no other code has to.

use super::crossing::{crossing, in_sweep_order, side};
use crate::Point;

/// The most corners of an [`Outline`].
pub const MOST_CORNERS: usize = 10_000;

/// The largest coordinate of a corner of an [`Outline`] in either direction, in mm.
pub const FARTHEST_CORNER: f64 = 20_000.0;

/// A simple polygon, counterclockwise: the edge of a blank, or of a part of it to stay clear of.
///
/// Edge `k` runs from corner `k` to the next one, the last edge back to corner 0.
#[derive(Debug, Clone, PartialEq)]
pub struct Outline {
    corners: Vec<Point>,
}

impl Outline {
    /// An outline from its corners in order, either way around, in mm.
    ///
    /// A corner that repeats the previous one, and a last corner that repeats the first, are dropped. A clockwise outline is
    /// reversed, keeping its first corner.
    ///
    /// ```
    /// use geometry::{Outline, OutlineError, Point};
    /// let corners = |list: [(f64, f64); 4]| list.map(Point::from).to_vec();
    /// let slab = Outline::new(corners([(0.0, 0.0), (0.0, 300.0), (900.0, 300.0), (900.0, 0.0)]))?;
    /// assert_eq!(slab.corners()[1], Point::new(900.0, 0.0));
    /// let crossed = Outline::new(corners([(0.0, 0.0), (9.0, 3.0), (9.0, 0.0), (0.0, 3.0)]));
    /// assert_eq!(crossed, Err(OutlineError::Meeting { edge: 1, other: 3 }));
    /// # Ok::<(), OutlineError>(())
    /// ```
    ///
    /// # Errors
    ///
    /// [`OutlineError`] if a corner is not finite or lies beyond [`FARTHEST_CORNER`], if fewer than 3 or more than
    /// [`MOST_CORNERS`] corners remain, if all of them lie on one line, or if two edges meet anywhere except at a shared
    /// corner.
    pub fn new(corners: Vec<Point>) -> Result<Self, OutlineError> {
        for (corner, number) in corners.iter().zip(1..) {
            check(*corner, number)?;
        }
        let (mut corners, numbers) = without_repeats(corners);
        if corners.len() < 3 {
            return Err(OutlineError::FewCorners {
                corners: corners.len(),
            });
        }
        if corners.len() > MOST_CORNERS {
            return Err(OutlineError::ManyCorners {
                corners: corners.len(),
            });
        }
        let order = in_sweep_order(&corners);
        if is_flat(&corners, &order) {
            return Err(OutlineError::NoArea);
        }
        if let Some((edge, other)) = crossing(&corners, &order) {
            let number = |edge: usize| numbers.get(edge).copied().unwrap_or_default();
            return Err(OutlineError::Meeting {
                edge: number(edge),
                other: number(other),
            });
        }
        if is_clockwise(&corners, &order) {
            corners.reverse();
            corners.rotate_right(1);
        }
        Ok(Self { corners })
    }

    /// The corners, counterclockwise, in mm.
    pub fn corners(&self) -> &[Point] {
        &self.corners
    }

    /// Whether a point lies inside; exact except for points on the edge itself, which may count either way.
    ///
    /// ```
    /// use geometry::{Outline, Point};
    /// let corners = [(0.0, 0.0), (60.0, 0.0), (0.0, 40.0)].map(Point::from);
    /// let offcut = Outline::new(corners.to_vec())?;
    /// assert!(offcut.contains(Point::new(10.0, 10.0)));
    /// assert!(!offcut.contains(Point::new(50.0, 30.0)));
    /// # Ok::<(), geometry::OutlineError>(())
    /// ```
    pub fn contains(&self, point: Point) -> bool {
        // Half-open in y, so that a corner at the point's own height counts for only one of its two edges.
        let lies_left = |(from, to): (Point, Point)| {
            let (low, high) = if from.y < to.y {
                (from, to)
            } else {
                (to, from)
            };
            low.y <= point.y && point.y < high.y && side(low, high, point).is_gt()
        };
        self.edges().filter(|edge| lies_left(*edge)).count() % 2 == 1
    }

    /// The edges in order, each from one corner to the next.
    pub(super) fn edges(&self) -> impl Iterator<Item = (Point, Point)> {
        let ends = self.corners.iter().cycle().skip(1);
        self.corners.iter().copied().zip(ends.copied())
    }
}

/// The reasons why corners do not form an [`Outline`]; corners and edges are numbered from 1 as given, with edge 1 running from
/// corner 1 to corner 2.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum OutlineError {
    /// Fewer than three corners, not counting repetitions.
    #[error("an outline needs at least 3 different corners, not {corners}")]
    FewCorners {
        /// Number of corners given.
        corners: usize,
    },
    /// Too many corners.
    #[error("an outline has at most {MOST_CORNERS} corners, not {corners}")]
    ManyCorners {
        /// Number of corners given.
        corners: usize,
    },
    /// A corner with a coordinate that is not finite.
    #[error("corner {corner} must be two plain numbers, not ({x}, {y})")]
    NotFinite {
        /// The corner's number, from 1.
        corner: usize,
        /// Its x as given.
        x: f64,
        /// Its y as given.
        y: f64,
    },
    /// A corner farther away than any blank reaches.
    #[error(
        "corner {corner} at ({x}, {y}) is too far out; keep both numbers between -{FARTHEST_CORNER} and {FARTHEST_CORNER} mm"
    )]
    FarOff {
        /// The corner's number, from 1.
        corner: usize,
        /// Its x as given, in mm.
        x: f64,
        /// Its y as given, in mm.
        y: f64,
    },
    /// Two edges cross, touch, or lie on each other.
    #[error(
        "edge {edge} (from corner {edge}) meets edge {other} (from corner {other}); edges may meet only at a corner they share"
    )]
    Meeting {
        /// One edge's number.
        edge: usize,
        /// The other edge's number, larger.
        other: usize,
    },
    /// All corners lie on one line.
    #[error("the corners all lie on one line; move at least one of them off it")]
    NoArea,
}

/// Corners within this distance of one line, in mm, enclose no area.
const FLAT: f64 = 1e-9;

fn check(corner: Point, number: usize) -> Result<(), OutlineError> {
    let Point { x, y } = corner;
    if !corner.is_finite() {
        return Err(OutlineError::NotFinite {
            corner: number,
            x,
            y,
        });
    }
    if x.abs().max(y.abs()) > FARTHEST_CORNER {
        return Err(OutlineError::FarOff {
            corner: number,
            x,
            y,
        });
    }
    Ok(())
}

/// The corners without repetitions, and for each the number of the given edge, from 1, that leads from it to a different one.
fn without_repeats(given: Vec<Point>) -> (Vec<Point>, Vec<usize>) {
    let mut corners: Vec<Point> = Vec::with_capacity(given.len());
    let mut numbers = Vec::with_capacity(given.len());
    for (corner, number) in given.into_iter().zip(1..) {
        // Adding 0 turns -0 into 0, which is ordered as expected.
        let corner = Point::new(corner.x + 0.0, corner.y + 0.0);
        if corners.last() == Some(&corner) {
            numbers.pop();
        } else {
            corners.push(corner);
        }
        numbers.push(number);
    }
    if corners.len() > 1 && corners.first() == corners.last() {
        corners.pop();
        numbers.pop();
    }
    (corners, numbers)
}

fn is_flat(corners: &[Point], order: &[usize]) -> bool {
    let at = |index: Option<&usize>| index.and_then(|index| corners.get(*index)).copied();
    let (Some(first), Some(last)) = (at(order.first()), at(order.last())) else {
        return true;
    };
    let along = (last - first).normalize();
    corners
        .iter()
        .all(|corner| (*corner - first).cross(along).abs() <= FLAT)
}

/// Whether the outline is clockwise, decided at the first corner in sweep order, which is always convex.
fn is_clockwise(corners: &[Point], order: &[usize]) -> bool {
    let count = corners.len();
    let at = |index: usize| corners.get(index % count).copied();
    let first = order.first().copied().unwrap_or_default();
    match (at(first + count - 1), at(first), at(first + 1)) {
        (Some(before), Some(corner), Some(after)) => side(before, corner, after).is_lt(),
        _ => false,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn outline(corners: &[(f64, f64)]) -> Result<Outline, OutlineError> {
        Outline::new(corners.iter().copied().map(Point::from).collect())
    }

    #[test]
    fn repeated_corners_are_dropped_without_renumbering_the_rest() {
        let square = [(0.0, 0.0), (4.0, 0.0), (4.0, 0.0), (4.0, 4.0), (0.0, 4.0)];
        let closed: Vec<_> = square.iter().copied().chain([(0.0, -0.0)]).collect();
        assert_eq!(outline(&closed).unwrap().corners().len(), 4);
        let crossed = [(0.0, 0.0), (0.0, 0.0), (4.0, 4.0), (4.0, 0.0), (0.0, 4.0)];
        assert_eq!(
            outline(&crossed),
            Err(OutlineError::Meeting { edge: 2, other: 4 })
        );
    }

    #[test]
    fn a_clockwise_outline_is_reversed_and_keeps_its_first_corner() {
        let turned = outline(&[(0.0, 0.0), (0.0, 3.0), (5.0, 3.0), (5.0, 0.0)]).unwrap();
        let straight = outline(&[(0.0, 0.0), (5.0, 0.0), (5.0, 3.0), (0.0, 3.0)]).unwrap();
        assert_eq!(turned, straight);
    }

    #[test]
    fn invalid_outlines_are_refused_with_the_reason() {
        let few = outline(&[(1.0, 1.0), (2.0, 2.0), (1.0, 1.0)]);
        assert_eq!(few, Err(OutlineError::FewCorners { corners: 2 }));
        assert_eq!(outline(&[]), Err(OutlineError::FewCorners { corners: 0 }));
        let far = outline(&[(0.0, 0.0), (20_001.0, -5.0), (0.0, 9.0)]);
        assert_eq!(
            far.unwrap_err().to_string(),
            "corner 2 at (20001, -5) is too far out; keep both numbers between -20000 and 20000 mm"
        );
        let odd = outline(&[(0.0, 0.0), (1.0, 0.0), (f64::NAN, 1.0)]);
        assert!(matches!(
            odd,
            Err(OutlineError::NotFinite { corner: 3, .. })
        ));
        let flat = outline(&[(0.1, 0.3), (0.2, 0.6), (0.7, 2.1), (0.4, 1.2)]);
        assert_eq!(flat, Err(OutlineError::NoArea));
        let many = (0..20_002).map(|k| Point::new(f64::from(k % 2), f64::from(k) / 2.0));
        assert_eq!(
            Outline::new(many.collect()),
            Err(OutlineError::ManyCorners { corners: 20_002 }),
        );
    }

    #[test]
    fn both_edges_that_meet_are_named() {
        let bow_tie = outline(&[(0.0, 0.0), (4.0, 4.0), (4.0, 0.0), (0.0, 4.0)]);
        assert_eq!(
            bow_tie.unwrap_err().to_string(),
            "edge 1 (from corner 1) meets edge 3 (from corner 3); edges may meet only at a corner they share"
        );
    }

    #[test]
    fn a_point_level_with_a_corner_is_classified_correctly() {
        let diamond = outline(&[(0.0, -2.0), (2.0, 0.0), (0.0, 2.0), (-2.0, 0.0)]).unwrap();
        assert!(diamond.contains(Point::new(0.0, 0.0)));
        assert!(!diamond.contains(Point::new(-3.0, 0.0)));
        assert!(!diamond.contains(Point::new(3.0, 0.0)));
        assert!(!diamond.contains(Point::new(-1.0, 2.0)));
        assert!(!diamond.contains(Point::new(-1.0, -2.0)));
    }
}
