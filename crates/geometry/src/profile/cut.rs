//! Cuts of a profile by upright planes, as polygons.

use kurbo::Point;

use super::piece::reach;
use super::{Piece, Profile};
use crate::Angle;

/// The most times that a curve is halved.
const HALVINGS: u32 = 12;

impl Profile {
    /// The outline of what an upright plane cuts that passes the axis at a distance, as one side of it: places
    /// (half the width, depth), from its upper end to its lower; empty where the plane misses it. Straight lines between
    /// them are off a curve by about the tolerance at most. Lengths in mm. Where the plane misses a waist, the parts above
    /// and below it are joined along the upright halfway.
    ///
    /// At each depth the cut is as wide as the chord of the circle there, 2 √(r² - d²) at a distance d.
    pub fn cut(&self, off: f64, tolerance: f64) -> Vec<Point> {
        let mut points = Vec::new();
        for piece in self.pieces() {
            piece.cut(off, tolerance, &mut points);
        }
        points.dedup();
        points
    }
}

impl Piece {
    fn cut(&self, off: f64, tolerance: f64, points: &mut Vec<Point>) {
        let Some((from, to)) = self.span(off) else {
            return;
        };
        let at = |depth: f64| {
            let radius = self.radius(depth);
            Point::new(libm::sqrt((radius * radius - off * off).max(0.0)), depth)
        };
        let ends = [at(from), at(to)];
        points.push(ends[0]);
        let fine = (tolerance, HALVINGS);
        let Some(circle) = self.bend else {
            // Beside the axis a cone is cut along a hyperbola.
            return flatten(&at, [from, to], ends, fine, points);
        };
        // Even turns, since near the end of a round piece the width changes fast.
        let reach = reach(circle, off);
        let turn = |depth: f64| {
            let down = (depth - circle.center.y) / reach;
            Angle::asin(down.clamp(-1.0, 1.0)).as_radians()
        };
        let turned = |turn: f64| at(circle.center.y + reach * Angle::radians(turn).sin());
        let turns = [turn(from), turn(to)];
        flatten(&turned, turns, ends, fine, points);
    }
}

/// Adds the points of a curve after its first one, until straight lines between them are within a tolerance of it
/// halfway; no part of it is halved more often than the number says.
pub fn flatten(
    at: &impl Fn(f64) -> Point,
    [from, to]: [f64; 2],
    [first, last]: [Point; 2],
    (tolerance, halvings): (f64, u32),
    points: &mut Vec<Point>,
) {
    let halfway = f64::midpoint(from, to);
    let between = at(halfway);
    let way = last - first;
    let aside = way.cross(between - first).abs();
    if halvings == 0 || aside <= tolerance * way.length() {
        points.push(last);
    } else {
        let left = (tolerance, halvings - 1);
        flatten(at, [from, halfway], [first, between], left, points);
        flatten(at, [halfway, to], [between, last], left, points);
    }
}
