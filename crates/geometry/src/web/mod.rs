//! Webs: the wood left between bores, seen from above.
//!
//! A board's holes are spread evenly, so a plain grid of cells finds neighbors fastest; if they are not (one hole far away,
//! many in one place, very different radii) a tree of bounding boxes takes over, so that no input takes much longer than n log
//! n. Both are exact for circles of different radii. Circles whose position or radius is not finite, or is over 1e100 mm, have
//! no webs.

mod grid;
mod tree;

use crate::{Circle, Point};
use grid::Grid;
use tree::Tree;

/// The wood between two circles.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Web {
    /// The index of one circle.
    pub a: usize,
    /// The index of the other circle, larger than `a`.
    pub b: usize,
    /// The wood between them, in mm; negative if they overlap.
    pub mm: f64,
}

/// The wood between two circles, in mm; negative if they overlap.
///
/// ```
/// use geometry::{Circle, web_between};
/// let [one, other] = [0.0, 20.0].map(|x| Circle::new((x, 0.0), 8.0));
/// assert_eq!(web_between(one, other), 4.0);
/// ```
pub fn web_between(one: Circle, other: Circle) -> f64 {
    (other.center - one.center).hypot() - (one.radius + other.radius)
}

/// The smallest web between any two of the circles; `None` for fewer than two.
///
/// Of several equally small webs, one is returned, always the same one for the same circles.
///
/// ```
/// use geometry::{Circle, smallest_web};
/// let bores = [0.0, 20.0, 39.0].map(|x| Circle::new((x, 0.0), 8.0));
/// let web = smallest_web(&bores).unwrap();
/// assert!((web.a, web.b) == (1, 2) && (web.mm - 3.0).abs() < 1e-9);
/// ```
pub fn smallest_web(circles: &[Circle]) -> Option<Web> {
    let discs = discs(circles);
    if discs.len() <= FEW {
        return smallest_of_few(&discs);
    }
    Grid::new(&discs)
        .and_then(|grid| grid.smallest())
        .or_else(|| Tree::new(discs).smallest())
}

/// All webs under `limit` mm, from the smallest to the largest, then by the circles' indices.
///
/// ```
/// use geometry::{Circle, close_webs};
/// let bores = [0.0, 20.0, 39.0].map(|x| Circle::new((x, 0.0), 8.0));
/// let pairs: Vec<_> = close_webs(&bores, 5.0).iter().map(|web| (web.a, web.b)).collect();
/// assert_eq!(pairs, [(1, 2), (0, 1)]);
/// ```
pub fn close_webs(circles: &[Circle], limit: f64) -> Vec<Web> {
    let discs = discs(circles);
    let mut webs = Grid::new(&discs)
        .and_then(|grid| grid.close(limit))
        .unwrap_or_else(|| Tree::new(discs).close(limit));
    webs.sort_unstable_by(|one, other| {
        let by_size = one.mm.total_cmp(&other.mm);
        by_size.then((one.a, one.b).cmp(&(other.a, other.b)))
    });
    webs
}

/// For each circle, its smallest web to any other.
///
/// Of several equally small webs of a circle, one is returned, always the same one for the same circles.
///
/// ```
/// use geometry::{Circle, nearest_webs};
/// let bores = [0.0, 20.0, 39.0].map(|x| Circle::new((x, 0.0), 8.0));
/// let first = nearest_webs(&bores)[0].unwrap();
/// assert!(first.b == 1 && (first.mm - 4.0).abs() < 1e-9);
/// ```
pub fn nearest_webs(circles: &[Circle]) -> Vec<Option<Web>> {
    Tree::new(discs(circles)).nearest(circles.len())
}

/// A circle and its index, as the grid and the tree store it.
#[derive(Debug, Clone, Copy)]
struct Disc {
    center: Point,
    radius: f64,
    index: u32,
}

impl Disc {
    fn web_to(&self, other: &Self) -> f64 {
        (other.center - self.center).hypot() - (self.radius + other.radius)
    }

    /// Whether the web to `other` may be under `limit`: without a square root, and never a false no.
    fn may_be_within(&self, other: &Self, limit: f64) -> bool {
        let reach = limit + (self.radius + other.radius);
        reach > 0.0 && (other.center - self.center).hypot2() <= reach * reach * (1.0 + SLACK)
    }

    fn pair(&self, other: &Self, mm: f64) -> Web {
        Web {
            a: self.index.min(other.index) as usize,
            b: self.index.max(other.index) as usize,
            mm,
        }
    }
}

/// Up to this many circles, comparing all pairs is faster than any index.
const FEW: usize = 24;

/// Relative slack of a comparison of squares.
const SLACK: f64 = 1e-12;

/// Larger numbers are not on any board, and their squares may overflow.
const HUGE: f64 = 1e100;

fn discs(circles: &[Circle]) -> Vec<Disc> {
    let placed = |circle: &Circle| {
        [circle.center.x, circle.center.y, circle.radius]
            .iter()
            .all(|value| value.abs() <= HUGE)
    };
    circles
        .iter()
        .zip(0..)
        .filter(|(circle, _)| placed(circle))
        .map(|(circle, index)| Disc {
            center: circle.center,
            radius: circle.radius,
            index,
        })
        .collect()
}

fn smallest_of_few(discs: &[Disc]) -> Option<Web> {
    let mut best: Option<Web> = None;
    for (at, one) in discs.iter().enumerate() {
        for other in discs.iter().skip(at + 1) {
            let mm = one.web_to(other);
            if best.is_none_or(|best| mm < best.mm) {
                best = Some(one.pair(other, mm));
            }
        }
    }
    best
}

#[cfg(test)]
mod tests {
    use super::*;
    use testkit::assert_near;

    fn line(count: u32, step: f64) -> Vec<Circle> {
        (0..count)
            .map(|hole| Circle::new((f64::from(hole) * step, 0.0), 4.0))
            .collect()
    }

    #[test]
    fn fewer_than_two_circles_have_no_web() {
        assert_eq!(smallest_web(&[]), None);
        assert_eq!(smallest_web(&line(1, 10.0)), None);
        assert_eq!(nearest_webs(&line(1, 10.0)), vec![None]);
        assert!(close_webs(&line(1, 10.0), 100.0).is_empty());
    }

    #[test]
    fn circles_without_a_position_are_ignored() {
        let mut circles = line(100, 10.0);
        circles[7].center.x = f64::NAN;
        circles[8].radius = f64::INFINITY;
        circles[9].center.y = 1e200;
        assert_near!(smallest_web(&circles).unwrap().mm, 2.0, 1e-9);
        let nearest = nearest_webs(&circles);
        assert!(nearest[7].is_none() && nearest[8].is_none() && nearest[9].is_none());
        assert_near!(nearest[6].unwrap().mm, 2.0, 1e-9);
        assert!(
            close_webs(&circles, 5.0)
                .iter()
                .all(|web| !(7..=9).contains(&web.b))
        );
    }

    #[test]
    fn one_distant_hole_and_many_in_one_place_are_handled() {
        let mut circles = line(20_000, 10.0);
        circles.push(Circle::new((1e90, -1e90), 4.0));
        assert_near!(smallest_web(&circles).unwrap().mm, 2.0, 1e-9);
        assert_eq!(close_webs(&circles, 3.0).len(), 19_999);
        let same = vec![Circle::new((5.0, 5.0), 4.0); 20_000];
        assert_near!(smallest_web(&same).unwrap().mm, -8.0, 1e-12);
        assert!(nearest_webs(&same).iter().all(Option::is_some));
        assert!(close_webs(&same, -8.0).is_empty());
    }

    #[test]
    fn a_wide_circle_is_seen_from_afar() {
        let mut circles = line(3000, 10.0);
        circles.push(Circle::new((15_000.0, 14_001.0), 14_000.0));
        let web = smallest_web(&circles).unwrap();
        assert_eq!((web.a, web.b), (1500, 3000));
        assert_near!(web.mm, -3.0, 1e-9);
    }
}
