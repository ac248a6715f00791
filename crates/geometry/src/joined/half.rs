//! Bookmatched halves: a slab sawn into two thin leaves, opened like a book and glued edge to edge.
//!
//! The joined blank is the wood on one side of a seam and its mirror image, so that a board with its pin on the seam needs half
//! a disc of sound wood. The positions of the seam and of the pin on it are found by a branch-and-bound search over both.

use std::collections::BinaryHeap;

use super::{Wood, between, extent};
use crate::{Flaw, Outline, Point, Stopped};

/// The side of the seam that the wood is on.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Side {
    /// Above it.
    Above,
    /// Below it.
    Below,
}

/// Half a disc of sound wood, its straight side on the seam.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HalfDisc {
    /// Its center, on the seam.
    pub center: Point,
    /// Its radius, mm.
    pub radius: f64,
    /// The side of the seam that the wood is on.
    pub side: Side,
}

/// The largest half disc in a blank, with an extra `joint` mm of wood beyond the seam for jointing; `None` if there is no wood.
///
/// No half disc is larger by more than 1/20,000 of the blank's longer side: 0.05 mm on a blank of one meter. Between parallel
/// edges there is a whole line of best places, and a search to the last digit would go through all of it.
///
/// # Errors
/// [`Stopped`] if `cancel`, which is called repeatedly, returned true.
///
/// ```
/// use geometry::{Outline, Point, best_half};
/// let corners = [(0.0, 0.0), (900.0, 0.0), (900.0, 300.0), (0.0, 300.0)].map(Point::from);
/// let slab = Outline::new(corners.to_vec())?;
/// let half = best_half(&slab, &[], 1.5, &|| false)?.unwrap();
/// // The slab's width, less what jointing takes.
/// assert!((half.radius - 298.5).abs() < 0.05);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn best_half(
    outline: &Outline,
    flaws: &[Flaw],
    joint: f64,
    cancel: &dyn Fn() -> bool,
) -> Result<Option<HalfDisc>, Stopped> {
    let above = Search::new(outline, flaws, joint, Side::Above).best(cancel)?;
    let below = Search::new(outline, flaws, joint, Side::Below).best(cancel)?;
    let larger = |a: HalfDisc, b: HalfDisc| if b.radius > a.radius { b } else { a };
    Ok(match (above, below) {
        (Some(above), Some(below)) => Some(larger(above, below)),
        (one, other) => one.or(other),
    })
}

/// Precision of the search for the largest half disc, as a fraction of the blank's longer side.
const WITHIN: f64 = 5e-5;

/// The blank as searched: with the wood above the seam, turned upside down to search for wood below it.
struct Search {
    wood: Wood,
    joint: f64,
    side: Side,
    least: Point,
    most: Point,
}

/// A square of places for the center.
struct Cell {
    /// An upper bound of the radius at any place in it.
    most: f64,
    center: Point,
    half: f64,
    /// The edges and round flaws that can be nearest to a place in it.
    segments: Vec<usize>,
    rounds: Vec<usize>,
}

impl PartialEq for Cell {
    fn eq(&self, other: &Self) -> bool {
        self.cmp(other).is_eq()
    }
}

impl Eq for Cell {}

impl Ord for Cell {
    fn cmp(&self, other: &Self) -> core::cmp::Ordering {
        self.most
            .total_cmp(&other.most)
            .then(other.center.x.total_cmp(&self.center.x))
            .then(other.center.y.total_cmp(&self.center.y))
    }
}

impl PartialOrd for Cell {
    fn partial_cmp(&self, other: &Self) -> Option<core::cmp::Ordering> {
        Some(self.cmp(other))
    }
}

impl Search {
    fn new(outline: &Outline, flaws: &[Flaw], joint: f64, side: Side) -> Self {
        let mut wood = Wood::of(outline, flaws);
        let (mut least, mut most) = extent(outline);
        if side == Side::Below {
            wood = wood.turned_over();
            (least.y, most.y) = (-most.y, -least.y);
        }
        Self {
            wood,
            joint,
            side,
            least,
            most,
        }
    }

    fn best(&self, cancel: &dyn Fn() -> bool) -> Result<Option<HalfDisc>, Stopped> {
        let half = (self.most - self.least).x.max((self.most - self.least).y) / 2.0;
        let within = 2.0 * half * WITHIN;
        let start = Cell {
            most: f64::INFINITY,
            center: self.least.midpoint(self.most),
            half,
            segments: (0..self.wood.bounds.segments.len()).collect(),
            rounds: (0..self.wood.bounds.rounds.len()).collect(),
        };
        let mut cells = BinaryHeap::from([start]);
        let mut best: Option<(f64, Point)> = None;
        while let Some(cell) = cells.pop() {
            let found = best.map_or(0.0, |(radius, _)| radius);
            if cell.most <= found + within {
                break;
            }
            if cancel() {
                return Err(Stopped);
            }
            for (dx, dy) in [(-0.5, -0.5), (0.5, -0.5), (-0.5, 0.5), (0.5, 0.5)] {
                let center = cell.center + (dx * cell.half, dy * cell.half);
                let part = self.part(&cell, center);
                let found = best.map_or(0.0, |(radius, _)| radius);
                if part.most <= found + within {
                    continue;
                }
                let radius = self.radius(&part);
                if radius > found {
                    best = Some((radius, center));
                }
                // Where two edges coincide, no cell is ever recognized as being without wood.
                if part.half > within / 8.0 {
                    cells.push(part);
                }
            }
        }
        Ok(best.map(|(radius, at)| HalfDisc {
            center: match self.side {
                Side::Above => at,
                Side::Below => Point::new(at.x, -at.y),
            },
            radius,
            side: self.side,
        }))
    }

    /// The largest half disc centered at the center of a cell, 0 if there is no wood.
    fn radius(&self, cell: &Cell) -> f64 {
        if self.wood.has(cell.center) {
            self.nearest(cell, cell.center.y - self.joint).max(0.0)
        } else {
            0.0
        }
    }

    /// The quarter of a cell with this center.
    fn part(&self, whole: &Cell, center: Point) -> Cell {
        let half = whole.half / 2.0;
        let corner = half * core::f64::consts::SQRT_2;
        // The seam of every place in the cell lies between these two heights: what is above the higher one counts for all of
        // them, what is below the lower one for none.
        let (high, low) = (center.y + half - self.joint, center.y - half - self.joint);
        let nearest = self.nearest_of(whole, center, high);
        let mut part = Cell {
            most: (nearest + corner).min(self.most.y - center.y + half),
            center,
            half,
            segments: Vec::new(),
            rounds: Vec::new(),
        };
        let near = |distance: Option<f64>| distance.is_some_and(|mm| mm <= nearest + 2.0 * corner);
        let segments = whole.segments.iter().copied();
        part.segments = segments
            .filter(|at| near(self.to_edge(*at, center, low)))
            .collect();
        let rounds = whole.rounds.iter().copied();
        part.rounds = rounds
            .filter(|at| near(self.to_round(*at, center, low)))
            .collect();
        let clear = self.nearest_of(whole, center, f64::NEG_INFINITY) > corner;
        let covers = |at: &usize| {
            let round = self.wood.bounds.rounds.get(*at);
            round.is_some_and(|round| (round.center - center).length() + corner <= round.radius)
        };
        if (clear && !self.wood.has(center)) || part.rounds.iter().any(covers) {
            part.most = 0.0;
        }
        part
    }

    fn nearest(&self, cell: &Cell, above: f64) -> f64 {
        self.nearest_of(cell, cell.center, above)
    }

    /// The distance from a place to the nearest edge or flaw of a cell above a height.
    fn nearest_of(&self, cell: &Cell, from: Point, above: f64) -> f64 {
        let edges = cell.segments.iter();
        let edges = edges.filter_map(|at| self.to_edge(*at, from, above));
        let rounds = cell.rounds.iter();
        let rounds = rounds.filter_map(|at| self.to_round(*at, from, above));
        edges.chain(rounds).fold(f64::INFINITY, f64::min)
    }

    fn to_edge(&self, at: usize, from: Point, above: f64) -> Option<f64> {
        let segment = *self.wood.bounds.segments.get(at)?;
        let (a, b) = between(segment, above, f64::INFINITY)?;
        Some(to_segment(from, a, b))
    }

    fn to_round(&self, at: usize, from: Point, above: f64) -> Option<f64> {
        let round = self.wood.bounds.rounds.get(at)?;
        let up = above - round.center.y;
        if up <= 0.0 {
            Some((round.center - from).length() - round.radius)
        } else if up < round.radius {
            // Only a cap of it is above; it is widest, and nearest, at its base.
            let foot = libm::sqrt(round.radius * round.radius - up * up);
            let across = (from.x - round.center.x).abs() - foot;
            Some(libm::hypot(across.max(0.0), above - from.y))
        } else {
            None
        }
    }
}

fn to_segment(from: Point, a: Point, b: Point) -> f64 {
    let (along, to) = (b - a, from - a);
    let square = along.dot(along);
    let share = if square > 0.0 {
        (to.dot(along) / square).clamp(0.0, 1.0)
    } else {
        0.0
    };
    (to - along * share).length()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Circle;
    use testkit::assert_near;

    fn slab(corners: &[(f64, f64)]) -> Outline {
        Outline::new(corners.iter().copied().map(Point::from).collect()).unwrap()
    }

    fn best(outline: &Outline, flaws: &[Flaw], joint: f64) -> HalfDisc {
        best_half(outline, flaws, joint, &|| false)
            .unwrap()
            .unwrap()
    }

    #[test]
    fn a_rectangle_gives_its_width_or_half_its_length() {
        let wide = slab(&[(0.0, 0.0), (500.0, 0.0), (500.0, 400.0), (0.0, 400.0)]);
        assert_near!(best(&wide, &[], 1.0).radius, 250.0, 0.03);
        let long = slab(&[(0.0, 0.0), (900.0, 0.0), (900.0, 300.0), (0.0, 300.0)]);
        assert_near!(best(&long, &[], 2.0).radius, 298.0, 0.05);
    }

    #[test]
    fn a_knot_at_one_edge_moves_the_seam_to_the_other_edge() {
        // A knot at the lower left: the half disc with the seam on its top side stays clear of it along the bottom.
        let long = slab(&[(0.0, 0.0), (700.0, 0.0), (700.0, 300.0), (0.0, 300.0)]);
        let knot = [Flaw::Round(Circle::new((350.0, 20.0), 30.0))];
        let half = best(&long, &knot, 0.0);
        let scanned = scan(&long, 350.0, 20.0, 30.0);
        assert_near!(half.radius, scanned, 0.5);
    }

    /// A dense scan of places using the definition of a half disc, for the slab of 700 by 300 with one round knot.
    fn scan(outline: &Outline, x: f64, y: f64, r: f64) -> f64 {
        let mut best: f64 = 0.0;
        for flip in [false, true] {
            let knot = Point::new(x, if flip { 300.0 - y } else { y });
            for ix in 0..=700 {
                for iy in 0..=300 {
                    let at = Point::new(f64::from(ix), f64::from(iy));
                    let sides = at.x.min(700.0 - at.x).min(300.0 - at.y);
                    let up = at.y - knot.y;
                    let to_knot = if up <= 0.0 {
                        (knot - at).length() - r
                    } else if up < r {
                        (at.x - knot.x).abs() - libm::sqrt(r * r - up * up)
                    } else {
                        f64::INFINITY
                    };
                    best = best.max(sides.min(to_knot));
                }
            }
        }
        assert_eq!(outline.corners().len(), 4);
        best
    }

    #[test]
    fn a_live_edge_is_jointed_away() {
        // The lower edge bows up by 40 in the middle; the seam stays above it.
        let waney = slab(&[
            (0.0, 0.0),
            (450.0, 40.0),
            (900.0, 0.0),
            (900.0, 300.0),
            (0.0, 300.0),
        ]);
        let half = best(&waney, &[], 0.0);
        // The straight upper edge makes the better seam: the wood is below it, clear of the bow at 40.
        assert_eq!(half.side, Side::Below);
        assert_near!(half.center.y, 300.0, 0.1);
        // From (x, 300) to the bow's slope through (450, 40): best at either end of the slope.
        assert!(half.radius > 259.9 && half.radius < 300.0, "{half:?}");
    }

    #[test]
    fn a_blank_covered_by_a_flaw_has_no_half_disc() {
        let long = slab(&[(0.0, 0.0), (700.0, 0.0), (700.0, 300.0), (0.0, 300.0)]);
        let all = [Flaw::Round(Circle::new((350.0, 150.0), 900.0))];
        assert_eq!(best_half(&long, &all, 0.0, &|| false), Ok(None));
        let same = [Flaw::Area(long.clone())];
        assert_eq!(best_half(&long, &same, 0.0, &|| false), Ok(None));
    }

    #[test]
    fn a_search_can_be_canceled() {
        let long = slab(&[(0.0, 0.0), (700.0, 0.0), (700.0, 300.0), (0.0, 300.0)]);
        assert_eq!(best_half(&long, &[], 0.0, &|| true), Err(Stopped));
    }
}
