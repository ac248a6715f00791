//! What joining makes of a blank that is too narrow for a board: bookmatched halves, and strips side by side.
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

/// Whether a point is sound wood: inside the outline and in no flaw with corners. Round flaws are left to the
/// distances.
fn is_wood(outline: &Outline, flaws: &[Flaw], point: Point) -> bool {
    let in_flaw = |flaw: &Flaw| matches!(flaw, Flaw::Area(area) if area.contains(point));
    outline.contains(point) && !flaws.iter().any(in_flaw)
}

/// The lowest and the highest corner's x and y: (least, most).
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
