//! The quietest place on a page for a block of marks.
//!
//! Titles and bars are large, and there is hardly ever a place for them that is quite free: what they may cover, and what not at
//! any price, is told by weights.

use kurbo::{Point, Rect, Size};

/// The weight of what lies on each part of an area, by small cells.
///
/// A place is judged by the sum over its cells, so that a large block is compared with a small one by what each would cover.
pub struct Quiet {
    /// The area that is looked at, mm.
    area: Rect,
    /// Number of cells side by side, and above each other.
    columns: usize,
    rows: usize,
    /// The weight of what lies on each cell, row by row from the lower left.
    busy: Vec<u64>,
}

/// Weights of what may lie on a cell: all the lines that a block can cover weigh less than a hole, and so on up.
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
    /// Where it lies.
    pub block: Rect,
    /// The weight of what it covers.
    pub covered: u64,
}

/// Side of a cell, mm.
const CELL: f64 = 1.0;

impl Quiet {
    /// Nothing in the area yet.
    pub fn new(area: Rect) -> Self {
        let cells = |length: f64| (length / CELL).floor().clamp(0.0, 10_000.0) as usize;
        let (columns, rows) = (cells(area.width()), cells(area.height()));
        Self {
            area,
            columns,
            rows,
            busy: vec![0; columns * rows],
        }
    }

    /// Adds the weight of a box to every cell that it touches. What lies outside the area is cut off.
    pub fn add(&mut self, taken: Rect, weight: u64) {
        let taken = taken.intersect(self.area);
        if taken.width() < 0.0 || taken.height() < 0.0 {
            return;
        }
        let (columns, rows) = (self.columns, self.rows);
        let low = |mm: f64| (mm / CELL).floor().max(0.0) as usize;
        let high = |mm: f64, end: usize| ((mm / CELL).ceil().max(0.0) as usize).min(end);
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

    /// The sums that places are compared by, until something is added.
    ///
    /// Every form of a block is looked for in the same sums, which take one walk over all cells.
    pub fn sums(&self) -> Sums {
        let stride = self.columns + 1;
        let mut table = vec![0_u64; stride * (self.rows + 1)];
        for row in 0..self.rows {
            let mut along = 0;
            for column in 0..self.columns {
                along += self
                    .busy
                    .get(row * self.columns + column)
                    .copied()
                    .unwrap_or(0);
                let below = table.get(row * stride + column + 1).copied().unwrap_or(0);
                if let Some(sum) = table.get_mut((row + 1) * stride + column + 1) {
                    *sum = below + along;
                }
            }
        }
        Sums {
            area: self.area,
            columns: self.columns,
            rows: self.rows,
            table,
        }
    }
}

/// A table of sums, from which the weight of any block takes four looks.
pub struct Sums {
    /// The area and its cells, as in [`Quiet`].
    area: Rect,
    columns: usize,
    rows: usize,
    /// For each corner of a cell the sum of all cells below and to the left of it.
    table: Vec<u64>,
}

impl Sums {
    /// The quietest place for a block of a size, nearest to a corner among equals; none where the block is larger than the area.
    pub fn quietest(&self, size: Size, near: Point) -> Option<Place> {
        self.quietest_in(self.area, size, near)
    }

    /// The same within a part of the area that reaches up to its top.
    pub fn quietest_in(&self, part: Rect, size: Size, near: Point) -> Option<Place> {
        let cells = |length: f64| (length / CELL - 1e-9).ceil() as usize;
        let (wide, high) = (cells(size.width), cells(size.height));
        let first = cells((part.y0 - self.area.y0).max(0.0));
        if wide > self.columns || first + high > self.rows {
            return None;
        }
        let places = (first..=self.rows - high)
            .flat_map(|row| (0..=self.columns - wide).map(move |column| (column, row)));
        let weighed = places.map(|(column, row)| {
            let covered = self.over(column, row, wide, high);
            let corner = self.area.origin() + (CELL * column as f64, CELL * row as f64);
            (covered, corner)
        });
        let off = |corner: Point| (corner.distance_squared(near) * 16.0) as u64;
        let (covered, corner) = weighed.min_by_key(|(covered, corner)| (*covered, off(*corner)))?;
        Some(Place {
            block: Rect::from_origin_size(corner, size),
            covered,
        })
    }

    /// The sum over a block of cells: the table at its two outer corners, less that at the other two.
    fn over(&self, column: usize, row: usize, wide: usize, high: usize) -> u64 {
        let at = |column: usize, row: usize| {
            self.table
                .get(row * (self.columns + 1) + column)
                .copied()
                .unwrap_or(0)
        };
        at(column + wide, row + high) + at(column, row)
            - at(column + wide, row)
            - at(column, row + high)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_quietest_place_avoids_what_weighs_most() {
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
}
