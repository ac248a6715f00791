//! The pieces of the game, and the age of the players.

use serde::{Deserialize, Serialize};

use crate::serial::auto_or_number;

/// The pieces of the game.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Piece {
    /// Its kind.
    pub kind: PieceKind,
    /// Its largest diameter; if pieces differ, that of the largest.
    #[serde(rename = "diameter_mm")]
    pub diameter: f64,
    /// Overall height of a peg or a magnet piece; a marble is as tall as it is wide.
    #[serde(rename = "height_mm", default = "Piece::usual_height")]
    pub height: f64,
    /// Diameter of the part that goes into the hole: the shank of a peg, or the ball set under a magnet piece; none: made to
    /// fit the bores. A marble rests on its own diameter.
    #[serde(rename = "shank_mm", with = "auto_or_number", default)]
    pub shank: Option<f64>,
    /// Age of the youngest player, in years.
    #[serde(default = "Piece::usual_youngest")]
    pub youngest: u32,
    /// Weight of one piece, g; none: calculated from its size and density.
    #[serde(rename = "mass_g", with = "auto_or_number", default)]
    pub mass: Option<f64>,
    /// Density of its material, g/cm³; none: the usual one for its kind.
    #[serde(rename = "density_g_cm3", with = "auto_or_number", default)]
    pub density: Option<f64>,
    /// The steel set into each hole that holds a magnet piece.
    #[serde(default)]
    pub insert: Insert,
    /// The magnet of a piece; none: not measured yet.
    #[serde(default)]
    pub magnet: Option<Magnet>,
}

/// The steel set into each hole that holds a magnet piece; its diameter is that of the shank.
#[derive(Debug, Clone, Copy, PartialEq, Default, Serialize, Deserialize)]
#[serde(tag = "kind", rename_all = "lowercase", deny_unknown_fields)]
pub enum Insert {
    /// A steel ball.
    #[default]
    Ball,
    /// A steel disc, or the head of a screw.
    Disc {
        /// Thickness.
        #[serde(rename = "thickness_mm")]
        thickness: f64,
    },
}

/// The magnet of a piece.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Magnet {
    /// Pull that separates the bare magnet from the bare insert, measured with a scale, N.
    #[serde(rename = "pull_n")]
    pub pull: f64,
    /// Friction of the piece on the board: the tangent of the tilt angle at which it begins to slide without its magnet.
    pub friction: f64,
    /// Diameter of the magnet.
    #[serde(rename = "diameter_mm")]
    pub diameter: f64,
    /// Its thickness.
    #[serde(rename = "thickness_mm")]
    pub thickness: f64,
    /// How far the magnet is recessed into the foot of the piece.
    #[serde(rename = "set_back_mm")]
    pub set_back: f64,
    /// Thickness of the finish over the insert.
    #[serde(rename = "finish_mm")]
    pub finish: f64,
}

impl Default for Magnet {
    /// A small disc magnet on finished wood; from memory, should be measured.
    fn default() -> Self {
        Self {
            pull: 3.0,
            friction: 0.3,
            diameter: 8.0,
            thickness: 3.0,
            set_back: 0.0,
            finish: 0.1,
        }
    }
}

impl Piece {
    /// The least height in which it can be stored, mm: a marble's diameter; the thickness of a peg lying down, or the height of
    /// a flat piece standing up.
    pub const fn stored_height(&self) -> f64 {
        match self.kind {
            PieceKind::Marble => self.diameter,
            PieceKind::Peg | PieceKind::Magnet => self.diameter.min(self.height),
        }
    }

    const fn usual_height() -> f64 {
        30.0
    }

    const fn usual_youngest() -> u32 {
        8
    }
}

impl Default for Piece {
    /// 16 mm marbles.
    fn default() -> Self {
        Self {
            kind: PieceKind::Marble,
            diameter: 16.0,
            height: Self::usual_height(),
            shank: None,
            youngest: Self::usual_youngest(),
            mass: None,
            density: None,
            insert: Insert::default(),
            magnet: None,
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
    /// A piece with a magnet that is held by a steel ball set in the hole.
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
