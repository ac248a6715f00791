//! The grid of sheets over a plan, and which of its sheets can be dropped.

use kurbo::{Point, Rect, Size};

use super::Tile;
use super::cut::FUZZ;

/// Sheets in columns and rows over a plan; rows are counted from the top.
#[derive(Debug, Clone, Copy)]
pub struct Grid {
    /// Lower left corner of the lower left sheet's printable part, in the board frame.
    pub first: Point,
    /// Printable size of each sheet, mm.
    pub printable: Size,
    /// Overlap of neighbors, mm.
    pub overlap: f64,
    /// Sheets side by side.
    pub columns: u32,
    /// Sheets above each other.
    pub rows: u32,
}

/// The kept sheets of a grid, row by row from the top left.
#[derive(Debug, Clone, Default)]
pub struct Kept {
    flags: Vec<bool>,
    columns: u32,
    rows: u32,
    count: usize,
}

impl Kept {
    /// Keeps all sheets of a grid again.
    fn reset(&mut self, grid: &Grid) {
        (self.columns, self.rows) = (grid.columns, grid.rows);
        self.count = (grid.columns * grid.rows) as usize;
        self.flags.clear();
        self.flags.resize(self.count, true);
    }

    /// Whether a sheet is kept; false outside the grid.
    fn has(&self, column: i64, row: i64) -> bool {
        let on = (0..i64::from(self.columns)).contains(&column)
            && (0..i64::from(self.rows)).contains(&row);
        let at = (row * i64::from(self.columns) + column) as usize;
        on && self.flags.get(at).copied().unwrap_or(false)
    }

    /// Whether the sheets to the left, to the right, above and below are kept.
    fn neighbors(&self, column: i64, row: i64) -> [bool; 4] {
        [(-1, 0), (1, 0), (0, -1), (0, 1)].map(|(x, y)| self.has(column + x, row + y))
    }

    /// Drops a sheet.
    fn spare(&mut self, column: i64, row: i64) {
        let at = (row * i64::from(self.columns) + column) as usize;
        if let Some(flag) = self.flags.get_mut(at) {
            *flag = false;
            self.count -= 1;
        }
    }

    /// The number of kept sheets.
    pub const fn count(&self) -> usize {
        self.count
    }
}

impl Grid {
    /// The part of the board that a sheet can show.
    fn window(&self, column: u32, row: u32) -> Rect {
        let steps = Size::new(
            self.printable.width - self.overlap,
            self.printable.height - self.overlap,
        );
        let up = f64::from(self.rows - 1 - row);
        let corner = self.first + (steps.width * f64::from(column), steps.height * up);
        Rect::from_origin_size(corner, self.printable)
    }

    /// The area that the grid covers.
    pub fn area(&self) -> Rect {
        self.window(0, self.rows - 1)
            .union(self.window(self.columns - 1, 0))
    }

    /// The sheets that are needed because something is on them that no other sheet shows.
    pub fn kept(&self, is_on: &dyn Fn(Rect) -> bool) -> Kept {
        let mut kept = Kept::default();
        self.keep(is_on, &mut kept);
        kept
    }

    /// Finds the sheets that are needed because something is on them that no other sheet shows.
    ///
    /// Sheets are tried from the corners inward, and one is dropped only if the others stay joined side to side: the taped
    /// template must not fall into two.
    pub fn keep(&self, is_on: &dyn Fn(Rect) -> bool, kept: &mut Kept) {
        kept.reset(self);
        let (right, low) = (i64::from(self.columns) - 1, i64::from(self.rows) - 1);
        let mut next = vec![(0, 0), (right, 0), (0, low), (right, low)];
        while let Some((x, y)) = next.pop() {
            let is_spare = kept.has(x, y) && self.own(kept, x, y).is_some_and(|own| !is_on(own));
            if is_spare {
                kept.spare(x, y);
                next.extend([(x - 1, y), (x + 1, y), (x, y - 1), (x, y + 1)]);
            }
        }
    }

    /// The area that only this sheet shows, where it is at the end of a row and of a column and its neighbors are joined
    /// without it; none for a sheet that joins others.
    fn own(&self, kept: &Kept, x: i64, y: i64) -> Option<Rect> {
        let [left, right, above, below] = kept.neighbors(x, y);
        if (left && right) || (above && below) {
            return None;
        }
        let (beside, level) = (left || right, above || below);
        let corner = (
            x + i64::from(right) - i64::from(left),
            y + i64::from(below) - i64::from(above),
        );
        let joined = !(beside && level) || kept.has(corner.0, corner.1);
        (joined && (beside || level)).then(|| self.alone(kept, x, y))
    }

    /// The part of a sheet's window that no kept neighbor shows.
    fn alone(&self, kept: &Kept, x: i64, y: i64) -> Rect {
        let window = self.window(x as u32, y as u32);
        let [left, right, above, below] = kept
            .neighbors(x, y)
            .map(|has| if has { self.overlap } else { 0.0 });
        Rect::new(
            window.x0 + left,
            window.y0 + below,
            window.x1 - right,
            window.y1 - above,
        )
    }

    /// Whether any part of a drawing is on no kept sheet: beyond the grid, or where a sheet was dropped.
    pub fn loses(&self, kept: &Kept, bounds: Rect, is_on: &dyn Fn(Rect) -> bool) -> bool {
        if !self.area().inflate(FUZZ, FUZZ).contains_rect(bounds) {
            return true;
        }
        let mut places = self.places();
        places.any(|(column, row)| {
            let (x, y) = (i64::from(column), i64::from(row));
            !kept.has(x, y) && is_on(self.alone(kept, x, y))
        })
    }

    /// The indices of the grid, row by row from the top left.
    fn places(&self) -> impl Iterator<Item = (u32, u32)> + use<> {
        let columns = self.columns;
        (0..self.rows).flat_map(move |row| (0..columns).map(move |column| (column, row)))
    }

    /// The kept sheets, renumbered from the first row and column that have any, and the grid that is left of this one.
    pub fn tiles(&self, kept: &Kept) -> (Self, Vec<Tile>) {
        let places: Vec<(u32, u32)> = self
            .places()
            .filter(|(column, row)| kept.has(i64::from(*column), i64::from(*row)))
            .collect();
        let ends = |of: fn(&(u32, u32)) -> u32| {
            let all = places.iter().map(of);
            (all.clone().min().unwrap_or(0), all.max().unwrap_or(0))
        };
        let ((left, right), (top, bottom)) = (ends(|at| at.0), ends(|at| at.1));
        let left_over = Self {
            first: self.window(left, bottom).origin(),
            columns: right - left + 1,
            rows: bottom - top + 1,
            ..*self
        };
        let tile = |(column, row)| Tile {
            column: column - left,
            row: row - top,
            window: self.window(column, row),
        };
        (left_over, places.into_iter().map(tile).collect())
    }
}
