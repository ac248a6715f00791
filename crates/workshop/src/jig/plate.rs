//! Index plates: the plate that hits every bearing, and the errors of plates that do not.

use super::Radius;

/// Divisions of the finest plate considered.
pub const MOST_DIVISIONS: u32 = 10_000;
/// A bearing this close to a division counts as a hit, as a share of a turn: far finer than any shop work, far coarser
/// than rounding errors.
const EXACT: f64 = 1e-12;

/// The fewest divisions of a circle that hit every bearing (degrees); `None` if that takes more than [`MOST_DIVISIONS`].
///
/// ```
/// assert_eq!(workshop::exact_divisions(&[0.0, 60.0, 67.5]), Some(48));
/// assert_eq!(workshop::exact_divisions(&[0.0, 61.234_567_89]), None);
/// ```
pub fn exact_divisions(bearings: &[f64]) -> Option<u32> {
    bearings.iter().try_fold(1, |divisions, degrees| {
        let own = fraction_of_turn(degrees / 360.0)?;
        let common = divisions / greatest_common(divisions, own) * own;
        (common <= MOST_DIVISIONS).then_some(common)
    })
}

/// The denominator of a share of a turn, from its continued fraction; `None` if it is over [`MOST_DIVISIONS`].
fn fraction_of_turn(share: f64) -> Option<u32> {
    let (mut rest, mut before, mut last) = (share, 0.0_f64, 1.0_f64);
    loop {
        if (share * last - (share * last).round()).abs() <= EXACT * last {
            return Some(last as u32);
        }
        rest = 1.0 / (rest - rest.floor());
        (before, last) = (last, rest.floor() * last + before);
        if !last.is_finite() || last > f64::from(MOST_DIVISIONS) {
            return None;
        }
    }
}

/// The greatest common divisor, by Euclid's algorithm.
fn greatest_common(a: u32, b: u32) -> u32 {
    if b == 0 { a } else { greatest_common(b, a % b) }
}

/// The errors of an index plate, with and without a rotation of the board on it.
#[derive(Debug, Clone, PartialEq)]
pub struct PlateFit {
    /// Divisions of the plate.
    pub divisions: u32,
    /// The largest miss with player 1's axis on a division, mm along the circle of its hole.
    pub worst: f64,
    /// The row in the hole table, from 0, of the hole with the largest miss.
    pub worst_row: usize,
    /// The rotation of the board on the plate, degrees clockwise, that makes the largest miss smallest; 0 if none helps.
    pub turn: f64,
    /// The largest miss after that rotation, mm.
    pub turned: f64,
}

/// The fit of a plate with this many divisions for the holes at these radii; `None` without divisions, or without holes
/// off the center.
///
/// ```
/// use workshop::{Radius, RadiusHole, plate_fit};
/// let holes = [(0, 0.0), (1, 61.0)].map(|(row, bearing)| RadiusHole { row, bearing });
/// let ring = Radius { mm: 180.0, holes: holes.to_vec() };
/// let fit = plate_fit(&[ring], 60).unwrap();
/// // 61° lies 1° past a division of 6°: 3.14 mm at 180 mm. Turned by half of it, both holes miss by half.
/// assert!((fit.worst - 180.0 * 1_f64.to_radians()).abs() < 1e-9);
/// assert!((fit.turned - fit.worst / 2.0).abs() < 1e-6);
/// ```
pub fn plate_fit(radii: &[Radius], divisions: u32) -> Option<PlateFit> {
    if divisions == 0 {
        return None;
    }
    let step = 360.0 / f64::from(divisions);
    let off = |radius: &Radius| radius.mm > 0.0;
    let places: Vec<Place> = radii
        .iter()
        .filter(|radius| off(radius))
        .flat_map(|radius| {
            radius.holes.iter().map(|hole| Place {
                row: hole.row,
                phase: hole.bearing.rem_euclid(step),
                arm: radius.mm.to_radians(),
            })
        })
        .collect();
    let (worst, worst_row) = places
        .iter()
        .map(|place| (place.miss(0.0, step), place.row))
        // Of equal misses, keep the first: the same hole of several players misses by the same, apart from rounding.
        .reduce(|a, b| if b.0 > a.0 + 1e-9 { b } else { a })?;
    let missed = |turn: f64| {
        let misses = places.iter().map(|place| place.miss(turn, step));
        misses.fold(0.0, f64::max)
    };
    let turn = best_turn(&places, step, worst);
    // A turn that gains nothing, such as one by a whole division, is not proposed.
    let turn = if missed(turn) < missed(0.0) - NOTHING {
        turn
    } else {
        0.0
    };
    let turned = missed(turn);
    Some(PlateFit {
        divisions,
        worst,
        worst_row,
        turn,
        turned,
    })
}

/// A hole on the plate: its position between two divisions, and its distance from the center.
struct Place {
    row: usize,
    /// Distance of the bearing past a division, degrees.
    phase: f64,
    /// Length of a degree at its radius, mm.
    arm: f64,
}

impl Place {
    /// The hole's distance from the nearest division, mm along its circle, once the board is turned by `turn` degrees.
    fn miss(&self, turn: f64, step: f64) -> f64 {
        let past = (self.phase + turn).rem_euclid(step);
        past.min(step - past) * self.arm
    }
}

/// Least reduction of the largest miss that counts as an improvement, mm.
const NOTHING: f64 = 1e-6;
/// Steps of bisection, enough to go from the largest miss down to far under a nanometer.
const HALVINGS: u32 = 60;

/// The turn at which the largest miss is smallest, degrees. Bisection finds the smallest miss for which some turn keeps
/// every hole within it.
fn best_turn(places: &[Place], step: f64, worst: f64) -> f64 {
    let (mut low, mut high, mut best) = (0.0, worst, 0.0);
    for _ in 0..HALVINGS {
        let miss = f64::midpoint(low, high);
        match turn_within(places, step, miss) {
            Some(turn) => (high, best) = (miss, turn),
            None => low = miss,
        }
    }
    best
}

/// A turn, from 0 to under a step (degrees), that keeps every hole within `miss` mm; `None` if there is none.
///
/// Each hole forbids one arc of turns. Those arcs, cut at 0 and sorted, either cover all turns or leave a gap.
fn turn_within(places: &[Place], step: f64, miss: f64) -> Option<f64> {
    let mut forbidden: Vec<(f64, f64)> = Vec::with_capacity(places.len() + 1);
    for place in places {
        let reach = miss / place.arm;
        if 2.0 * reach >= step {
            continue;
        }
        // The hole is on a division at turn -phase, and close enough within `reach` of it; the rest of the step is
        // forbidden.
        let start = (reach - place.phase).rem_euclid(step);
        let end = start + step - 2.0 * reach;
        forbidden.push((start, end.min(step)));
        if end > step {
            // The arc wraps around. Its second part starts below 0, so that 0 itself counts as covered.
            forbidden.push((-step, end - step));
        }
    }
    forbidden.sort_by(|a, b| a.0.total_cmp(&b.0));
    let mut free = 0.0;
    for (start, end) in forbidden {
        if start >= free {
            return Some(free);
        }
        free = f64::max(free, end);
    }
    (free < step).then_some(free)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::jig::{RadiusHole, radii};
    use crate::machine::hole_table::hole_table;
    use board::{Board, layout};
    use proptest::prelude::*;
    use testkit::assert_near;

    fn one_ring(radius: f64, bearings: &[f64]) -> Vec<Radius> {
        let holes = bearings.iter().copied().enumerate();
        let holes = holes
            .map(|(row, bearing)| RadiusHole { row, bearing })
            .collect();
        vec![Radius { mm: radius, holes }]
    }

    #[test]
    fn a_plate_that_hits_every_hole_needs_no_rotation() {
        // 24 holes on a plate of 96: a turn by a whole division, 3.75°, is as good as no turn.
        let board = Board {
            players: 6,
            spaces: 4,
            home: 0,
            start: 0,
            pitch: 40.0,
            ..Board::default()
        };
        let table = hole_table(&layout(&board).unwrap());
        let fit = plate_fit(&radii(&table, board.rotation), 96).unwrap();
        assert_eq!(fit.turn, 0.0);
        assert!(fit.worst < 1e-9 && fit.turned < 1e-9, "{fit:?}");
    }

    #[test]
    fn the_ring_of_six_players_needs_a_plate_of_96() {
        let board = Board::default();
        let table = hole_table(&layout(&board).unwrap());
        let radii = radii(&table, board.rotation);
        let track = radii
            .iter()
            .find(|radius| radius.holes.len() == 96)
            .unwrap();
        let bearings: Vec<f64> = track.holes.iter().map(|hole| hole.bearing).collect();
        assert_eq!(exact_divisions(&bearings), Some(96));
    }

    /// 90 divisions of 4°: at radius 180 / π mm, a hole at 1° misses by 1 mm and one at 2° by 2 mm, the most possible.
    #[test]
    fn misses_are_arcs_to_the_nearest_division() {
        let radius = 180.0 / core::f64::consts::PI;
        let fit = plate_fit(&one_ring(radius, &[0.0, 1.0, 8.0]), 90).unwrap();
        assert_near!(fit.worst, 1.0, 1e-9);
        assert_eq!(fit.worst_row, 1);
        assert_near!(fit.turned, 0.5, 1e-9);
        assert_near!(fit.turn, 3.5, 1e-9);
        let fit = plate_fit(&one_ring(radius, &[0.0, 2.0]), 90).unwrap();
        assert_near!(fit.worst, 2.0, 1e-9);
        assert_near!(fit.turned, 1.0, 1e-9);
    }

    proptest! {
        #[test]
        fn the_exact_plate_misses_nothing(holes in 3_u32..200, times in 1_u32..5) {
            let bearings: Vec<f64> = (0..holes).map(|hole| 360.0 * f64::from(hole) / f64::from(holes)).collect();
            prop_assert_eq!(exact_divisions(&bearings), Some(holes));
            let fit = plate_fit(&one_ring(250.0, &bearings), holes * times).unwrap();
            prop_assert!(fit.worst < 1e-6);
        }

        /// A scan over turns finds none with a smaller miss.
        #[test]
        fn no_rotation_misses_less(bearings in prop::collection::vec(0.0..360.0_f64, 1..8), divisions in 3_u32..60) {
            let ring = one_ring(150.0, &bearings);
            let fit = plate_fit(&ring, divisions).unwrap();
            let step = 360.0 / f64::from(divisions);
            prop_assert!(fit.worst <= 150.0_f64.to_radians() * step / 2.0 + 1e-9);
            prop_assert!(fit.turned <= fit.worst + 1e-9);
            let miss = |turn: f64| bearings.iter().map(|bearing| {
                let past = (bearing + turn).rem_euclid(step);
                past.min(step - past) * 150.0_f64.to_radians()
            }).fold(0.0, f64::max);
            prop_assert!((miss(fit.turn) - fit.turned).abs() < 1e-9);
            for part in 0..2000 {
                prop_assert!(miss(step * f64::from(part) / 2000.0) >= fit.turned - 1e-9);
            }
        }
    }
}
