//! V-grooves routed into the top face: the lines of the game, and rings that accent holes.

use serde::{Deserialize, Serialize};

use crate::Role;
use crate::serial::or_null;

/// Which grooves are routed, and with which bit. Every distance is the wood that remains, from the edge of a groove at the top
/// face, not from its centerline.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Grooves {
    /// Width at the top face.
    #[serde(rename = "width_mm")]
    pub width: f64,
    /// Angle between the sides of the bit, in degrees.
    #[serde(rename = "angle_deg")]
    pub angle: f64,
    /// Width of the flat at the tip of the bit; 0 for a sharp tip.
    #[serde(rename = "tip_mm")]
    pub tip: f64,
    /// Greatest depth of a pass.
    #[serde(rename = "pass_mm")]
    pub pass: f64,
    /// Distance from the end of a straight groove to a bore.
    #[serde(rename = "stop_mm")]
    pub stop: f64,
    /// A line between every two neighboring spaces of the track.
    pub track: bool,
    /// A line from each turn-in space along its home lane.
    pub home: bool,
    /// Wood between the holes of a home lane and an outline around it; none: no outline.
    #[serde(rename = "around_home_mm", deserialize_with = "or_null")]
    pub around_home: Option<f64>,
    /// Wood between the holes of a start pocket and an outline around it; none: no outline.
    #[serde(rename = "around_start_mm", deserialize_with = "or_null")]
    pub around_start: Option<f64>,
    /// Rings around bores; none: no rings.
    #[serde(deserialize_with = "or_null")]
    pub rings: Option<Rings>,
    /// Distance from the center pin at which the lines between sectors begin; they run out to the rim; none: no such lines.
    #[serde(rename = "sectors_from_mm", deserialize_with = "or_null")]
    pub sectors_from: Option<f64>,
    /// Wood between the start of the roundover and a ring around the board; none: no such ring.
    #[serde(rename = "rim_mm", deserialize_with = "or_null")]
    pub rim: Option<f64>,
    /// Distance from the center pin to a ring around the center of the board; none: no such ring.
    #[serde(rename = "middle_mm", default)]
    pub middle: Option<f64>,
}

/// Rings around bores, by role.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
#[expect(
    clippy::struct_excessive_bools,
    reason = "one for each role, each a tick on its own"
)]
pub struct Rings {
    /// Wood between a bore and its ring.
    #[serde(rename = "gap_mm")]
    pub gap: f64,
    /// Around track spaces.
    pub track: bool,
    /// Around holes of home lanes.
    pub home: bool,
    /// Around holes of start pockets.
    pub start: bool,
    /// Around holes added by hand.
    pub extra: bool,
    /// Around the hole at the center pin.
    pub center: bool,
}

impl Rings {
    /// Whether holes of a role have rings.
    pub const fn of(&self, role: Role) -> bool {
        match role {
            Role::Track => self.track,
            Role::Home => self.home,
            Role::Start => self.start,
            Role::Extra => self.extra,
            Role::Center => self.center,
        }
    }
}

impl Grooves {
    /// Whether any groove is a ring centered on the center pin, which is cut with a router on a trammel.
    pub const fn has_rings_on_pin(&self) -> bool {
        self.rim.is_some() || self.middle.is_some()
    }

    /// The default wood between the start of the roundover and the ring around the board; common practice, no source.
    pub const USUAL_RIM: f64 = 5.0;
    /// The default wood between holes and the outline around them; common practice, no source.
    pub const USUAL_AROUND: f64 = 3.0;
    /// The default distance at which the lines between sectors begin; common practice, no source.
    pub const USUAL_SECTORS_FROM: f64 = 40.0;
}

impl Default for Grooves {
    /// Lines along the track and the home lanes with a sharp 60-degree bit; common practice, no source.
    fn default() -> Self {
        Self {
            width: 2.0,
            angle: 60.0,
            tip: 0.0,
            pass: 2.0,
            stop: 1.5,
            track: true,
            home: true,
            around_home: None,
            around_start: None,
            rings: None,
            sectors_from: None,
            rim: None,
            middle: None,
        }
    }
}

impl Default for Rings {
    /// Around the center hole only; common practice, no source.
    fn default() -> Self {
        Self {
            gap: 1.5,
            track: false,
            home: false,
            start: false,
            extra: false,
            center: true,
        }
    }
}
