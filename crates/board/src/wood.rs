//! The wood of the finished board, and the air it is worked in and will live in.

use serde::{Deserialize, Serialize};

use crate::serial::auto_or_number;

/// The wood of the finished board, and the air it is worked in and will live in.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Wood {
    /// Its species, by the id it has in the table of species.
    pub species: String,
    /// The cut of the boards from the log.
    pub cut: Cut,
    /// Moisture of the wood when the board is cut, as a meter shows it, %; none: worked out from the shop's air.
    #[serde(rename = "moisture_percent", with = "auto_or_number")]
    pub moisture: Option<f64>,
    /// Change of width for each 1 % of moisture, as a share; none: by the table of species.
    #[serde(with = "auto_or_number")]
    pub change: Option<f64>,
    /// Density at 12 % moisture, kg/m³; none: by the table of species.
    #[serde(rename = "density_kg_m3", with = "auto_or_number")]
    pub density: Option<f64>,
    /// The air of the shop.
    pub shop: Air,
    /// The customer's room in the dry season.
    pub dry: Air,
    /// The customer's room in the humid season.
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

/// The cut of boards from the log: the direction in which the rings cross their width.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Cut {
    /// The rings run along the width: it changes as wood does tangentially.
    FlatSawn,
    /// The rings stand upright: the width changes as wood does radially.
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
    /// Flat-sawn black walnut, rooms of 30 % in winter and 65 % in summer; common practice, no source.
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
