//! The resting position of a ball that is lowered along the axis of a profile.

use super::{Piece, Profile};

/// The resting position of a ball; lengths in mm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Rest {
    /// Depth of its lowest point.
    pub lowest: f64,
    /// The part of the profile it rests on.
    pub on: RestsOn,
}

/// The part of a profile that a ball rests on.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum RestsOn {
    /// The edge of the mouth.
    Rim,
    /// A side, or an edge below the mouth.
    Wall,
    /// The deepest point.
    Floor,
}

impl Profile {
    /// The resting position of a ball of this radius.
    ///
    /// On the rim, it sinks by R - √(R² - a²) for a ball radius R and a mouth radius a; in a cone, its center is at R /
    /// sin(A/2) from the apex, for an included angle A. A 5/8 in ball on a 1/2 in hole sinks exactly 1/8 in:
    ///
    /// ```
    /// use geometry::{Piece, Profile, RestsOn};
    /// let rest = Profile::from(Piece::cylinder(6.35, 0.0, 6.35)).rest(7.9375);
    /// assert_eq!(rest.on, RestsOn::Rim);
    /// assert!((rest.lowest - 3.175).abs() < 1e-12);
    /// ```
    pub fn rest(&self, ball: f64) -> Rest {
        let mut rest = Rest {
            lowest: self.bottom(),
            on: RestsOn::Floor,
        };
        let walls = self.pieces().map(|piece| piece.stops(ball));
        let walls = walls.map(|lowest| (lowest, RestsOn::Wall));
        let rim = (self.rim(ball), RestsOn::Rim);
        for (lowest, on) in walls.chain([rim]) {
            let is_higher = lowest < rest.lowest || (lowest == rest.lowest && on == RestsOn::Rim);
            if is_higher {
                rest = Rest { lowest, on };
            }
        }
        rest
    }

    /// Depth of the lowest point of a ball of this radius that rests on the rim, mm; infinite for one that falls in.
    pub fn rim(&self, ball: f64) -> f64 {
        edge(self.top(), self.mouth(), ball)
    }

    /// Depth of the lowest point of a ball of this radius that no rim keeps from the floor, mm: over a point, where its sides
    /// stop the ball; over any other bottom, the deepest point.
    pub fn floor(&self, ball: f64) -> f64 {
        let last = self.last();
        let is_point = last.bend.is_none() && last.below < last.above;
        if is_point {
            last.stops(ball).min(last.bottom)
        } else {
            last.bottom
        }
    }
}

impl Piece {
    /// Depth of the lowest point of a ball stopped by the piece's side or ends; infinite if they are wider than the ball.
    fn stops(&self, ball: f64) -> f64 {
        let ends = edge(self.top, self.above, ball).min(edge(self.bottom, self.below, ball));
        // A circular side is never steeper relative to a ball than at one of its ends.
        if self.bend.is_some() {
            return ends;
        }
        let (inward, length) = (self.above - self.below, self.height());
        let slant = libm::hypot(inward, length);
        // The ball's radius is perpendicular to the side where it touches it.
        let touches = ball * length / slant;
        if inward > 0.0 && (self.below..=self.above).contains(&touches) {
            let depth = self.top + length * (self.above - touches) / inward;
            ends.min(edge(depth, touches, ball))
        } else {
            ends
        }
    }
}

/// Depth of the lowest point of a ball on a circular edge at a depth; infinite if the edge is as wide as the ball.
fn edge(depth: f64, radius: f64, ball: f64) -> f64 {
    if radius < ball {
        depth + ball - libm::sqrt(ball * ball - radius * radius)
    } else {
        f64::INFINITY
    }
}
