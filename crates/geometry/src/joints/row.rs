//! A row of sheets, and its positions at which the joints are far enough from the holes.
//!
//! The position with the widest gap is one of many. To use few sheets, any position will do whose joints are far enough from
//! every hole, and among those the one that leaves most of the outer sheets empty.

use super::{Grid, clearance, in_order, widest_gap};

/// Sheets side by side.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SheetRow {
    /// Their number.
    pub sheets: u32,
    /// Printable length of each, mm.
    pub printable: f64,
    /// Overlap of neighbors, mm.
    pub overlap: f64,
}

/// A position of a row of sheets.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct JointPlace {
    /// The coordinate (mm) at which the first sheet's printable part begins.
    pub origin: f64,
    /// Distance of the nearest coordinate from a joint line, mm; infinite if there is no joint or no coordinate.
    pub clear: f64,
}

/// The number of widest gaps returned; a search combines each of them with each of the other axis.
const MOST_GAPS: usize = 10;

/// A gap with less room to move than this is only tried at its middle, mm.
const SMALL_WAY: f64 = 1.5;

impl SheetRow {
    /// The positions that cover `lo` to `hi` at which every joint is at least `least` mm from every coordinate: the middle of
    /// each gap that is wide enough, both ends of those with room to move, and the centered position if it qualifies. If there
    /// is none, the one position whose joints stay farthest away.
    ///
    /// ```
    /// use geometry::SheetRow;
    /// let row = SheetRow { sheets: 2, printable: 150.0, overlap: 10.0 };
    /// let places = row.places(&[-100.0, 0.0, 100.0], -120.0, 120.0, 5.0);
    /// assert!(places.iter().all(|place| place.clear >= 5.0));
    /// // The joint of a centered row would run through the hole at 0.
    /// assert!(places.iter().all(|place| (place.origin + 145.0).abs() > 4.9));
    /// ```
    pub fn places(&self, coordinates: &[f64], lo: f64, hi: f64, least: f64) -> Vec<JointPlace> {
        let grid = self.grid();
        let first = (hi - (f64::from(self.sheets) * grid.step + self.overlap)).min(lo);
        let forbidden = grid.forbidden(coordinates, first, lo);
        let forbidden = in_order(forbidden, first, lo, Some(2.0 * least));
        let ends = [f64::NEG_INFINITY, f64::INFINITY];
        let mut bounds = vec![ends[0]];
        bounds.extend(forbidden.iter().copied().chain([ends[1]]));
        let room = |pair: &[f64]| match pair {
            [before, after] => ((before + least).max(first), (after - least).min(lo)),
            _ => (0.0, -1.0),
        };
        let mut gaps: Vec<(f64, f64)> = bounds.windows(2).map(room).collect();
        gaps.retain(|(from, to)| from <= to);
        gaps.sort_by(|a, b| (b.1 - b.0).total_cmp(&(a.1 - a.0)));
        gaps.truncate(MOST_GAPS);
        let centered = first + (lo - first) / 2.0;
        let mut origins = Vec::with_capacity(4 * gaps.len());
        for (from, to) in gaps {
            origins.push(f64::midpoint(from, to));
            origins.extend(
                (to - from > SMALL_WAY)
                    .then_some([from, to])
                    .into_iter()
                    .flatten(),
            );
            origins.extend((from < centered && centered < to).then_some(centered));
        }
        if origins.is_empty() {
            origins.push(widest_gap(&forbidden, first, lo));
        }
        let place = |origin| JointPlace {
            origin,
            clear: clearance(&forbidden, origin),
        };
        origins.into_iter().map(place).collect()
    }

    /// The coordinate nearest to any joint line of the row at a position, and its distance (mm) from it; `None` if there is no
    /// joint or no coordinate.
    ///
    /// ```
    /// use geometry::SheetRow;
    /// let row = SheetRow { sheets: 2, printable: 150.0, overlap: 10.0 };
    /// // The joint lies at 145 mm from the beginning.
    /// assert_eq!(row.nearest(&[0.0, 40.0], -100.0), Some((1, 5.0)));
    /// ```
    pub fn nearest(&self, coordinates: &[f64], origin: f64) -> Option<(usize, f64)> {
        self.grid().nearest(coordinates, origin)
    }

    /// Its joint lines.
    fn grid(&self) -> Grid {
        Grid {
            joints: self.sheets.saturating_sub(1),
            step: self.printable - self.overlap,
            half_overlap: self.overlap / 2.0,
        }
    }
}
