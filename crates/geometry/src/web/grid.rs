//! Discs sorted into square cells, row by row, by counting sort.
//!
//! There are about as many cells as discs. Two discs whose cells are more than k apart in a row or column are more than k cell
//! sides apart, center to center; that gives the number of surrounding cells to check.

use super::{Disc, SLACK, Web};

/// A grid of cells; created only if the discs are spread evenly enough.
pub(super) struct Grid {
    side: f64,
    columns: usize,
    rows: usize,
    /// The index in `discs` where each cell begins, and the end of the last.
    starts: Vec<u32>,
    discs: Vec<Disc>,
    /// The sum of the two largest radii.
    widest: f64,
}

/// With more surrounding cells than this, the tree is faster.
const MOST_AROUND: f64 = 3.0;

/// Pairs to compare within cells, per disc, beyond which the discs are too crowded for a grid.
const MOST_CROWDED: u64 = 24;

impl Grid {
    /// `None` if many discs crowd into few cells.
    pub(super) fn new(discs: &[Disc]) -> Option<Self> {
        let frame = Frame::around(discs)?;
        let mut starts = vec![0_u32; frame.columns * frame.rows + 1];
        let cells: Vec<u32> = discs.iter().map(|disc| frame.cell(disc)).collect();
        for cell in &cells {
            *starts.get_mut(*cell as usize)? += 1;
        }
        let crowd: u64 = starts.iter().map(|count| u64::from(*count).pow(2)).sum();
        if crowd > MOST_CROWDED * discs.len() as u64 {
            return None;
        }
        // Counts become ends; filling from the back turns them into starts.
        let mut end = 0;
        for start in &mut starts {
            end += *start;
            *start = end;
        }
        let mut sorted = discs.to_vec();
        for (disc, cell) in discs.iter().zip(&cells).rev() {
            let start = starts.get_mut(*cell as usize)?;
            *start -= 1;
            *sorted.get_mut(*start as usize)? = *disc;
        }
        Some(Self {
            side: frame.side,
            columns: frame.columns,
            rows: frame.rows,
            starts,
            discs: sorted,
            widest: two_widest(discs),
        })
    }

    /// The smallest web; `None` if it needs more surrounding cells than a grid is good for.
    pub(super) fn smallest(&self) -> Option<Web> {
        let mut best = Best {
            mm: f64::INFINITY,
            pair: None,
        };
        self.each_pair(1, |one, other| best.offer(one, other));
        let around = self.around(best.mm)?;
        if around > 1 {
            self.each_pair(around, |one, other| best.offer(one, other));
        }
        let (one, other) = best.pair?;
        Some(one.pair(&other, best.mm))
    }

    /// All webs under the limit, unsorted; `None` if it needs more surrounding cells than a grid is good for.
    pub(super) fn close(&self, limit: f64) -> Option<Vec<Web>> {
        let mut webs = Vec::new();
        let around = self.around(limit)?;
        self.each_pair(around, |one, other| {
            if one.may_be_within(other, limit) {
                let mm = one.web_to(other);
                if mm < limit {
                    webs.push(one.pair(other, mm));
                }
            }
        });
        Some(webs)
    }

    /// Number of surrounding cells that contain every disc whose web may be under the limit.
    fn around(&self, limit: f64) -> Option<usize> {
        let around = ((limit + self.widest) / (self.side * (1.0 - 1e-9))).ceil();
        // NaN is left to the tree, too.
        (around <= MOST_AROUND).then_some(around.max(1.0) as usize)
    }

    /// Every pair, once, of discs whose cells are at most `around` apart in row and column.
    fn each_pair(&self, around: usize, mut visit: impl FnMut(&Disc, &Disc)) {
        for row in 0..self.rows {
            for column in 0..self.columns {
                let (from, to) = self.run(row, column, column);
                if from == to {
                    continue;
                }
                let (left, right) = (column.saturating_sub(around), column + around);
                let (_, end) = self.run(row, column, right);
                let own = self.discs.get(from..end).unwrap_or_default();
                for (at, one) in own.iter().enumerate().take(to - from) {
                    for other in own.iter().skip(at + 1) {
                        visit(one, other);
                    }
                }
                let cell = self.discs.get(from..to).unwrap_or_default();
                for above in row + 1..self.rows.min(row + around + 1) {
                    let (from, to) = self.run(above, left, right);
                    let others = self.discs.get(from..to).unwrap_or_default();
                    for one in cell {
                        for other in others {
                            visit(one, other);
                        }
                    }
                }
            }
        }
    }

    /// The range of discs in a row's cells from `left` to `right`.
    fn run(&self, row: usize, left: usize, right: usize) -> (usize, usize) {
        let start = |column: usize| {
            let cell = row * self.columns + column.min(self.columns);
            self.starts.get(cell).map_or(0, |start| *start as usize)
        };
        (start(left), start(right + 1))
    }
}

/// The smallest web so far.
struct Best {
    mm: f64,
    pair: Option<(Disc, Disc)>,
}

impl Best {
    fn offer(&mut self, one: &Disc, other: &Disc) {
        if one.may_be_within(other, self.mm) {
            let mm = one.web_to(other);
            if mm < self.mm {
                *self = Self {
                    mm,
                    pair: Some((*one, *other)),
                };
            }
        }
    }
}

/// The position and number of the cells.
struct Frame {
    left: f64,
    bottom: f64,
    side: f64,
    columns: usize,
    rows: usize,
}

impl Frame {
    /// About one cell per disc, however flat their bounding box is; `None` without discs.
    fn around(discs: &[Disc]) -> Option<Self> {
        let first = discs.first()?.center;
        let (mut low, mut high) = (first, first);
        for Disc { center, .. } in discs {
            low.x = low.x.min(center.x);
            low.y = low.y.min(center.y);
            high.x = high.x.max(center.x);
            high.y = high.y.max(center.y);
        }
        let (width, height) = (high.x - low.x, high.y - low.y);
        let count = discs.len() as f64;
        let side = (width * height / count)
            .sqrt()
            .max((width + height) / count);
        let side = if side > 0.0 { side } else { 1.0 };
        Some(Self {
            left: low.x,
            bottom: low.y,
            side,
            columns: (width / side) as usize + 1,
            rows: (height / side) as usize + 1,
        })
    }

    fn cell(&self, disc: &Disc) -> u32 {
        let column = ((disc.center.x - self.left) / self.side) as usize;
        let row = ((disc.center.y - self.bottom) / self.side) as usize;
        (row.min(self.rows - 1) * self.columns + column.min(self.columns - 1)) as u32
    }
}

fn two_widest(discs: &[Disc]) -> f64 {
    let (mut first, mut second) = (f64::NEG_INFINITY, f64::NEG_INFINITY);
    for disc in discs {
        if disc.radius > first {
            (first, second) = (disc.radius, first);
        } else {
            second = second.max(disc.radius);
        }
    }
    (first + second) * (1.0 + SLACK)
}
