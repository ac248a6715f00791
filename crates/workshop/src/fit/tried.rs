//! The record of all sizes tried, for the error if none fits.

use board::{BuildError, OutOfRange, Range};

use super::FitError;
use super::tightest::Tightest;

/// The record of all sizes tried.
#[derive(Default)]
pub(super) struct Tried {
    /// The try with the smallest shortfall.
    best: Option<Tightest>,
    fault: Option<BuildError>,
}

impl Tried {
    /// Records a try; returns how much it has to spare over its limits, if it can be laid out.
    pub(super) fn note(&mut self, found: Result<Tightest, BuildError>) -> Option<f64> {
        match found {
            Ok(tightest) => {
                let spare = tightest.spare;
                if self.best.as_ref().is_none_or(|best| best.spare < spare) {
                    self.best = Some(tightest);
                }
                Some(spare)
            }
            Err(fault) => {
                if self.fault.as_ref().is_none_or(is_parity) {
                    self.fault = Some(fault);
                }
                None
            }
        }
    }

    /// Whether anything could be laid out.
    pub(super) const fn has_layout(&self) -> bool {
        self.best.is_some()
    }

    /// The error that says why nothing in the range fits.
    pub(super) fn failure(self, range: Range) -> FitError {
        if let Some(best) = self.best {
            return FitError::nothing(range, best);
        }
        // If nothing was tried, the range itself is the fault.
        let nothing = OutOfRange {
            range,
            value: f64::NAN,
            entry: 0,
        };
        FitError::Build(self.fault.unwrap_or_else(|| nothing.into()))
    }
}

/// Whether an error would not occur with the next count.
fn is_parity(fault: &BuildError) -> bool {
    matches!(
        fault,
        BuildError::Geometry(geometry::Error::OddSpaces { .. })
    )
}
