//! The wood, and the air around it through the seasons.

use crate::Quantity::{Count, Density, Percent, Share, Temperature};
use crate::field::Kind::{Auto, Choice, Number, Part, Text};
use crate::{Cut, DensityUnit, Range, Wood};

/// Any room temperature.
pub(super) const TEMPERATURE: Range = Temperature.of(-40.0, 80.0);

/// Temperature and humidity of a room.
macro_rules! air {
    ($(#[$doc:meta])* $rows:ident: $temperature:ident $humidity:ident $path:literal, [$($way:tt)+] $label:literal $(, us: $us:literal)?) => {
        fields! {
            $(#[$doc])*
            $rows:
            $temperature concat!($path, ".temperature_c"), [$($way)+ .temperature] concat!($label, ", temperature"),
                Number(TEMPERATURE), "" $(, us: $us)?;
            $humidity concat!($path, ".humidity_percent"), [$($way)+ .humidity] concat!($label, ", humidity"),
                Number(Percent.of(0.0, 100.0)), "Relative humidity";
        }
    };
}

fields! {
    /// The wood.
    WOOD_FIELDS:
    WOOD "wood", [.wood] "Plan for seasonal movement", Part, "The species, and the air the board is made and kept in";
    SPECIES "wood.species", [.wood? .species] "Species", Text(Count.range("letters of the species", 0.0, 60.0)), "";
}

fields! {
    /// The cut of the wood, and its movement.
    WOOD_DETAILS:
    CUT "wood.cut", [.wood? .cut] "Sawn", Choice, "How the boards were sawn from the log";
    MOISTURE "wood.moisture_percent", [.wood? .moisture] "Moisture", Auto(Percent.of(0.0, 30.0), "from shop humidity"),
        "Of the wood when the board is cut, as a meter shows it";
    WOOD_CHANGE "wood.change", [.wood? .change] "Movement per 1 %", Auto(Share.of(0.0, 0.01), "from species"),
        "Change of width for each 1 % of moisture";
    WOOD_DENSITY "wood.density_kg_m3", [.wood? .density] "Density at 12 %",
        Auto(Density(DensityUnit::KilogramsPerCubicMeter).of(50.0, 1700.0), "from species"), "At 12 % moisture";
}

air! {
    /// The air of the shop.
    SHOP_AIR: SHOP_AIR_TEMPERATURE SHOP_AIR_HUMIDITY "wood.shop", [.wood? .shop] "Shop"
}

air! {
    /// The customer's room in the dry season.
    DRY_AIR: DRY_TEMPERATURE DRY_HUMIDITY "wood.dry", [.wood? .dry] "Driest room", us: "70 °F"
}

air! {
    /// The customer's room in the humid season.
    HUMID_AIR: HUMID_TEMPERATURE HUMID_HUMIDITY "wood.humid", [.wood? .humid] "Dampest room", us: "75 °F"
}

plain!(Cut);
usual!(Wood);
