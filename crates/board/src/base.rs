//! The base of the board: a turntable or feet.

use serde::{Deserialize, Serialize};

use crate::serial::auto_or_number;

/// The base, its middle under the center pin.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Base {
    /// Where it meets the table, or the board its turntable.
    pub footing: Footing,
    /// Its joint with the board.
    #[serde(default)]
    pub hold: BaseHold,
    /// From the table to the underside of the board.
    #[serde(rename = "height_mm")]
    pub height: f64,
    /// The load that a turntable is rated for; none: not known, or no turntable.
    #[serde(rename = "rating_kg", default)]
    pub rating: Option<f64>,
    /// Load that may be put on the board beside the pieces.
    #[serde(rename = "load_kg", default)]
    pub load: f64,
    /// The board on a scale, without base and pieces; none: by its wood.
    #[serde(rename = "board_kg", with = "auto_or_number", default)]
    pub board: Option<f64>,
}

/// Where a base meets the table: the edge over which the board would tip.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(tag = "kind", rename_all = "lowercase", deny_unknown_fields)]
pub enum Footing {
    /// All round a circle: of a turntable that the board only lies on, the circle of its bearing.
    Round {
        /// Its diameter.
        #[serde(rename = "diameter_mm")]
        diameter: f64,
    },
    /// On feet at equal steps round a circle.
    Feet {
        /// Number of feet.
        count: u32,
        /// Diameter of the circle through their middles.
        #[serde(rename = "circle_mm")]
        circle: f64,
    },
}

/// Joint of base and board, with the grain of a base that is glued.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum BaseHold {
    /// By screws, by its bearing, or not at all: the board can move on it.
    #[default]
    Loose,
    /// Glued, its grain along that of the board.
    GluedWithGrain,
    /// Glued, its grain across that of the board.
    GluedAcrossGrain,
    /// Glued, and of plywood.
    GluedPlywood,
}

impl BaseHold {
    /// Every one, in the order lists show them.
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
    /// A common inside door, of 30 by 80 in where the maker works in inches; from memory.
    fn default() -> Self {
        Self {
            width: 800.0,
            height: 2000.0,
        }
    }
}
