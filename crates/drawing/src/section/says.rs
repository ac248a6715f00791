//! Words and sizes beside a bore.
//!
//! Every figure measures from the same two references, the axis of its hole and the top face. Heights are above the top face,
//! so positions in the wood are negative.

use board::{Board, Measure};
use workshop::{BoreSizes, deepest};

use super::measures::{Side, Size};

/// Size below which nothing is drawn, mm.
pub const HAIR: f64 = 1e-6;

/// Builds the words beside a bore.
pub struct Says<'a> {
    /// The board.
    pub board: &'a Board,
    /// The sizes of the bore.
    pub sizes: &'a BoreSizes,
    /// Its axis.
    pub at: f64,
    /// Its radius.
    pub radius: f64,
    /// Depth of its deepest point below the top face, mm.
    pub deepest: f64,
}

impl<'a> Says<'a> {
    /// The words beside a bore of these sizes.
    pub fn new(board: &'a Board, sizes: &'a BoreSizes) -> Self {
        let hole = &sizes.hole;
        Self {
            board,
            sizes,
            at: hole.center.to_vec2().hypot(),
            radius: hole.bore.radius(),
            deepest: deepest(hole.bore, board.bores.spur),
        }
    }

    /// A length as text.
    pub fn length(&self, mm: f64) -> String {
        Measure::mm(mm).shown(self.board.units)
    }

    /// A size at one side of the axis, between two heights, at a given distance from the axis.
    pub fn upright(&self, side: Side, heights: [(f64, f64); 2], words: String) -> Size {
        let out = if side == Side::Left { -1.0 } else { 1.0 };
        let ends = heights.map(|(away, z)| (self.at + out * away, z));
        Size::new(side, ends, words)
    }

    /// A size across the axis at a height.
    pub fn across(&self, side: Side, diameter: f64, z: f64, words: String) -> Size {
        let half = diameter / 2.0;
        Size::new(side, [(self.at - half, z), (self.at + half, z)], words)
    }

    /// A note about a point at this distance from the axis.
    pub fn note(&self, side: Side, (away, z): (f64, f64), words: impl Into<String>) -> Size {
        let out = if side == Side::Left { -1.0 } else { 1.0 };
        Size::note(side, (self.at + out * away, z), words)
    }
}
