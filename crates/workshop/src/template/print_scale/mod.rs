//! The errors of a home printer, from a few lengths measured on a test sheet.
//!
//! A printer stretches a page differently across and up, and its carriage may not move square to the paper feed. Such a printer
//! turns every square into the same parallelogram, so two bars and the two diagonals of a square determine it, except for a
//! rotation of the whole page, which is harmless.
//!
//! # Skew from the diagonals
//!
//! Let the printer print a unit length across as a and a unit length up as b, and lean the vertical axis by s. The unit vectors
//! become p = (a, 0) and q = (b sin s, b cos s), so that p·p = a², q·q = b² and p·q = ab sin s. The diagonals of a square of
//! side L become L(p + q), rising, and L(p − q), falling. With the law of cosines their squares are
//!
//! ```text
//! r² = L² (a² + b² + 2ab sin s)        f² = L² (a² + b² − 2ab sin s)
//! ```
//!
//! and so, for any side and any error of the rule,
//!
//! ```text
//! sin s = (r² − f²) / (r² + f²) · (a² + b²) / (2ab)
//! ```
//!
//! The sum r² + f² = 2L² (a² + b²) holds for any skew; where it does not, bars and diagonals are not from the same print.
//!
//! # Uncertainty
//!
//! A mean of n readings with standard deviation d is uncertain by its standard error, d / √n. A single reading has no spread,
//! and readings that agree only show that they were rounded alike, so the uncertainty is never less than half a division of the
//! rule.

mod correction;
mod fault;
mod readings;
#[cfg(test)]
mod tests;

use geometry::Angle;

pub use correction::{PrintCorrection, PrintError};
pub use fault::PrintFault;
pub use readings::{PrintBar, PrintLength, PrintReadings};

/// A correction and its uncertainty.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PrintScale {
    /// The correction that compensates the printer's errors.
    pub correction: PrintCorrection,
    /// Uncertainty of the factor across, as a share of it.
    pub x_uncertainty: f64,
    /// Uncertainty of the factor up, as a share of it.
    pub y_uncertainty: f64,
    /// Uncertainty of the skew; `None` if the diagonals were not measured.
    pub skew_uncertainty: Option<Angle>,
}

impl PrintScale {
    /// The error at a radius from the printer alone.
    pub fn error_without(&self, radius: f64) -> PrintError {
        self.correction.error_without(radius)
    }

    /// The error that may remain at a radius of a corrected print because of the uncertainty of the readings.
    ///
    /// The error between the axes is at most the greater of theirs plus that of the diagonal.
    pub fn error_left(&self, radius: f64) -> PrintError {
        let (across, up) = (radius * self.x_uncertainty, radius * self.y_uncertainty);
        let diagonal = radius * self.skew_uncertainty.map_or(0.0, Angle::as_radians) / 2.0;
        PrintError {
            across,
            up,
            diagonal,
            most: across.max(up) + diagonal,
        }
    }
}

/// The correction that follows from readings.
///
/// # Errors
/// Every [`PrintFault`] of the readings.
///
/// ```
/// use workshop::{PrintBar, PrintReadings, print_scale};
/// let bar = |reading| PrintBar { nominal: 100.0, readings: vec![reading] };
/// let readings = PrintReadings { level: bar(99.4), upright: bar(100.0), ..PrintReadings::default() };
/// let scale = print_scale(&readings).unwrap();
/// assert!((scale.correction.x - 1.006_036_2).abs() < 1e-7);
/// ```
pub fn print_scale(readings: &PrintReadings) -> Result<PrintScale, Vec<PrintFault>> {
    let faults = faults(readings);
    if !faults.is_empty() {
        return Err(faults);
    }
    let mean_of = |length| Mean::of(readings.of(length), readings.division);
    let [level, upright, rising, falling] = PrintLength::ALL.map(mean_of);
    let (a, b) = (
        level.value / readings.level.nominal,
        upright.value / readings.upright.nominal,
    );
    let measured = !readings.rising.is_empty();
    let lean = if measured {
        Lean::of(rising, falling, a, b)
    } else {
        Lean::NONE
    };
    if measured {
        alike(readings, &lean, a, b)?;
    }
    Ok(PrintScale {
        correction: PrintCorrection {
            x: 1.0 / a,
            y: 1.0 / b,
            skew: lean.skew,
        },
        x_uncertainty: level.uncertainty / level.value,
        y_uncertainty: upright.uncertainty / upright.value,
        skew_uncertainty: measured.then_some(lean.uncertainty),
    })
}

/// Share by which a reading must be off to be a misreading: no printer that prints at 100 % is that bad.
const FAR_OFF: f64 = 0.1;
/// Share of a length by which its readings may differ; two divisions of the rule are always allowed.
const DISAGREE: f64 = 0.005;

/// The most that readings of a length may differ, mm.
fn limit(readings: &PrintReadings, length: PrintLength) -> f64 {
    (DISAGREE * readings.nominal(length)).max(2.0 * readings.division)
}

/// The faults of readings, each length considered by itself.
fn faults(readings: &PrintReadings) -> Vec<PrintFault> {
    let no_division = PrintFault::NoDivision {
        value: readings.division,
    };
    let division = (!is_length(readings.division)).then_some(no_division);
    let lengths = PrintLength::ALL
        .into_iter()
        .filter_map(|length| fault_of(readings, length));
    division.into_iter().chain(lengths).collect()
}

/// Whether a reading is a positive, finite length.
fn is_length(value: f64) -> bool {
    value.is_finite() && value > 0.0
}

/// The fault of a length's readings, if any.
fn fault_of(readings: &PrintReadings, length: PrintLength) -> Option<PrintFault> {
    let (values, nominal) = (readings.of(length), readings.nominal(length));
    if values.is_empty() {
        return is_needed(readings, length).then_some(PrintFault::Missing { length });
    }
    if values.len() > PrintReadings::MOST {
        let count = values.len();
        return Some(PrintFault::TooMany { length, count });
    }
    if !is_length(nominal) {
        let value = nominal;
        return Some(PrintFault::NoNominal { length, value });
    }
    if let Some(&value) = values.iter().find(|&&value| !is_length(value)) {
        return Some(PrintFault::NoLength { length, value });
    }
    let far = |value: &&f64| (**value / nominal - 1.0).abs() > FAR_OFF;
    if let Some(&value) = values.iter().find(far) {
        return Some(PrintFault::FarOff {
            length,
            value,
            nominal,
        });
    }
    let least = values.iter().copied().fold(f64::INFINITY, f64::min);
    let most = values.iter().copied().fold(0.0, f64::max);
    let limit = limit(readings, length);
    let disagree = PrintFault::Disagree {
        length,
        least,
        most,
        limit,
    };
    (most - least > limit + HAIR).then_some(disagree)
}

/// The most that rounding adds to a difference of readings, mm.
const HAIR: f64 = 1e-9;

/// Whether a length is needed: the bars always are, and each diagonal is where the other is given.
fn is_needed(readings: &PrintReadings, length: PrintLength) -> bool {
    match length {
        PrintLength::Level | PrintLength::Upright => true,
        PrintLength::Rising => !readings.falling.is_empty(),
        PrintLength::Falling => !readings.rising.is_empty(),
    }
}

/// Checks that the diagonals are those of a square that the printer makes `a` wide and `b` high.
fn alike(readings: &PrintReadings, lean: &Lean, a: f64, b: f64) -> Result<(), Vec<PrintFault>> {
    let by_bars = readings.square * libm::hypot(a, b);
    let limit = limit(readings, PrintLength::Rising);
    if (lean.diagonals - by_bars).abs() <= limit + HAIR {
        return Ok(());
    }
    Err(vec![PrintFault::Unlike {
        diagonals: lean.diagonals,
        by_bars,
        limit,
    }])
}

/// A mean of readings, mm; it is never used if there are no readings.
#[derive(Clone, Copy)]
struct Mean {
    value: f64,
    uncertainty: f64,
}

impl Mean {
    /// Mean and uncertainty of readings on a rule with this division.
    fn of(readings: &[f64], division: f64) -> Self {
        let count = readings.len().max(1) as f64;
        let value = readings.iter().sum::<f64>() / count;
        let squares: f64 = readings
            .iter()
            .map(|reading| (reading - value) * (reading - value))
            .sum();
        // For one reading the sum is 0, which leaves half a division.
        let error = (squares / (count - 1.0).max(1.0) / count).sqrt();
        Self {
            value,
            uncertainty: error.max(division / 2.0),
        }
    }
}

/// The lean that the printer gives vertical lines.
struct Lean {
    skew: Angle,
    uncertainty: Angle,
    /// Root of the mean square of the diagonals, mm.
    diagonals: f64,
}

impl Lean {
    const NONE: Self = Self {
        skew: Angle::ZERO,
        uncertainty: Angle::ZERO,
        diagonals: 0.0,
    };

    /// The lean by the formula at the top of this file; its uncertainty by the derivatives with respect to r and f.
    fn of(rising: Mean, falling: Mean, a: f64, b: f64) -> Self {
        let (r, f) = (rising.value, falling.value);
        let sum = r * r + f * f;
        let shape = (a * a + b * b) / (2.0 * a * b);
        let skew = Angle::asin((r * r - f * f) / sum * shape);
        let by_rising = 4.0 * r * f * f / (sum * sum) * rising.uncertainty;
        let by_falling = 4.0 * r * r * f / (sum * sum) * falling.uncertainty;
        let uncertainty = libm::hypot(by_rising, by_falling) * shape / skew.cos();
        Self {
            skew,
            uncertainty: Angle::radians(uncertainty),
            diagonals: (sum / 2.0).sqrt(),
        }
    }
}
