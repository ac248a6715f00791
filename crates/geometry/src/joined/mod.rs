//! Boards from a blank that is too narrow for one piece: bookmatched halves, and strips side by side.
//!
//! Seams run along x, the direction of the grain.

mod half;
mod strips;

pub use half::{HalfDisc, Side, best_half};
pub use strips::{Strip, StripPlace, circle_strips, lay_strips, most_from_strips};

use crate::{Circle, Flaw, Outline, Point};

/// The parts of a blank's edges and flaws that a search has to stay clear of, as segments and circles.
#[derive(Debug, Clone)]
struct Bounds {
    segments: Vec<(Point, Point)>,
    rounds: Vec<Circle>,
}

impl Bounds {
    fn of(outline: &Outline, flaws: &[Flaw]) -> Self {
        let mut bounds = Self {
            segments: edges(outline),
            rounds: Vec::new(),
        };
        for flaw in flaws {
            match flaw {
                Flaw::Round(circle) if circle.is_finite() && circle.radius >= 0.0 => {
                    bounds.rounds.push(*circle);
                }
                Flaw::Round(_) => {}
                Flaw::Area(area) => bounds.segments.extend(edges(area)),
            }
        }
        bounds
    }
}

fn edges(outline: &Outline) -> Vec<(Point, Point)> {
    let corners = outline.corners();
    let next = corners.iter().cycle().skip(1);
    corners.iter().copied().zip(next.copied()).collect()
}

/// Edges sorted by height, so that only those near a place or a band are checked.
#[derive(Debug, Clone)]
struct Rows {
    low: f64,
    height: f64,
    edges: Vec<Vec<usize>>,
}

/// Number of rows: enough for outlines of ten thousand corners, cheap for those of four.
const ROWS: usize = 256;

impl Rows {
    fn of(segments: &[(Point, Point)]) -> Self {
        let low = segments
            .iter()
            .map(|(a, b)| a.y.min(b.y))
            .fold(f64::INFINITY, f64::min);
        let high = segments
            .iter()
            .map(|(a, b)| a.y.max(b.y))
            .fold(f64::NEG_INFINITY, f64::max);
        let mut rows = Self {
            low,
            height: (high - low).max(f64::MIN_POSITIVE),
            edges: vec![Vec::new(); ROWS],
        };
        for (at, (a, b)) in segments.iter().enumerate() {
            let (from, to) = (rows.row(a.y.min(b.y)), rows.row(a.y.max(b.y)));
            for row in rows.edges.iter_mut().take(to + 1).skip(from) {
                row.push(at);
            }
        }
        rows
    }

    /// The row of a height; heights beyond the ends belong to the end rows.
    fn row(&self, y: f64) -> usize {
        let share = (y - self.low) / self.height;
        ((share * ROWS as f64).max(0.0) as usize).min(ROWS - 1)
    }

    /// The edges that may lie between two heights, without duplicates, in order.
    fn between(&self, low: f64, high: f64) -> Vec<usize> {
        let (from, to) = (self.row(low), self.row(high));
        let mut found: Vec<usize> = self
            .edges
            .iter()
            .take(to + 1)
            .skip(from)
            .flatten()
            .copied()
            .collect();
        found.sort_unstable();
        found.dedup();
        found
    }
}

/// The wood of a blank: the inside of the outline without the flaws that have corners. Round flaws are handled by the
/// distances.
#[derive(Debug, Clone)]
struct Wood {
    bounds: Bounds,
    rows: Rows,
    /// End indices: segments before the first are the outline's; then come those of each flaw in turn.
    ends: Vec<usize>,
}

impl Wood {
    fn of(outline: &Outline, flaws: &[Flaw]) -> Self {
        let bounds = Bounds::of(outline, flaws);
        let mut ends = vec![outline.corners().len()];
        for flaw in flaws {
            if let Flaw::Area(area) = flaw {
                let before = ends.last().copied().unwrap_or_default();
                ends.push(before + area.corners().len());
            }
        }
        Self {
            rows: Rows::of(&bounds.segments),
            bounds,
            ends,
        }
    }

    /// The same wood upside down.
    fn turned_over(mut self) -> Self {
        for (a, b) in &mut self.bounds.segments {
            (a.y, b.y) = (-a.y, -b.y);
        }
        for round in &mut self.bounds.rounds {
            round.center.y = -round.center.y;
        }
        self.rows = Rows::of(&self.bounds.segments);
        self
    }

    /// Whether a point is wood, by counting the edges to its right.
    fn has(&self, point: Point) -> bool {
        let mut inside = vec![false; self.ends.len()];
        let row = self.rows.edges.get(self.rows.row(point.y));
        for &at in row.into_iter().flatten() {
            let Some((a, b)) = self.bounds.segments.get(at) else {
                continue;
            };
            let crosses = (a.y <= point.y) != (b.y <= point.y)
                && a.x + (b.x - a.x) * (point.y - a.y) / (b.y - a.y) > point.x;
            if crosses {
                let owner = self.ends.partition_point(|end| *end <= at);
                if let Some(owner) = inside.get_mut(owner) {
                    *owner = !*owner;
                }
            }
        }
        match inside.split_first() {
            Some((outline, flaws)) => *outline && !flaws.contains(&true),
            None => false,
        }
    }
}

/// The smallest and the largest coordinates of the corners: (least, most).
fn extent(outline: &Outline) -> (Point, Point) {
    let start = (
        Point::new(f64::INFINITY, f64::INFINITY),
        Point::new(f64::NEG_INFINITY, f64::NEG_INFINITY),
    );
    outline
        .corners()
        .iter()
        .fold(start, |(least, most), corner| {
            (
                Point::new(least.x.min(corner.x), least.y.min(corner.y)),
                Point::new(most.x.max(corner.x), most.y.max(corner.y)),
            )
        })
}

/// The part of a segment between two heights, if there is any.
fn between((a, b): (Point, Point), low: f64, high: f64) -> Option<(Point, Point)> {
    let (a, b) = if a.y <= b.y { (a, b) } else { (b, a) };
    if a.y > high || b.y < low {
        return None;
    }
    let at = |y: f64| Point::new(a.x + (b.x - a.x) * (y - a.y) / (b.y - a.y), y);
    let from = if a.y < low { at(low) } else { a };
    let to = if b.y > high { at(high) } else { b };
    Some((from, to))
}
