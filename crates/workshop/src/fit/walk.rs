//! A walk from a bound, beyond which nothing fits, to the first size that keeps its limits.

use board::{BuildError, Range};

use super::FitError;
use super::tightest::{Tightest, is_kept};
use super::tried::Tried;

/// Distance from the size returned to one that does not fit, mm.
const TOLERANCE: f64 = 1e-9;
/// The shortest step, mm.
const SHORTEST: f64 = 1e-10;
/// Number of steps after which each is at least twice as long as the one before, whatever it gains.
const PATIENCE: u32 = 60;
/// Longest step beyond the least shortfall, as a multiple of it, where the last two samples extrapolate that far.
const STRETCH: f64 = 16.0;
/// Factor by which a step aims beyond the extrapolated size: a size beyond the solution brackets it.
const PAST: f64 = 1.002;
/// The longest step as a share of the size: pockets may keep the rim margin over a range of sizes long before their thinnest
/// web is as wide as that margin.
const LONGEST: f64 = 0.01;

/// The direction and the bounds of a walk.
#[derive(Debug, Clone, Copy)]
pub(super) struct Walk {
    /// The range that is searched.
    pub(super) range: Range,
    /// No size before this one fits.
    pub(super) start: f64,
    /// Where the walk ends.
    pub(super) end: f64,
    /// The least change of size per mm of shortfall.
    pub(super) per_mm: f64,
}

/// A measured size, with what it has to spare over its limits, if it can be laid out.
#[derive(Clone, Copy)]
struct Sample {
    at: f64,
    spare: Option<f64>,
}

/// Measures sizes, and keeps the record for the error if none fits.
struct Probe<F> {
    measure: F,
    tried: Tried,
}

impl Walk {
    /// The first size of a walk that keeps its limits, to 1e-9 mm.
    ///
    /// # Errors
    /// The smallest shortfall of all that was measured, or the reason why nothing could be laid out.
    pub(super) fn first_kept(
        &self,
        measure: impl Fn(f64) -> Result<Tightest, BuildError>,
    ) -> Result<f64, FitError> {
        let mut probe = Probe {
            measure,
            tried: Tried::default(),
        };
        let (mut before, mut here) = (None, probe.look(self.start));
        let (mut steps, mut last) = (0, SHORTEST);
        while !here.is_kept() {
            if here.at == self.end {
                return Err(probe.tried.failure(self.range));
            }
            steps += 1;
            let gained = before.is_none_or(|before: Sample| here.gains_on(before));
            let shortest = match (gained, steps < PATIENCE) {
                (true, true) => SHORTEST,
                (false, true) => (2.0 * last).min(LONGEST * here.at.abs()),
                (_, false) => 2.0 * last,
            };
            let step = self.step(before, here).max(shortest);
            last = step;
            let left = self.end - here.at;
            let next = if step < left.abs() {
                here.at + step.copysign(left)
            } else {
                self.end
            };
            (before, here) = (Some(here), probe.look(next));
        }
        Ok(before.map_or(here.at, |before| close_in(before, here, &mut probe)))
    }

    /// The step that the shortfall calls for.
    fn step(&self, before: Option<Sample>, here: Sample) -> f64 {
        let Some(spare) = here.spare else {
            return LONGEST * here.at.abs();
        };
        let least = -spare * self.per_mm;
        let pointed = before.and_then(|before| {
            let gained = spare - before.spare?;
            (gained > 0.0).then_some((here.at - before.at).abs() * -spare / gained)
        });
        let pointed = pointed.unwrap_or_default() * PAST;
        least
            .max(pointed.min(STRETCH * least))
            .min(LONGEST * here.at.abs())
    }
}

impl Sample {
    /// Whether all limits are kept at this sample.
    fn is_kept(&self) -> bool {
        self.spare.is_some_and(is_kept)
    }

    /// Whether the shortfall is smaller than before; any board is better than none.
    fn gains_on(&self, before: Self) -> bool {
        match (self.spare, before.spare) {
            (Some(here), Some(before)) => here > before,
            (here, None) => here.is_some(),
            (None, Some(_)) => false,
        }
    }
}

impl<F: Fn(f64) -> Result<Tightest, BuildError>> Probe<F> {
    /// Measures a size, and records it for the message if none fits.
    fn look(&mut self, at: f64) -> Sample {
        let spare = self.tried.note((self.measure)(at));
        Sample { at, spare }
    }
}

/// Narrows the interval between a size that does not fit and one that does. It uses the line through both ends, halving the
/// value of an end that stays in place a second time (the Illinois rule), and bisection where that converges slowly.
fn close_in<F>(missed: Sample, kept: Sample, probe: &mut Probe<F>) -> f64
where
    F: Fn(f64) -> Result<Tightest, BuildError>,
{
    let (mut missed, mut kept) = (missed, kept);
    let (mut width, mut slow) = ((kept.at - missed.at).abs(), 0);
    let mut last = None;
    while width > TOLERANCE {
        let share = if slow > 2 {
            0.5
        } else {
            share(missed, kept, width)
        };
        let at = missed.at + share * (kept.at - missed.at);
        if at == missed.at || at == kept.at {
            break;
        }
        let found = probe.look(at);
        let fits = found.is_kept();
        let (moved, stays) = if fits {
            (&mut kept, &mut missed)
        } else {
            (&mut missed, &mut kept)
        };
        *moved = found;
        if last == Some(fits) {
            stays.spare = stays.spare.map(|spare| spare / 2.0);
        }
        last = Some(fits);
        let left = (kept.at - missed.at).abs();
        slow = if left > 0.5 * width { slow + 1 } else { 0 };
        width = left;
    }
    kept.at
}

/// The place between the missed and the kept size where the limit is met, by the line through both; slightly toward the farther
/// end, so that the other end moves in too.
fn share(missed: Sample, kept: Sample, width: f64) -> f64 {
    let (Some(short), Some(over)) = (missed.spare, kept.spare) else {
        return 0.5;
    };
    let over = over.max(0.0);
    let share = short / (short - over);
    let nudge = (0.45 * TOLERANCE / width).min(0.45);
    let nudged = if share > 0.5 {
        share - nudge
    } else {
        share + nudge
    };
    nudged.clamp(nudge, 1.0 - nudge)
}

#[cfg(test)]
mod tests {
    use super::*;
    use board::field;
    use std::cell::Cell;
    use testkit::assert_near;

    fn walk(start: f64, end: f64) -> Walk {
        Walk {
            range: field::BOARD_DIAMETER.range(),
            start,
            end,
            per_mm: 1.0,
        }
    }

    fn spare(spare: f64) -> Tightest {
        Tightest {
            spare,
            limit: super::super::Limit::Rim,
            holes: Vec::new(),
        }
    }

    #[test]
    fn a_bound_that_fits_is_the_answer_after_one_measurement() {
        let looks = Cell::new(0);
        let found = walk(20.0, 1.0).first_kept(|at| {
            looks.set(looks.get() + 1);
            Ok(spare(20.0 - at))
        });
        assert_eq!((found, looks.get()), (Ok(20.0), 1));
    }

    #[test]
    fn a_bent_line_is_solved_to_the_tolerance_in_few_measurements() {
        let looks = Cell::new(0);
        let found = walk(147.0, 1000.0).first_kept(|at: f64| {
            looks.set(looks.get() + 1);
            Ok(spare((at.sqrt() - 150_f64.sqrt()) * 12.0))
        });
        assert_near!(found.unwrap(), 150.0, 1.5e-9);
        assert!(looks.get() <= 14, "{}", looks.get());
    }

    #[test]
    fn a_jump_is_found_and_the_returned_size_was_measured() {
        let found = walk(10.0, 1000.0)
            .first_kept(|at| Ok(spare(if at < 77.7 { -5.0 } else { 40.0 })))
            .unwrap();
        assert!((77.7..77.7 + 1e-9).contains(&found), "{found}");
    }

    #[test]
    fn walking_down_mirrors_walking_up() {
        let found = walk(900.0, 1.0).first_kept(|at| Ok(spare(300.0 - at)));
        assert_near!(found.unwrap(), 300.0, 1.5e-9);
    }

    #[test]
    fn the_smallest_shortfall_is_reported_where_nothing_fits() {
        let found = walk(10.0, 50.0).first_kept(|at| Ok(spare(-2.0 - (at - 30.0).abs() / 100.0)));
        let Err(FitError::Nothing { short, .. }) = found else {
            panic!("something fits")
        };
        assert!((2.0..2.1).contains(&short), "{short}");
    }

    #[test]
    fn sizes_that_cannot_be_laid_out_are_skipped_or_reported() {
        let fault = || BuildError::Range(field::BOARD_DIAMETER.range().check(0.0).unwrap_err());
        let found = walk(10.0, 1000.0).first_kept(|at| {
            if at < 123.0 {
                Err(fault())
            } else {
                Ok(spare(1.0))
            }
        });
        assert_near!(found.unwrap(), 123.0, 1e-9);
        let never = walk(10.0, 1000.0).first_kept(|_| Err(fault()));
        assert_eq!(never, Err(FitError::Build(fault())));
    }
}
