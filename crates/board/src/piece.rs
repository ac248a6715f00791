//! What is played with, and who plays.

use serde::{Deserialize, Serialize};

use crate::serial::auto_or_number;

/// What is played with.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Piece {
    /// Its kind.
    pub kind: PieceKind,
    /// Its largest diameter: of several, measure the largest.
    #[serde(rename = "diameter_mm")]
    pub diameter: f64,
    /// Overall height of a peg or a magnet piece; a marble is as high as it is wide.
    #[serde(rename = "height_mm", default = "Piece::usual_height")]
    pub height: f64,
    /// Diameter of what goes into the hole: the shank of a peg, or the ball set under a magnet piece; none: made to fit
    /// the bores. A marble rests on its own diameter.
    #[serde(rename = "shank_mm", with = "auto_or_number", default)]
    pub shank: Option<f64>,
    /// Age of the youngest who plays, in years.
    #[serde(default = "Piece::usual_youngest")]
    pub youngest: u32,
}

impl Piece {
    const fn usual_height() -> f64 {
        30.0
    }

    const fn usual_youngest() -> u32 {
        8
    }
}

impl Default for Piece {
    /// Marbles of 16 mm.
    fn default() -> Self {
        Self {
            kind: PieceKind::Marble,
            diameter: 16.0,
            height: Self::usual_height(),
            shank: None,
            youngest: Self::usual_youngest(),
        }
    }
}

/// The kinds of piece.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum PieceKind {
    /// A marble that rests on the rim of its hole.
    Marble,
    /// A peg that stands in its hole.
    Peg,
    /// A piece with a magnet that holds on a steel ball set in the hole.
    Magnet,
}

impl PieceKind {
    /// Every kind, in the order lists show them.
    pub const ALL: [Self; 3] = [Self::Marble, Self::Peg, Self::Magnet];

    /// The words that screens and sheets use.
    pub const fn label(self) -> &'static str {
        match self {
            Self::Marble => "marbles",
            Self::Peg => "pegs",
            Self::Magnet => "magnet pieces",
        }
    }
}
