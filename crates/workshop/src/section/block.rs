//! Boxes with four slanted sides, perpendicular and parallel to the grain, cut by a vertical plane.

use geometry::Point;

use super::plane::{View, clipped};

/// A box whose sides slant outward from its lower end to its upper.
#[derive(Debug, Clone, Copy)]
pub struct Block {
    /// Its sides along the grain and across it, at its upper end.
    pub sides: [Sides; 2],
    /// Depth of its upper end below the top face.
    pub top: f64,
    /// Depth of its lower end.
    pub bottom: f64,
}

/// Two opposite sides.
#[derive(Debug, Clone, Copy)]
pub struct Sides {
    /// Position of the side with the lower coordinate.
    pub low: f64,
    /// Position of the side with the higher coordinate.
    pub high: f64,
    /// Distance that the lower side moves inward per millimeter down.
    pub low_leans: f64,
    /// Distance that the higher side moves inward per millimeter down.
    pub high_leans: f64,
}

impl Sides {
    /// Sides symmetric about a center.
    pub fn leaning(middle: f64, width: f64, leans: f64) -> Self {
        Self {
            low: middle - width / 2.0,
            high: middle + width / 2.0,
            low_leans: leans,
            high_leans: leans,
        }
    }

    /// The sides moved inward by a width each.
    pub fn narrowed(self, by: f64) -> Self {
        Self {
            low: self.low + by,
            high: self.high - by,
            ..self
        }
    }
}

impl Block {
    /// The part that a plane cuts from it, no farther than `reach` from s = 0; `None` if the plane misses it.
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
