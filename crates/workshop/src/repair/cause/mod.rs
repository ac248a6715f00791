//! The likeliest cause of distances that were measured too long or too short.
//!
//! Each possible cause is fitted by least squares. A cause with more unknowns always leaves smaller residuals, so each unknown
//! has to justify itself by the Bayesian information criterion with a known reading error (Schwarz 1978, from memory), and so
//! has the choice among many sheets or holes.

use board::{HoleId, HoleName, MeasuredOn};
use geometry::{Angle, Point, Vec2};

use super::model::{End, Fit, Taken, Term};
use crate::{Tiling, Workpiece};

/// The measured distances and the verdict on them.
#[derive(Debug, Clone, PartialEq)]
pub struct Readings {
    /// The usable distances.
    pub readings: Vec<Reading>,
    /// Names of holes that the board does not have.
    pub unknown: Vec<HoleId>,
    /// The verdict on them.
    pub verdict: Verdict,
}

/// One distance, as laid out and as measured.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Reading {
    /// The holes at its ends.
    pub ends: [HoleName; 2],
    /// Distance of their centers as laid out, mm.
    pub nominal: f64,
    /// Distance as measured, mm.
    pub read: f64,
    /// The part of the difference that the verdict does not explain, mm.
    pub left: f64,
}

impl Reading {
    /// Excess of the measured length, mm; negative if it is too short.
    pub fn long(&self) -> f64 {
        self.read - self.nominal
    }
}

/// The verdict on some readings.
#[derive(Debug, Clone, PartialEq)]
pub enum Verdict {
    /// No reading can be used.
    Nothing,
    /// All are right, within the reading error.
    True,
    /// Some are off, but they are too few to tell a cause from a reading error.
    TooFew,
    /// No cause explains them to within twice the reading error.
    Unclear,
    /// The causes that explain them best.
    Causes {
        /// The causes.
        causes: Vec<Cause>,
        /// Other causes that explain them almost as well; empty if there are none.
        or: Vec<Cause>,
        /// A distance whose measurement would tell the two apart.
        ask: Option<[HoleName; 2]>,
        /// Whether the readings leave part of the causes undetermined: a shift across all of them does not show.
        partly: bool,
    },
}

/// Something that went wrong.
#[derive(Debug, Clone, PartialEq)]
pub enum Cause {
    /// All lengths are too large by the same share.
    Scale {
        /// The share; negative if lengths are too small.
        share: f64,
    },
    /// Lengths are too large by shares that depend on the direction.
    Strain {
        /// From left to right.
        across: f64,
        /// From bottom to top.
        up: f64,
        /// By how much the corner at the lower left is less than a right angle.
        skew: Angle,
    },
    /// A sheet slipped relative to the others.
    Slip {
        /// Name of the sheet.
        sheet: String,
        /// Shift of its center, mm to the right and up.
        shift: Vec2,
        /// Rotation, counterclockwise.
        turn: Angle,
    },
    /// A hole is out of place.
    Off {
        /// The hole.
        hole: HoleName,
        /// Its offset, mm to the right and up, as far as the readings determine it.
        by: Vec2,
    },
}

/// The most holes out of place that are searched for together.
const MOST_HOLES: usize = 3;
/// A cause whose score is within this of the best one is also reported.
const NEAR: f64 = 3.0;

/// The readings of a workpiece with the verdict on them.
///
/// ```
/// use board::{Board, Distance, layout};
/// use workshop::{Cause, Verdict, Workpiece, readings};
/// let mut board = Board::default();
/// let holes = layout(&board)?.holes;
/// // A printer that shrinks by half a percent, measured four ways.
/// for (from, to) in [(0, 44), (10, 60), (20, 70), (30, 80)] {
///     let (from, to) = (&holes[from], &holes[to]);
///     let distance = 0.995 * from.center.distance(to.center);
///     board.measured.distances.push(Distance { from: from.name.id(), to: to.name.id(), distance });
/// }
/// let Verdict::Causes { causes, .. } = readings(&Workpiece::of(&board)?).verdict else { panic!() };
/// assert!(matches!(causes[..], [Cause::Scale { share }] if (share + 0.005).abs() < 1e-9));
/// # Ok::<(), board::BuildError>(())
/// ```
pub fn readings(workpiece: &Workpiece) -> Readings {
    let board = workpiece.board();
    let holes = &workpiece.layout().holes;
    let tiling = workpiece.tiling().ok();
    let (mut taken, mut found, mut unknown) = (Vec::new(), Vec::new(), Vec::new());
    for distance in board
        .measured
        .distances
        .iter()
        .filter(|distance| distance.distance > 0.0)
    {
        let names = [distance.from, distance.to];
        let places = names.map(|name| holes.iter().position(|hole| hole.name.id() == name));
        unknown.extend(
            names
                .iter()
                .zip(places)
                .filter_map(|(name, at)| at.is_none().then_some(*name)),
        );
        let [Some(from), Some(to)] = places else {
            continue;
        };
        let (Some(a), Some(b)) = (holes.get(from), holes.get(to)) else {
            continue;
        };
        let end = |hole: usize, at: Point| End {
            hole,
            at,
            sheet: sheet_of(tiling, at),
        };
        let nominal = a.center.distance(b.center);
        if nominal == 0.0 {
            continue;
        }
        taken.push(Taken {
            ends: [end(from, a.center), end(to, b.center)],
            long: distance.distance - nominal,
        });
        found.push(Reading {
            ends: [a.name, b.name],
            nominal,
            read: distance.distance,
            left: distance.distance - nominal,
        });
    }
    let search = Search {
        workpiece,
        tiling,
        taken,
        error: board.measured.error,
    };
    let (verdict, left) = search.verdict();
    for (reading, left) in found.iter_mut().zip(left) {
        reading.left = left;
    }
    Readings {
        readings: found,
        unknown,
        verdict,
    }
}

/// Column and row of the sheet that a place is on; the same for all places if there are no sheets.
fn sheet_of(tiling: Option<&Tiling>, at: Point) -> (usize, usize) {
    let Some(tiling) = tiling else { return (0, 0) };
    let (upright, level) = tiling.joints();
    let column = upright.iter().filter(|x| **x < at.x).count();
    let row = level.iter().filter(|y| **y > at.y).count();
    (column, row)
}

/// The search for the causes of some readings.
struct Search<'a> {
    workpiece: &'a Workpiece,
    tiling: Option<&'a Tiling>,
    taken: Vec<Taken>,
    /// Error of one reading, ±, mm.
    error: f64,
}

/// A fit with its score; the lowest score is best.
struct Scored {
    fit: Fit,
    score: f64,
}

impl Search<'_> {
    /// The verdict, and the residual of each reading.
    fn verdict(&self) -> (Verdict, Vec<f64>) {
        let as_laid_out = Fit::of(&[], &self.taken);
        if self.taken.is_empty() {
            return (Verdict::Nothing, Vec::new());
        }
        if as_laid_out.worst().1 <= self.error {
            return (Verdict::True, as_laid_out.left);
        }
        // Only with enough readings does each cause leave one that it was not fitted to.
        let mut fits: Vec<Scored> = self
            .all_terms()
            .into_iter()
            .filter_map(|terms| self.scored(&terms))
            .collect();
        if fits.is_empty() {
            return (Verdict::TooFew, as_laid_out.left);
        }
        fits.sort_by(|one, other| one.score.total_cmp(&other.score));
        fits.retain(|scored| scored.fit.worst().1 <= 2.0 * self.error);
        let Some((best, others)) = fits.split_first() else {
            return (Verdict::Unclear, as_laid_out.left);
        };
        let rival = others
            .iter()
            .take_while(|other| other.score <= best.score + NEAR)
            .find_map(|other| {
                let ask = self.apart(&best.fit, &other.fit)?;
                Some((other, ask))
            });
        let causes = self.causes(&best.fit);
        let verdict = Verdict::Causes {
            causes,
            or: rival
                .as_ref()
                .map_or_else(Vec::new, |(other, _)| self.causes(&other.fit)),
            ask: rival.map(|(_, ask)| ask),
            partly: best.fit.rank < best.fit.terms.iter().map(|term| term.unknowns()).sum(),
        };
        (verdict, best.fit.left.clone())
    }

    /// Every set of causes to try: a shop usually makes one mistake at a time, seldom two.
    ///
    /// They are scale, strain or neither, combined with one sheet, some holes, or neither.
    fn all_terms(&self) -> Vec<Vec<Term>> {
        let bases: [&[Term]; 3] = [&[], &[Term::Scale], &[Term::Strain]];
        let mut all: Vec<Vec<Term>> = Vec::new();
        for base in bases {
            all.push(base.to_vec());
            all.extend(
                self.sheets()
                    .into_iter()
                    .map(|sheet| [base, &[sheet]].concat()),
            );
            if self.workpiece.board().measured.on == MeasuredOn::Board {
                all.extend(self.with_holes(base));
            }
        }
        all.retain(|terms| !terms.is_empty());
        all
    }

    /// The sheets at the ends of readings, one term each.
    fn sheets(&self) -> Vec<Term> {
        let Some(tiling) = self.tiling else {
            return Vec::new();
        };
        let crossing = |sheet: (usize, usize)| {
            let on = |end: &End| end.sheet == sheet;
            self.taken
                .iter()
                .any(|taken| on(&taken.ends[0]) != on(&taken.ends[1]))
        };
        let sheets = tiling.tiles.iter().map(|tile| {
            (
                (tile.column as usize, tile.row as usize),
                tile.window.center(),
            )
        });
        sheets
            .filter(|(sheet, _)| crossing(*sheet))
            .map(|(sheet, about)| Term::Sheet(sheet, about))
            .collect()
    }

    /// A base extended by one hole, then two, then three: each time by the hole that leaves the least.
    fn with_holes(&self, base: &[Term]) -> Vec<Vec<Term>> {
        let mut holes: Vec<usize> = self
            .taken
            .iter()
            .flat_map(|taken| taken.ends.map(|end| end.hole))
            .collect();
        holes.sort_unstable();
        holes.dedup();
        let mut terms = base.to_vec();
        let mut all = Vec::new();
        for round in 0..MOST_HOLES {
            let with = |hole: usize| [&terms[..], &[Term::Hole(hole)]].concat();
            let free = holes
                .iter()
                .filter(|hole| !terms.contains(&Term::Hole(**hole)));
            let mut scored: Vec<Scored> =
                free.filter_map(|hole| self.scored(&with(*hole))).collect();
            scored.sort_by(|one, other| one.score.total_cmp(&other.score));
            // For single holes all are kept, since a rival explanation may be among them.
            let kept = if round == 0 { scored.len() } else { 1 };
            all.extend(
                scored
                    .iter()
                    .take(kept)
                    .map(|scored| scored.fit.terms.clone()),
            );
            let Some(best) = scored.into_iter().next() else {
                break;
            };
            terms = best.fit.terms;
        }
        all
    }

    /// The score of some causes; `None` if no reading remains to test them, or they change nothing.
    fn scored(&self, terms: &[Term]) -> Option<Scored> {
        let fit = Fit::of(terms, &self.taken);
        if fit.rank == 0 || fit.rank >= self.taken.len() {
            return None;
        }
        // Any error within the ± is equally likely: JCGM 100:2008, 4.3.7, from memory.
        let deviation = self.error / 3.0_f64.sqrt();
        let squares: f64 = fit.left.iter().map(|left| (left / deviation).powi(2)).sum();
        let count = self.taken.len() as f64;
        let among = |term: &Term| match term {
            Term::Scale | Term::Strain => 0.0,
            Term::Sheet(..) | Term::Hole(_) => 2.0 * libm::log(count.max(2.0)),
        };
        let price =
            fit.rank as f64 * libm::log(count).max(2.0) + terms.iter().map(among).sum::<f64>();
        Some(Scored {
            score: squares + price,
            fit,
        })
    }

    /// The distance between two holes for which two fits differ most; `None` if they differ by less than can be read.
    fn apart(&self, one: &Fit, other: &Fit) -> Option<[HoleName; 2]> {
        let holes = &self.workpiece.layout().holes;
        let end = |hole: usize| {
            let at = holes.get(hole)?.center;
            Some(End {
                hole,
                at,
                sheet: sheet_of(self.tiling, at),
            })
        };
        let mut best = (self.error, None);
        // From the measured holes to any hole, since the tape lies there already.
        let mut from: Vec<usize> = self
            .taken
            .iter()
            .flat_map(|taken| taken.ends.map(|end| end.hole))
            .collect();
        from.sort_unstable();
        from.dedup();
        for a in from {
            for b in 0..holes.len() {
                let (Some(start), Some(to)) = (end(a), end(b)) else {
                    continue;
                };
                let differ = (one.lengthens([start, to]) - other.lengthens([start, to])).abs();
                if differ > best.0 + 1e-9 {
                    best = (differ, holes.get(a).zip(holes.get(b)));
                }
            }
        }
        best.1.map(|(a, b)| [a.name, b.name])
    }

    /// The causes in terms of the workshop.
    fn causes(&self, fit: &Fit) -> Vec<Cause> {
        let holes = &self.workpiece.layout().holes;
        let terms = fit.terms.iter().enumerate();
        terms
            .filter_map(|(place, term)| {
                let [a, b, c] = fit.of_term(place);
                Some(match term {
                    Term::Scale => Cause::Scale { share: a },
                    Term::Strain => Cause::Strain {
                        across: a,
                        up: b,
                        skew: Angle::radians(c),
                    },
                    Term::Sheet((column, row), _) => Cause::Slip {
                        sheet: self.tiling?.tile(*column as u32, *row as u32)?.label(),
                        shift: Vec2::new(a, b),
                        turn: Angle::radians(c),
                    },
                    Term::Hole(hole) => Cause::Off {
                        hole: holes.get(*hole)?.name,
                        by: Vec2::new(a, b),
                    },
                })
            })
            .collect()
    }
}

#[cfg(test)]
mod tests;
