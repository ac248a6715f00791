//! The likeliest cause of distances that were measured too long or too short.
//!
//! Each cause that may be is fitted by least squares. One with more unknowns leaves less of the readings in any case, so
//! each unknown has to earn its place by the information criterion of Bayes with a known error of reading (Schwarz 1978,
//! from memory), and so has the choice among many sheets or holes.

use board::{HoleId, HoleName, MeasuredOn};
use geometry::{Angle, Point, Vec2};

use super::model::{End, Fit, Taken, Term};
use crate::{Tiling, Workpiece};

/// What readings tell.
#[derive(Debug, Clone, PartialEq)]
pub struct Readings {
    /// Those that could be used.
    pub readings: Vec<Reading>,
    /// Names of holes that the board does not have.
    pub unknown: Vec<HoleId>,
    /// What they say.
    pub verdict: Verdict,
}

/// One distance as it should be and as it was read.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Reading {
    /// The holes at its ends.
    pub ends: [HoleName; 2],
    /// Distance of their centers as laid out, mm.
    pub nominal: f64,
    /// Distance as read, mm.
    pub read: f64,
    /// What the verdict leaves unexplained of their difference, mm.
    pub left: f64,
}

impl Reading {
    /// By how much it was read too long, mm; negative: too short.
    pub fn long(&self) -> f64 {
        self.read - self.nominal
    }
}

/// The verdict on some readings.
#[derive(Debug, Clone, PartialEq)]
pub enum Verdict {
    /// None can be used.
    Nothing,
    /// All are as long as they should be, within the error of reading.
    True,
    /// Some are off, and they are too few to tell a cause from an error of reading.
    TooFew,
    /// No cause explains them within twice the error of reading.
    Unclear,
    /// The causes that explain them best.
    Causes {
        /// The causes.
        causes: Vec<Cause>,
        /// Others that explain them nearly as well; empty where there are none.
        or: Vec<Cause>,
        /// A distance that would tell the two apart.
        ask: Option<[HoleName; 2]>,
        /// Whether there is more to the causes than the distances tell: a shift across all of them is not seen.
        partly: bool,
    },
}

/// Something that went wrong.
#[derive(Debug, Clone, PartialEq)]
pub enum Cause {
    /// Lengths are too large by a share, all alike.
    Scale {
        /// The share; negative: too small.
        share: f64,
    },
    /// Lengths are too large by shares that differ with the direction.
    Strain {
        /// From left to right.
        across: f64,
        /// From bottom to top.
        up: f64,
        /// By how much the corner at the lower left is under a right angle.
        skew: Angle,
    },
    /// A sheet slipped against the others.
    Slip {
        /// Name of the sheet.
        sheet: String,
        /// Shift of its middle, mm to the right and up.
        shift: Vec2,
        /// Turn, counter-clockwise.
        turn: Angle,
    },
    /// A hole is beside its place.
    Off {
        /// The hole.
        hole: HoleName,
        /// From its place, mm to the right and up, as far as the readings tell.
        by: Vec2,
    },
}

/// Holes that are looked for beside their places at the same time.
const MOST_HOLES: usize = 3;
/// A cause whose score comes as near to the best one is told too.
const NEAR: f64 = 3.0;

/// What the readings of a workpiece tell.
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

/// Column and row of the sheet that a place is on; all are on one where there are no sheets.
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
    /// Error of one reading, plus or minus, mm.
    error: f64,
}

/// A fit and its score; the least is best.
struct Scored {
    fit: Fit,
    score: f64,
}

impl Search<'_> {
    /// The verdict, and what it leaves of each reading.
    fn verdict(&self) -> (Verdict, Vec<f64>) {
        let as_laid_out = Fit::of(&[], &self.taken);
        if self.taken.is_empty() {
            return (Verdict::Nothing, Vec::new());
        }
        if as_laid_out.worst().1 <= self.error {
            return (Verdict::True, as_laid_out.left);
        }
        // Enough readings, so that each cause leaves one that it was not fitted to.
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

    /// Every set of causes that is looked at: scale or strain or neither, with one sheet, or some holes, or neither.
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

    /// The sheets that readings lead to or from, one term each.
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

    /// A base with one hole, then two, then three: each time the one that leaves the least.
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
            // Of single holes all are kept: a rival may be among them.
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

    /// The score of some causes; none where no reading is left to prove them by, or they change nothing.
    fn scored(&self, terms: &[Term]) -> Option<Scored> {
        let fit = Fit::of(terms, &self.taken);
        if fit.rank == 0 || fit.rank >= self.taken.len() {
            return None;
        }
        // Any error up to the plus or minus is as likely as any other: JCGM 100:2008, 4.3.7, from memory.
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

    /// The distance between two holes at which two fits differ most; none where they differ by less than can be read.
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
        // From the holes that were measured to any: there the tape lies already.
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

    /// The causes in the maker's terms.
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
mod tests {
    use super::*;
    use board::{Board, Distance, Layout, layout};
    use proptest::prelude::*;
    use testkit::assert_near;

    /// A board with distances between pairs of its holes, each hole moved from its place before it is measured.
    fn measured(
        on: MeasuredOn,
        pairs: &[(usize, usize)],
        moved: impl Fn(usize, Point) -> Point,
    ) -> Workpiece {
        let mut board = Board::default();
        let Layout { holes, .. } = layout(&board).unwrap();
        board.measured.on = on;
        let distance = |&(from, to): &(usize, usize)| {
            let at = |hole: usize| moved(hole, holes[hole].center);
            Distance {
                from: holes[from].name.id(),
                to: holes[to].name.id(),
                distance: at(from).distance(at(to)),
            }
        };
        board.measured.distances = pairs.iter().map(distance).collect();
        Workpiece::of(&board).unwrap()
    }

    /// Distances between holes far apart, in many directions.
    fn long_ones(count: usize) -> Vec<(usize, usize)> {
        (0..count)
            .map(|at| (7 * at % 84, (7 * at + 35 + 5 * (at % 3)) % 84))
            .collect()
    }

    fn causes(workpiece: &Workpiece) -> Vec<Cause> {
        match readings(workpiece).verdict {
            Verdict::Causes { causes, .. } => causes,
            other => panic!("{other:?}"),
        }
    }

    #[test]
    fn distances_as_laid_out_are_true_and_none_say_nothing() {
        let as_laid_out =
            |pairs: &[(usize, usize)]| measured(MeasuredOn::Template, pairs, |_, at| at);
        assert_eq!(readings(&as_laid_out(&long_ones(6))).verdict, Verdict::True);
        assert_eq!(readings(&as_laid_out(&[])).verdict, Verdict::Nothing);
    }

    #[test]
    fn one_wrong_distance_is_too_few_to_tell() {
        let workpiece = measured(MeasuredOn::Template, &[(0, 40)], |_, at| {
            (at.to_vec2() * 1.01).to_point()
        });
        assert_eq!(readings(&workpiece).verdict, Verdict::TooFew);
    }

    #[test]
    fn a_print_that_is_stretched_one_way_and_out_of_square_is_told_so() {
        let stretched = |_, at: Point| Point::new(at.x * 1.004 + at.y * 0.003, at.y * 0.998);
        let found = causes(&measured(MeasuredOn::Template, &long_ones(12), stretched));
        let [Cause::Strain { across, up, skew }] = found[..] else {
            panic!("{found:?}")
        };
        assert_near!(across, 0.004, 5e-5);
        assert_near!(up, -0.002, 5e-5);
        assert_near!(skew.as_radians(), 0.003, 5e-5);
    }

    #[test]
    fn a_sheet_that_slipped_is_named_with_its_shift() {
        let plain = measured(MeasuredOn::Template, &[], |_, at| at);
        let tiling = plain.tiling().unwrap();
        assert!(tiling.tiles.len() > 3);
        let tile = tiling.tiles[0];
        let on = (tile.column as usize, tile.row as usize);
        let shifted = |_, at: Point| {
            if sheet_of(Some(tiling), at) == on {
                at + Vec2::new(1.2, -0.7)
            } else {
                at
            }
        };
        let holes = &plain.layout().holes;
        let on_it = (0..84).filter(|hole| sheet_of(Some(tiling), holes[*hole].center) == on);
        let others = [12, 30, 48, 66, 78];
        let across = on_it.flat_map(|hole| others.map(|other| (hole, other)));
        let pairs: Vec<_> = across.chain(long_ones(6)).take(40).collect();
        let found = causes(&measured(MeasuredOn::Template, &pairs, shifted));
        let [Cause::Slip { sheet, shift, turn }] = &found[..] else {
            panic!("{found:?}")
        };
        assert_eq!(*sheet, tile.label());
        assert_near!(shift.x, 1.2, 0.02);
        assert_near!(shift.y, -0.7, 0.02);
        assert_near!(turn.as_degrees(), 0.0, 0.02);
    }

    #[test]
    fn two_holes_beside_their_places_are_told_by_their_names() {
        let off = |hole, at: Point| match hole {
            5 => at + Vec2::new(0.0, 1.5),
            50 => at + Vec2::new(-1.1, 0.4),
            _ => at,
        };
        let mut pairs = long_ones(10);
        pairs.extend([20, 40, 60, 75].iter().flat_map(|to| [(5, *to), (50, *to)]));
        let workpiece = measured(MeasuredOn::Board, &pairs, off);
        let mut found = causes(&workpiece);
        found.sort_by_key(|cause| format!("{cause:?}"));
        let holes = &workpiece.layout().holes;
        let by = |index: usize| {
            found.iter().find_map(|cause| match cause {
                Cause::Off { hole, by } if *hole == holes[index].name => Some(*by),
                _ => None,
            })
        };
        assert_eq!(found.len(), 2, "{found:?}");
        assert_near!(by(5).unwrap().y, 1.5, 0.02);
        assert_near!(by(50).unwrap().x, -1.1, 0.02);
    }

    #[test]
    fn readings_that_no_cause_explains_are_unclear_and_unknown_holes_are_named() {
        let mut workpiece = measured(MeasuredOn::Template, &long_ones(8), |_, at| at);
        let mut board = workpiece.board().clone();
        for (at, distance) in board.measured.distances.iter_mut().enumerate() {
            distance.distance += if at % 2 == 0 { 9.0 } else { -9.0 };
        }
        board.measured.distances.push(Distance {
            to: "T6-99".parse().unwrap(),
            distance: 10.0,
            ..Distance::default()
        });
        workpiece = Workpiece::of(&board).unwrap();
        let told = readings(&workpiece);
        assert_eq!(told.verdict, Verdict::Unclear);
        assert_eq!(told.unknown, ["T6-99".parse().unwrap()]);
        assert_eq!(told.readings.len(), 8);
    }

    #[test]
    fn two_causes_that_fit_alike_are_both_told_with_a_distance_that_parts_them() {
        // Two holes were measured from each other and from one more: either may be the one that is off.
        let off = |hole, at: Point| {
            if hole == 3 {
                at + Vec2::new(0.0, 1.0)
            } else {
                at
            }
        };
        let workpiece = measured(
            MeasuredOn::Board,
            &[(3, 45), (3, 46), (10, 50), (20, 60)],
            off,
        );
        let Verdict::Causes { or, ask, .. } = readings(&workpiece).verdict else {
            panic!()
        };
        assert!(!or.is_empty() && ask.is_some());
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(60))]

        /// Errors of reading within the plus or minus hardly shift the scale that is found.
        #[test]
        fn a_scale_is_found_under_errors_of_reading(
            share in prop_oneof![-0.02..-0.003_f64, 0.003..0.02_f64],
            errors in prop::collection::vec(-0.25..0.25_f64, 12),
        ) {
            let workpiece = measured(MeasuredOn::Template, &long_ones(12), |_, at| (at.to_vec2() * (1.0 + share)).to_point());
            let mut board = workpiece.board().clone();
            for (distance, error) in board.measured.distances.iter_mut().zip(&errors) {
                distance.distance += error;
            }
            let told = readings(&Workpiece::of(&board).unwrap());
            let Verdict::Causes { causes, .. } = told.verdict else { panic!("{told:?}") };
            let found = causes.iter().find_map(|cause| match cause {
                Cause::Scale { share } => Some([*share, *share]),
                Cause::Strain { across, up, .. } => Some([*across, *up]),
                _ => None,
            });
            let found: [f64; 2] = found.unwrap();
            for found in found {
                prop_assert!(f64::abs(found - share) < 0.002, "{found} for {share}: {causes:?}");
            }
        }
    }
}
