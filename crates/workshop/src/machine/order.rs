//! The order in which holes are drilled, and what it costs.

use board::{DrillingOrder, HoleId};
use geometry::{Point, TourBudget, shortest_path};

use crate::HoleTable;

/// Depths closer than this are one setting of the stop, and radii one of the jig, mm.
const ONE_SETTING: f64 = 0.001;
/// Holes up to which the shorter search finds the best way nearly every time.
const FEW: usize = 200;

/// An order of drilling, with what it costs.
#[derive(Debug, Clone, PartialEq)]
pub struct Order {
    /// Rows of the hole table, each once.
    pub rows: Vec<usize>,
    /// Number of times that a bit is put in, the first included.
    pub bits: u32,
    /// Number of times that the depth stop is set, the first included; anew for each bit.
    pub depths: u32,
    /// Number of times that the radius is set, the first included; anew for each depth.
    pub radii: u32,
    /// The way from the center pin to the first hole and on from hole to hole, mm.
    pub travel: f64,
}

/// When the hole at the center is drilled, among all others.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum CenterTurn {
    /// Before all others: it takes the pin.
    First,
    /// After all others: it is a playing hole, which takes away what the pin stands in.
    Last,
}

/// The order in which a table's holes are drilled. The hole at the center has its own turn; the bits of all others follow in the
/// order in which the table first needs them.
///
/// By set-ups, each bit's holes are drilled depth by depth, the shallow ones first, each depth from the center outward,
/// each radius clockwise: but for the center, no order changes bits or depths less often. By travel, each bit's holes are drilled on the
/// shortest way that is found from where the bit before ended, the first from the center pin.
///
/// Settings are counted as the order stands, so that both kinds can be compared on the jig sheet.
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

/// Rows bit by bit, those of each bit in the order that is asked for.
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

/// Rows of one bit by depth, then radius, then bearing: what is set least often comes first.
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

/// The number of a setting, counted in steps of [`ONE_SETTING`].
fn setting(mm: f64) -> i64 {
    (mm / ONE_SETTING).round() as i64
}

/// Bearing in degrees, rounded so that a hole on 12 o'clock comes first whatever its last digits are.
fn clockwise(at: Point) -> f64 {
    let degrees = geometry::bearing_of(at).wrapped().as_degrees();
    (degrees * 1e6).round() / 1e6 % 360.0
}

/// Rows of one bit on the shortest way that is found from a point, by the tour of crate `geometry`.
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

/// The settings of bit, depth stop and radius in an order, counted, with the way from hole to hole.
///
/// A bit counts as put in anew for the hole at the center, wherever it comes: before or after it other work is done.
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

    /// Three bits, and a depth of its own for the pockets.
    fn mixed() -> HoleTable {
        let mut board = Board::default();
        (board.bores.home.bottom, board.bores.home.depth) = (Bottom::Ball, 6.0);
        board.bores.start.depth = 7.0;
        hole_table(&layout(&board).unwrap())
    }

    #[test]
    fn the_hole_at_the_center_has_its_own_turn() {
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

    /// Counted by hand: two bits, and the Forstner bit again for the center; two depths with it, one with the ball, one at the
    /// center; 1 + 1 + pocket radii + 4 lanes.
    #[test]
    fn by_set_ups_each_setting_is_made_once() {
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
    fn the_least_travel_is_shorter_and_changes_bits_no_more() {
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
