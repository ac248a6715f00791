//! Fields of the wood through the seasons and of the base.

use super::Kind::{Auto, Choice, Number, Open, Part, Text};
use crate::Quantity::{Count, Density, Length, Mass, Percent, Share, Temperature};
use crate::{DensityUnit, Footing, MassUnit, Range};

/// Any temperature of a room.
pub(super) const TEMPERATURE: Range = Temperature.of(-40.0, 80.0);

/// Temperature and humidity of a room.
macro_rules! air {
    ($(#[$doc:meta])* $rows:ident: $temperature:ident $humidity:ident $path:literal, [$($way:tt)+] $label:literal) => {
        fields! {
            $(#[$doc])*
            $rows:
            $temperature concat!($path, ".temperature_c"), [$($way)+ .temperature] concat!($label, ", temperature"),
                Number(TEMPERATURE), "";
            $humidity concat!($path, ".humidity_percent"), [$($way)+ .humidity] concat!($label, ", humidity"),
                Number(Percent.of(0.0, 100.0)), "Relative humidity";
        }
    };
}

fields! {
    /// The wood.
    WOOD_FIELDS:
    WOOD "wood", [.wood] "Plan for the seasons", Part, "The species, and the air the board is made and kept in";
    SPECIES "wood.species", [.wood? .species] "Species", Text(Count.range("letters of the species", 0.0, 60.0)), "";
}

fields! {
    /// How the wood was sawn, and how it moves.
    WOOD_DETAILS:
    CUT "wood.cut", [.wood? .cut] "Sawn", Choice, "How the boards were sawn from the log";
    MOISTURE "wood.moisture_percent", [.wood? .moisture] "Moisture", Auto(Percent.of(0.0, 30.0), "by the shop's air"),
        "Of the wood when the board is cut, as a meter shows it";
    WOOD_CHANGE "wood.change", [.wood? .change] "Movement per 1 %", Auto(Share.of(0.0, 0.01), "by the species"),
        "Change of width for each 1 % of moisture";
    WOOD_DENSITY "wood.density_kg_m3", [.wood? .density] "Density at 12 %",
        Auto(Density(DensityUnit::KilogramsPerCubicMeter).of(50.0, 1700.0), "by the species"), "At 12 % moisture";
}

air! {
    /// The air of the shop.
    SHOP_AIR: SHOP_AIR_TEMPERATURE SHOP_AIR_HUMIDITY "wood.shop", [.wood? .shop] "Shop"
}
air! {
    /// The customer's room in the dry season.
    DRY_AIR: DRY_TEMPERATURE DRY_HUMIDITY "wood.dry", [.wood? .dry] "Dry room"
}
air! {
    /// The customer's room in the humid season.
    HUMID_AIR: HUMID_TEMPERATURE HUMID_HUMIDITY "wood.humid", [.wood? .humid] "Damp room"
}

/// What stands on a board, kg.
const LOAD: Range = Mass(MassUnit::Kilogram).of(0.0, 10_000.0);
/// A base, or the circle of its feet.
const FOOTING_SIZE: Range = Length.of(1.0, 5000.0);

fields! {
    /// What the board stands on.
    BASE_FIELDS:
    BASE "base", [.base] "Plan a base", Part, "A turntable or feet below the board";
    FOOTING "base.footing.kind", [.base? .footing] "Stands on", Choice, "";
    FOOTING_DIAMETER "base.footing.diameter_mm", [.base? .footing {Footing::Round => diameter}] "Base diameter",
        Number(FOOTING_SIZE), "Of a turntable that the board only lies on, the circle of its bearing";
    FEET "base.footing.count", [.base? .footing {Footing::Feet => count}] "Feet", Number(Count.of(3.0, 60.0)),
        "At equal steps around a circle";
    FEET_CIRCLE "base.footing.circle_mm", [.base? .footing {Footing::Feet => circle}] "Circle of the feet",
        Number(FOOTING_SIZE), "Diameter through their middles";
    BASE_HEIGHT "base.height_mm", [.base? .height] "Base height", Number(Length.of(0.0, 1000.0)),
        "From the table to the underside of the board";
    RATING "base.rating_kg", [.base? .rating] "Rated load", Open(LOAD, "not known"), "Of the turntable";
    LOAD_BESIDE "base.load_kg", [.base? .load] "Load beside pieces", Number(LOAD), "What may be put on the board";
    BOARD_MASS "base.board_kg", [.base? .board] "Board weight", Auto(LOAD, "by its wood"),
        "On a scale, without base and pieces";
}
