//! A number together with its quantity: the one type for every figure in findings, calculations, sheets and reports.

use serde::{Serialize, Serializer, ser::Error as _};

use super::{DensityUnit, MassUnit, Quantity, TimeUnit};
use crate::Units;

/// A number together with its quantity, in the document's unit.
///
/// ```
/// use board::{Measure, Units};
/// let wood = Measure::mm(4.7625);
/// assert_eq!(wood.shown(Units::INCH), "3/16\"");
/// assert_eq!(wood.unit(), "mm");
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Measure {
    /// The bare number, in the unit given by [`Measure::unit`].
    pub value: f64,
    /// The quantity.
    pub quantity: Quantity,
}

impl Measure {
    /// A number of the quantity, in the document's unit; zero has no sign.
    pub const fn new(quantity: Quantity, value: f64) -> Self {
        Self {
            value: value + 0.0,
            quantity,
        }
    }

    /// A length in mm.
    pub const fn mm(value: f64) -> Self {
        Self::new(Quantity::Length, value)
    }

    /// A number of things.
    pub const fn count(count: u32) -> Self {
        Self::new(Quantity::Count, count as f64)
    }

    /// A share of a whole.
    pub const fn share(value: f64) -> Self {
        Self::new(Quantity::Share, value)
    }

    /// An angle in degrees.
    pub const fn degrees(value: f64) -> Self {
        Self::new(Quantity::Angle, value)
    }

    /// A time in minutes.
    pub const fn minutes(value: f64) -> Self {
        Self::new(Quantity::Time(TimeUnit::Minute), value)
    }

    /// A time in hours.
    pub const fn hours(value: f64) -> Self {
        Self::new(Quantity::Time(TimeUnit::Hour), value)
    }

    /// A volume in ml.
    pub const fn milliliters(value: f64) -> Self {
        Self::new(Quantity::Volume, value)
    }

    /// A volume of wood in ml.
    pub const fn solid(value: f64) -> Self {
        Self::new(Quantity::Solid, value)
    }

    /// A mass in g.
    pub const fn grams(value: f64) -> Self {
        Self::new(Quantity::Mass(MassUnit::Gram), value)
    }

    /// A mass in kg.
    pub const fn kilograms(value: f64) -> Self {
        Self::new(Quantity::Mass(MassUnit::Kilogram), value)
    }

    /// A density in kg/m³.
    pub const fn kilograms_per_cubic_meter(value: f64) -> Self {
        Self::new(
            Quantity::Density(DensityUnit::KilogramsPerCubicMeter),
            value,
        )
    }

    /// A force in N.
    pub const fn newtons(value: f64) -> Self {
        Self::new(Quantity::Force, value)
    }

    /// A temperature in °C.
    pub const fn celsius(value: f64) -> Self {
        Self::new(Quantity::Temperature, value)
    }

    /// A rotational speed in rpm.
    pub const fn rpm(value: f64) -> Self {
        Self::new(Quantity::Rotation, value)
    }

    /// A dimensionless number.
    pub const fn number(value: f64) -> Self {
        Self::new(Quantity::Number, value)
    }

    /// The unit of the bare number, as written in files; empty for a count, a share of 1 or a dimensionless number.
    pub const fn unit(self) -> &'static str {
        match self.quantity {
            Quantity::Angle => "deg",
            Quantity::Density(DensityUnit::KilogramsPerCubicMeter) => "kg/m3",
            Quantity::Density(DensityUnit::GramsPerCubicCentimeter) => "g/cm3",
            quantity => quantity.symbol(),
        }
    }

    /// The number in the unit of a system of units, and that unit's symbol, for sentences with several numbers in one unit.
    ///
    /// ```
    /// use board::{Measure, Units};
    /// assert_eq!(Measure::mm(50.8).in_unit(Units::INCH), (2.0, "\""));
    /// ```
    pub fn in_unit(self, units: Units) -> (f64, &'static str) {
        self.quantity.converted(self.value, units)
    }

    /// The measure as a maker reads it, in the maker's system, with no more digits than are useful in the shop.
    ///
    /// ```
    /// use board::{Measure, Units};
    /// assert_eq!(Measure::newtons(14.2335).shown(Units::Mm), "14.23 N");
    /// assert_eq!(Measure::newtons(14.2335).shown(Units::INCH), "3.2 lbf");
    /// ```
    pub fn shown(self, units: Units) -> String {
        self.quantity.reported(self.value, units)
    }

    /// The measure and another that it is compared with, as a maker reads them: never with the same text if they differ.
    ///
    /// ```
    /// use board::{Measure, Units};
    /// let shown = Measure::mm(9.5).shown_beside(Measure::mm(9.525), Units::INCH);
    /// assert_eq!(shown, ["0.374\"", "3/8\""]);
    /// ```
    pub fn shown_beside(self, other: Self, units: Units) -> [String; 2] {
        let shown = [self, other].map(|measure| measure.shown(units));
        let [one, two] = shown.each_ref().map(|text| text.trim_start_matches("≈ "));
        if one == two && self != other {
            return [self, other].map(|measure| measure.quantity.typed(measure.value, units));
        }
        shown
    }

    /// The name of the number's JSON member.
    const fn member(self) -> &'static str {
        match self.quantity {
            Quantity::Length => "mm",
            Quantity::Angle => "degrees",
            Quantity::Count => "count",
            Quantity::Share => "share",
            Quantity::Percent => "percent",
            Quantity::Number => "number",
            Quantity::Mass(MassUnit::Gram) => "grams",
            Quantity::Mass(MassUnit::Kilogram) => "kilograms",
            Quantity::Volume | Quantity::Solid => "milliliters",
            Quantity::Force => "newtons",
            Quantity::Temperature => "degrees_celsius",
            Quantity::Speed => "meters_per_second",
            Quantity::Feed => "mm_per_minute",
            Quantity::Rotation => "rpm",
            Quantity::Density(DensityUnit::KilogramsPerCubicMeter) => "kilograms_per_cubic_meter",
            Quantity::Density(DensityUnit::GramsPerCubicCentimeter) => "grams_per_cubic_centimeter",
            Quantity::Density(DensityUnit::GramsPerMilliliter) => "grams_per_milliliter",
            Quantity::Time(TimeUnit::Second) => "seconds",
            Quantity::Time(TimeUnit::Minute) => "minutes",
            Quantity::Time(TimeUnit::Hour) => "hours",
            Quantity::Money => "money",
        }
    }
}

/// One member named after the unit: `{"mm": 3.2}`, `{"count": 7}`. JSON has no NaN or infinity, so they are written as `null`.
impl Serialize for Measure {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let member = self.member();
        if !self.value.is_finite() {
            let fault = format!("{member} is {}, which is not a number", self.value);
            return Err(S::Error::custom(fault));
        }
        if self.quantity == Quantity::Count {
            return serializer.collect_map([(member, self.value as u64)]);
        }
        serializer.collect_map([(member, self.value)])
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn nan_and_infinity_are_not_written() {
        for value in [f64::NAN, f64::INFINITY] {
            let error = serde_json::to_string(&Measure::mm(value)).unwrap_err();
            assert!(error.to_string().starts_with("mm is "), "{error}");
        }
    }

    #[test]
    fn measures_are_shown_with_a_unit_and_written_without() {
        for (measure, shown, number, unit) in [
            (Measure::newtons(14.2335), "14.23 N", 14.2335, "N"),
            (Measure::kilograms(2.177_12), "2.177 kg", 2.177_12, "kg"),
            (Measure::number(0.002_74), "0.00274", 0.002_74, ""),
            (Measure::count(7), "7", 7.0, ""),
            (
                Measure::kilograms_per_cubic_meter(616.2),
                "616 kg/m³",
                616.2,
                "kg/m3",
            ),
            (Measure::rpm(63.21), "63.2 rpm", 63.21, "rpm"),
        ] {
            assert_eq!(measure.shown(Units::Mm), shown);
            assert_eq!((measure.value, measure.unit()), (number, unit));
        }
        assert!(Measure::mm(-0.0).value.is_sign_positive());
    }

    #[test]
    fn json_has_one_member_named_after_the_unit() {
        let json = |measure| serde_json::to_string(&measure).unwrap();
        assert_eq!(json(Measure::mm(3.0)), r#"{"mm":3.0}"#);
        assert_eq!(json(Measure::count(7)), r#"{"count":7}"#);
        assert_eq!(
            json(Measure::kilograms_per_cubic_meter(616.2)),
            r#"{"kilograms_per_cubic_meter":616.2}"#
        );
    }
}
