//! What was changed by hand, held against a hole's name so that it survives a change of pitch.

use serde::{Deserialize, Serialize};

use crate::{Bore, HoleId};

/// One change by hand to one hole, or to the same hole of every player.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Edit {
    /// The hole it is about.
    pub hole: HoleId,
    /// Whether the same hole of every other player changes with it.
    pub mirrored: bool,
    /// What is changed.
    pub change: Change,
}

impl Edit {
    /// Whether the edit is about this hole, by name or by mirroring.
    pub fn concerns(&self, hole: HoleId) -> bool {
        self.hole == hole || (self.mirrored && self.hole == hole.of_player(self.hole.player()))
    }
}

/// What an edit changes.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(tag = "kind", rename_all = "lowercase", deny_unknown_fields)]
pub enum Change {
    /// Moved from where the pattern puts it, in the player's frame.
    Move {
        /// To the clockwise side, mm.
        #[serde(rename = "u_mm")]
        u: f64,
        /// Outward, mm.
        #[serde(rename = "v_mm")]
        v: f64,
    },
    /// Not drilled.
    Drop,
    /// Drilled with another bore.
    Bore {
        /// The bore in place of the role's.
        bore: Bore,
    },
    /// A hole the pattern doesn't have (its role is extra), in the player's frame.
    Add {
        /// To the clockwise side of the axis, mm.
        #[serde(rename = "u_mm")]
        u: f64,
        /// Outward from the center pin, mm.
        #[serde(rename = "v_mm")]
        v: f64,
        /// Its bore.
        bore: Bore,
    },
}
