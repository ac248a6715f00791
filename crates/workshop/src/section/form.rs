//! A form that a plane can cut.

use geometry::{Piece, Point, Prism};

use super::block::Block;
use super::plane::View;
use super::revolved::Revolved;

/// A form that can be cut.
pub enum Form {
    /// Round about an upright axis.
    Round(Revolved),
    /// With sides that go straight up and down.
    Straight(Prism),
    /// With sides that lean.
    Leaning(Block),
}

impl From<Prism> for Form {
    fn from(prism: Prism) -> Self {
        match prism.outline.as_circle() {
            Some(circle) => Self::Round(Revolved {
                center: circle.center,
                profile: Piece::cylinder(circle.radius, prism.top, prism.bottom).into(),
            }),
            None => Self::Straight(prism),
        }
    }
}

impl Form {
    /// The part that a plane cuts of it; of a body with sides no farther than `reach` from where s is 0.
    pub fn cut(&self, view: &View, reach: f64) -> Option<Vec<Point>> {
        match self {
            Self::Round(round) => round.cut(view),
            Self::Straight(prism) => cut_prism(prism, view, reach),
            Self::Leaning(block) => block.cut(view, reach),
        }
    }
}

/// A strip as high as the prism, as long as the plane is within its outline.
fn cut_prism(prism: &Prism, view: &View, reach: f64) -> Option<Vec<Point>> {
    let (from, to) = prism.outline.chord(view.origin, view.along)?;
    let (low, high) = view.range(reach);
    let (low, high) = (low.max(from), high.min(to));
    let (up, down) = (-prism.top, -prism.bottom);
    let corners = [(low, up), (high, up), (high, down), (low, down)];
    (low < high && up > down).then(|| corners.map(Point::from).into())
}
