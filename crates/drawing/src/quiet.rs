//! The quietest place on a page for a block of marks.
//!
//! Titles and bars are large, and there is hardly ever a completely free place for them: weights express which lines they may
//! cover, and which they may not.

use kurbo::{Point, Rect, Size};

/// The weight of the lines on each part of an area, by small cells.
///
/// A place is judged by the sum over its cells, so that a large and a small block are compared by what each would cover.
pub struct Quiet {
    /// Side of a cell, mm.
    cell: f64,
    /// The area searched, mm.
    area: Rect,
    /// Number of cells side by side, and above each other.
    columns: usize,
    rows: usize,
    /// The weight of the lines on each cell, row by row from the lower left.
    busy: Vec<u64>,
}

/// Weights of the lines on a cell: all the lines that a block can cover weigh less than one hole, all holes less than one name,
/// and so on.
pub mod weight {
    /// A line that guides the eye.
    pub const LINE: u64 = 1;
    /// The outline of a hole.
    pub const HOLE: u64 = 100_000;
    /// The name of a hole, which is in the hole table too.
    pub const NAME: u64 = 1_000_000_000;
    /// A cross or a mark, which must be seen.
    pub const MARK: u64 = 10_000_000_000_000;
}

/// A place for a block.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Place {
    /// Its position.
    pub block: Rect,
    /// The weight of the lines it covers.
    pub covered: u64,
}

/// Side of a cell on most paper, mm.
const CELL: f64 = 1.0;
/// The most cells along a side: on paper of several meters cells are wider.
const MOST_CELLS: f64 = 1_200.0;

impl Quiet {
    /// An area with nothing in it.
    pub fn new(area: Rect) -> Self {
        let cell = (area.width().max(area.height()) / MOST_CELLS).max(CELL);
        let cells = |length: f64| (length / cell).floor().clamp(0.0, 10_000.0) as usize;
        let (columns, rows) = (cells(area.width()), cells(area.height()));
        Self {
            area,
            cell,
            columns,
            rows,
            busy: vec![0; columns * rows],
        }
    }

    /// The area.
    pub const fn area(&self) -> Rect {
        self.area
    }

    /// Adds the weight of a box to every cell that it touches. The part outside the area is ignored.
    pub fn add(&mut self, taken: Rect, weight: u64) {
        let taken = taken.intersect(self.area);
        if taken.width() < 0.0 || taken.height() < 0.0 {
            return;
        }
        let (columns, rows) = (self.columns, self.rows);
        let low = |mm: f64| (mm / self.cell).floor().max(0.0) as usize;
        let high = |mm: f64, end: usize| ((mm / self.cell).ceil().max(0.0) as usize).min(end);
        let across = low(taken.x0 - self.area.x0)..high(taken.x1 - self.area.x0, columns);
        for row in low(taken.y0 - self.area.y0)..high(taken.y1 - self.area.y0, rows) {
            let cells = self.busy.get_mut(row * columns..(row + 1) * columns);
            for cell in cells
                .into_iter()
                .filter_map(|cells| cells.get_mut(across.clone()))
                .flatten()
            {
                *cell += weight;
            }
        }
    }

    /// The sums by which places are compared, valid until something is added.
    ///
    /// The same sums serve for every form of a block, and take one pass over all cells.
    pub fn sums(&self) -> Sums {
        let stride = self.columns + 1;
        let mut table = vec![0_u64; stride * (self.rows + 1)];
        for (row, busy) in self.busy.chunks_exact(self.columns.max(1)).enumerate() {
            let (below, above) = table.split_at_mut((row + 1) * stride);
            let below = below.get(row * stride + 1..).unwrap_or_default();
            let above = above.iter_mut().skip(1);
            let mut along = 0;
            for ((sum, below), busy) in above.zip(below).zip(busy) {
                along += busy;
                *sum = below + along;
            }
        }
        Sums {
            area: self.area,
            cell: self.cell,
            columns: self.columns,
            rows: self.rows,
            table,
        }
    }
}

/// A table of sums, from which four values give the weight of any block.
pub struct Sums {
    /// The area and its cells, as in [`Quiet`].
    area: Rect,
    cell: f64,
    columns: usize,
    rows: usize,
    /// For each corner of a cell, the sum of all cells below and to the left of it.
    table: Vec<u64>,
}

impl Sums {
    /// The quietest place for a block of a size, the one nearest to a point among equals; `None` if the block is larger than
    /// the area.
    pub fn quietest(&self, size: Size, near: Point) -> Option<Place> {
        self.quietest_in(self.area, size, near)
    }

    /// The quietest place within a part of the area that extends up to its top.
    pub fn quietest_in(&self, part: Rect, size: Size, near: Point) -> Option<Place> {
        let cells = |length: f64| (length / self.cell - 1e-9).ceil() as usize;
        let (wide, high) = (cells(size.width), cells(size.height));
        let first = cells((part.y0 - self.area.y0).max(0.0));
        if wide > self.columns || first + high > self.rows {
            return None;
        }
        let off = |row: usize, column: usize| {
            let way = self.corner(row, column) - near;
            (way.hypot2() * 16.0) as u64
        };
        let mut best: Option<(u64, u64, usize, usize)> = None;
        for row in first..=self.rows - high {
            for (column, covered) in self.along(row, wide, high).enumerate() {
                // The distance is only computed for places at least as quiet as the best so far.
                if best.is_some_and(|(least, ..)| covered > least) {
                    continue;
                }
                let off = off(row, column);
                if best.is_none_or(|(least, known, ..)| (covered, off) < (least, known)) {
                    best = Some((covered, off, row, column));
                }
            }
        }
        let (covered, _, row, column) = best?;
        Some(Place {
            block: Rect::from_origin_size(self.corner(row, column), size),
            covered,
        })
    }

    /// The lower left corner of a cell.
    fn corner(&self, row: usize, column: usize) -> Point {
        self.area.origin() + (self.cell * column as f64, self.cell * row as f64)
    }

    /// The sums over the blocks of cells that begin in a row, from the left: the table at two opposite corners of each, less
    /// that at the other two.
    fn along(&self, row: usize, wide: usize, high: usize) -> impl Iterator<Item = u64> {
        let line = |row: usize| {
            let stride = self.columns + 1;
            let line = self.table.get(row * stride..(row + 1) * stride);
            let line = line.unwrap_or_default();
            line.iter().zip(line.get(wide..).unwrap_or_default())
        };
        let corners = line(row).zip(line(row + high));
        corners.map(|((lower_left, lower_right), (upper_left, upper_right))| {
            upper_right + lower_left - lower_right - upper_left
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_quietest_place_avoids_the_heaviest_marks() {
        let area = Rect::new(10.0, 10.0, 110.0, 60.0);
        let mut quiet = Quiet::new(area);
        quiet.add(Rect::new(10.0, 10.0, 60.0, 60.0), weight::LINE);
        let size = Size::new(30.0, 20.0);
        let corner = Point::new(10.0, 10.0);
        let place = quiet.sums().quietest(size, corner).unwrap();
        assert!(
            place.block.x0 >= 60.0 && place.block.x1 <= 110.0,
            "{place:?}"
        );
        assert_eq!(place.covered, 0);
        quiet.add(Rect::new(60.0, 10.0, 110.0, 60.0), weight::MARK);
        let second = quiet.sums().quietest(size, corner).unwrap();
        assert!(
            second.block.x1 <= 60.0 && second.covered == 600,
            "{second:?}"
        );
        let wide = quiet.sums().quietest(Size::new(101.0, 5.0), Point::ORIGIN);
        assert!(wide.is_none());
    }

    /// The reference solution checks each cell of each place.
    #[test]
    fn the_quietest_place_matches_a_cell_by_cell_search() {
        let area = Rect::new(0.0, 0.0, 40.0, 30.0);
        let mut quiet = Quiet::new(area);
        for at in 0..60_u32 {
            let (x, y) = (f64::from(at * 7 % 40), f64::from(at * 11 % 30));
            quiet.add(Rect::new(x, y, x + 3.0, y + 2.0), u64::from(at % 5));
        }
        let near = Point::new(40.0, 30.0);
        for (wide, high) in [(1, 1), (7, 5), (40, 30)] {
            let places =
                (0..=30 - high).flat_map(|row| (0..=40 - wide).map(move |column| (row, column)));
            let plain = places.map(|(row, column)| {
                let rows = quiet.busy.chunks(40).skip(row).take(high);
                let covered: u64 = rows.flat_map(|row| &row[column..column + wide]).sum();
                let off = Point::new(column as f64, row as f64).distance_squared(near);
                (covered, (off * 16.0) as u64)
            });
            let size = Size::new(wide as f64, high as f64);
            let place = quiet.sums().quietest(size, near).unwrap();
            let off = place.block.origin().distance_squared(near) * 16.0;
            assert_eq!(plain.min(), Some((place.covered, off as u64)));
        }
    }

    #[test]
    fn a_roll_of_five_meters_has_no_more_cells_than_a_large_sheet() {
        let quiet = Quiet::new(Rect::new(0.0, 0.0, 5_000.0, 5_000.0));
        assert_eq!(quiet.busy.len(), 1_200 * 1_200);
    }
}
