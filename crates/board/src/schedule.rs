//! The order: how many boards, and when they are made.

use serde::{Deserialize, Serialize};

/// How many boards are made, and when.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Schedule {
    /// Number of boards that are made together, all alike.
    pub boards: u32,
}

impl Default for Schedule {
    /// One board.
    fn default() -> Self {
        Self { boards: 1 }
    }
}
