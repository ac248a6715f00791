//! Sheets along one side of a tiled template, and the shift that keeps the joints clear of the holes.
//!
//! Neighboring sheets overlap, and the joint line runs along the middle of the overlap. The grid of sheets may be shifted as
//! long as it still covers the board; the best shift is found exactly, not by trial.

mod row;

use crate::Error;
use crate::limits::{check_finite, check_positive};
pub use row::{JointPlace, SheetRow};

/// The most sheets along one side; a template with more is assumed to be a typing error.
pub const MOST_SHEETS: u32 = 1000;

/// The position of the sheet grid, and the coordinate nearest to a joint.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct JointPlan {
    /// The coordinate (mm) at which the first sheet's printable part begins.
    pub origin: f64,
    /// The index of the coordinate nearest to any joint line, and its distance (mm) from it; `None` if there is no joint or no
    /// coordinate.
    pub nearest: Option<(usize, f64)>,
}

/// The number of sheets needed along one side of a template.
///
/// `length` is the template's, `printable` a sheet's, and `overlap` is shared by neighboring sheets, in mm. Rounding never adds
/// a sheet to a length that fits exactly.
///
/// ```
/// assert_eq!(geometry::sheets_along(500.0, 190.0, 10.0)?, 3);
/// # Ok::<(), geometry::Error>(())
/// ```
///
/// # Errors
///
/// [`Error`] if a length is not positive, the overlap is negative or not less than the printable length, or more than
/// [`MOST_SHEETS`] sheets would be needed.
pub fn sheets_along(length: f64, printable: f64, overlap: f64) -> Result<u32, Error> {
    check_positive("the template's length", length)?;
    check_positive("a sheet's printable length", printable)?;
    if !(0.0 <= overlap && overlap < printable) {
        return Err(Error::Overlap { overlap, printable });
    }
    if length <= printable {
        return Ok(1);
    }
    let step = printable - overlap;
    let more = ((length - printable) / step - FUZZ).ceil().max(0.0);
    if more >= f64::from(MOST_SHEETS) {
        return Err(Error::ManySheets {
            length,
            longest: printable + f64::from(MOST_SHEETS - 1) * step,
            most: MOST_SHEETS,
        });
    }
    Ok(1 + more as u32)
}

/// The position of the sheet grid whose joint lines stay farthest from all coordinates.
///
/// The template runs from `lo` to `hi` and takes [`sheets_along`] sheets; joint line j = 1, 2, ... lies at `origin + j
/// (printable - overlap) + overlap / 2`. Each pair of a coordinate and a joint line forbids one origin; the best one is the
/// middle of the widest gap between forbidden ones, or an end of the range of origins that cover the template. Among equally
/// good ones, the nearest to the centered grid is chosen, then the lower. The time is proportional to the number of
/// coordinates.
///
/// ```
/// let plan = geometry::best_joints(&[-100.0, 0.0, 100.0], -120.0, 120.0, 150.0, 10.0)?;
/// let joint = plan.origin + 140.0 + 5.0;
/// assert!((joint + 25.0).abs() < 1e-9);
/// assert_eq!(plan.nearest.map(|(index, _)| index), Some(1));
/// # Ok::<(), geometry::Error>(())
/// ```
///
/// # Errors
///
/// The errors of [`sheets_along`] for a length of `hi - lo`, and [`Error::NotFinite`] for a coordinate that is not finite.
pub fn best_joints(
    coordinates: &[f64],
    lo: f64,
    hi: f64,
    printable: f64,
    overlap: f64,
) -> Result<JointPlan, Error> {
    let sheets = sheets_along(hi - lo, printable, overlap)?;
    for coordinate in coordinates {
        check_finite("a coordinate", *coordinate)?;
    }
    let grid = Grid {
        joints: sheets - 1,
        step: printable - overlap,
        half_overlap: overlap / 2.0,
    };
    // If the sheets fit exactly, rounding may make the range empty.
    let first = hi - (f64::from(sheets) * grid.step + overlap);
    let (first, last) = (first.min(lo), lo);
    let forbidden = in_order(grid.forbidden(coordinates, first, last), first, last, None);
    let origin = widest_gap(&forbidden, first, last);
    Ok(JointPlan {
        origin,
        nearest: grid.nearest(coordinates, origin),
    })
}

/// Slack in sheets for a length that fits exactly.
const FUZZ: f64 = 1e-9;

/// Origins whose clearances differ by less than this, in mm, are equally good.
const TIE: f64 = 1e-9;

/// The joint lines: `joints` of them, the first one step and half the overlap after the origin.
struct Grid {
    joints: u32,
    step: f64,
    half_overlap: f64,
}

impl Grid {
    /// The origins at which a joint line would be on a coordinate: all within the range of origins, and for each coordinate the
    /// next one on either side.
    fn forbidden(&self, coordinates: &[f64], first: f64, last: f64) -> Vec<f64> {
        let mut origins = Vec::with_capacity(3 * coordinates.len());
        for coordinate in coordinates {
            let from = self.joint_at(*coordinate, last);
            let to = self.joint_at(*coordinate, first) + 1.0;
            let (mut joint, to) = (from.max(1.0), to.min(f64::from(self.joints)));
            // Past the last line, or before the first, that line is still the nearest one.
            joint = joint.min(f64::from(self.joints));
            while self.joints > 0 && joint <= to.max(1.0) {
                origins.push(coordinate - self.half_overlap - joint * self.step);
                joint += 1.0;
            }
        }
        origins
    }

    /// The number of the last joint line at or before a coordinate, as if the lines continued indefinitely.
    fn joint_at(&self, coordinate: f64, origin: f64) -> f64 {
        ((coordinate - origin - self.half_overlap) / self.step).floor()
    }

    /// The coordinate nearest to any joint line, the first among equals.
    fn nearest(&self, coordinates: &[f64], origin: f64) -> Option<(usize, f64)> {
        if self.joints == 0 {
            return None;
        }
        let distance = |coordinate: f64| {
            let joint = (coordinate - origin - self.half_overlap) / self.step;
            let joint = joint.round().clamp(1.0, f64::from(self.joints));
            (coordinate - origin - self.half_overlap - joint * self.step).abs()
        };
        coordinates
            .iter()
            .map(|coordinate| distance(*coordinate))
            .enumerate()
            .min_by(|one, other| one.1.total_cmp(&other.1))
    }
}

/// The origins that bound the wide gaps in the range from `first` to `last`, in order; those that only separate narrow gaps are
/// left out.
///
/// The range is divided into cells, twice as many as there are origins, and the lowest and the highest origin of each are kept:
/// gaps wider than a cell are preserved, and the widest is one of them. That takes less time than sorting. If `least` is given,
/// gaps of at least that many mm are preserved too.
fn in_order(mut origins: Vec<f64>, first: f64, last: f64, least: Option<f64>) -> Vec<f64> {
    let cells = 2 * origins.len() + 2;
    let side = (last - first) / cells as f64;
    if least.is_some_and(|least| least <= side) {
        origins.sort_unstable_by(f64::total_cmp);
        return origins;
    }
    let (mut below, mut above) = (f64::NEG_INFINITY, f64::INFINITY);
    let mut ends = vec![(f64::INFINITY, f64::NEG_INFINITY); cells];
    for &origin in &origins {
        if origin < first {
            below = below.max(origin);
        } else if origin > last {
            above = above.min(origin);
        } else if let Some(cell) = ends.get_mut((((origin - first) / side) as usize).min(cells - 1))
        {
            *cell = (cell.0.min(origin), cell.1.max(origin));
        }
    }
    origins.clear();
    origins.extend(Some(below).filter(|below| below.is_finite()));
    for (low, high) in ends.into_iter().filter(|(low, high)| low <= high) {
        origins.push(low);
        origins.extend(Some(high).filter(|high| *high > low));
    }
    origins.extend(Some(above).filter(|above| above.is_finite()));
    origins
}

/// The origin from `first` to `last` farthest from all of the sorted forbidden ones.
fn widest_gap(forbidden: &[f64], first: f64, last: f64) -> f64 {
    let centered = first + (last - first) / 2.0;
    let middles = forbidden
        .windows(2)
        .filter_map(|pair| match pair {
            [before, after] => {
                let middle = before + (after - before) / 2.0;
                Some((middle, (after - middle).min(middle - before)))
            }
            _ => None,
        })
        .filter(|(middle, _)| first <= *middle && *middle <= last);
    let ends = [first, last].map(|origin| (origin, clearance(forbidden, origin)));
    let candidates: Vec<(f64, f64)> = ends.into_iter().chain(middles).collect();
    let widest = candidates
        .iter()
        .map(|(_, clear)| *clear)
        .fold(0.0, f64::max);
    let mut best = centered;
    // Without forbidden origins, the centered grid is best.
    if forbidden.is_empty() {
        return best;
    }
    let mut off = f64::INFINITY;
    for (origin, clear) in candidates {
        let away = (origin - centered).abs();
        let nearer = away < off - TIE || (away < off + TIE && origin < best);
        if clear >= widest - TIE && nearer {
            (best, off) = (origin, away);
        }
    }
    best
}

/// The distance from an origin to the nearest of the sorted forbidden ones.
fn clearance(forbidden: &[f64], origin: f64) -> f64 {
    let after = forbidden.partition_point(|other| *other < origin);
    let to = |index: Option<usize>| {
        index
            .and_then(|index| forbidden.get(index))
            .map_or(f64::INFINITY, |other| (other - origin).abs())
    };
    to(Some(after)).min(to(after.checked_sub(1)))
}

#[cfg(test)]
mod tests {
    use super::*;
    use testkit::assert_near;

    #[test]
    fn rounding_adds_no_sheet() {
        // A4 with margins of 10 mm and an overlap of 10 mm, both ways: computed.
        assert_eq!(sheets_along(500.0, 190.0, 10.0), Ok(3));
        assert_eq!(sheets_along(500.0, 277.0, 10.0), Ok(2));
        assert_eq!(sheets_along(190.0, 190.0, 10.0), Ok(1));
        assert_eq!(sheets_along(190.1, 190.0, 10.0), Ok(2));
        for sheets in 2..=1000 {
            let length = 7.3 * 25.4 + f64::from(sheets - 1) * (7.3 * 25.4 - 0.3 * 25.4);
            assert_eq!(sheets_along(length, 7.3 * 25.4, 0.3 * 25.4), Ok(sheets));
        }
    }

    #[test]
    fn an_overlap_as_wide_as_the_sheet_is_refused() {
        assert!(matches!(
            sheets_along(500.0, 190.0, 190.0),
            Err(Error::Overlap { .. })
        ));
        assert!(sheets_along(500.0, 190.0, -1.0).is_err());
        assert!(sheets_along(500.0, 190.0, f64::NAN).is_err());
        assert!(sheets_along(f64::INFINITY, 190.0, 10.0).is_err());
        assert!(sheets_along(0.0, 190.0, 10.0).is_err());
        assert!(sheets_along(500.0, 0.0, 0.0).is_err());
        let Err(Error::ManySheets { longest, .. }) = sheets_along(1e9, 190.0, 10.0) else {
            panic!("five million sheets were accepted");
        };
        assert_eq!(sheets_along(longest, 190.0, 10.0), Ok(1000));
    }

    /// The gaps must be the same as after sorting everything.
    #[test]
    fn origins_that_only_separate_narrow_gaps_are_left_out() {
        let scattered = |count: u32| (0..count).map(|at| f64::from(at * 7919 % 10_007) / 50.0);
        for (count, (first, last)) in (0..200).flat_map(|count| {
            [(0.0, 200.0), (50.0, 51.0), (-20.0, 30.0), (7.0, 7.0)].map(|range| (count, range))
        }) {
            let all: Vec<f64> = scattered(count).collect();
            let sorted = in_order(all.clone(), first, last, Some(0.0));
            assert!(sorted.is_sorted() && sorted.len() == all.len());
            let thinned = in_order(all.clone(), first, last, None);
            assert!(thinned.is_sorted() && thinned.len() <= all.len());
            let widest = widest_gap(&sorted, first, last);
            assert_eq!(widest_gap(&thinned, first, last), widest, "{count}");
            // No gap that must be preserved is lost, and none is invented.
            let wanted = (last - first) / f64::from(2 * count + 2) * 1.001 + 1e-9;
            let thinned = in_order(all, first, last, Some(wanted));
            let wide = |origins: &[f64]| -> Vec<(f64, f64)> {
                let pairs = origins.windows(2).map(|pair| (pair[0], pair[1]));
                let seen = pairs.filter(|(from, to)| *to >= first && *from <= last);
                seen.filter(|(from, to)| to - from >= wanted).collect()
            };
            assert_eq!(wide(&thinned), wide(&sorted), "{count}");
        }
    }

    #[test]
    fn one_sheet_is_centered_and_has_no_joint() {
        let plan = best_joints(&[0.0, 5.0], -50.0, 50.0, 190.0, 10.0).unwrap();
        assert_near!(plan.origin, -95.0, 1e-12);
        assert_eq!(plan.nearest, None);
    }

    #[test]
    fn no_coordinates_leave_the_grid_centered() {
        let plan = best_joints(&[], -250.0, 250.0, 190.0, 10.0).unwrap();
        assert_near!(plan.origin, -275.0, 1e-12);
        assert_eq!(plan.nearest, None);
    }

    #[test]
    fn a_joint_goes_midway_between_two_holes() {
        let plan = best_joints(&[-10.0, 10.0], -100.0, 100.0, 120.0, 20.0).unwrap();
        assert_near!(plan.origin + 100.0 + 10.0, 0.0, 1e-9);
        assert_near!(plan.nearest.unwrap().1, 10.0, 1e-9);
    }

    #[test]
    fn sheets_that_fit_exactly_leave_no_choice() {
        let plan = best_joints(&[3.0], -100.0, 100.0, 110.0, 20.0).unwrap();
        assert_near!(plan.origin, -100.0, 1e-9);
        assert_near!(plan.nearest.unwrap().1, 3.0, 1e-9);
    }

    #[test]
    fn a_coordinate_that_is_not_a_number_is_refused() {
        assert!(best_joints(&[f64::NAN], -100.0, 100.0, 110.0, 20.0).is_err());
    }
}
