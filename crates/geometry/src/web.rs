//! Webs: the wood left between bores, found through a grid of cells.
//!
//! Circles are sorted into square cells about as large as their spacing, and each one looks only as far
//! around itself as could still matter. Circles that are not finite are passed over.

use crate::{Circle, Point};

/// The wood between two circles of a list.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Web {
    /// The place of the one in the list.
    pub a: usize,
    /// The place of the other, after `a`.
    pub b: usize,
    /// Wood between them in mm; negative where they overlap.
    pub mm: f64,
}

/// The thinnest web of all, the first of equals; none with fewer than two circles.
///
/// ```
/// use geometry::{Circle, smallest_web};
/// let bores = [Circle::new((0.0, 0.0), 5.0), Circle::new((16.0, 0.0), 4.0), Circle::new((0.0, 30.0), 5.0)];
/// assert_eq!(smallest_web(&bores).map(|web| (web.a, web.b, web.mm)), Some((0, 1, 7.0)));
/// ```
pub fn smallest_web(circles: &[Circle]) -> Option<Web> {
    let grid = Grid::new(circles)?;
    let mut best: Option<Web> = None;
    for a in 0..circles.len() {
        let mut bound = best.map_or(f64::INFINITY, |web| web.mm);
        grid.look_around(a, bound, |b, mm| {
            if b > a && mm < bound {
                bound = mm;
                best = Some(Web { a, b, mm });
            }
            bound
        });
    }
    best
}

/// Every web thinner than `limit` (mm), thinnest first, then by place in the list.
///
/// ```
/// use geometry::{Circle, close_webs};
/// let bores = [Circle::new((0.0, 0.0), 5.0), Circle::new((12.0, 0.0), 5.0), Circle::new((0.0, 30.0), 5.0)];
/// assert_eq!(close_webs(&bores, 3.0).len(), 1);
/// ```
pub fn close_webs(circles: &[Circle], limit: f64) -> Vec<Web> {
    let mut webs = Vec::new();
    let Some(grid) = Grid::new(circles) else {
        return webs;
    };
    for a in 0..circles.len() {
        grid.look_around(a, limit, |b, mm| {
            if b > a && mm < limit {
                webs.push(Web { a, b, mm });
            }
            limit
        });
    }
    webs.sort_unstable_by(|x, y| x.mm.total_cmp(&y.mm).then((x.a, x.b).cmp(&(y.a, y.b))));
    webs
}

/// For each circle its thinnest web to another, the first of equals; `a` is the circle itself.
pub fn nearest_webs(circles: &[Circle]) -> Vec<Option<Web>> {
    let Some(grid) = Grid::new(circles) else {
        return vec![None; circles.len()];
    };
    let nearest = |a| {
        let mut best: Option<Web> = None;
        grid.look_around(a, f64::INFINITY, |b, mm| {
            let thinner = best.is_none_or(|web| mm < web.mm || (mm == web.mm && b < web.b));
            if thinner {
                best = Some(Web { a, b, mm });
            }
            best.map_or(f64::INFINITY, |web| web.mm)
        });
        best
    };
    (0..circles.len()).map(nearest).collect()
}

/// Circles sorted into square cells by their centers.
struct Grid<'a> {
    circles: &'a [Circle],
    low: Point,
    cell: f64,
    columns: usize,
    rows: usize,
    /// Where each cell begins in `sorted`; one more than there are cells.
    starts: Vec<u32>,
    sorted: Vec<u32>,
    largest: f64,
}

fn is_sound(circle: &Circle) -> bool {
    circle.center.is_finite() && circle.radius.is_finite()
}

impl<'a> Grid<'a> {
    /// None where fewer than two circles are sound.
    fn new(circles: &'a [Circle]) -> Option<Self> {
        let sound = || circles.iter().filter(|circle| is_sound(circle));
        let count = sound().count();
        if count < 2 {
            return None;
        }
        let first = sound().next()?.center;
        let (mut low, mut high, mut largest) = (first, first, 0.0_f64);
        for circle in sound() {
            low = Point::new(low.x.min(circle.center.x), low.y.min(circle.center.y));
            high = Point::new(high.x.max(circle.center.x), high.y.max(circle.center.y));
            largest = largest.max(circle.radius);
        }
        let (width, height) = (high.x - low.x, high.y - low.y);
        // About two circles a cell; a line of them still gets no more cells than circles.
        let count = count as f64;
        let cell = (2.0 * width * height / count)
            .sqrt()
            .max(2.0 * (width + height) / count)
            .max(f64::MIN_POSITIVE);
        let cells = |length: f64| (length / cell) as usize + 1;
        let (columns, rows) = (cells(width), cells(height));
        let mut grid = Self {
            circles,
            low,
            cell,
            columns,
            rows,
            starts: Vec::new(),
            sorted: Vec::new(),
            largest,
        };
        grid.sort();
        Some(grid)
    }

    /// Sorts the circles into their cells by counting.
    fn sort(&mut self) {
        let cells: Vec<Option<u32>> = self
            .circles
            .iter()
            .map(|circle| self.cell_of(circle))
            .collect();
        let mut starts = vec![0_u32; self.columns * self.rows + 1];
        for &cell in cells.iter().flatten() {
            if let Some(start) = starts.get_mut(cell as usize + 1) {
                *start += 1;
            }
        }
        let mut sum = 0;
        for start in &mut starts {
            sum += *start;
            *start = sum;
        }
        let mut next = starts.clone();
        self.sorted = vec![0; sum as usize];
        for (index, cell) in (0_u32..).zip(cells) {
            let Some(free) = cell.and_then(|cell| next.get_mut(cell as usize)) else {
                continue;
            };
            if let Some(slot) = self.sorted.get_mut(*free as usize) {
                *slot = index;
            }
            *free += 1;
        }
        self.starts = starts;
    }

    fn cell_of(&self, circle: &Circle) -> Option<u32> {
        if !is_sound(circle) {
            return None;
        }
        let (column, row) = self.place_of(circle.center);
        u32::try_from(row * self.columns + column).ok()
    }

    fn place_of(&self, point: Point) -> (usize, usize) {
        let at = |mm: f64, end: usize| ((mm / self.cell) as usize).min(end - 1);
        (
            at(point.x - self.low.x, self.columns),
            at(point.y - self.low.y, self.rows),
        )
    }

    /// Shows every other circle whose web to circle `index` may be under the bound, with that web; `see`
    /// gives the bound from there on.
    fn look_around(&self, index: usize, mut bound: f64, mut see: impl FnMut(usize, f64) -> f64) {
        let Some(circle) = self.circles.get(index).filter(|circle| is_sound(circle)) else {
            return;
        };
        let (column, row) = self.place_of(circle.center);
        let radii = circle.radius + self.largest;
        for ring in 0..self.columns.max(self.rows) {
            // Whatever lies in this ring of cells is at least so far away.
            let least = self.cell * ring.saturating_sub(1) as f64 - radii;
            if least >= bound {
                return;
            }
            self.ring(column, row, ring, |cells| {
                for &other in cells {
                    let other = other as usize;
                    if let Some(near) = self.circles.get(other).filter(|_| other != index) {
                        let mm =
                            circle.center.distance(near.center) - (circle.radius + near.radius);
                        bound = see(other, mm);
                    }
                }
            });
        }
    }

    /// Shows the circles of the cells at a distance of `ring` cells, run by run.
    fn ring(&self, column: usize, row: usize, ring: usize, mut show: impl FnMut(&[u32])) {
        let (left, right) = (
            column.saturating_sub(ring),
            (column + ring).min(self.columns - 1),
        );
        for y in row.saturating_sub(ring)..=(row + ring).min(self.rows - 1) {
            if y.abs_diff(row) == ring {
                show(self.run(y, left, right));
                continue;
            }
            if column >= ring {
                show(self.run(y, left, left));
            }
            if column + ring < self.columns && ring > 0 {
                show(self.run(y, right, right));
            }
        }
    }

    /// The circles of neighboring cells of one row.
    fn run(&self, row: usize, left: usize, right: usize) -> &[u32] {
        let start = |cell: usize| self.starts.get(cell).map_or(0, |start| *start as usize);
        let first = row * self.columns;
        self.sorted
            .get(start(first + left)..start(first + right + 1))
            .unwrap_or_default()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn by_hand(circles: &[Circle], limit: f64) -> Vec<Web> {
        let mut webs = Vec::new();
        for (a, first) in circles.iter().enumerate() {
            for (b, second) in circles.iter().enumerate().skip(a + 1) {
                let mm = first.center.distance(second.center) - (first.radius + second.radius);
                if mm < limit {
                    webs.push(Web { a, b, mm });
                }
            }
        }
        webs.sort_by(|x, y| x.mm.total_cmp(&y.mm).then((x.a, x.b).cmp(&(y.a, y.b))));
        webs
    }

    fn circles() -> impl Strategy<Value = Vec<Circle>> {
        let circle =
            (-300.0..300.0, -300.0..300.0, 0.5..30.0).prop_map(|(x, y, r)| Circle::new((x, y), r));
        let flat = (-300.0..300.0, 0.5..3.0).prop_map(|(x, r)| Circle::new((x, 7.0), r));
        prop_oneof![
            proptest::collection::vec(circle, 0..120),
            proptest::collection::vec(flat, 0..120)
        ]
    }

    proptest! {
        #[test]
        fn the_grid_finds_what_comparing_all_pairs_finds(circles in circles(), limit in -5.0..40.0) {
            prop_assert_eq!(close_webs(&circles, limit), by_hand(&circles, limit));
            let all = by_hand(&circles, f64::INFINITY);
            prop_assert_eq!(smallest_web(&circles).map(|web| web.mm), all.first().map(|web| web.mm));
            for (index, nearest) in nearest_webs(&circles).into_iter().enumerate() {
                let own = all.iter().find(|web| web.a == index || web.b == index);
                prop_assert_eq!(nearest.map(|web| web.mm), own.map(|web| web.mm));
            }
        }
    }

    #[test]
    fn all_in_one_place_overlap_fully() {
        let circles = vec![Circle::new((3.0, 3.0), 2.0); 50];
        assert_eq!(
            smallest_web(&circles).map(|web| (web.a, web.b, web.mm)),
            Some((0, 1, -4.0))
        );
        assert_eq!(close_webs(&circles, 0.0).len(), 50 * 49 / 2);
    }

    #[test]
    fn what_is_no_number_is_passed_over() {
        let mut circles = vec![
            Circle::new((0.0, 0.0), 1.0),
            Circle::new((f64::NAN, 0.0), 1.0),
        ];
        assert_eq!(smallest_web(&circles), None);
        circles.push(Circle::new((1e9, -1e9), 1.0));
        circles.push(Circle::new((5.0, 0.0), 1.0));
        assert_eq!(
            smallest_web(&circles).map(|web| (web.a, web.b, web.mm)),
            Some((0, 3, 3.0))
        );
        assert_eq!(nearest_webs(&circles)[1], None);
    }
}
