//! Measurements taken after taping or drilling, and holes that went wrong.

use serde::{Deserialize, Serialize};

use crate::{HoleId, Role};

/// Distances between named holes, measured after the work.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Measured {
    /// What they were measured on.
    pub on: MeasuredOn,
    /// Error of a single reading, plus or minus.
    #[serde(rename = "error_mm")]
    pub error: f64,
    /// The readings; empty: none were taken.
    pub distances: Vec<Distance>,
}

/// One measured distance, from center to center.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Distance {
    /// The hole at one end.
    pub from: HoleId,
    /// The hole at the other end.
    pub to: HoleId,
    /// The distance between their centers.
    #[serde(rename = "distance_mm")]
    pub distance: f64,
}

/// What distances were measured on.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum MeasuredOn {
    /// The printed template, its sheets taped together.
    Template,
    /// The board with its holes drilled.
    Board,
}

/// A hole that went wrong.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct WrongHole {
    /// The hole.
    pub hole: HoleId,
    /// The mistake.
    pub fault: Fault,
}

/// What went wrong at a hole.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(tag = "kind", rename_all = "kebab-case", deny_unknown_fields)]
pub enum Fault {
    /// Drilled off its position, in the player's frame.
    Off {
        /// To the clockwise side, mm.
        #[serde(rename = "u_mm")]
        u: f64,
        /// Outward, mm.
        #[serde(rename = "v_mm")]
        v: f64,
    },
    /// Drilled too deep.
    Deep {
        /// By how much, mm.
        #[serde(rename = "by_mm")]
        by: f64,
    },
    /// Chipped or torn around the mouth.
    Chipped {
        /// From the edge of the bore to the end of the chip, mm.
        #[serde(rename = "reach_mm")]
        reach: f64,
    },
}

impl Default for Measured {
    /// A steel rule is read to a quarter of a millimeter; common practice, no source.
    fn default() -> Self {
        Self {
            on: MeasuredOn::Template,
            error: 0.25,
            distances: Vec::new(),
        }
    }
}

impl Default for Distance {
    /// From the first player's first track space to the second player's; no distance until one is typed.
    fn default() -> Self {
        Self {
            from: HoleId::new(Role::Track, 1, 1),
            to: HoleId::new(Role::Track, 2, 1),
            distance: 0.0,
        }
    }
}

impl Default for WrongHole {
    /// The first track space, off by zero until a distance is typed.
    fn default() -> Self {
        Self {
            hole: HoleId::new(Role::Track, 1, 1),
            fault: Fault::Off { u: 0.0, v: 0.0 },
        }
    }
}

impl MeasuredOn {
    /// Both, in the order lists show them.
    pub const ALL: [Self; 2] = [Self::Template, Self::Board];

    /// The words that screens use.
    pub const fn label(self) -> &'static str {
        match self {
            Self::Template => "the taped template",
            Self::Board => "the drilled board",
        }
    }
}
