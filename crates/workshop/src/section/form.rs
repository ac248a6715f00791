//! The bodies that the plane of a section can cut.

use geometry::{Piece, Point, Prism};

use super::block::Block;
use super::plane::View;
use super::revolved::Revolved;

/// A body that a plane can cut, by the shape of its sides.
pub enum Form {
    /// A solid of revolution around a vertical axis.
    Round(Revolved),
    /// A body with vertical sides.
    Straight(Prism),
    /// A body with four sloping sides.
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
    /// The outline of the cut in the section's frame, mm; `None` if the plane misses the body. Bodies that are not round are
    /// clipped at `reach` mm to either side of s = 0.
    pub fn cut(&self, view: &View, reach: f64) -> Option<Vec<Point>> {
        match self {
            Self::Round(round) => round.cut(view),
            Self::Straight(prism) => cut_prism(prism, view, reach),
            Self::Leaning(block) => block.cut(view, reach),
        }
    }
}

/// A rectangle as high as the prism and as long as the plane's path within its outline; `None` if the plane misses it.
fn cut_prism(prism: &Prism, view: &View, reach: f64) -> Option<Vec<Point>> {
    let (from, to) = prism.outline.chord(view.origin, view.along)?;
    let (low, high) = view.range(reach);
    let (low, high) = (low.max(from), high.min(to));
    let (up, down) = (-prism.top, -prism.bottom);
    let corners = [(low, up), (high, up), (high, down), (low, down)];
    (low < high && up > down).then(|| corners.map(Point::from).into())
}
