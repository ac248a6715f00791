//! A part of an expression that has been read: a sum with known units, and a sum whose unit is still undecided.
//!
//! "3/4 + 2 mm" and "23 1/2 - 2*3/8" are read the same way: numbers without a unit are kept separate, with the units that they
//! may be in, until a unit after a parenthesis, or the end of the text, decides. A fraction is in inches on either kind of
//! board; a whole number is in the displayed unit. If both are in the same sum, they must agree.

use super::error::Fault;

/// An intermediate value: numbers with a unit are already converted, numbers without one wait for a unit.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Term {
    /// The sum of the numbers with a unit.
    pub(super) known: Option<f64>,
    /// The sum of the numbers without one.
    pub(super) bare: Option<Bare>,
    /// Whether a number has a unit other than the displayed one.
    pub(super) other_unit: bool,
}

/// A value without a unit, and the units that it can be in.
#[derive(Debug, Clone, Copy)]
pub(super) struct Bare {
    /// Their sum, as typed.
    pub(super) value: f64,
    /// Whether it can be in the displayed unit.
    pub(super) shown: bool,
    /// Whether it can be in inches regardless of the displayed unit, as a fraction can.
    pub(super) inch: bool,
    /// Whether only the displayed unit decides its meaning: it is not a fraction.
    pub(super) whole: bool,
}

impl Term {
    /// A number with its unit.
    pub(super) const fn known(value: f64, other_unit: bool) -> Self {
        Self {
            known: Some(value),
            bare: None,
            other_unit,
        }
    }

    /// A number without a unit.
    pub(super) const fn bare(bare: Bare) -> Self {
        Self {
            known: None,
            bare: Some(bare),
            other_unit: false,
        }
    }

    /// The sum of two terms; numbers without a unit must agree on one.
    pub(super) fn plus(self, other: Self) -> Self {
        Self {
            known: match (self.known, other.known) {
                (Some(one), Some(two)) => Some(one + two),
                (one, two) => one.or(two),
            },
            bare: match (self.bare, other.bare) {
                (Some(one), Some(two)) => Some(Bare {
                    value: one.value + two.value,
                    shown: one.shown && two.shown,
                    inch: one.inch && two.inch,
                    whole: one.whole || two.whole,
                }),
                (one, two) => one.or(two),
            },
            other_unit: self.other_unit || other.other_unit,
        }
    }

    /// The term multiplied by a factor.
    pub(super) fn times(self, factor: f64) -> Self {
        let scale = |bare: Bare| Bare {
            value: bare.value * factor,
            ..bare
        };
        Self {
            known: self.known.map(|known| known * factor),
            bare: self.bare.map(scale),
            ..self
        }
    }

    /// The product of two terms, at most one of which has a unit. If neither has, either may be the multiplier: 2*3/8 is twice
    /// three eighths of an inch, or three eighths of two of the displayed unit.
    pub(super) fn by(self, other: Self) -> Result<Self, Fault> {
        match (self, other) {
            (
                Self {
                    known: None,
                    bare: Some(one),
                    ..
                },
                Self {
                    known: None,
                    bare: Some(two),
                    ..
                },
            ) => {
                let is_settled = |bare: Bare| bare.shown || bare.inch;
                let settled = is_settled(one) && is_settled(two);
                Ok(Self::bare(Bare {
                    value: one.value * two.value,
                    shown: settled && (one.shown || two.shown),
                    inch: settled && (one.inch || two.inch),
                    whole: one.whole && two.whole,
                }))
            }
            (
                unit,
                Self {
                    known: None,
                    bare: Some(count),
                    ..
                },
            )
            | (
                Self {
                    known: None,
                    bare: Some(count),
                    ..
                },
                unit,
            ) => Ok(unit.times(count.value)),
            _ => Err(Fault::TwoUnits),
        }
    }

    /// The term divided by a term without a unit.
    pub(super) fn over(self, divisor: Self) -> Result<Self, Fault> {
        let (None, Some(bare)) = (divisor.known, divisor.bare) else {
            return Err(Fault::TwoUnits);
        };
        if bare.value == 0.0 {
            return Err(Fault::ZeroDivisor);
        }
        // Not multiplied by the inverse, so that a third of three is one to the last digit.
        Ok(Self {
            known: self.known.map(|known| known / bare.value),
            bare: self.bare.map(|one| Bare {
                value: one.value / bare.value,
                ..one
            }),
            ..self
        })
    }
}
