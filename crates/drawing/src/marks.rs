//! Marks of a hole: the layer of its role, and the cross at its center.
//!
//! The plan, the hardboard templates and the names all use them, so that they keep clear of the same crosses.

use board::{Hole, Role};

use crate::Layer;

/// Longest arm of a drilling cross, mm.
const LONGEST_ARM: f64 = 2.5;
/// Shortest arm of a drilling cross, mm: enough to set a point by under a loupe.
const SHORTEST_ARM: f64 = 1.2;
/// Arm of the cross at the center pin, mm.
pub const PIN_ARM: f64 = 12.0;

/// The layer that holes of a role belong to.
pub const fn layer(role: Role) -> Layer {
    match role {
        Role::Track => Layer::Track,
        Role::Home => Layer::Home,
        Role::Start => Layer::Start,
        Role::Extra => Layer::Extra,
        Role::Center => Layer::Center,
    }
}

/// Half the length of the cross that marks a bore, mm.
pub fn cross_arm(hole: &Hole) -> f64 {
    if hole.name.id().role() == Role::Center {
        return PIN_ARM;
    }
    (0.4 * hole.bore.radius()).clamp(SHORTEST_ARM, LONGEST_ARM)
}
