//! Quantities of the document's numbers, and the units that they are held in.

/// The quantity of a number, and the unit the document holds it in.
///
/// The document keeps every number in one unit, in whichever one the maker types or reads it: [`Quantity::symbol`] says which.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Quantity {
    /// A length, held in mm.
    Length,
    /// An angle, held in degrees.
    Angle,
    /// A whole number of things.
    Count,
    /// A share of one, held as a share; typed and shown in percent.
    Share,
    /// A percentage, held in percent: moisture, humidity.
    Percent,
    /// A coefficient without a unit.
    Number,
    /// A mass, held in g for a piece and in kg for a load.
    Mass(MassUnit),
    /// A volume of liquid, held in ml.
    Volume,
    /// A volume of wood, held in ml.
    Solid,
    /// A force, held in N.
    Force,
    /// A temperature, held in °C.
    Temperature,
    /// A speed, held in m/s.
    Speed,
    /// A feed of a machine, held in mm/min.
    Feed,
    /// A speed of turning, held in rpm.
    Rotation,
    /// A density.
    Density(DensityUnit),
    /// A time.
    Time(TimeUnit),
    /// A sum of money, in the currency that the maker counts in.
    Money,
}

/// The unit of a mass in the document.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum MassUnit {
    /// g: a piece.
    Gram,
    /// kg: a board, a load.
    Kilogram,
}

/// The unit of a density in the document.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum DensityUnit {
    /// kg/m³: wood.
    KilogramsPerCubicMeter,
    /// g/cm³: a piece.
    GramsPerCubicCentimeter,
    /// g/ml, for liquids.
    GramsPerMilliliter,
}

/// The unit of a time in the document.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum TimeUnit {
    /// s: waits of a machine.
    Second,
    /// min: pot life.
    Minute,
    /// h: drying.
    Hour,
}

impl Quantity {
    /// The sign of the document's unit; empty for quantities without one, and for a share of 1.
    ///
    /// ```
    /// use board::{Quantity, MassUnit};
    /// assert_eq!(Quantity::Mass(MassUnit::Kilogram).symbol(), "kg");
    /// ```
    pub const fn symbol(self) -> &'static str {
        match self {
            Self::Count | Self::Share | Self::Number | Self::Money => "",
            Self::Length => "mm",
            Self::Angle => "°",
            Self::Percent => "%",
            Self::Mass(MassUnit::Gram) => "g",
            Self::Mass(MassUnit::Kilogram) => "kg",
            Self::Volume | Self::Solid => "ml",
            Self::Force => "N",
            Self::Temperature => "°C",
            Self::Speed => "m/s",
            Self::Feed => "mm/min",
            Self::Rotation => "rpm",
            Self::Density(DensityUnit::KilogramsPerCubicMeter) => "kg/m³",
            Self::Density(DensityUnit::GramsPerCubicCentimeter) => "g/cm³",
            Self::Density(DensityUnit::GramsPerMilliliter) => "g/ml",
            Self::Time(TimeUnit::Second) => "s",
            Self::Time(TimeUnit::Minute) => "min",
            Self::Time(TimeUnit::Hour) => "h",
        }
    }
}
