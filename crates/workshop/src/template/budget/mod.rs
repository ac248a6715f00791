//! The tolerance budget: how far off holes may be, and how much of the webs that leaves.
//!
//! Each step of the work is off by at most its share of [`board::Errors`]. All at their worst in the least lucky direction add up
//! to the worst case. That hardly ever happens, and independent errors add up by the root of the sum of their squares: common
//! practice in tolerance stacks. The part that the errors of two holes have in common leaves the web between them alone: a joint
//! between sheets moves all that lies beyond it, and the printer's scale moves two neighbors almost alike. A bit that drills wide
//! does so every time, so it is no chance: every web loses it.

mod chance;
mod hole;
mod normal;
mod pair;

use board::Errors;
use geometry::{Circle, Web};

pub use chance::{Chance, chance, chance_at_most};
pub use hole::{HoleError, root_sum_square, true_position, worst_case};
use pair::Pair;

/// Where the sheets of a taped template meet; the sheet with the center pin on it lies right.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct TapedJoints {
    /// The x of every upright joint, in mm.
    pub upright: Vec<f64>,
    /// The y of every level joint, in mm.
    pub level: Vec<f64>,
}

/// The holes to be drilled, and how far off each step of drilling them may be.
#[derive(Debug, Clone, Copy)]
pub struct Work<'a> {
    /// The mouths of the bores.
    pub mouths: &'a [Circle],
    /// The error of each step.
    pub errors: &'a Errors,
    /// Where the sheets of the template meet; empty for a template in one piece.
    pub joints: &'a TapedJoints,
}

/// The errors of the holes' places, and the webs that they leave.
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

/// A hole that may be far off.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FarHole {
    /// Its index.
    pub hole: usize,
    /// The error of its place, in mm.
    pub mm: f64,
    /// The errors that it is made of.
    pub errors: HoleError,
}

/// Why there is no budget.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum BudgetError {
    /// An error of the work is negative, not a number, or beyond all measure.
    #[error("the error of {what} must be 0 to 1000, not {value}; use {nearest}")]
    Source {
        /// The step of the work.
        what: &'static str,
        /// The value asked for.
        value: f64,
        /// The nearest that would work.
        nearest: f64,
    },
    /// The least web, or the place of a joint, is not a number.
    #[error("{what} must be a plain number, not {value}")]
    NotFinite {
        /// The number that is wrong.
        what: &'static str,
        /// The value asked for.
        value: f64,
    },
    /// A hole lies nowhere.
    #[error("hole {} of the list has no place", .hole + 1)]
    NoPlace {
        /// Its index.
        hole: usize,
    },
    /// The caller has asked to stop.
    #[error("stopped before the chance was known")]
    Stopped,
}

/// Adds up the errors of every hole and of every web that may turn out the smallest.
///
/// # Errors
///
/// When an error of the work, a hole or a joint is not a sensible number.
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

/// Webs that differ by less than this, in mm, are equal.
const HAIR: f64 = 1e-9;

/// Beyond this no error is meant in earnest, and a hole lies on no board, in mm.
const MOST_ERROR: f64 = 1000.0;
/// A hole farther from the pin lies on no board, mm.
const FARTHEST: f64 = 1e6;

impl Work<'_> {
    /// Refuses errors and places that are not numbers by name.
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

    /// The hole that may be farthest off by one way of adding up, the first of equals.
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

    /// The pairs of holes whose web may come under a limit when both are off as far as they can be.
    fn pairs_under(&self, limit: f64) -> Vec<Pair> {
        geometry::close_webs(self.mouths, limit)
            .into_iter()
            .filter_map(|web| Pair::new(web, self))
            .collect()
    }

    /// No web can lose more than this.
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

/// Refuses NaN.
fn check_finite(what: &'static str, value: f64) -> Result<(), BudgetError> {
    if value.is_finite() {
        Ok(())
    } else {
        Err(BudgetError::NotFinite { what, value })
    }
}

#[cfg(test)]
mod tests;
