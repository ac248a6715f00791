//! Solids of revolution around a vertical axis, cut by a vertical plane.

use geometry::{Circle, Point, Profile};

use super::plane::{Keep, View};

/// Largest distance between a polygon and the curve that it approximates, mm.
pub const OFF: f64 = 0.003;

/// A solid of revolution, such as a bore or a ball in it.
#[derive(Debug, Clone)]
pub struct Revolved {
    /// The point where its axis crosses the board.
    pub center: Point,
    /// Its profile; depths are measured down from the top face.
    pub profile: Profile,
}

impl Revolved {
    /// The outline of the cut in the section's frame, mm; `None` if the plane misses the body.
    pub fn cut(&self, view: &View) -> Option<Vec<Point>> {
        let (s, off) = view.see(self.center);
        let side = self.profile.cut(off, OFF);
        let right = side.iter().map(|at| Point::new(s + at.x, -at.y));
        let left = side.iter().rev().map(|at| Point::new(s - at.x, -at.y));
        let mut corners: Vec<Point> = right.chain(left).collect();
        corners.dedup();
        let kept = view.kept(corners);
        (kept.len() >= 3).then_some(kept)
    }

    /// The circle that a plane cuts from it, if it is a ball and the whole circle belongs to the section.
    pub fn disc(&self, view: &View) -> Option<Circle> {
        let ball = self.profile.as_ball()?;
        let (s, off) = view.see(self.center);
        let left = ball.radius * ball.radius - off * off;
        let cut = libm::sqrt(left.max(0.0));
        let belongs = match view.keep {
            Keep::All => true,
            Keep::Left => s <= -cut,
            Keep::Right => s >= cut,
        };
        (left > 0.0 && belongs).then(|| Circle::new((s, -ball.center.y), cut))
    }
}
