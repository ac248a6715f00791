//! V-grooves cut by an upright plane: how deep they are along it.
//!
//! A V bit leaves a depth that follows from the distance to the middle of its way alone, so that the cut is a curve of
//! depths, exact whichever way a groove runs to the plane. Since a distance changes no faster than the place, steps as
//! long as the distance to the groove's edge pass none of it.

use board::Board;
use geometry::{Angle, Point};

use crate::section::plane::View;
use crate::section::revolved::refine;
use crate::{GroovePlan, Stroke};

/// The most steps from one end of a plane to the other.
const STEPS: f64 = 8000.0;
/// How often the curve between two steps is halved at most.
const HALVINGS: u32 = 10;

/// What a plane cuts of the grooves, each part where they go on without a gap.
pub fn cut_grooves(board: &Board, plan: &GroovePlan, view: &View, reach: f64) -> Vec<Vec<Point>> {
    let Some(bit) = Bit::of(board, plan) else {
        return Vec::new();
    };
    let strokes = plan.grooves.iter().flat_map(|groove| &groove.path);
    let near: Vec<Stroke> = strokes
        .filter(|stroke| comes_near(stroke, view, bit.half))
        .copied()
        .collect();
    let away = |s: f64| {
        let distances = near.iter().map(|stroke| stroke.distance(view.at(s)));
        distances.fold(f64::INFINITY, f64::min) - bit.half
    };
    if near.is_empty() {
        return Vec::new();
    }
    let (from, to) = view.range(reach);
    spans((from, to), &away)
        .iter()
        .filter_map(|places| bit.part(places, &away))
        .collect()
}

/// Whether a stroke's box comes near enough to a plane for its groove to be cut.
fn comes_near(stroke: &Stroke, view: &View, half: f64) -> bool {
    let around = stroke.bounds();
    let (_, off) = view.see(around.center());
    let corner = (around.x1 - around.x0, around.y1 - around.y0);
    off <= libm::hypot(corner.0, corner.1) / 2.0 + half
}

/// The places of each span in which the way to the edge of a groove is not positive: its ends and steps between them.
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

/// Where the edge of a groove is between a place in it and one outside.
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

/// What the bit cuts across its way.
struct Bit {
    /// Half the width at the top face.
    half: f64,
    depth: f64,
    /// Depth for each millimeter in from the edge.
    steep: f64,
}

impl Bit {
    fn of(board: &Board, plan: &GroovePlan) -> Option<Self> {
        let wanted = board.grooves.filter(|_| plan.depth > 0.0)?;
        let tan = Angle::degrees(wanted.angle / 2.0).tan();
        Some(Self {
            half: wanted.width / 2.0,
            depth: plan.depth,
            steep: 1.0 / tan,
        })
    }

    fn part(&self, places: &[f64], away: &impl Fn(f64) -> f64) -> Option<Vec<Point>> {
        let at = |s: f64| (s, (-away(s) * self.steep).clamp(0.0, self.depth));
        let (&first, &last) = (places.first()?, places.last()?);
        let mut curve = vec![(first, 0.0), at(first)];
        for pair in places.windows(2) {
            let &[from, to] = pair else { continue };
            refine(&at, (from, at(from)), (to, at(to)), HALVINGS, &mut curve);
        }
        curve.push((last, 0.0));
        curve.dedup();
        let corners: Vec<Point> = without_middles(&curve)
            .into_iter()
            .map(|(s, depth)| Point::new(s, -depth))
            .collect();
        (corners.len() >= 3).then_some(corners)
    }
}

/// The points of a curve without those that lie on the line between their neighbors.
fn without_middles(curve: &[(f64, f64)]) -> Vec<(f64, f64)> {
    const FLAT: f64 = 1e-9;
    let mut kept: Vec<(f64, f64)> = Vec::new();
    for &point in curve {
        if let [.., before, last] = kept.as_slice() {
            let (way, on) = (
                (point.0 - before.0, point.1 - before.1),
                (last.0 - before.0, last.1 - before.1),
            );
            if (way.0 * on.1 - way.1 * on.0).abs() <= FLAT {
                kept.pop();
            }
        }
        kept.push(point);
    }
    kept
}
