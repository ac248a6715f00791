//! The order in which holes are drilled, with its settings and travel.

use board::{DrillingOrder, HoleId};
use geometry::{Point, TourBudget, shortest_path};

use crate::HoleTable;

/// Depths closer than this, in mm, count as one setting of the depth stop, and radii as one setting of the jig.
const ONE_SETTING: f64 = 0.001;
/// With this many holes or fewer, the short search finds the shortest path nearly every time.
const FEW: usize = 200;

/// A drilling order, with its settings and travel.
#[derive(Debug, Clone, PartialEq)]
pub struct Order {
    /// Rows of the hole table, each once.
    pub rows: Vec<usize>,
    /// How often a bit is mounted, the first time included.
    pub bits: u32,
    /// How often the depth stop is set, the first time included; each change of the bit requires setting it again.
    pub depths: u32,
    /// How often the radius is set, the first time included; each change of the depth requires setting it again.
    pub radii: u32,
    /// Length of the path from the center pin to the first hole and on from hole to hole, mm.
    pub travel: f64,
}

/// Whether the center hole is drilled first or last.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum CenterTurn {
    /// Before all others, because it holds the pin of the jig.
    First,
    /// After all others, because a playing hole removes the pilot hole that holds the pin.
    Last,
}

/// The order in which the holes of a table are drilled. The center hole comes first or last; the others are drilled bit by bit,
/// the bits in the order in which the table first needs them.
///
/// Ordered by setup, each bit's holes are drilled depth by depth, the shallow ones first, each depth from the center outward,
/// each radius clockwise: apart from the center, no order changes bits or depths less often. Ordered by travel, each bit's
/// holes are drilled along the shortest path found from the last hole of the bit before, or from the center pin.
///
/// Settings are counted for both kinds of order, so that the jig sheet can compare them.
pub fn drilling_order(table: &HoleTable, order: DrillingOrder, center: CenterTurn) -> Order {
    let is_center = |row: &usize| {
        let hole = table.rows.get(*row);
        hole.is_some_and(|hole| hole.name.id() == HoleId::CENTER)
    };
    let (alone, others): (Vec<usize>, Vec<usize>) = (0..table.rows.len()).partition(is_center);
    let others = bit_by_bit(table, &others, order);
    let rows = match center {
        CenterTurn::First => [alone, others].concat(),
        CenterTurn::Last => [others, alone].concat(),
    };
    counted(table, rows)
}

/// The rows bit by bit, those of each bit in the given order.
fn bit_by_bit(table: &HoleTable, rows: &[usize], order: DrillingOrder) -> Vec<usize> {
    let mut ordered: Vec<usize> = Vec::with_capacity(rows.len());
    let mut from = Point::ORIGIN;
    for (diameter, bottom) in table.bits() {
        let bit = board::BitRun::unsettled(diameter, bottom);
        let own = |row: &usize| {
            table
                .rows
                .get(*row)
                .is_some_and(|hole| bit.drills(hole.cutter(), hole.bottom))
        };
        let mut own: Vec<usize> = rows.iter().copied().filter(own).collect();
        match order {
            DrillingOrder::SetUps => by_set_up(table, &mut own),
            DrillingOrder::Travel => own = shortest(table, &own, from),
        }
        if let Some(last) = own.last().and_then(|row| table.rows.get(*row)) {
            from = last.center;
        }
        ordered.append(&mut own);
    }
    ordered
}

/// Sorts the rows of one bit by depth, then radius, then bearing, so that each depth and radius is set once.
fn by_set_up(table: &HoleTable, rows: &mut [usize]) {
    let key = |row: &usize| {
        table.rows.get(*row).map_or((0, 0, 0.0), |hole| {
            let radius = hole.center.to_vec2().length();
            (setting(hole.depth), setting(radius), clockwise(hole.center))
        })
    };
    rows.sort_by(|a, b| {
        let (one, other) = (key(a), key(b));
        (one.0, one.1)
            .cmp(&(other.0, other.1))
            .then(one.2.total_cmp(&other.2))
            .then(a.cmp(b))
    });
}

/// A depth or radius as a whole number of steps of [`ONE_SETTING`], so that equal settings compare as equal.
fn setting(mm: f64) -> i64 {
    (mm / ONE_SETTING).round() as i64
}

/// The bearing of a point in degrees, rounded so that a hole at 12 o'clock sorts first even when its bearing is computed just
/// under 360°.
fn clockwise(at: Point) -> f64 {
    let degrees = geometry::bearing_of(at).wrapped().as_degrees();
    (degrees * 1e6).round() / 1e6 % 360.0
}

/// The rows of one bit along the shortest path found from a point; see [`shortest_path`].
fn shortest(table: &HoleTable, rows: &[usize], from: Point) -> Vec<usize> {
    let centers = rows.iter().filter_map(|row| table.rows.get(*row));
    let centers: Vec<Point> = centers.map(|hole| hole.center).collect();
    let budget = if rows.len() <= FEW {
        TourBudget::BOARD
    } else {
        TourBudget::THOROUGH
    };
    let way = shortest_path(&centers, from, budget, &|| false);
    way.order
        .into_iter()
        .filter_map(|at| rows.get(at).copied())
        .collect()
}

/// The rows as an [`Order`]: the settings of bit, depth stop and radius counted, and the travel added up.
///
/// The center hole always counts as a change of the bit, because other work is done between it and the rest.
fn counted(table: &HoleTable, rows: Vec<usize>) -> Order {
    let (mut bits, mut depths, mut radii, mut travel) = (0, 0, 0, 0.0);
    let mut before: Option<&crate::HoleRow> = None;
    for hole in rows.iter().filter_map(|row| table.rows.get(*row)) {
        let radius = |hole: &crate::HoleRow| setting(hole.center.to_vec2().length());
        let apart = hole.name.id() == HoleId::CENTER;
        let bit = apart
            || before.is_none_or(|last| {
                !board::BitRun::unsettled(last.cutter(), last.bottom)
                    .drills(hole.cutter(), hole.bottom)
            });
        let depth = bit || before.is_none_or(|last| setting(last.depth) != setting(hole.depth));
        let far = depth || before.is_none_or(|last| radius(last) != radius(hole));
        bits += u32::from(bit);
        depths += u32::from(depth);
        radii += u32::from(far);
        travel += before
            .map_or(Point::ORIGIN, |last| last.center)
            .distance(hole.center);
        before = Some(hole);
    }
    Order {
        rows,
        bits,
        depths,
        radii,
        travel,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::machine::hole_table::hole_table;
    use board::{Board, Bottom, layout};

    /// A table that needs a Forstner bit and a ball bit, with a different depth for the pockets.
    fn mixed() -> HoleTable {
        let mut board = Board::default();
        (board.bores.home.bottom, board.bores.home.depth) = (Bottom::Ball, 6.0);
        board.bores.start.depth = 7.0;
        hole_table(&layout(&board).unwrap())
    }

    #[test]
    fn the_center_hole_comes_first_or_last() {
        let table = mixed();
        for order in DrillingOrder::ALL {
            let center = table.rows.len() - 1;
            let rows = |turn| drilling_order(&table, order, turn).rows;
            assert_eq!(rows(CenterTurn::First)[0], center);
            assert_eq!(rows(CenterTurn::Last)[center], center);
        }
    }

    #[test]
    fn every_hole_is_drilled_once_in_either_order() {
        let table = mixed();
        for order in DrillingOrder::ALL {
            let mut rows = drilling_order(&table, order, CenterTurn::Last).rows;
            rows.sort_unstable();
            assert!(rows.iter().copied().eq(0..table.rows.len()));
        }
    }

    /// Counted by hand. Bits: Forstner, ball, and Forstner again for the center. Depths: two with the Forstner bit, one
    /// with the ball bit, one at the center. Radii: each distinct one once per depth, with the center's radius of 0.
    #[test]
    fn ordering_by_setup_makes_each_setting_once() {
        let table = mixed();
        let order = drilling_order(&table, DrillingOrder::SetUps, CenterTurn::Last);
        assert_eq!((order.bits, order.depths), (3, 4));
        let radii = |depth: f64, bottom: Bottom| {
            let own = table
                .rows
                .iter()
                .filter(|hole| hole.depth == depth && hole.bottom == bottom);
            let mut radii: Vec<i64> = own
                .map(|hole| setting(hole.center.to_vec2().length()))
                .collect();
            radii.sort_unstable();
            radii.dedup();
            radii.len() as u32
        };
        let wanted =
            radii(5.0, Bottom::Forstner) + radii(7.0, Bottom::Forstner) + radii(6.0, Bottom::Ball);
        assert_eq!(order.radii, wanted);
    }

    #[test]
    fn ordering_by_travel_shortens_the_path_without_more_bit_changes() {
        let table = mixed();
        let by_set_up = drilling_order(&table, DrillingOrder::SetUps, CenterTurn::Last);
        let by_travel = drilling_order(&table, DrillingOrder::Travel, CenterTurn::Last);
        assert!(
            by_travel.travel < 0.8 * by_set_up.travel,
            "{} {}",
            by_travel.travel,
            by_set_up.travel
        );
        assert_eq!(by_travel.bits, by_set_up.bits);
    }
}
