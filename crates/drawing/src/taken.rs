//! The taken parts of a drawing, and whether a small box is free.
//!
//! Names beside holes and crosses on joints ask this many times: what is taken is found by cells about as large as the marks, so
//! that a question looks at a few of them.

use kurbo::{Circle, Point, Rect, Vec2};

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
}
