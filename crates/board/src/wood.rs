//! The wood of the finished board, and the air where it is worked and where it will live.

use serde::{Deserialize, Serialize};

use crate::serial::auto_or_number;

/// The wood of the finished board, and the air where it is worked and where it will live.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Wood {
    /// Its species, by its id in the table of species.
    pub species: String,
    /// How the boards were cut from the log.
    pub cut: Cut,
    /// Moisture content of the wood when the board is cut, as a meter shows it, %; none: calculated from the shop's air.
    #[serde(rename = "moisture_percent", with = "auto_or_number")]
    pub moisture: Option<f64>,
    /// Relative change of width per 1 % of moisture content; none: from the table of species.
    #[serde(with = "auto_or_number")]
    pub change: Option<f64>,
    /// Density at 12 % moisture content, kg/m³; none: from the table of species.
    #[serde(rename = "density_kg_m3", with = "auto_or_number")]
    pub density: Option<f64>,
    /// The air of the shop.
    pub shop: Air,
    /// The air of the customer's home in the dry season.
    pub dry: Air,
    /// The air of the customer's home in the humid season.
    pub humid: Air,
}

/// The air of a room.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Air {
    /// Its temperature, °C.
    #[serde(rename = "temperature_c")]
    pub temperature: f64,
    /// Its relative humidity, %.
    #[serde(rename = "humidity_percent")]
    pub humidity: f64,
}

/// How boards were cut from the log: the direction of the growth rings across their width.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Cut {
    /// Growth rings parallel to the width, which changes as wood does tangentially.
    FlatSawn,
    /// Growth rings perpendicular to the width, which changes as wood does radially.
    QuarterSawn,
}

impl Cut {
    /// Every cut, in the order lists show them.
    pub const ALL: [Self; 2] = [Self::FlatSawn, Self::QuarterSawn];

    /// The words that screens and sheets use.
    pub const fn label(self) -> &'static str {
        match self {
            Self::FlatSawn => "flat-sawn",
            Self::QuarterSawn => "quarter-sawn",
        }
    }
}

impl Default for Wood {
    /// Flat-sawn black walnut, rooms at 30 % in winter and 65 % in summer; common practice, no source.
    fn default() -> Self {
        let air = |temperature, humidity| Air {
            temperature,
            humidity,
        };
        Self {
            species: "black-walnut".into(),
            cut: Cut::FlatSawn,
            moisture: None,
            change: None,
            density: None,
            shop: air(20.0, 45.0),
            dry: air(21.0, 30.0),
            humid: air(24.0, 65.0),
        }
    }
}
