//! Cuts of a profile by vertical planes, as polygons.

use kurbo::Point;

use super::piece::reach;
use super::{Piece, Profile};
use crate::Angle;

/// The most times that a curve is bisected.
const HALVINGS: u32 = 12;

impl Profile {
    /// The outline of the cut by a vertical plane at a distance from the axis, as one side of it: points (half the width,
    /// depth), from the upper end to the lower; empty if the plane misses the profile. Straight lines between them deviate from
    /// a curve by at most about the tolerance. Lengths in mm. If the plane misses a waist, the parts above and below it are
    /// joined along the vertical centerline.
    ///
    /// At each depth, the cut is as wide as the chord of the circle there: 2 √(r² - d²) at a distance d.
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
            // Off the axis, a cone is cut along a hyperbola.
            return flatten(&at, [from, to], ends, fine, points);
        };
        // Equal angles, since the width changes fast near the end of a round piece.
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

/// Adds the points of a curve after its first one, until straight lines between them are within a tolerance of it at their
/// midpoints; no part of it is bisected more than the given number of times.
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
