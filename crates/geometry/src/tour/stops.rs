//! The places to go to, along a curve that fills the plane.

use crate::Point;

/// A place, and the points there.
pub(super) struct Stop {
    pub(super) at: Point,
    /// From the lowest index on; never empty.
    pub(super) indices: Vec<usize>,
}

/// Larger numbers have no place on a board, and their squares may overflow.
const HUGE: f64 = 1e100;

/// The curve goes through so many cells along each side, a power of two.
const CELLS: u32 = 1 << 16;

pub(super) fn is_placed(point: Point) -> bool {
    point.x.abs() <= HUGE && point.y.abs() <= HUGE
}

/// The places of all points that have one, each once, in the order in which a Hilbert curve around them meets them:
/// neighbors on it are near each other, so that it is a fair route already.
pub(super) fn stops(points: &[Point]) -> Vec<Stop> {
    let mut placed: Vec<(Point, usize)> = points
        .iter()
        .zip(0..)
        .filter(|(point, _)| is_placed(**point))
        // Zero and minus zero are the same place.
        .map(|(point, index)| (Point::new(point.x + 0.0, point.y + 0.0), index))
        .collect();
    placed.sort_unstable_by(|(one, index), (other, other_index)| {
        let by_place = one.x.total_cmp(&other.x).then(one.y.total_cmp(&other.y));
        by_place.then(index.cmp(other_index))
    });
    let mut stops: Vec<Stop> = placed
        .chunk_by(|one, other| one.0 == other.0)
        .filter_map(|same| {
            let (at, _) = *same.first()?;
            let indices = same.iter().map(|(_, index)| *index).collect();
            Some(Stop { at, indices })
        })
        .collect();
    let square = Square::around(&stops);
    stops.sort_by_cached_key(|stop| square.along_curve(stop.at));
    stops
}

/// The square around all stops.
struct Square {
    left: f64,
    bottom: f64,
    side: f64,
}

impl Square {
    fn around(stops: &[Stop]) -> Self {
        let (mut low, mut high) = (Point::new(HUGE, HUGE), Point::new(-HUGE, -HUGE));
        for Stop { at, .. } in stops {
            low = Point::new(low.x.min(at.x), low.y.min(at.y));
            high = Point::new(high.x.max(at.x), high.y.max(at.y));
        }
        Self {
            left: low.x,
            bottom: low.y,
            side: (high.x - low.x).max(high.y - low.y).max(f64::MIN_POSITIVE),
        }
    }

    /// Number of cells of the Hilbert curve before a point's.
    fn along_curve(&self, point: Point) -> u64 {
        let cell = |offset: f64| (offset / self.side * f64::from(CELLS - 1)) as u32;
        let (mut x, mut y) = (cell(point.x - self.left), cell(point.y - self.bottom));
        let mut along = 0;
        let mut half = CELLS / 2;
        while half > 0 {
            let (right, upper) = (u32::from(x & half > 0), u32::from(y & half > 0));
            along += u64::from(half) * u64::from(half) * u64::from((3 * right) ^ upper);
            if upper == 0 {
                if right == 1 {
                    (x, y) = (CELLS - 1 - x, CELLS - 1 - y);
                }
                (x, y) = (y, x);
            }
            half /= 2;
        }
        along
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_curve_goes_from_cell_to_neighboring_cell() {
        let square = Square {
            left: 0.0,
            bottom: 0.0,
            side: f64::from(CELLS - 1),
        };
        let scale = f64::from(CELLS / 16);
        let mut cells: Vec<(u64, Point)> = (0..256_u32)
            .map(|cell| Point::new(f64::from(cell % 16), f64::from(cell / 16)))
            .map(|cell| {
                (
                    square.along_curve((cell.to_vec2() * scale).to_point()),
                    cell,
                )
            })
            .collect();
        cells.sort_by_key(|(along, _)| *along);
        assert!(
            cells
                .windows(2)
                .all(|pair| pair[0].1.distance(pair[1].1) == 1.0)
        );
    }

    #[test]
    fn points_in_one_place_are_one_stop_and_those_without_a_place_none() {
        let points = [
            (3.0, 0.0),
            (f64::NAN, 0.0),
            (3.0, -0.0),
            (0.0, f64::INFINITY),
            (1.0, 1e101),
        ];
        let stops = stops(&points.map(Point::from));
        assert_eq!(stops.len(), 1);
        assert_eq!(stops[0].indices, [0, 2]);
    }
}
