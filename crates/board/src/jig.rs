//! Jigs between the drawing and the drill: circle jig, hardboard templates, and the drilling order.

use serde::{Deserialize, Serialize};

/// The jig that the circle is cut on, rotating around a pin.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct CircleJig {
    /// Diameter of its pin.
    #[serde(rename = "pin_mm")]
    pub pin: f64,
    /// Width of the cut of the blade or bit that runs around the board.
    #[serde(rename = "kerf_mm", default = "CircleJig::usual_kerf")]
    pub kerf: f64,
    /// Divisions of the index plates in the shop.
    #[serde(default = "CircleJig::usual_plates")]
    pub plates: Vec<u32>,
    /// From the chuck of the drill press to its column; none: a drill that reaches every hole.
    #[serde(rename = "throat_mm", default)]
    pub throat: Option<f64>,
}

impl CircleJig {
    /// A full-kerf table saw blade; common practice, no source.
    const fn usual_kerf() -> f64 {
        3.2
    }

    /// Divisions with many divisors; common practice, no source.
    fn usual_plates() -> Vec<u32> {
        vec![24, 36, 48, 60, 72, 96, 120, 144]
    }

    /// A jig with this pin, and otherwise the usual values.
    pub fn with_pin(pin: f64) -> Self {
        Self {
            pin,
            kerf: Self::usual_kerf(),
            plates: Self::usual_plates(),
            throat: None,
        }
    }
}

/// A router with a guide bushing that follows a hardboard template.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Router {
    /// Outside diameter of the guide bushing.
    #[serde(rename = "bushing_mm")]
    pub bushing: f64,
    /// Diameter of the bit.
    #[serde(rename = "bit_mm")]
    pub bit: f64,
    /// Length of the bushing below the router's base.
    #[serde(rename = "reach_mm", default = "Router::usual_reach")]
    pub reach: f64,
    /// Length of the bit below the router's base at full plunge depth; none: not measured.
    #[serde(rename = "stands_out_mm", default)]
    pub stands_out: Option<f64>,
    /// Length of the bit's cutting edges; none: not measured.
    #[serde(rename = "edges_mm", default)]
    pub edges: Option<f64>,
    /// Diameter of its shank; none: not measured.
    #[serde(rename = "shank_mm", default)]
    pub shank: Option<f64>,
    /// Thickness of the hardboard.
    #[serde(rename = "hardboard_mm", default = "Router::usual_hardboard")]
    pub hardboard: f64,
    /// How the template marks the center pin.
    #[serde(default)]
    pub center: TemplateCenter,
}

/// How a router template marks the center pin.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum TemplateCenter {
    /// A mark only, not drilled.
    Undrilled,
    /// A hole for the center pin, which holds template and board together.
    #[default]
    Pilot,
}

impl TemplateCenter {
    /// Every choice, in the order lists show them.
    pub const ALL: [Self; 2] = [Self::Pilot, Self::Undrilled];

    /// The words that screens use.
    pub const fn label(self) -> &'static str {
        match self {
            Self::Undrilled => "a mark, undrilled",
            Self::Pilot => "a hole for the pin",
        }
    }
}

impl Router {
    /// A bushing shortened for thin templates; common practice, no source.
    const fn usual_reach() -> f64 {
        5.0
    }

    /// 1/4 in hardboard, rounded; common practice, no source.
    const fn usual_hardboard() -> f64 {
        6.0
    }

    /// How much wider a template hole is than its bore, mm: the bushing's diameter minus the bit's.
    ///
    /// ```
    /// use board::Router;
    /// let router = Router { bushing: 16.0, bit: 12.0, ..Router::default() };
    /// assert_eq!(router.wider(), 4.0);
    /// ```
    pub const fn wider(&self) -> f64 {
        self.bushing - self.bit
    }
}

impl Default for Router {
    /// A 16 mm bushing and a 12 mm bit; common practice, no source.
    fn default() -> Self {
        Self {
            bushing: 16.0,
            bit: 12.0,
            reach: Self::usual_reach(),
            stands_out: None,
            edges: None,
            shank: None,
            hardboard: Self::usual_hardboard(),
            center: TemplateCenter::default(),
        }
    }
}

/// A template of one sector that rotates around the center pin and is held by index pins in previously drilled holes.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SectorJig {
    /// Number of index pins: 1, or 2 that share the error.
    pub pins: u32,
    /// How much thinner a pin, including the center pin, is than its hole.
    #[serde(rename = "play_mm")]
    pub play: f64,
}

impl Default for SectorJig {
    /// One pin with the play of a sliding fit; common practice, no source.
    fn default() -> Self {
        Self { pins: 1, play: 0.1 }
    }
}

/// The drilling method, as the maker chooses it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum DrillingMethod {
    /// The first of these that the document plans for: machine, router template, sector jig; otherwise the paper template.
    #[default]
    Automatic,
    /// A paper template on the blank, center-punched, and a drill press.
    Template,
    /// A router with a guide bushing that follows a hardboard template.
    Router,
    /// A drilling jig of one sector, rotated around the pin.
    SectorJig,
    /// The blank rotated around the pin against a stop or an index plate.
    Pivot,
    /// A CNC machine.
    Machine,
}

impl DrillingMethod {
    /// Every method, in the order lists show them.
    pub const ALL: [Self; 6] = [
        Self::Automatic,
        Self::Template,
        Self::Router,
        Self::SectorJig,
        Self::Pivot,
        Self::Machine,
    ];

    /// The words that screens and sheets use.
    pub const fn label(self) -> &'static str {
        match self {
            Self::Automatic => "automatic",
            Self::Template => "template",
            Self::Router => "router",
            Self::SectorJig => "sector jig",
            Self::Pivot => "pivot and stop",
            Self::Machine => "machine",
        }
    }
}

/// The order in which the holes are drilled.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum DrillingOrder {
    /// The fewest changes of bit, then of depth stop, then of radius.
    #[default]
    SetUps,
    /// The least travel from hole to hole.
    Travel,
}

impl DrillingOrder {
    /// Every order, in the order lists show them.
    pub const ALL: [Self; 2] = [Self::SetUps, Self::Travel];

    /// The words that screens and sheets use.
    pub const fn label(self) -> &'static str {
        match self {
            Self::SetUps => "fewest set-ups",
            Self::Travel => "least travel",
        }
    }
}
