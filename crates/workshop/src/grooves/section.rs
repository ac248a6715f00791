//! V-grooves cut by a vertical plane, as their depth along the plane.

use board::Board;
use geometry::{Point, flatten};

use crate::grooves::depth::groove_profile;
use crate::section::plane::View;
use crate::section::revolved::OFF;
use crate::{GroovePlan, Stroke};

/// The most steps from one end of a plane to the other.
const STEPS: f64 = 8000.0;
/// The most times that the curve between two steps is bisected.
const HALVINGS: u32 = 10;

/// The cuts of a plane through the grooves, one outline for each contiguous part.
pub fn cut_grooves(board: &Board, plan: &GroovePlan, view: &View, reach: f64) -> Vec<Vec<Point>> {
    let Some(wanted) = board.grooves.filter(|_| plan.depth > 0.0) else {
        return Vec::new();
    };
    let bit = groove_profile(&wanted, plan.depth);
    let half = bit.mouth();
    let strokes = plan.grooves.iter().flat_map(|groove| &groove.path);
    let near: Vec<Stroke> = strokes
        .filter(|stroke| comes_near(stroke, view, half))
        .copied()
        .collect();
    let away = |s: f64| {
        let distances = near.iter().map(|stroke| stroke.distance(view.at(s)));
        distances.fold(f64::INFINITY, f64::min) - half
    };
    if near.is_empty() {
        return Vec::new();
    }
    let (from, to) = view.range(reach);
    spans((from, to), &away)
        .iter()
        .filter_map(|places| part(places, &|s| bit.depth_at(away(s) + half).unwrap_or(0.0)))
        .collect()
}

/// Whether a stroke's box is close enough to a plane for its groove to be cut.
fn comes_near(stroke: &Stroke, view: &View, half: f64) -> bool {
    let around = stroke.bounds();
    let (_, off) = view.see(around.center());
    let corner = (around.x1 - around.x0, around.y1 - around.y0);
    off <= libm::hypot(corner.0, corner.1) / 2.0 + half
}

/// The sample positions of each span that is inside a groove: its ends, and steps between them.
fn spans((from, to): (f64, f64), away: &impl Fn(f64) -> f64) -> Vec<Vec<f64>> {
    let least = (to - from) / STEPS;
    let mut spans: Vec<Vec<f64>> = Vec::new();
    let (mut at, mut here) = (from, away(from));
    let mut open = (here <= 0.0).then(|| vec![at]);
    while at < to {
        let next = (at + here.abs().max(least)).min(to);
        let there = away(next);
        match (&mut open, there <= 0.0) {
            (Some(places), true) => places.push(next),
            (Some(places), false) => {
                places.push(edge(at, next, away));
                spans.extend(open.take());
            }
            (None, true) => open = Some(vec![edge(next, at, away), next]),
            (None, false) => {}
        }
        (at, here) = (next, there);
    }
    spans.extend(open);
    spans
}

/// The edge of a groove between a position inside it and one outside.
fn edge(within: f64, outside: f64, away: &impl Fn(f64) -> f64) -> f64 {
    let (mut within, mut outside) = (within, outside);
    for _ in 0..40 {
        let middle = f64::midpoint(within, outside);
        if away(middle) <= 0.0 {
            within = middle;
        } else {
            outside = middle;
        }
    }
    within
}

/// The outline of a contiguous part, from its depth at each position.
fn part(places: &[f64], depth: &impl Fn(f64) -> f64) -> Option<Vec<Point>> {
    let at = |s: f64| Point::new(s, -depth(s));
    let (&first, &last) = (places.first()?, places.last()?);
    let mut curve = vec![Point::new(first, 0.0), at(first)];
    for pair in places.windows(2) {
        let &[from, to] = pair else { continue };
        flatten(
            &at,
            [from, to],
            [at(from), at(to)],
            (OFF, HALVINGS),
            &mut curve,
        );
    }
    curve.push(Point::new(last, 0.0));
    curve.dedup();
    let corners = without_middles(&curve);
    (corners.len() >= 3).then_some(corners)
}

/// The points of a curve without those on the line between their neighbors.
fn without_middles(curve: &[Point]) -> Vec<Point> {
    /// Depth below which a groove is left out of a section, mm.
    const FLAT: f64 = 1e-9;
    let mut kept: Vec<Point> = Vec::new();
    for &point in curve {
        if let [.., before, last] = kept.as_slice()
            && (point - *before).cross(*last - *before).abs() <= FLAT
        {
            kept.pop();
        }
        kept.push(point);
    }
    kept
}
