//! The units of each kind: the words makers type for them, and the one that each system shows.
//!
//! The factors are exact. They are from NIST Special Publication 811 (2008), Appendix B, from memory: the inch of 25.4 mm, the
//! pound of 453.59237 g, the US gallon of 231 cubic inches, and standard gravity of 9.80665 m/s² in the pound-force. Those of
//! derived units follow from them.

use super::{DensityUnit, MassUnit, Quantity, TimeUnit};
use crate::Units;

/// A unit in terms of the base unit of its kind: mm, °, g, ml, N, °C, m/s, mm/min, rpm, kg/m³ or s.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Unit {
    /// The size of the unit is `over / under`: both are integers where possible, so that 3/4 in is 19.05 mm to the last digit.
    over: f64,
    under: f64,
    /// Added before scaling; nonzero only for °F.
    zero: f64,
    /// The unit of a number that may follow: inches after feet.
    pub(super) smaller: Option<&'static Self>,
}

impl Unit {
    /// A unit of `over / under` base units.
    const fn new(over: f64, under: f64) -> Self {
        Self {
            over,
            under,
            zero: 0.0,
            smaller: None,
        }
    }

    /// The same unit, which a number in a smaller unit may follow.
    const fn before(self, smaller: &'static Self) -> Self {
        Self {
            smaller: Some(smaller),
            ..self
        }
    }

    /// This value in the unit, converted to the base unit.
    pub(super) fn reckoned(self, value: f64) -> f64 {
        (value + self.zero) * self.over / self.under
    }

    /// The size of one unit, as a difference between two values.
    pub(super) fn size(self) -> f64 {
        self.over / self.under
    }

    /// A value in the base unit, converted to this unit.
    pub(super) fn of(self, reckoned: f64) -> f64 {
        reckoned * self.under / self.over - self.zero
    }

    /// Whether numbers in that unit may follow numbers in this one, as seconds may follow hours.
    pub(super) fn is_above(self, unit: Self) -> bool {
        self.smaller
            .is_some_and(|smaller| *smaller == unit || smaller.is_above(unit))
    }
}

const ONE: Unit = Unit::new(1.0, 1.0);
const PERCENT: Unit = Unit::new(1.0, 100.0);

const CM: Unit = Unit::new(10.0, 1.0);
const METER: Unit = Unit::new(1000.0, 1.0);
pub(super) const INCH: Unit = Unit::new(254.0, 10.0);
pub(super) const FOOT: Unit = Unit::new(3048.0, 10.0).before(&INCH);
const YARD: Unit = Unit::new(9144.0, 10.0);
const THOU: Unit = Unit::new(254.0, 10_000.0);

const KILO: Unit = Unit::new(1000.0, 1.0);
const POUND: Unit = Unit::new(45_359_237.0, 100_000.0).before(&OUNCE);
const OUNCE: Unit = Unit::new(45_359_237.0, 1_600_000.0);

// A fluid ounce is 1/128 of 231 cubic inches of 16.387064 ml.
const FLUID_OUNCE: Unit = Unit::new(295_735_295_625.0, 1e10);
const TEASPOON: Unit = Unit::new(295_735_295_625.0, 6e10);
const TABLESPOON: Unit = Unit::new(295_735_295_625.0, 2e10);
const CUP: Unit = Unit::new(295_735_295_625.0 * 8.0, 1e10);
const PINT: Unit = Unit::new(295_735_295_625.0 * 16.0, 1e10);
const QUART: Unit = Unit::new(295_735_295_625.0 * 32.0, 1e10).before(&FLUID_OUNCE);
const GALLON: Unit = Unit::new(295_735_295_625.0 * 128.0, 1e10).before(&QUART);
const CUBIC_INCH: Unit = Unit::new(16_387_064.0, 1e6);

const POUND_FORCE: Unit = Unit::new(44_482_216_152_605.0, 1e13);
const OUNCE_FORCE: Unit = Unit::new(44_482_216_152_605.0, 1.6e14);
const KILOGRAM_FORCE: Unit = Unit::new(980_665.0, 1e5);
const GRAM_FORCE: Unit = Unit::new(980_665.0, 1e8);

const FAHRENHEIT: Unit = Unit {
    zero: -32.0,
    ..Unit::new(5.0, 9.0)
};

const FOOT_A_SECOND: Unit = Unit::new(3048.0, 1e4);
const FOOT_A_MINUTE: Unit = Unit::new(3048.0, 6e5);

// A pound per cubic foot of 0.028316846592 m³, and per gallon of 0.003785411784 m³.
const POUND_A_CUBIC_FOOT: Unit = Unit::new(453_592_370_000.0, 28_316_846_592.0);
const POUND_A_GALLON: Unit = Unit::new(453_592_370_000.0, 3_785_411_784.0);

const MINUTE: Unit = Unit::new(60.0, 1.0).before(&ONE);
const HOUR: Unit = Unit::new(3600.0, 1.0).before(&MINUTE);
const DAY: Unit = Unit::new(86_400.0, 1.0).before(&HOUR);

/// The words for the units of a kind, all of which may be typed; the first one of each unit is displayed.
type Words = &'static [(&'static str, Unit)];

const LENGTHS: Words = &[
    ("mm", ONE),
    ("cm", CM),
    ("m", METER),
    ("in", INCH),
    ("inch", INCH),
    ("inches", INCH),
    ("''", INCH),
    ("\"", INCH),
    ("ft", FOOT),
    ("foot", FOOT),
    ("feet", FOOT),
    ("'", FOOT),
    ("yd", YARD),
    ("thou", THOU),
];
const ANGLES: Words = &[("°", ONE), ("deg", ONE), ("degree", ONE), ("degrees", ONE)];
const SHARES: Words = &[("%", PERCENT), ("percent", PERCENT)];
const PERCENTS: Words = &[("%", ONE), ("percent", ONE)];
const MASSES: Words = &[
    ("g", ONE),
    ("gram", ONE),
    ("grams", ONE),
    ("kg", KILO),
    ("oz", OUNCE),
    ("ounce", OUNCE),
    ("ounces", OUNCE),
    ("lb", POUND),
    ("lbs", POUND),
    ("pound", POUND),
    ("pounds", POUND),
];
const VOLUMES: Words = &[
    ("ml", ONE),
    ("cl", CM),
    ("l", KILO),
    ("liter", KILO),
    ("liters", KILO),
    ("cc", ONE),
    ("cm3", ONE),
    ("cm³", ONE),
    ("in3", CUBIC_INCH),
    ("in³", CUBIC_INCH),
    ("cu in", CUBIC_INCH),
    ("fl oz", FLUID_OUNCE),
    ("fl. oz", FLUID_OUNCE),
    ("floz", FLUID_OUNCE),
    ("oz", FLUID_OUNCE),
    ("tsp", TEASPOON),
    ("tbsp", TABLESPOON),
    ("cup", CUP),
    ("cups", CUP),
    ("pt", PINT),
    ("pint", PINT),
    ("pints", PINT),
    ("qt", QUART),
    ("quart", QUART),
    ("quarts", QUART),
    ("gal", GALLON),
    ("gallon", GALLON),
    ("gallons", GALLON),
];
// A spring scale reads g, kg, oz or lb: in a force field these are the weights of such masses.
const FORCES: Words = &[
    ("n", ONE),
    ("newton", ONE),
    ("newtons", ONE),
    ("lbf", POUND_FORCE),
    ("lb", POUND_FORCE),
    ("lbs", POUND_FORCE),
    ("ozf", OUNCE_FORCE),
    ("oz", OUNCE_FORCE),
    ("kgf", KILOGRAM_FORCE),
    ("kg", KILOGRAM_FORCE),
    ("gf", GRAM_FORCE),
    ("g", GRAM_FORCE),
];
const TEMPERATURES: Words = &[
    ("°c", ONE),
    ("c", ONE),
    ("°f", FAHRENHEIT),
    ("f", FAHRENHEIT),
];
const SPEEDS: Words = &[
    ("m/s", ONE),
    ("m/min", Unit::new(1.0, 60.0)),
    ("km/h", Unit::new(10.0, 36.0)),
    ("ft/s", FOOT_A_SECOND),
    ("ft/min", FOOT_A_MINUTE),
    ("fpm", FOOT_A_MINUTE),
    ("sfm", FOOT_A_MINUTE),
    ("mph", Unit::new(44_704.0, 1e5)),
];
// A bare length means per minute.
const FEEDS: Words = &[
    ("mm/min", ONE),
    ("mm/s", MINUTE_FOLD),
    ("cm/min", CM),
    ("m/min", METER),
    ("in/min", INCH),
    ("ipm", INCH),
    ("in/s", Unit::new(1524.0, 1.0)),
    ("ft/min", Unit::new(3048.0, 10.0)),
    ("mm", ONE),
    ("cm", CM),
    ("m", METER),
    ("in", INCH),
    ("inch", INCH),
    ("inches", INCH),
    ("''", INCH),
    ("\"", INCH),
    ("ft", FOOT),
    ("'", FOOT),
];
const MINUTE_FOLD: Unit = Unit::new(60.0, 1.0);
const ROTATIONS: Words = &[("rpm", ONE), ("r/min", ONE)];
const DENSITIES: Words = &[
    ("kg/m3", ONE),
    ("kg/m³", ONE),
    ("g/cm3", KILO),
    ("g/cm³", KILO),
    ("g/cc", KILO),
    ("g/ml", KILO),
    ("kg/l", KILO),
    ("lb/ft3", POUND_A_CUBIC_FOOT),
    ("lb/ft³", POUND_A_CUBIC_FOOT),
    ("lb/cu ft", POUND_A_CUBIC_FOOT),
    ("pcf", POUND_A_CUBIC_FOOT),
    ("lb/gal", POUND_A_GALLON),
    ("ppg", POUND_A_GALLON),
];
const TIMES: Words = &[
    ("s", ONE),
    ("sec", ONE),
    ("second", ONE),
    ("seconds", ONE),
    ("min", MINUTE),
    ("mins", MINUTE),
    ("m", MINUTE),
    ("minute", MINUTE),
    ("minutes", MINUTE),
    ("h", HOUR),
    ("hr", HOUR),
    ("hrs", HOUR),
    ("hour", HOUR),
    ("hours", HOUR),
    ("d", DAY),
    ("day", DAY),
    ("days", DAY),
];
const MONEYS: Words = &[("$", ONE), ("€", ONE), ("£", ONE)];

impl Quantity {
    /// The words for the units of this kind, in lower case.
    pub(super) const fn words(self) -> Words {
        match self {
            Self::Count | Self::Number => &[],
            Self::Length => LENGTHS,
            Self::Angle => ANGLES,
            Self::Share => SHARES,
            Self::Percent => PERCENTS,
            Self::Mass(_) => MASSES,
            Self::Volume | Self::Solid => VOLUMES,
            Self::Force => FORCES,
            Self::Temperature => TEMPERATURES,
            Self::Speed => SPEEDS,
            Self::Feed => FEEDS,
            Self::Rotation => ROTATIONS,
            Self::Density(_) => DENSITIES,
            Self::Time(_) => TIMES,
            Self::Money => MONEYS,
        }
    }

    /// The document's unit.
    pub(super) const fn held(self) -> Unit {
        match self {
            Self::Mass(MassUnit::Kilogram)
            | Self::Density(
                DensityUnit::GramsPerCubicCentimeter | DensityUnit::GramsPerMilliliter,
            ) => KILO,
            Self::Time(TimeUnit::Minute) => MINUTE,
            Self::Time(TimeUnit::Hour) => HOUR,
            _ => ONE,
        }
    }

    /// The unit that a system shows, and its symbol.
    pub(super) const fn unit(self, units: Units) -> (Unit, &'static str) {
        match (self, units) {
            (Self::Share, _) => (PERCENT, "%"),
            (Self::Length, Units::Inch(_)) => (INCH, "\""),
            (Self::Mass(MassUnit::Gram), Units::Inch(_)) => (OUNCE, "oz"),
            (Self::Mass(MassUnit::Kilogram), Units::Inch(_)) => (POUND, "lb"),
            (Self::Volume, Units::Inch(_)) => (FLUID_OUNCE, "fl oz"),
            (Self::Solid, Units::Inch(_)) => (CUBIC_INCH, "in³"),
            (Self::Force, Units::Inch(_)) => (POUND_FORCE, "lbf"),
            (Self::Temperature, Units::Inch(_)) => (FAHRENHEIT, "°F"),
            (Self::Speed, Units::Inch(_)) => (FOOT_A_MINUTE, "ft/min"),
            (Self::Feed, Units::Inch(_)) => (INCH, "in/min"),
            // Resin labels use lb/gal.
            (Self::Density(DensityUnit::GramsPerMilliliter), Units::Inch(_)) => {
                (POUND_A_GALLON, "lb/gal")
            }
            (Self::Density(_), Units::Inch(_)) => (POUND_A_CUBIC_FOOT, "lb/ft³"),
            _ => (self.held(), self.symbol()),
        }
    }
}
