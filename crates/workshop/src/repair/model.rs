//! Distances predicted from possible faults, linear in each unknown, and their least-squares fit.
//!
//! The unknowns are small, so each distance grows by a sum of columns times unknowns: the matrix of a linear fit. It is solved
//! by singular values, which leave an unknown at 0 if the readings do not determine it.
//!
//! A small shift of two holes lengthens the line between them by the difference of the shifts along it; their effect across it
//! is of second order, under 0.01 mm where holes 100 mm apart are off by a millimeter.

use geometry::{Point, Vec2};
use nalgebra::{DMatrix, DVector};

/// A measured distance, with the places where its holes should be.
#[derive(Debug, Clone, Copy)]
pub(super) struct Taken {
    /// The ends.
    pub(super) ends: [End; 2],
    /// Excess of the measured length, mm.
    pub(super) long: f64,
}

/// One end of a distance.
#[derive(Debug, Clone, Copy)]
pub(super) struct End {
    /// The hole, by its index.
    pub(super) hole: usize,
    /// The place where it should be.
    pub(super) at: Point,
    /// The sheet it is on, as column and row.
    pub(super) sheet: (usize, usize),
}

/// Something that may be wrong.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Term {
    /// All lengths, by the same share.
    Scale,
    /// Horizontal lengths, vertical lengths, and the angle between them.
    Strain,
    /// A sheet that was shifted and rotated about a point.
    Sheet((usize, usize), Point),
    /// A hole that is out of place.
    Hole(usize),
}

/// Shares and angles are expressed as lengths at this distance, mm, so that all unknowns are of similar size.
const ARM: f64 = 100.0;

impl Term {
    /// The lengthening of the distance between two ends per mm of each of its unknowns.
    fn columns(self, ends: [End; 2]) -> Vec<f64> {
        let [a, b] = ends;
        let line = b.at - a.at;
        let length = line.hypot();
        let along = if length > 0.0 {
            line / length
        } else {
            Vec2::ZERO
        };
        // The part of a shift that lengthens the line, counted at the end where the shift occurs.
        let moved = |is_it: &dyn Fn(&End) -> bool, shift: &dyn Fn(&End) -> Vec2| {
            let at = |end: &End| {
                if is_it(end) {
                    along.dot(shift(end))
                } else {
                    0.0
                }
            };
            at(&b) - at(&a)
        };
        let (right, up) = (Vec2::new(1.0, 0.0), Vec2::new(0.0, 1.0));
        match self {
            Self::Scale => vec![length / ARM],
            Self::Strain => [along.x * along.x, along.y * along.y, along.x * along.y]
                .map(|share| share * length / ARM)
                .to_vec(),
            Self::Sheet(sheet, about) => {
                let on = |end: &End| end.sheet == sheet;
                let turned = |end: &End| {
                    let arm = end.at - about;
                    Vec2::new(-arm.y, arm.x) / ARM
                };
                vec![
                    moved(&on, &|_| right),
                    moved(&on, &|_| up),
                    moved(&on, &turned),
                ]
            }
            Self::Hole(hole) => {
                let is_it = |end: &End| end.hole == hole;
                vec![moved(&is_it, &|_| right), moved(&is_it, &|_| up)]
            }
        }
    }

    /// Number of its unknowns.
    pub(super) fn unknowns(self) -> usize {
        match self {
            Self::Scale => 1,
            Self::Hole(_) => 2,
            Self::Strain | Self::Sheet(..) => 3,
        }
    }
}

/// The best fit of some terms to the readings.
#[derive(Debug, Clone)]
pub(super) struct Fit {
    /// The terms.
    pub(super) terms: Vec<Term>,
    /// Their unknowns, term by term, mm (shares and angles at [`ARM`]); 0 for unknowns that the readings do not determine.
    unknowns: Vec<f64>,
    /// Number of unknowns that the readings determine.
    pub(super) rank: usize,
    /// The part of each reading that the terms do not explain, mm.
    pub(super) left: Vec<f64>,
}

impl Fit {
    /// The least-squares fit of some terms to some readings.
    pub(super) fn of(terms: &[Term], taken: &[Taken]) -> Self {
        let long = DVector::from_iterator(taken.len(), taken.iter().map(|taken| taken.long));
        let rows: Vec<Vec<f64>> = taken.iter().map(|taken| row(terms, taken.ends)).collect();
        let count = terms.iter().map(|term| term.unknowns()).sum();
        let matrix = DMatrix::from_row_iterator(taken.len(), count, rows.into_iter().flatten());
        let (unknowns, rank) = solved(&matrix, &long);
        let left = long - matrix * &unknowns;
        Self {
            terms: terms.to_vec(),
            unknowns: unknowns.iter().copied().collect(),
            rank,
            left: left.iter().copied().collect(),
        }
    }

    /// The lengthening that the fit predicts for the distance between two ends, mm.
    pub(super) fn lengthens(&self, ends: [End; 2]) -> f64 {
        let row = row(&self.terms, ends);
        row.iter()
            .zip(&self.unknowns)
            .map(|(share, mm)| share * mm)
            .sum()
    }

    /// The unknowns of the term at an index: lengths in mm, shares as such, angles in radians.
    pub(super) fn of_term(&self, place: usize) -> [f64; 3] {
        let start: usize = self
            .terms
            .iter()
            .take(place)
            .map(|term| term.unknowns())
            .sum();
        let at = |more: usize| self.unknowns.get(start + more).copied().unwrap_or_default();
        match self.terms.get(place) {
            Some(Term::Scale) => [at(0) / ARM, at(0) / ARM, 0.0],
            Some(Term::Strain) => [at(0) / ARM, at(1) / ARM, at(2) / ARM],
            Some(Term::Sheet(..)) => [at(0), at(1), at(2) / ARM],
            Some(Term::Hole(_)) => [at(0), at(1), 0.0],
            None => [0.0; 3],
        }
    }

    /// The largest residual, mm, and the index of its reading.
    pub(super) fn worst(&self) -> (usize, f64) {
        let all = self.left.iter().map(|left| left.abs()).enumerate();
        all.max_by(|one, other| one.1.total_cmp(&other.1))
            .unwrap_or_default()
    }
}

/// The columns of all terms for one distance.
fn row(terms: &[Term], ends: [End; 2]) -> Vec<f64> {
    terms.iter().flat_map(|term| term.columns(ends)).collect()
}

/// The smallest unknowns that solve the least-squares problem, and how many of them the readings determine.
fn solved(matrix: &DMatrix<f64>, long: &DVector<f64>) -> (DVector<f64>, usize) {
    let nothing = || (DVector::zeros(matrix.ncols()), 0);
    if matrix.is_empty() {
        return nothing();
    }
    let parts = matrix.clone().svd(true, true);
    let least = parts.singular_values.max() * 1e-6;
    match parts.solve(long, least) {
        Ok(unknowns) if least > 0.0 => (unknowns, parts.rank(least)),
        _ => nothing(),
    }
}
