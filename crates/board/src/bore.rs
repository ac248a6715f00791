//! A bore: a drilled hole as the drill leaves it.

use serde::{Deserialize, Serialize};

/// A drilled hole.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Bore {
    /// Diameter at the top face, mm.
    #[serde(rename = "diameter_mm")]
    pub diameter: f64,
    /// Depth from the top face, mm: to where the full diameter ends above a point or spur, which reaches
    /// deeper; to the deepest place of a flat or ball bottom.
    #[serde(rename = "depth_mm")]
    pub depth: f64,
    /// The shape of the floor.
    pub bottom: Bottom,
}

impl Bore {
    /// Half the diameter, mm.
    pub const fn radius(&self) -> f64 {
        self.diameter / 2.0
    }
}

/// The shape that a drill or cutter leaves at the floor of a blind bore.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub enum Bottom {
    /// Flat: an end mill, or a bit whose spur is too short to matter.
    #[serde(rename = "flat")]
    Flat,
    /// A twist drill's cone of 118 degrees.
    #[serde(rename = "point-118")]
    Point118,
    /// A twist drill's cone of 135 degrees.
    #[serde(rename = "point-135")]
    Point135,
    /// Half a ball: a ball-nose or core-box cutter.
    #[serde(rename = "ball")]
    Ball,
    /// Flat with the small cone of a Forstner bit's spur in the middle.
    #[serde(rename = "forstner")]
    Forstner,
}

impl Bottom {
    /// Every bottom, in the order lists show them.
    pub const ALL: [Self; 5] = [
        Self::Flat,
        Self::Forstner,
        Self::Point118,
        Self::Point135,
        Self::Ball,
    ];

    /// The word that files use.
    pub const fn id(self) -> &'static str {
        match self {
            Self::Flat => "flat",
            Self::Point118 => "point-118",
            Self::Point135 => "point-135",
            Self::Ball => "ball",
            Self::Forstner => "forstner",
        }
    }

    /// The words that screens and sheets use.
    pub const fn label(self) -> &'static str {
        match self {
            Self::Flat => "flat",
            Self::Point118 => "118° point",
            Self::Point135 => "135° point",
            Self::Ball => "ball nose",
            Self::Forstner => "Forstner",
        }
    }
}
