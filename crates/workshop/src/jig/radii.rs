//! Holes by radius, then by bearing.

use geometry::{Angle, Point, bearing_of};

use crate::HoleTable;

/// Radii closer than this are one setting of a jig, mm: a tenth of the finest jig setting.
const ONE_SETTING: f64 = 0.001;

/// One setting of the jig's radius.
#[derive(Debug, Clone, PartialEq)]
pub struct Radius {
    /// Distance from the center pin, mm; 0 is the center hole.
    pub mm: f64,
    /// The holes at this radius, by bearing.
    pub holes: Vec<RadiusHole>,
}

/// A hole at a setting of the jig's radius.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RadiusHole {
    /// Its row in the hole table, from 0.
    pub row: usize,
    /// Its bearing from player 1's axis, degrees clockwise, from 0 up to 360.
    pub bearing: f64,
}

/// The distinct radii of a table's holes, from the center outward; `axis` is the bearing of player 1's axis in degrees.
///
/// ```
/// use board::Board;
/// use workshop::{Workpiece, radii};
/// let workpiece = Workpiece::of(&Board::default())?;
/// let radii = radii(workpiece.hole_table(), 0.0);
/// assert!(radii.windows(2).all(|pair| pair[0].mm < pair[1].mm));
/// assert_eq!(radii.iter().map(|radius| radius.holes.len()).sum::<usize>(), 145);
/// # Ok::<(), board::BuildError>(())
/// ```
pub fn radii(table: &HoleTable, axis: f64) -> Vec<Radius> {
    let mut places: Vec<(f64, f64, usize)> = table
        .rows
        .iter()
        .enumerate()
        .map(|(row, hole)| {
            let radius = hole.center.to_vec2().length();
            (radius, bearing(hole.center, axis), row)
        })
        .collect();
    places.sort_by(|a, b| a.0.total_cmp(&b.0).then(a.2.cmp(&b.2)));
    let mut radii: Vec<Radius> = Vec::new();
    for (mm, bearing, row) in places {
        match radii.last_mut().filter(|last| mm - last.mm < ONE_SETTING) {
            Some(last) => last.holes.push(RadiusHole { row, bearing }),
            None => radii.push(Radius {
                mm,
                holes: vec![RadiusHole { row, bearing }],
            }),
        }
    }
    for radius in &mut radii {
        radius
            .holes
            .sort_by(|a, b| a.bearing.total_cmp(&b.bearing).then(a.row.cmp(&b.row)));
    }
    radii
}

/// Degrees clockwise from an axis, 0 up to 360; rounding just below a full turn gives 0.
fn bearing(at: Point, axis: f64) -> f64 {
    if at == Point::ORIGIN {
        return 0.0;
    }
    let degrees = (bearing_of(at) - Angle::degrees(axis))
        .wrapped()
        .as_degrees();
    if 360.0 - degrees < HAIR { 0.0 } else { degrees }
}

/// Rounding slack for sums of angles, degrees.
const HAIR: f64 = 1e-9;

#[cfg(test)]
mod tests {
    use super::*;
    use crate::machine::hole_table::hole_table;
    use board::{Board, layout};
    use proptest::prelude::*;
    use testkit::assert_near;

    #[test]
    fn a_ring_has_one_radius_for_its_track() {
        let board = Board::default();
        let table = hole_table(&layout(&board).unwrap());
        let radii = radii(&table, board.rotation);
        assert_near!(radii[0].mm, 0.0, 0.0);
        let track = radii
            .iter()
            .find(|radius| radius.holes.len() == 96)
            .unwrap();
        // 96 chords of 19 mm: Machinery's Handbook, 31st ed., p. 711, chord = D sin(180°/n).
        assert_near!(track.mm, 9.5 / Angle::degrees(180.0 / 96.0).sin(), 1e-9);
        for (step, hole) in track.holes.iter().enumerate() {
            assert_near!(hole.bearing, step as f64 * 360.0 / 96.0, 1e-9);
        }
    }

    proptest! {
        #[test]
        fn every_hole_is_at_one_radius_and_bearing(players in 2_u32..8, rotation in -180.0..180.0_f64) {
            let board = Board { players, rotation, ..Board::default() };
            let table = hole_table(&layout(&board).unwrap());
            let radii = radii(&table, rotation);
            let mut seen = vec![0; table.rows.len()];
            for radius in &radii {
                for &RadiusHole { row, bearing: degrees } in &radius.holes {
                    seen[row] += 1;
                    let bearing = Angle::degrees(degrees + rotation);
                    let at = geometry::point_at(radius.mm, bearing);
                    prop_assert!(at.distance(table.rows[row].center) < 0.002);
                }
            }
            prop_assert!(seen.iter().all(|count| *count == 1));
            prop_assert!(radii.windows(2).all(|pair| pair[1].mm - pair[0].mm >= ONE_SETTING));
        }
    }
}
