//! Free places on a drawing: boxes that are taken, and the quietest spot for a block of marks.

use kurbo::{Point, Rect, Size};

/// Boxes that are taken, looked up by place.
pub struct Boxes {
    cell: f64,
    cells: std::collections::HashMap<(i64, i64), Vec<Rect>>,
}

impl Boxes {
    /// No boxes yet; `reach` is about the size of the boxes to come, mm.
    pub fn new(reach: f64) -> Self {
        Self {
            cell: reach.max(1.0),
            cells: std::collections::HashMap::new(),
        }
    }

    /// Takes a box.
    pub fn add(&mut self, taken: Rect) {
        for cell in self.cells_of(taken) {
            self.cells.entry(cell).or_default().push(taken);
        }
    }

    /// Whether nothing that is taken meets a box.
    pub fn is_free(&self, wanted: Rect) -> bool {
        let meets = |taken: &Rect| taken.overlaps(wanted);
        self.cells_of(wanted).all(|cell| {
            self.cells
                .get(&cell)
                .is_none_or(|boxes| !boxes.iter().any(meets))
        })
    }

    fn cells_of(&self, area: Rect) -> impl Iterator<Item = (i64, i64)> + use<> {
        let cell = |mm: f64| (mm / self.cell).floor() as i64;
        let rows = cell(area.y0)..=cell(area.y1);
        let columns = cell(area.x0)..=cell(area.x1);
        rows.flat_map(move |row| columns.clone().map(move |column| (column, row)))
    }
}

/// How busy each part of an area is, as a table of sums over small cells.
pub struct Quiet {
    area: Rect,
    columns: usize,
    rows: usize,
    busy: Vec<u32>,
}

/// Side of a cell, mm.
const CELL: f64 = 2.0;

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

    /// Marks a box as busy.
    pub fn add(&mut self, taken: Rect) {
        let taken = taken.intersect(self.area);
        if taken.is_zero_area() && (taken.width() < 0.0 || taken.height() < 0.0) {
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
                *cell += 1;
            }
        }
    }

    /// The quietest place for a block of a size, nearest to a corner among equals, and marks it as busy;
    /// none where the block is larger than the area.
    pub fn take(&mut self, size: Size, near: Point) -> Option<Rect> {
        let cells = |length: f64| (length / CELL).ceil() as usize;
        let (wide, high) = (cells(size.width), cells(size.height));
        if wide > self.columns || high > self.rows {
            return None;
        }
        let sums = self.sums();
        let places = (0..=self.rows - high)
            .flat_map(|row| (0..=self.columns - wide).map(move |column| (column, row)));
        let best = places.min_by_key(|&(column, row)| {
            let corner = self.corner(column, row);
            (
                sums.over(column, row, wide, high),
                (corner.distance_squared(near) * 16.0) as u64,
            )
        })?;
        let place = Rect::from_origin_size(self.corner(best.0, best.1), size);
        self.add(place);
        Some(place)
    }

    fn corner(&self, column: usize, row: usize) -> Point {
        self.area.origin() + (CELL * column as f64, CELL * row as f64)
    }

    /// Sums over all cells below and left of each corner.
    fn sums(&self) -> Sums {
        let stride = self.columns + 1;
        let mut table = vec![0_u32; stride * (self.rows + 1)];
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
        Sums { table, stride }
    }
}

/// A table of sums, from which the sum over any block takes four looks.
struct Sums {
    table: Vec<u32>,
    stride: usize,
}

impl Sums {
    fn over(&self, column: usize, row: usize, wide: usize, high: usize) -> u32 {
        let at = |column: usize, row: usize| {
            self.table
                .get(row * self.stride + column)
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
    fn a_taken_box_is_not_free() {
        let mut boxes = Boxes::new(5.0);
        boxes.add(Rect::new(-1.0, -1.0, 30.0, 2.0));
        assert!(!boxes.is_free(Rect::new(20.0, 1.0, 21.0, 3.0)));
        assert!(boxes.is_free(Rect::new(20.0, 2.5, 21.0, 3.0)));
    }

    #[test]
    fn the_quietest_place_avoids_what_is_there() {
        let area = Rect::new(10.0, 10.0, 110.0, 60.0);
        let mut quiet = Quiet::new(area);
        quiet.add(Rect::new(10.0, 10.0, 60.0, 60.0));
        let place = quiet
            .take(Size::new(30.0, 20.0), Point::new(10.0, 10.0))
            .unwrap();
        assert!(place.x0 >= 60.0 && place.x1 <= 110.0, "{place:?}");
        let second = quiet
            .take(Size::new(30.0, 20.0), Point::new(10.0, 10.0))
            .unwrap();
        assert!(!second.inset(-0.1).overlaps(place), "{second:?}");
        assert!(quiet.take(Size::new(101.0, 5.0), Point::ORIGIN).is_none());
    }
}
