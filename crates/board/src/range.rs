//! The allowed ranges of the document's numbers, and the error for a number out of range.

use core::fmt;

use crate::{Quantity, Units};

/// Numbers with a relative difference up to this were typed the same.
const HAIR: f64 = 1e-12;

/// The allowed range of one number, inclusive.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Range {
    /// The number's name on screens. In the name of a list entry, `#` stands for its number.
    pub label: &'static str,
    /// The quantity it measures.
    pub quantity: Quantity,
    /// The minimum.
    pub min: f64,
    /// The maximum.
    pub max: f64,
}

impl Quantity {
    /// A range of this quantity.
    pub const fn range(self, label: &'static str, min: f64, max: f64) -> Range {
        Range {
            label,
            quantity: self,
            min,
            max,
        }
    }

    /// A range without a name, for a field that names it.
    pub(crate) const fn of(self, min: f64, max: f64) -> Range {
        self.range("", min, max)
    }
}

impl Range {
    /// Checks that a number is in the range.
    ///
    /// ```
    /// use board::Quantity;
    /// let angle = Quantity::Angle.range("Bit angle", 20.0, 150.0);
    /// assert!(angle.check(60.0).is_ok() && angle.check(150.0).is_ok());
    /// assert!(angle.check(f64::NAN).is_err());
    /// ```
    ///
    /// # Errors
    /// [`OutOfRange`] if it is not, or is NaN.
    pub fn check(self, value: f64) -> Result<(), OutOfRange> {
        self.check_entry(value, 0)
    }

    /// Checks that a number of a list entry is in the range; entries count from 0.
    ///
    /// # Errors
    ///
    /// [`OutOfRange`] if it is not, or is NaN.
    pub(crate) fn check_entry(self, value: f64, entry: usize) -> Result<(), OutOfRange> {
        if (self.min..=self.max).contains(&value) {
            Ok(())
        } else {
            Err(OutOfRange {
                range: self,
                value,
                entry,
            })
        }
    }

    /// The number that a maker means by a typed one: an end of the range if it is past that end only because the end was
    /// rounded for display, such as `196.8504"` for 5000 mm; otherwise the number itself.
    ///
    /// ```
    /// use board::{Quantity, Units};
    /// let diameter = Quantity::Length.range("Board diameter", 1.0, 5000.0);
    /// assert_eq!(diameter.meant(196.8504 * 25.4, Units::INCH), 5000.0);
    /// assert_eq!(diameter.meant(196.8504 * 25.4, Units::Mm), 196.8504 * 25.4);
    /// ```
    pub fn meant(self, value: f64, units: Units) -> f64 {
        let as_shown = |end: f64| {
            let texts = [
                self.quantity.typed(end, units),
                self.quantity.shown(end, units),
            ];
            texts.iter().any(|text| {
                let read = self.quantity.read(text, units);
                read.is_ok_and(|read| (read - value).abs() <= HAIR * value.abs().max(1.0))
            })
        };
        if self.check(value).is_ok() {
            return value;
        }
        [self.min, self.max]
            .into_iter()
            .find(|end| as_shown(*end))
            .unwrap_or(value)
    }

    /// Both ends for reading: `1 mm to 5000 mm`.
    ///
    /// ```
    /// use board::{MassUnit, Quantity, Units};
    /// let diameter = Quantity::Length.range("Board diameter", 1.0, 5000.0);
    /// assert_eq!(diameter.ends(Units::Mm), "1 mm to 5000 mm");
    /// assert_eq!(diameter.ends(Units::INCH), "≈ 0.039\" to ≈ 196 27/32\"");
    /// // Converted numbers are rounded into the range.
    /// let weight = Quantity::Mass(MassUnit::Gram).range("Weight of one", 0.01, 100_000.0);
    /// assert_eq!(weight.ends(Units::INCH), "0.00036 oz to 3500 oz");
    /// ```
    pub fn ends(self, units: Units) -> String {
        let min = self.quantity.shown_end(self.min, units, f64::ceil);
        let max = self.quantity.shown_end(self.max, units, f64::floor);
        format!("{min} to {max}")
    }

    /// The number's name, for use within a sentence.
    ///
    /// ```
    /// use board::Quantity;
    /// assert_eq!(Quantity::Angle.range("Bit angle", 20.0, 150.0).name(), "bit angle");
    /// assert_eq!(Quantity::Length.range("V-bit tip", 0.0, 20.0).name(), "V-bit tip");
    /// ```
    pub fn name(self) -> String {
        spoken(self.label)
    }

    /// The same range with this name, if it has none.
    pub(crate) const fn named(self, label: &'static str) -> Self {
        if self.label.is_empty() {
            Self { label, ..self }
        } else {
            self
        }
    }
}

/// A label for use within a sentence: starts with a lowercase letter, unless that letter stands alone, as in "V-bit".
pub(crate) fn spoken(label: &str) -> String {
    let mut letters = label.chars();
    match (letters.next(), letters.clone().next()) {
        (Some(first), Some(second)) if second.is_lowercase() => {
            first.to_lowercase().chain(letters).collect()
        }
        _ => label.into(),
    }
}

/// A number out of its range; lengths in mm.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
pub struct OutOfRange {
    /// The range it should be in.
    pub range: Range,
    /// The value it has.
    pub value: f64,
    /// The list entry that it belongs to, from 0; 0 if there is no list.
    pub entry: usize,
}

impl OutOfRange {
    fn name(&self) -> String {
        let number = (self.entry + 1).to_string();
        self.range.label.replace('#', &number)
    }
}

impl fmt::Display for OutOfRange {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let units = Units::of(f);
        let value = self.range.quantity.typed(self.value, units);
        let ends = self.range.ends(units);
        write!(f, "{}: {value} is out of range; use {ends}", self.name())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn nan_is_out_of_every_range() {
        let range = Quantity::Length.range("Pitch", 0.1, 1000.0);
        assert!(range.check(f64::NAN).is_err());
        assert!(range.check(f64::INFINITY).is_err());
        assert!(range.check(0.1).is_ok());
    }

    #[test]
    fn a_label_starts_in_lowercase_within_a_sentence() {
        assert_eq!(spoken("Hole spacing"), "hole spacing");
        assert_eq!(spoken("V-bit speed"), "V-bit speed");
    }
}
