//! The tolerance budget: how far off holes may be, and how much of the webs that leaves.
//!
//! Each step of the work is off by at most its value in [`board::Errors`]. All at their worst in the least lucky direction add
//! up to the worst case. That hardly ever happens: independent errors combine by root sum square, which is common practice in
//! tolerance stacks. The part of the errors that two holes share does not change the web between them: a joint between sheets
//! moves everything beyond it, and the printer's scale moves two neighbors almost alike. A bit that drills wide does so every
//! time, so it is not left to chance: every web loses that width.

mod chance;
mod hole;
mod normal;
mod pair;

use board::Errors;
use geometry::{Circle, Web};

pub use chance::{Chance, chance, chance_at_most};
pub use hole::{HoleError, root_sum_square, true_position, worst_case};
use pair::Pair;

/// The joint lines of a taped template; the sheet with the center pin counts as correctly placed.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct TapedJoints {
    /// The x of every vertical joint line, mm.
    pub upright: Vec<f64>,
    /// The y of every level joint line, mm.
    pub level: Vec<f64>,
}

/// The holes to be drilled, and the errors of each step.
#[derive(Debug, Clone, Copy)]
pub struct Work<'a> {
    /// The mouths of the bores.
    pub mouths: &'a [Circle],
    /// The error of each step.
    pub errors: &'a Errors,
    /// The joint lines of the template; empty for a template in one piece.
    pub joints: &'a TapedJoints,
}

/// The position errors of the holes, and the webs that they leave.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Budget {
    /// The hole that may be farthest off with every error at its worst; none without holes.
    pub worst_hole: Option<FarHole>,
    /// The hole that may be farthest off by root sum square.
    pub likely_hole: Option<FarHole>,
    /// The smallest web as laid out; none with fewer than two holes.
    pub nominal_web: Option<Web>,
    /// The smallest web with every error at its worst.
    pub worst_web: Option<Web>,
    /// The smallest web to expect, by root sum square.
    pub likely_web: Option<Web>,
}

/// A hole and its error.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FarHole {
    /// Its index.
    pub hole: usize,
    /// Its position error, mm.
    pub mm: f64,
    /// The errors that make it up.
    pub errors: HoleError,
}

/// The reason why there is no budget.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum BudgetError {
    /// An error of the work is negative, not a number, or unreasonably large.
    #[error("the error of {what} must be 0 to 1000, not {value}; use {nearest}")]
    Source {
        /// The step of the work.
        what: &'static str,
        /// The value given.
        value: f64,
        /// The nearest valid value.
        nearest: f64,
    },
    /// The least web, or the position of a joint, is not a finite number.
    #[error("{what} must be a plain number, not {value}")]
    NotFinite {
        /// The name of the number.
        what: &'static str,
        /// The value given.
        value: f64,
    },
    /// The center of a hole is not a finite point on any board.
    #[error("hole {} of the list has no place", .hole + 1)]
    NoPlace {
        /// Its index.
        hole: usize,
    },
    /// The caller asked to stop.
    #[error("stopped before the chance was known")]
    Stopped,
}

/// Adds up the errors of every hole and of every web that may turn out the smallest.
///
/// # Errors
///
/// [`BudgetError`] where an error of the work, a hole or a joint is not a sensible number.
///
/// ```
/// use board::{Board, Errors, layout};
/// use workshop::{TapedJoints, Work, budget};
/// let mouths = layout(&Board::default())?.mouths();
/// let work = Work { mouths: &mouths, errors: &Errors::default(), joints: &TapedJoints::default() };
/// let budget = budget(&work)?;
/// assert!(budget.worst_web.unwrap().mm < budget.likely_web.unwrap().mm);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn budget(work: &Work<'_>) -> Result<Budget, BudgetError> {
    work.check()?;
    let nominal_web = geometry::smallest_web(work.mouths);
    let pairs = nominal_web.map_or_else(Vec::new, |smallest| {
        work.pairs_under(smallest.mm + work.most_change() + HAIR)
    });
    let smallest = |loss: fn(&Pair) -> f64| {
        let webs = pairs.iter().map(|pair| Web {
            mm: pair.web.mm - loss(pair),
            ..pair.web
        });
        webs.min_by(|one, other| one.mm.total_cmp(&other.mm))
    };
    Ok(Budget {
        worst_hole: work.farthest(HoleError::worst_case),
        likely_hole: work.farthest(HoleError::root_sum_square),
        nominal_web,
        worst_web: smallest(|pair| pair.worst),
        likely_web: smallest(Pair::likely),
    })
}

/// Webs that differ by less than this count as equal, mm.
const HAIR: f64 = 1e-9;

/// The largest error that anyone could mean, mm.
const MOST_ERROR: f64 = 1000.0;
/// The farthest that a hole can be from the pin on any board, mm.
const FARTHEST: f64 = 1e6;

impl Work<'_> {
    /// Rejects errors and positions that are not sensible numbers, naming the first.
    fn check(&self) -> Result<(), BudgetError> {
        let errors = self.errors;
        for (what, value) in [
            ("printing", errors.print),
            ("taping", errors.tape),
            ("punching", errors.punch),
            ("drilling", errors.drill),
            ("a hole's width", errors.oversize),
            ("indexing", errors.index),
        ] {
            if !(0.0..=MOST_ERROR).contains(&value) {
                let nearest = if value > MOST_ERROR { MOST_ERROR } else { 0.0 };
                return Err(BudgetError::Source {
                    what,
                    value,
                    nearest,
                });
            }
        }
        for joint in self.joints.upright.iter().chain(&self.joints.level) {
            check_finite("the place of a joint", *joint)?;
        }
        let placed = |mouth: &Circle| {
            [mouth.center.x, mouth.center.y, mouth.radius]
                .iter()
                .all(|value| value.abs() <= FARTHEST)
        };
        match self.mouths.iter().position(|mouth| !placed(mouth)) {
            Some(hole) => Err(BudgetError::NoPlace { hole }),
            None => Ok(()),
        }
    }

    /// The hole that may be farthest off by one way of adding up errors; the first among equals.
    fn farthest(&self, sum: fn(&HoleError) -> f64) -> Option<FarHole> {
        let mut farthest: Option<FarHole> = None;
        for (hole, mouth) in self.mouths.iter().enumerate() {
            let errors = HoleError::of(mouth.center, self.errors, self.joints);
            let mm = sum(&errors);
            if farthest.is_none_or(|farthest| mm > farthest.mm) {
                farthest = Some(FarHole { hole, mm, errors });
            }
        }
        farthest
    }

    /// The pairs of holes whose web may fall below a limit when both holes are as far off as possible.
    fn pairs_under(&self, limit: f64) -> Vec<Pair> {
        geometry::close_webs(self.mouths, limit)
            .into_iter()
            .filter_map(|web| Pair::new(web, self))
            .collect()
    }

    /// The greatest loss of any web, mm.
    fn most_change(&self) -> f64 {
        let errors = self.errors;
        let reach = self
            .mouths
            .iter()
            .map(|mouth| mouth.center.to_vec2().length())
            .fold(0.0, f64::max);
        let joints = self.joints.upright.len() + self.joints.level.len();
        let index = geometry::Angle::degrees(errors.index).as_radians();
        2.0 * (errors.print * reach + errors.punch + errors.drill + index * reach)
            + errors.tape * joints as f64
            + errors.oversize
    }
}

/// Rejects NaN and infinity.
fn check_finite(what: &'static str, value: f64) -> Result<(), BudgetError> {
    if value.is_finite() {
        Ok(())
    } else {
        Err(BudgetError::NotFinite { what, value })
    }
}

#[cfg(test)]
mod tests;
