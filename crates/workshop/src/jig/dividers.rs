//! Dividers stepped around a ring, and the error that the steps add up to.

use geometry::{Angle, chord};

use super::Radius;

/// Tolerance within which bearings count as evenly spaced, degrees.
const EVEN: f64 = 1e-7;
/// The error in setting dividers, mm: a tenth, read on a rule with a loupe; common practice, no source.
const SETTING_ERROR: f64 = 0.1;

/// Dividers for one ring.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Dividers {
    /// Radius of the ring, mm.
    pub radius: f64,
    /// Evenly spaced holes on it.
    pub holes: u32,
    /// Their setting, mm: the chord from hole to hole.
    pub setting: f64,
    /// The distance by which the last step misses the first hole if the dividers are set 0.1 mm off, mm.
    pub closing: f64,
}

/// Dividers for every ring of three or more evenly spaced holes, from the center outward.
///
/// ```
/// use workshop::{Radius, RadiusHole, dividers};
/// let hole = |row: usize| RadiusHole { row, bearing: 60.0 * row as f64 };
/// let hexagon = Radius { mm: 100.0, holes: (0..6).map(hole).collect() };
/// let told = dividers(&[hexagon]);
/// // A hexagon's side is as long as its radius.
/// assert!((told[0].setting - 100.0).abs() < 1e-9);
/// ```
pub fn dividers(radii: &[Radius]) -> Vec<Dividers> {
    radii.iter().filter_map(of_ring).collect()
}

/// Dividers for one ring; `None` if its holes are uneven or fewer than three, or where it is so small that no setting is
/// accurate to [`SETTING_ERROR`].
fn of_ring(ring: &Radius) -> Option<Dividers> {
    let holes = u32::try_from(ring.holes.len()).ok()?;
    let step = 360.0 / f64::from(holes);
    let even = ring
        .holes
        .windows(2)
        .all(|pair| (pair[1].bearing - pair[0].bearing - step).abs() < EVEN);
    let setting = chord(2.0 * ring.mm, holes, 1);
    let closing = closing_error(ring.mm, holes, SETTING_ERROR)?;
    (holes >= 3 && even && ring.mm > 0.0).then_some(Dividers {
        radius: ring.mm,
        holes,
        setting,
        closing,
    })
}

/// The distance by which the last of `holes` steps around a circle misses the first hole, mm along the circle, if the dividers
/// are set `off` mm too wide.
///
/// A chord of c spans an angle of 2 asin(c / 2r), so the steps overshoot a full turn by n (2 asin((c + off) / 2r) - 2 asin(c /
/// 2r)), which is multiplied by the radius. `None` if the dividers no longer span a chord.
///
/// ```
/// // 60 steps round 400 mm, 0.1 mm too wide: about 60 times 0.1 mm.
/// assert!((workshop::closing_error(200.0, 60, 0.1).unwrap() - 6.008).abs() < 0.001);
/// ```
pub fn closing_error(radius: f64, holes: u32, off: f64) -> Option<f64> {
    let setting = chord(2.0 * radius, holes, 1);
    let wide = (setting + off) / (2.0 * radius);
    if !(-1.0..=1.0).contains(&wide) {
        return None;
    }
    let angle = |ratio: f64| Angle::asin(ratio).as_radians() * 2.0;
    Some(f64::from(holes) * radius * (angle(wide) - angle(setting / (2.0 * radius))))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::jig::RadiusHole;
    use testkit::assert_near;

    fn ring(radius: f64, holes: u32) -> Radius {
        let hole = |hole: u32| RadiusHole {
            row: hole as usize,
            bearing: f64::from(hole) * 360.0 / f64::from(holes),
        };
        Radius {
            mm: radius,
            holes: (0..holes).map(hole).collect(),
        }
    }

    /// Machinery's Handbook, 31st ed., p. 711: 8 divisions of 6 in have chords of 2.296 in; 56 of 1 in, 0.05607 in.
    #[test]
    fn settings_are_those_of_the_handbook() {
        for (radius, holes, wanted, places) in [(3.0, 8, 2.296, 5e-4), (0.5, 56, 0.056_07, 5e-6)] {
            let found = dividers(&[ring(radius, holes)]);
            assert_near!(found[0].setting, wanted, places);
        }
        let found = dividers(&[ring(200.0, 60)]);
        assert_near!(found[0].setting, 20.934_382_5, 1e-6);
    }

    #[test]
    fn uneven_rings_pairs_and_the_center_have_none() {
        let mut uneven = ring(100.0, 12);
        uneven.holes[3].bearing += 0.01;
        assert!(dividers(&[uneven, ring(100.0, 2), ring(0.0, 1)]).is_empty());
    }

    /// The position of the dividers after stepping all the way around.
    #[test]
    fn the_closing_error_is_the_sum_of_the_steps() {
        for (radius, holes, off) in [(200.0, 60, 0.1), (50.0, 8, -0.2), (290.0, 96, 0.397)] {
            let mut at = geometry::Point::new(0.0, radius);
            let wide = chord(2.0 * radius, holes, 1) + off;
            let mut turned = 0.0;
            for _ in 0..holes {
                let angle = Angle::asin(wide / (2.0 * radius)) * 2.0;
                turned += angle.as_radians();
                let next = geometry::point_at(radius, Angle::radians(turned));
                assert_near!(at.distance(next), wide, 1e-9);
                at = next;
            }
            let past = (turned - core::f64::consts::TAU) * radius;
            assert_near!(closing_error(radius, holes, off).unwrap(), past, 1e-9);
        }
    }

    /// A ring of three holes 0.1 mm apart: set 0.1 mm wider, the dividers would span more than the circle.
    #[test]
    fn a_ring_too_small_for_any_setting_has_none() {
        assert_eq!(closing_error(0.058, 3, 0.1), None);
        assert!(dividers(&[ring(0.058, 3)]).is_empty());
    }
}
