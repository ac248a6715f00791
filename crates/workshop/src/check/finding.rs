//! What a finding is.

use board::{HoleName, Units, show_length, show_number};
use serde::{Serialize, Serializer};

use super::Rule;
use crate::Mend;

/// Something the maker should know or mend.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Finding {
    /// How much it matters.
    pub severity: Severity,
    /// The rule it is measured by.
    pub rule: Rule,
    /// What is found, in a sentence, in the maker's units.
    pub message: String,
    /// What was measured, where there is a measure.
    pub measured: Option<Measure>,
    /// What the rule wants.
    pub wanted: Option<Measure>,
    /// The holes it is about.
    #[serde(serialize_with = "names_as_text")]
    pub holes: Vec<HoleName>,
    /// What mends it in one step.
    pub mends: Vec<Mend>,
}

impl Finding {
    /// A finding without measures, holes or mends.
    pub(crate) const fn new(severity: Severity, rule: Rule, message: String) -> Self {
        Self {
            severity,
            rule,
            message,
            measured: None,
            wanted: None,
            holes: Vec::new(),
            mends: Vec::new(),
        }
    }

    /// With what was measured, and what the rule wants.
    pub(crate) const fn measuring(mut self, measured: Measure, wanted: Measure) -> Self {
        self.measured = Some(measured);
        self.wanted = Some(wanted);
        self
    }

    /// About these holes, in table order, each once.
    pub(crate) fn about(mut self, mut holes: Vec<HoleName>) -> Self {
        holes.sort_by_key(|name| name.id());
        holes.dedup();
        self.holes = holes;
        self
    }

    /// Mended by any of these.
    pub(crate) fn mended_by(mut self, mends: &[Mend]) -> Self {
        self.mends = mends.to_vec();
        self
    }
}

/// How much a finding matters.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Severity {
    /// The board cannot be made or used like this.
    Stop,
    /// It can, but the maker should look twice.
    Caution,
    /// Good to know.
    Note,
}

impl Severity {
    /// The word that screens and reports use.
    pub const fn label(self) -> &'static str {
        match self {
            Self::Stop => "stop",
            Self::Caution => "caution",
            Self::Note => "note",
        }
    }
}

/// What was measured or wanted.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Measure {
    /// A length in mm.
    Mm(f64),
    /// A number of things.
    Count(u32),
    /// A share of a whole.
    Share(f64),
    /// An angle in degrees.
    Degrees(f64),
    /// A time in minutes.
    Minutes(f64),
    /// A time in hours.
    Hours(f64),
    /// A volume in ml.
    Milliliters(f64),
    /// A mass in g.
    Grams(f64),
    /// A mass in kg.
    Kilograms(f64),
    /// A density in kg/m³.
    KilogramsPerCubicMeter(f64),
    /// A force in N.
    Newtons(f64),
    /// Turns a minute.
    Rpm(f64),
    /// A number without a unit.
    Number(f64),
}

impl Measure {
    /// The bare number, in the unit that [`Measure::unit`] has.
    pub fn number(self) -> f64 {
        match self {
            Self::Count(count) => f64::from(count),
            Self::Mm(number)
            | Self::Share(number)
            | Self::Degrees(number)
            | Self::Minutes(number)
            | Self::Hours(number)
            | Self::Milliliters(number)
            | Self::Grams(number)
            | Self::Kilograms(number)
            | Self::KilogramsPerCubicMeter(number)
            | Self::Newtons(number)
            | Self::Rpm(number)
            | Self::Number(number) => number,
        }
    }

    /// The unit of the bare number, as files have it; empty for a count, a share of 1 or a number without one.
    pub const fn unit(self) -> &'static str {
        match self {
            Self::Count(_) | Self::Share(_) | Self::Number(_) => "",
            Self::Mm(_) => "mm",
            Self::Degrees(_) => "deg",
            Self::Minutes(_) => "min",
            Self::Hours(_) => "h",
            Self::Milliliters(_) => "ml",
            Self::Grams(_) => "g",
            Self::Kilograms(_) => "kg",
            Self::KilogramsPerCubicMeter(_) => "kg/m3",
            Self::Newtons(_) => "N",
            Self::Rpm(_) => "rpm",
        }
    }

    /// The measure as a maker reads it: lengths to a hundredth of a millimeter or as inches are shown, less than a
    /// milliliter to a hundredth.
    pub fn shown(self, units: Units) -> String {
        match self {
            Self::Mm(mm) if units == Units::Mm => show_length((mm * 100.0).round() / 100.0, units),
            Self::Mm(mm) => show_length(mm, units),
            Self::Count(count) => count.to_string(),
            Self::Share(share) => show_number(share * 100.0, 1) + " %",
            Self::Degrees(degrees) => show_number(degrees, 3) + "°",
            Self::Minutes(minutes) => show_number(minutes, 1) + " min",
            Self::Hours(hours) => show_number(hours, 1) + " h",
            Self::Milliliters(ml) => show_number(ml, if ml < 1.0 { 2 } else { 1 }) + " ml",
            Self::Grams(grams) => show_number(grams, 2) + " g",
            Self::Kilograms(kilograms) => show_number(kilograms, 3) + " kg",
            Self::KilogramsPerCubicMeter(density) => show_number(density, 0) + " kg/m³",
            Self::Newtons(newtons) => show_number(newtons, 2) + " N",
            Self::Rpm(turns) => show_number(turns, 1) + " rpm",
            Self::Number(number) => show_number(number, 5),
        }
    }
}

pub fn names_as_text<S: Serializer>(names: &[HoleName], serializer: S) -> Result<S::Ok, S::Error> {
    serializer.collect_seq(names.iter().map(ToString::to_string))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn measures_are_shown_with_their_unit_and_written_bare() {
        for (measure, shown, number, unit) in [
            (Measure::Newtons(14.2335), "14.23 N", 14.2335, "N"),
            (Measure::Kilograms(2.177_12), "2.177 kg", 2.177_12, "kg"),
            (Measure::Number(0.002_74), "0.00274", 0.002_74, ""),
            (Measure::Count(7), "7", 7.0, ""),
            (
                Measure::KilogramsPerCubicMeter(616.2),
                "616 kg/m³",
                616.2,
                "kg/m3",
            ),
            (Measure::Rpm(63.21), "63.2 rpm", 63.21, "rpm"),
        ] {
            assert_eq!(measure.shown(Units::Mm), shown);
            assert_eq!((measure.number(), measure.unit()), (number, unit));
        }
    }
}
