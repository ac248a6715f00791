//! A form that a plane can cut.

use geometry::Point;

use super::block::Block;
use super::plane::View;
use super::revolved::Revolved;

/// A form that can be cut.
pub enum Form {
    /// Round about an upright axis.
    Round(Revolved),
    /// With straight sides.
    Straight(Block),
}

impl Form {
    /// What a plane cuts of it; of what has straight sides no farther than `reach` from where s is 0.
    pub fn cut(&self, view: &View, reach: f64) -> Option<Vec<Point>> {
        match self {
            Self::Round(round) => round.cut(view),
            Self::Straight(block) => block.cut(view, reach),
        }
    }
}
