//! Things with four straight sides, square to the grain and along it, cut by an upright plane.

use geometry::{Piece, Point};

use super::plane::{View, clipped};
use super::revolved::Revolved;

/// A box, or one whose sides lean out from its lower end to its upper.
#[derive(Debug, Clone, Copy)]
pub struct Block {
    /// Along the grain and across it: from where to where at its upper end.
    pub sides: [Sides; 2],
    /// Depth of its upper end below the top face.
    pub top: f64,
    /// Depth of its lower end.
    pub bottom: f64,
    /// Radius of its upright corners; 0 where they are square, as where sides lean.
    pub corner: f64,
}

/// Two sides across from one another.
#[derive(Debug, Clone, Copy)]
pub struct Sides {
    /// The place of the lower one.
    pub low: f64,
    /// The place of the higher one.
    pub high: f64,
    /// How far the lower one comes in for each millimeter down.
    pub low_leans: f64,
    /// The same of the higher one.
    pub high_leans: f64,
}

impl Sides {
    /// Upright sides about a middle.
    pub fn upright(middle: f64, width: f64) -> Self {
        Self::leaning(middle, width, 0.0)
    }

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
    /// What a plane cuts of it, no farther than `reach` from where s is 0; none where it misses it.
    pub fn cut(&self, view: &View, reach: f64) -> Option<Vec<Point>> {
        if self.corner <= 0.0 {
            return self.cut_square(view, reach);
        }
        let parts = self.crossed().into_iter();
        let crossed = parts.filter_map(|part| part.cut_square(view, reach));
        let discs = self.discs().into_iter();
        let discs = discs.filter_map(|disc| disc.cut(view));
        // What is rounded has no notch, so that the cut goes on without a gap.
        let places = crossed.chain(discs).flatten().map(|at| at.x);
        let ends = places.map(|s| (s, s));
        let (low, high) = ends.reduce(|a, b| (a.0.min(b.0), a.1.max(b.1)))?;
        let (up, down) = (-self.top, -self.bottom);
        let corners = [(low, up), (high, up), (high, down), (low, down)];
        Some(corners.map(Point::from).into())
    }

    /// The two boxes that with the discs in its corners make it up.
    fn crossed(&self) -> [Self; 2] {
        let square = Self {
            corner: 0.0,
            ..*self
        };
        let [along, across] = self.sides;
        let narrow = |sides| Self { sides, ..square };
        [
            narrow([along.narrowed(self.corner), across]),
            narrow([along, across.narrowed(self.corner)]),
        ]
    }

    /// The discs in its corners.
    fn discs(&self) -> [Revolved; 4] {
        let [along, across] = self.sides.map(|sides| sides.narrowed(self.corner));
        let middles = [
            (along.low, across.low),
            (along.low, across.high),
            (along.high, across.low),
            (along.high, across.high),
        ];
        middles.map(|middle| Revolved {
            center: middle.into(),
            profile: Piece::cylinder(self.corner, self.top, self.bottom).into(),
        })
    }

    /// The cut of a block without rounded corners: a strip as high as the block, clipped by each of its sides in turn.
    fn cut_square(&self, view: &View, reach: f64) -> Option<Vec<Point>> {
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
