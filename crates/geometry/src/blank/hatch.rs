//! Hatching: parallel lines, clipped to an outline.

use super::Outline;
use crate::{Point, Vec2};

impl Outline {
    /// Hatch lines in the direction of the unit vector `along`, clipped to the outline. Each share, 0 to 1, places one line
    /// between the outline's rightmost and leftmost points, facing that direction.
    ///
    /// ```
    /// use geometry::{Outline, Point, Vec2};
    /// let corners = [(0.0, 0.0), (900.0, 0.0), (900.0, 300.0), (0.0, 300.0)].map(Point::from);
    /// let slab = Outline::new(corners.to_vec())?;
    /// let grain = slab.hatching(Vec2::new(1.0, 0.0), [0.5]);
    /// assert_eq!(grain, [[Point::new(0.0, 150.0), Point::new(900.0, 150.0)]]);
    /// # Ok::<(), geometry::OutlineError>(())
    /// ```
    pub fn hatching(&self, along: Vec2, shares: impl IntoIterator<Item = f64>) -> Vec<[Point; 2]> {
        // The corners rotated so that the hatch lines are horizontal.
        let turn = |at: &Point| Point::new(along.dot(at.to_vec2()), along.cross(at.to_vec2()));
        let turned: Vec<Point> = self.corners().iter().map(turn).collect();
        let back = |x: f64, y: f64| (along * x + along.turn_90() * y).to_point();
        let heights = turned.iter().map(|at| at.y);
        let bottom = heights.clone().fold(f64::INFINITY, f64::min);
        let top = heights.fold(f64::NEG_INFINITY, f64::max);
        let mut lines = Vec::new();
        for share in shares {
            let y = bottom + share * (top - bottom);
            let crossings = crossings(&turned, y);
            let ends = crossings.chunks_exact(2);
            lines.extend(ends.map(|ends| [back(ends[0], y), back(ends[1], y)]));
        }
        lines
    }
}

/// The x coordinates where a horizontal line crosses the edges, ascending.
fn crossings(corners: &[Point], y: f64) -> Vec<f64> {
    let ends = corners.iter().cycle().skip(1);
    let mut found: Vec<f64> = corners
        .iter()
        .zip(ends)
        // Half-open, so that a corner on the line counts for only one of its edges.
        .filter(|(from, to)| (from.y <= y) != (to.y <= y))
        .map(|(from, to)| from.x + (y - from.y) / (to.y - from.y) * (to.x - from.x))
        .collect();
    found.sort_by(f64::total_cmp);
    found
}

#[cfg(test)]
mod tests {
    use super::*;
    use testkit::assert_near;

    #[test]
    fn hatch_lines_stay_inside_and_keep_their_direction() {
        let corners = [
            (0.0, 0.0),
            (10.0, 0.0),
            (10.0, 10.0),
            (5.0, 1.0),
            (0.0, 10.0),
        ];
        let notched = Outline::new(corners.map(Point::from).to_vec()).unwrap();
        // Below the notch there is one line; above it, there are two.
        let level = notched.hatching(Vec2::new(1.0, 0.0), [0.25, 0.5, 0.75]);
        assert_eq!(level.len(), 6);
        let steep = Vec2::new(0.6, 0.8);
        let shares = (1..100_u8).map(|share| f64::from(share) / 100.0);
        let lines = notched.hatching(steep, shares);
        assert!(lines.len() >= 99);
        for [from, to] in lines {
            assert!(notched.contains(from.midpoint(to)));
            assert_near!((to - from).cross(steep), 0.0, 1e-9);
        }
    }
}
