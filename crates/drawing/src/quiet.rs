//! Free places on a drawing: what is taken, and the quietest spot for a block of marks.
//!
//! [`Taken`] answers whether a small box is free, for names beside holes: what is taken is found by cells about as large as the
//! marks, so that a question looks at a few of them. [`Quiet`] finds the place of a page where a large block covers the least,
//! for titles and bars: there is hardly ever a place that is quite free.

use kurbo::{Circle, Point, Rect, Size, Vec2};

/// The taken parts of a drawing, looked up by place: boxes, and outlines of circles.
pub struct Taken {
    /// Lower left corner of the area.
    low: Point,
    /// Side of a cell, mm.
    cell: f64,
    /// Number of cells side by side, and above each other.
    columns: usize,
    rows: usize,
    /// For each cell the last of its entries; 0 for none, so that entries count from 1.
    last: Vec<u32>,
    /// The marks, once for each cell that they touch, in the order in which they came.
    entries: Vec<Entry>,
}

#[derive(Clone, Copy)]
/// A mark in the list of one cell.
struct Entry {
    /// The mark.
    what: Mark,
    /// The entry of the same cell before this one.
    before: u32,
}

#[derive(Clone, Copy)]
/// A mark that takes room: a box, or the outline of a circle.
enum Mark {
    /// All of a box.
    Box(Rect),
    /// The line of a circle; inside it is free.
    Outline(Circle),
}

impl Mark {
    /// The box around it, which says to which cells it counts.
    fn bounds(&self) -> Rect {
        match self {
            Self::Box(area) => *area,
            Self::Outline(circle) => {
                Rect::from_center_size(circle.center, (2.0 * circle.radius, 2.0 * circle.radius))
            }
        }
    }

    /// Whether it leaves no room for a box. A circle does where the box is neither all inside nor all outside: its nearest point
    /// is no farther from the center than the radius, and its farthest corner no nearer.
    fn meets(&self, wanted: Rect) -> bool {
        match self {
            Self::Box(area) => area.overlaps(wanted),
            Self::Outline(circle) => {
                nearest(wanted, circle.center) <= circle.radius
                    && farthest(wanted, circle.center) >= circle.radius
            }
        }
    }
}

/// Distance from a point to the nearest point of a box.
pub fn nearest(area: Rect, from: Point) -> f64 {
    let x = from.x.clamp(area.x0, area.x1);
    let y = from.y.clamp(area.y0, area.y1);
    Point::new(x, y).distance(from)
}

/// Distance from a point to the farthest corner of a box.
pub fn farthest(area: Rect, from: Point) -> f64 {
    let away = |low: f64, high: f64, at: f64| (at - low).abs().max((high - at).abs());
    Vec2::new(
        away(area.x0, area.x1, from.x),
        away(area.y0, area.y1, from.y),
    )
    .length()
}

impl Taken {
    /// Nothing taken in an area yet; `reach` is about the size of the marks to come, `count` their number.
    pub fn new(area: Rect, reach: f64, count: usize) -> Self {
        let spread = (area.area() / (4.0 * count.max(1) as f64)).sqrt();
        let cell = reach.max(spread).max(1.0);
        let cells = |length: f64| (length / cell) as usize + 1;
        let (columns, rows) = (cells(area.width()), cells(area.height()));
        let last = vec![0; columns * rows];
        Self {
            low: area.origin(),
            cell,
            columns,
            rows,
            last,
            entries: Vec::with_capacity(4 * count),
        }
    }

    /// Takes a box.
    pub fn add(&mut self, taken: Rect) {
        self.mark(Mark::Box(taken));
    }

    /// Takes the outline of a circle, not what is inside.
    pub fn add_outline(&mut self, circle: Circle) {
        self.mark(Mark::Outline(circle));
    }

    /// Adds what is taken to every cell that it touches.
    fn mark(&mut self, what: Mark) {
        for cell in self.cells_of(what.bounds()) {
            let Some(last) = self.last.get_mut(cell) else {
                continue;
            };
            self.entries.push(Entry {
                what,
                before: *last,
            });
            *last = self.entries.len() as u32;
        }
    }

    /// Whether nothing that is taken meets a box.
    pub fn is_free(&self, wanted: Rect) -> bool {
        self.cells_of(wanted).all(|cell| {
            let mut at = self.last.get(cell).copied().unwrap_or(0);
            while let Some(entry) = self.entries.get((at as usize).wrapping_sub(1)) {
                if entry.what.meets(wanted) {
                    return false;
                }
                at = entry.before;
            }
            true
        })
    }

    /// The cells that an area touches; what lies outside counts to the cells at the border.
    fn cells_of(&self, area: Rect) -> impl Iterator<Item = usize> + use<> {
        let cell = |mm: f64, end: usize| ((mm / self.cell).max(0.0) as usize).min(end - 1);
        let across = |x: f64| cell(x - self.low.x, self.columns);
        let up = |y: f64| cell(y - self.low.y, self.rows);
        let (left, right) = (across(area.x0), across(area.x1));
        let columns = self.columns;
        (up(area.y0)..=up(area.y1))
            .flat_map(move |row| (left..=right).map(move |column| row * columns + column))
    }
}

/// The ink on each part of an area, as a table of sums over small cells.
pub struct Quiet {
    /// The area that is looked at, mm.
    area: Rect,
    /// Number of cells side by side, and above each other.
    columns: usize,
    rows: usize,
    /// The ink on each cell, row by row from the lower left.
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

    /// Marks a box as busy: every cell that it touches counts one more. What lies outside the area is cut off.
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
    ///
    /// All places on the grid of cells are compared, each by four looks into a table of sums.
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
        // Marks on marks are worse than marks on the drawing.
        (0..64).for_each(|_| self.add(place));
        Some(place)
    }

    /// The lower left corner of a cell.
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
    /// For each corner of a cell the sum of all cells below and to the left of it.
    table: Vec<u32>,
    /// Corners in a row.
    stride: usize,
}

impl Sums {
    /// The sum over a block of cells: the table at its two outer corners, less that at the other two.
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
        let mut taken = Taken::new(Rect::new(-50.0, -50.0, 50.0, 50.0), 5.0, 10);
        taken.add(Rect::new(-1.0, -1.0, 30.0, 2.0));
        assert!(!taken.is_free(Rect::new(20.0, 1.0, 21.0, 3.0)));
        assert!(taken.is_free(Rect::new(20.0, 2.5, 21.0, 3.0)));
        // Outside the area it still counts.
        taken.add(Rect::new(70.0, 70.0, 80.0, 80.0));
        assert!(!taken.is_free(Rect::new(75.0, 75.0, 76.0, 76.0)));
    }

    #[test]
    fn an_outline_is_taken_and_its_inside_is_not() {
        let mut taken = Taken::new(Rect::new(-50.0, -50.0, 50.0, 50.0), 20.0, 10);
        taken.add_outline(Circle::new((5.0, 5.0), 10.0));
        assert!(taken.is_free(Rect::new(2.0, 2.0, 8.0, 8.0)));
        assert!(!taken.is_free(Rect::new(10.0, 3.0, 17.0, 6.0)));
        assert!(taken.is_free(Rect::new(15.5, 3.0, 17.0, 6.0)));
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
