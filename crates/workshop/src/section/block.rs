//! Things with four sides that lean, square to the grain and along it, cut by an upright plane.

use geometry::Point;

use super::plane::{View, clipped};

/// A box whose sides lean out from its lower end to its upper.
#[derive(Debug, Clone, Copy)]
pub struct Block {
    /// Along the grain and across it: from where to where at its upper end.
    pub sides: [Sides; 2],
    /// Depth of its upper end below the top face.
    pub top: f64,
    /// Depth of its lower end.
    pub bottom: f64,
}

/// Two sides across from one another.
#[derive(Debug, Clone, Copy)]
pub struct Sides {
    /// The place of the lower one.
    pub low: f64,
    /// The place of the higher one.
    pub high: f64,
    /// Distance that the lower one comes in for each millimeter down.
    pub low_leans: f64,
    /// The same of the higher one.
    pub high_leans: f64,
}

impl Sides {
    /// Sides about a middle that lean alike.
    pub fn leaning(middle: f64, width: f64, leans: f64) -> Self {
        Self {
            low: middle - width / 2.0,
            high: middle + width / 2.0,
            low_leans: leans,
            high_leans: leans,
        }
    }

    /// The same brought in on both sides.
    pub fn narrowed(self, by: f64) -> Self {
        Self {
            low: self.low + by,
            high: self.high - by,
            ..self
        }
    }
}

impl Block {
    /// The part that a plane cuts of it, no farther than `reach` from where s is 0; none where it misses it.
    pub fn cut(&self, view: &View, reach: f64) -> Option<Vec<Point>> {
        let (low, high) = view.range(reach);
        let (up, down) = (-self.top, -self.bottom);
        let mut corners: Vec<Point> = [(low, up), (high, up), (high, down), (low, down)]
            .map(Point::from)
            .into();
        let parts: [fn(Point) -> f64; 2] = [|at| at.x, |at| at.y];
        for (sides, part) in self.sides.iter().zip(parts) {
            let place = |at: Point| part(view.at(at.x));
            let below = |at: Point| -self.top - at.y;
            corners = clipped(&corners, |at| {
                place(at) - sides.low - sides.low_leans * below(at)
            });
            corners = clipped(&corners, |at| {
                sides.high - sides.high_leans * below(at) - place(at)
            });
        }
        (corners.len() >= 3 && up > down).then_some(corners)
    }
}
