//! A grid of squares over the board, each with a list of the things that reach into it.
//!
//! A board of a thousand holes would be slow to draw if each ray were tested against all of them. With the grid, a ray is tested only
//! against the few things in its square.

/// Squares over the board, each with the numbers of the things that reach into it.
#[derive(Debug, Clone, PartialEq)]
pub struct Grid {
    /// Half the width of the grid, mm.
    half: f64,
    /// Side of a square, mm.
    side: f64,
    /// Squares along each side.
    count: usize,
    /// The numbers in each square, row by row.
    squares: Vec<Vec<u32>>,
}

impl Grid {
    /// An empty grid over a board of a radius, with squares of about a side, both in mm.
    pub fn new(radius: f64, side: f64) -> Self {
        let count = ((2.0 * radius / side).ceil() as usize).clamp(1, 400);
        Self {
            half: radius,
            side: 2.0 * radius / count as f64,
            count,
            squares: vec![Vec::new(); count * count],
        }
    }

    /// The row or column of a coordinate, mm.
    fn line(&self, at: f64) -> usize {
        // Points outside belong to the nearest row or column.
        (((at + self.half) / self.side).max(0.0) as usize).min(self.count - 1)
    }

    /// Adds the thing with a number, which extends `reach` mm from the line between two points.
    pub fn add(&mut self, number: u32, [from, to]: [(f64, f64); 2], reach: f64) {
        let (left, right) = (from.0.min(to.0) - reach, from.0.max(to.0) + reach);
        let (lower, upper) = (from.1.min(to.1) - reach, from.1.max(to.1) + reach);
        let (left, right) = (self.line(left), self.line(right));
        for row in self.line(lower)..=self.line(upper) {
            let squares = self
                .squares
                .get_mut(row * self.count + left..=row * self.count + right);
            for square in squares.into_iter().flatten() {
                square.push(number);
            }
        }
    }

    /// The mean number of things per square.
    pub fn mean(&self) -> f64 {
        let all = self.squares.iter().map(Vec::len).sum::<usize>();
        all as f64 / self.squares.len() as f64
    }

    /// The numbers of the things that reach into the square of a point.
    pub fn at(&self, x: f64, y: f64) -> &[u32] {
        let place = self.line(y) * self.count + self.line(x);
        self.squares.get(place).map_or(&[], Vec::as_slice)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn things_are_found_in_every_square_they_reach_into() {
        let mut grid = Grid::new(100.0, 10.0);
        grid.add(7, [(15.0, 15.0); 2], 6.0);
        assert_eq!(grid.at(15.0, 15.0), [7]);
        assert_eq!(grid.at(20.9, 15.0), [7]);
        assert_eq!(grid.at(-15.0, 15.0), [0_u32; 0]);
        assert!((grid.mean() - 9.0 / 400.0).abs() < 1e-9);
        grid.add(8, [(-120.0, 0.0), (-80.0, 0.0)], 1.0);
        assert_eq!(grid.at(-300.0, 0.0), [8]);
    }
}
