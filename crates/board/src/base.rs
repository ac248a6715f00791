//! The base of the board: a turntable or feet.

use serde::{Deserialize, Serialize};

use crate::serial::auto_or_number;

/// The base, centered under the center pin.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Base {
    /// Where it touches the table or, for a turntable, the board.
    pub footing: Footing,
    /// Its joint with the board.
    #[serde(default)]
    pub hold: BaseHold,
    /// Height from the table to the underside of the board.
    #[serde(rename = "height_mm")]
    pub height: f64,
    /// The load that a turntable is rated for; none: unknown, or no turntable.
    #[serde(rename = "rating_kg", default)]
    pub rating: Option<f64>,
    /// The load that may be put on the board in addition to the pieces.
    #[serde(rename = "load_kg", default)]
    pub load: f64,
    /// Measured weight of the board without base and pieces; none: calculated from its wood.
    #[serde(rename = "board_kg", with = "auto_or_number", default)]
    pub board: Option<f64>,
}

/// Where a base meets the table: the edge over which the board would tip.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(tag = "kind", rename_all = "lowercase", deny_unknown_fields)]
pub enum Footing {
    /// A full circle; for a turntable that the board only rests on, the circle of its bearing.
    Round {
        /// Its diameter.
        #[serde(rename = "diameter_mm")]
        diameter: f64,
    },
    /// Feet equally spaced around a circle.
    Feet {
        /// Number of feet.
        count: u32,
        /// Diameter of the circle through the centers of the feet.
        #[serde(rename = "circle_mm")]
        circle: f64,
    },
}

/// Joint of base and board, with the grain direction of a glued base.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum BaseHold {
    /// By screws, by its bearing, or not at all: the board is free to move on it.
    #[default]
    Loose,
    /// Glued, its grain along that of the board.
    GluedWithGrain,
    /// Glued, its grain across that of the board.
    GluedAcrossGrain,
    /// Glued, and made of plywood.
    GluedPlywood,
}

impl BaseHold {
    /// Every joint, in the order lists show them.
    pub const ALL: [Self; 4] = [
        Self::Loose,
        Self::GluedWithGrain,
        Self::GluedAcrossGrain,
        Self::GluedPlywood,
    ];

    /// The words that screens and sheets use.
    pub const fn label(self) -> &'static str {
        match self {
            Self::Loose => "screws or a bearing",
            Self::GluedWithGrain => "glue, grain with the board's",
            Self::GluedAcrossGrain => "glue, grain across the board's",
            Self::GluedPlywood => "glue, plywood",
        }
    }
}

impl Default for Base {
    /// A turntable 12 in across; common practice, no source.
    fn default() -> Self {
        Self {
            footing: Footing::Round { diameter: 304.8 },
            hold: BaseHold::default(),
            height: 12.0,
            rating: None,
            load: 0.0,
            board: None,
        }
    }
}

/// An opening that the finished board must go through: a door, the mouth of a box, the back of a car.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Passage {
    /// Its width.
    #[serde(rename = "width_mm")]
    pub width: f64,
    /// Its height.
    #[serde(rename = "height_mm")]
    pub height: f64,
}

impl Default for Passage {
    /// A common interior door, 30 by 80 in for makers who work in inches; from memory.
    fn default() -> Self {
        Self {
            width: 800.0,
            height: 2000.0,
        }
    }
}
