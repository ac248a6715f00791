//! The occupied parts of a drawing, and whether a small box is free.
//!
//! Names beside holes and crosses on joints test this many times. Occupied places are found by cells about as large as the
//! tested boxes, so that a test examines only a few of them; wide marks are in coarser grids, and circles only in the cells
//! that their line passes through.

use kurbo::{Circle, Point, Rect, Vec2};

/// The occupied parts of a drawing, indexed by position: boxes, and outlines of circles.
pub struct Taken {
    /// Lower left corner of the area.
    low: Point,
    /// Grids over the area, from the finest to the coarsest: each mark is in the finest one in which it takes few cells.
    grids: Vec<Grid>,
    /// The marks, once for each of their cells, in the order of adding.
    entries: Vec<Entry>,
}

/// Side of the smallest cells, mm, about the size of a name.
const CELL: f64 = 8.0;
/// The most cells side by side; for the largest board they take 2 MB.
const MOST_CELLS: f64 = 700.0;
/// Factor by which the cells of the next grid are wider.
const COARSER: f64 = 4.0;
/// The most cells that a box and an outline are wide in their grid.
const WIDE: (f64, f64) = (4.0, 16.0);
/// Overlap of neighboring cells, mm, so that no rounding puts a mark into none.
const SLACK: f64 = 1e-6;

/// Cells over the area.
struct Grid {
    /// Side of a cell, mm.
    cell: f64,
    /// Number of cells side by side, and above each other.
    columns: usize,
    rows: usize,
    /// For each cell, its last entry; entries count from 1, and 0 stands for none.
    last: Vec<u32>,
}

#[derive(Clone, Copy)]
/// A mark in the list of one cell.
struct Entry {
    /// The mark.
    what: Mark,
    /// The entry of the same cell before this one.
    before: u32,
}

#[derive(Debug, Clone, Copy)]
/// A mark that occupies space: a box, or the outline of a circle.
enum Mark {
    /// The whole of a box.
    Box(Rect),
    /// The line of a circle; inside it is free.
    Outline(Circle),
}

impl Mark {
    /// The box around it, which determines its cells.
    fn bounds(&self) -> Rect {
        match self {
            Self::Box(area) => *area,
            Self::Outline(circle) => {
                Rect::from_center_size(circle.center, (2.0 * circle.radius, 2.0 * circle.radius))
            }
        }
    }

    /// Whether it overlaps a box. A circle does unless the box is entirely inside or outside: its nearest point is no farther
    /// from the center than the radius, and its farthest corner no nearer.
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
    /// An area with nothing occupied; `count` is the approximate number of marks to come.
    pub fn new(area: Rect, count: usize) -> Self {
        let side = area.width().max(area.height());
        let mut grids = vec![Grid::new(area, (side / MOST_CELLS).max(CELL))];
        while let Some(finer) = grids.last().filter(|grid| grid.last.len() > 1) {
            let cell = COARSER * finer.cell;
            grids.push(Grid::new(area, cell));
        }
        Self {
            low: area.origin(),
            grids,
            entries: Vec::with_capacity(4 * count),
        }
    }

    /// Marks a box as occupied.
    pub fn add(&mut self, taken: Rect) {
        self.mark(Mark::Box(taken));
    }

    /// Marks the outline of a circle as occupied, but not its inside.
    pub fn add_outline(&mut self, circle: Circle) {
        self.mark(Mark::Outline(circle));
    }

    /// Adds a mark to every cell that it touches, in the finest grid where those are few.
    fn mark(&mut self, what: Mark) {
        let bounds = what.bounds();
        let side = bounds.width().max(bounds.height());
        let cells = if matches!(what, Mark::Box(_)) {
            WIDE.0
        } else {
            WIDE.1
        };
        let fine = self.grids.iter().position(|grid| side <= cells * grid.cell);
        let at = fine.unwrap_or(self.grids.len().saturating_sub(1));
        let Some(grid) = self.grids.get_mut(at) else {
            return;
        };
        for cell in grid.cells_of(bounds, self.low) {
            let is_round = matches!(what, Mark::Outline(_));
            if is_round && !what.meets(grid.area_of(cell, self.low)) {
                continue;
            }
            let Some(last) = grid.last.get_mut(cell) else {
                continue;
            };
            self.entries.push(Entry {
                what,
                before: *last,
            });
            *last = self.entries.len() as u32;
        }
    }

    /// Whether a box is free.
    pub fn is_free(&self, wanted: Rect) -> bool {
        self.grids.iter().all(|grid| {
            let mut cells = grid.cells_of(wanted, self.low);
            cells.all(|cell| self.is_free_in(grid.last.get(cell).copied(), wanted))
        })
    }

    /// Whether no mark of a cell, from its last entry back, overlaps a box.
    fn is_free_in(&self, last: Option<u32>, wanted: Rect) -> bool {
        let mut at = last.unwrap_or(0);
        while let Some(entry) = self.entries.get((at as usize).wrapping_sub(1)) {
            if entry.what.meets(wanted) {
                return false;
            }
            at = entry.before;
        }
        true
    }
}

impl Grid {
    /// Empty cells with this side over an area.
    fn new(area: Rect, cell: f64) -> Self {
        let cells = |length: f64| (length / cell) as usize + 1;
        let (columns, rows) = (cells(area.width()), cells(area.height()));
        Self {
            cell,
            columns,
            rows,
            last: vec![0; columns * rows],
        }
    }

    /// The area of a cell; cells at the border extend to infinity.
    fn area_of(&self, cell: usize, low: Point) -> Rect {
        let (column, row) = (cell % self.columns, cell / self.columns);
        let side = |place: usize, count: usize, low: f64| {
            let from = low + place as f64 * self.cell - SLACK;
            let to = from + self.cell + 2.0 * SLACK;
            let from = if place == 0 { f64::NEG_INFINITY } else { from };
            (
                from,
                if place + 1 == count {
                    f64::INFINITY
                } else {
                    to
                },
            )
        };
        let (x0, x1) = side(column, self.columns, low.x);
        let (y0, y1) = side(row, self.rows, low.y);
        Rect { x0, y0, x1, y1 }
    }

    /// The cells that an area touches; parts outside count as being in the cells at the border.
    fn cells_of(&self, area: Rect, low: Point) -> impl Iterator<Item = usize> + use<> {
        let cell = |mm: f64, end: usize| ((mm / self.cell).max(0.0) as usize).min(end - 1);
        let across = |x: f64| cell(x - low.x, self.columns);
        let up = |y: f64| cell(y - low.y, self.rows);
        let (left, right) = (across(area.x0), across(area.x1));
        let columns = self.columns;
        (up(area.y0)..=up(area.y1))
            .flat_map(move |row| (left..=right).map(move |column| row * columns + column))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    prop_compose! {
        /// A box in and around the area, from tiny to wider than the whole area.
        fn boxes()(x in -80.0..80.0_f64, y in -80.0..80.0_f64, width in 0.0..12.0_f64, wide in 0..8_u32) -> Rect {
            let width = if wide == 0 { width * 15.0 } else { width };
            Rect::new(x, y, x + width, y + width / 2.0)
        }
    }

    prop_compose! {
        /// A mark of either kind.
        fn marks()(area in boxes(), is_round in any::<bool>()) -> Mark {
            if is_round {
                Mark::Outline(Circle::new(area.center(), area.width()))
            } else {
                Mark::Box(area)
            }
        }
    }

    proptest! {
        /// The reference solution checks every mark.
        #[test]
        fn cells_give_the_same_answer_as_checking_every_mark(
            marks in prop::collection::vec(marks(), 0..30),
            asked in prop::collection::vec(boxes(), 20),
        ) {
            let mut taken = Taken::new(Rect::new(-50.0, -50.0, 50.0, 50.0), 10);
            for mark in &marks {
                taken.mark(*mark);
            }
            for wanted in asked {
                let plain = !marks.iter().any(|mark| mark.meets(wanted));
                prop_assert_eq!(taken.is_free(wanted), plain, "{:?}", wanted);
            }
        }
    }

    /// However wide a mark is, it takes few cells, so that ten thousand wide bores do not take gigabytes.
    #[test]
    fn a_wide_mark_is_in_few_cells() {
        let area = Rect::new(-2500.0, -2500.0, 2500.0, 2500.0);
        for size in [0.5, 7.0, 30.0, 100.0, 500.0, 5000.0, 50_000.0] {
            let mut taken = Taken::new(area, 1);
            taken.add(Rect::from_center_size(Point::ORIGIN, (size, size)));
            assert!(taken.entries.len() <= 36, "{size}: {}", taken.entries.len());
            let mut taken = Taken::new(area, 1);
            taken.add_outline(Circle::new(Point::ORIGIN, size));
            assert!(
                taken.entries.len() <= 160,
                "{size}: {}",
                taken.entries.len()
            );
        }
    }

    #[test]
    fn an_occupied_box_is_not_free() {
        let mut taken = Taken::new(Rect::new(-50.0, -50.0, 50.0, 50.0), 10);
        taken.add(Rect::new(-1.0, -1.0, 30.0, 2.0));
        assert!(!taken.is_free(Rect::new(20.0, 1.0, 21.0, 3.0)));
        assert!(taken.is_free(Rect::new(20.0, 2.5, 21.0, 3.0)));
        // A mark outside the area still counts.
        taken.add(Rect::new(70.0, 70.0, 80.0, 80.0));
        assert!(!taken.is_free(Rect::new(75.0, 75.0, 76.0, 76.0)));
    }

    #[test]
    fn an_outline_is_occupied_and_its_inside_is_not() {
        let mut taken = Taken::new(Rect::new(-50.0, -50.0, 50.0, 50.0), 10);
        taken.add_outline(Circle::new((5.0, 5.0), 10.0));
        assert!(taken.is_free(Rect::new(2.0, 2.0, 8.0, 8.0)));
        assert!(!taken.is_free(Rect::new(10.0, 3.0, 17.0, 6.0)));
        assert!(taken.is_free(Rect::new(15.5, 3.0, 17.0, 6.0)));
    }
}
