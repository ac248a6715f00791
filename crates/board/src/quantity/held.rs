//! The quantities of the document's numbers, and the units they are stored in.

/// The quantity of a number, and the unit the document stores it in.
///
/// The document stores every number in one unit, regardless of the unit that the maker types or reads; [`Quantity::symbol`]
/// gives it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Quantity {
    /// A length, stored in mm.
    Length,
    /// An angle, stored in degrees.
    Angle,
    /// A whole number of things.
    Count,
    /// A share of a whole, stored as a fraction of 1; typed and shown in percent.
    Share,
    /// A percentage, stored in percent: moisture, humidity.
    Percent,
    /// A dimensionless coefficient.
    Number,
    /// A mass, stored in g for a piece and in kg for a load.
    Mass(MassUnit),
    /// A volume of liquid, stored in ml.
    Volume,
    /// A volume of wood, stored in ml.
    Solid,
    /// A force, stored in N.
    Force,
    /// A temperature, stored in °C.
    Temperature,
    /// A speed, stored in m/s.
    Speed,
    /// A machine's feed, stored in mm/min.
    Feed,
    /// A rotational speed, stored in rpm.
    Rotation,
    /// A density.
    Density(DensityUnit),
    /// A time.
    Time(TimeUnit),
    /// An amount of money, in the maker's currency.
    Money,
}

/// The document's unit for a mass.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum MassUnit {
    /// g: a piece.
    Gram,
    /// kg: a board, a load.
    Kilogram,
}

/// The document's unit for a density.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum DensityUnit {
    /// kg/m³: wood.
    KilogramsPerCubicMeter,
    /// g/cm³: a piece.
    GramsPerCubicCentimeter,
    /// g/ml: liquids.
    GramsPerMilliliter,
}

/// The document's unit for a time.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum TimeUnit {
    /// s: a machine's waiting times.
    Second,
    /// min: pot life.
    Minute,
    /// h: drying times.
    Hour,
}

impl Quantity {
    /// The symbol of the document's unit; empty for quantities without a unit, and for a share of 1.
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
