//! Every hole with its position and bore: the input of a jig or a machine.

use board::{BitRun, Bore, Bottom, HoleName, Layout, Role};
use geometry::Point;

/// The holes of a board, in the order of their names or of drilling.
#[derive(Debug, Clone, PartialEq)]
pub struct HoleTable {
    /// One row per hole; in [`crate::Workpiece::hole_table`] sorted by player, then track, home, start, extra, then number,
    /// with the center last.
    pub rows: Vec<HoleRow>,
}

/// One hole.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HoleRow {
    /// Its name.
    pub name: HoleName,
    /// Its purpose.
    pub role: Role,
    /// The player it belongs to, from 1; 0 for the center hole.
    pub player: u32,
    /// Its number in its role, from 1; 0 for the center hole.
    pub number: u32,
    /// Its center, mm.
    pub center: Point,
    /// Diameter of the bore, mm.
    pub diameter: f64,
    /// Depth as defined by [`board::Bore::depth`], mm.
    pub depth: f64,
    /// Shape of its bottom.
    pub bottom: Bottom,
}

impl HoleTable {
    /// The bits that drill the holes, by diameter and bottom, in the order in which they are first needed.
    ///
    /// ```
    /// use board::{Board, Bottom};
    /// use workshop::Workpiece;
    /// let mut board = Board::default();
    /// (board.bores.home.bottom, board.bores.home.depth) = (Bottom::Ball, 6.0);
    /// let workpiece = Workpiece::of(&board)?;
    /// assert_eq!(workpiece.hole_table().bits(), [(12.0, Bottom::Forstner), (12.0, Bottom::Ball)]);
    /// # Ok::<(), board::BuildError>(())
    /// ```
    pub fn bits(&self) -> Vec<(f64, Bottom)> {
        let mut bits: Vec<(f64, Bottom)> = Vec::new();
        for row in &self.rows {
            let known = |bit: &(f64, Bottom)| {
                bit.1 == row.bottom && (bit.0 - row.cutter()).abs() < BitRun::SAME
            };
            if !bits.iter().any(known) {
                bits.push((row.cutter(), row.bottom));
            }
        }
        bits
    }

    /// The same holes in the order of some rows, counted from 0, such as [`crate::Order::rows`]; a row that does not exist is
    /// left out.
    ///
    /// ```
    /// use workshop::Workpiece;
    /// let workpiece = Workpiece::of(&board::Board::default())?;
    /// let table = workpiece.hole_table();
    /// let drilled = table.in_order(&workpiece.drilling_order().rows);
    /// assert_eq!(drilled.rows.len(), table.rows.len());
    /// # Ok::<(), board::BuildError>(())
    /// ```
    pub fn in_order(&self, rows: &[usize]) -> Self {
        let rows = rows.iter().filter_map(|row| self.rows.get(*row));
        Self {
            rows: rows.copied().collect(),
        }
    }
}

impl HoleRow {
    /// The bore drilled at this hole.
    pub const fn bore(&self) -> Bore {
        Bore {
            diameter: self.diameter,
            depth: self.depth,
            bottom: self.bottom,
        }
    }

    /// Diameter of the bit that drills it, mm; see [`Bore::cutter`].
    pub fn cutter(&self) -> f64 {
        self.bore().cutter()
    }
}

/// The hole table of a laid-out board.
pub fn hole_table(layout: &Layout) -> HoleTable {
    let row = |hole: &board::Hole| {
        let id = hole.name.id();
        HoleRow {
            name: hole.name,
            role: id.role(),
            player: id.player(),
            number: id.number(),
            center: hole.center,
            diameter: hole.bore.diameter,
            depth: hole.bore.depth,
            bottom: hole.bore.bottom,
        }
    };
    HoleTable {
        rows: layout.holes.iter().map(row).collect(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use board::Board;

    #[test]
    fn each_bit_is_listed_once_in_the_order_of_use() {
        let mut board = Board::default();
        board.bores.start.diameter = 10.0;
        (board.bores.home.bottom, board.bores.home.depth) = (Bottom::Ball, 6.0);
        let table = hole_table(&board::layout(&board).unwrap());
        let wanted = [
            (12.0, Bottom::Forstner),
            (12.0, Bottom::Ball),
            (10.0, Bottom::Forstner),
        ];
        assert_eq!(table.bits(), wanted);
    }

    /// A mouth of 12 mm, 3 mm deep, is cut by a ball of (6² + 3²) / 3 = 15 mm.
    #[test]
    fn the_bit_of_a_shallow_ball_is_wider_than_its_mouth() {
        let mut board = Board::default();
        (board.bores.home.bottom, board.bores.home.depth) = (Bottom::Ball, 3.0);
        let table = hole_table(&board::layout(&board).unwrap());
        assert_eq!(
            table.bits(),
            [(12.0, Bottom::Forstner), (15.0, Bottom::Ball)]
        );
    }

    #[test]
    fn a_row_for_every_hole_and_the_center_last() {
        let board = Board::default();
        let table = hole_table(&board::layout(&board).unwrap());
        assert_eq!(table.rows.len(), 145);
        let last = table.rows.last().unwrap();
        assert_eq!((last.role, last.player, last.number), (Role::Center, 0, 0));
        assert_eq!(last.center, Point::ORIGIN);
        assert_eq!(table.rows[0].diameter, board.bores.track.diameter);
    }
}
