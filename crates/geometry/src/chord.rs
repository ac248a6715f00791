//! Chords of a divided circle: the settings of a pair of dividers.
//!
//! The pitch of a track is the chord, never the arc. Formulas: Machinery's Handbook, 31st ed. (2020), p. 711
//! (chord = diameter times the sine of 180 degrees over the number of divisions).

use crate::Angle;

/// The straight distance (mm) between two of `divisions` equal divisions of a circle, `steps` apart.
///
/// Zero divisions give zero.
///
/// ```
/// let chord = geometry::chord(400.0, 60, 1);
/// assert!((chord - 20.934_382).abs() < 1e-6);
/// ```
pub fn chord(diameter: f64, divisions: u32, steps: u32) -> f64 {
    if divisions == 0 {
        return 0.0;
    }
    let steps = steps % divisions;
    diameter * Angle::turn_part(i64::from(steps), 2 * i64::from(divisions)).sin()
}

/// The radius (mm) of the circle on which `holes` evenly spaced holes are `pitch` mm apart.
///
/// Fewer than two holes need no circle, so the radius is zero. Two holes lie opposite each other.
///
/// ```
/// let radius = geometry::ring_radius(16.0, 12);
/// assert!((radius - 30.909_626).abs() < 1e-6);
/// ```
pub fn ring_radius(pitch: f64, holes: u32) -> f64 {
    if holes < 2 {
        return 0.0;
    }
    pitch / (2.0 * Angle::turn_part(1, 2 * i64::from(holes)).sin())
}

/// The most holes on a circle of `radius` mm whose neighbors are at least `pitch` mm apart.
///
/// A count that fits exactly is not lost to rounding. A single hole can never be too close, so the result is 1 if not even two
/// fit, or if a length is not a positive number.
///
/// ```
/// assert_eq!(geometry::ring_capacity(8.0, 8.0), 6);
/// ```
pub fn ring_capacity(radius: f64, pitch: f64) -> u32 {
    let half = pitch / (2.0 * radius);
    if !(half > 0.0 && half <= 1.0 + FUZZ) {
        return 1;
    }
    let step = Angle::asin(half.min(1.0)) * 2.0;
    ((Angle::TURN.as_radians() / step.as_radians()) * (1.0 + FUZZ)).floor() as u32
}

/// Relative slack for a count that fits exactly: six unit chords on a unit circle are computed as 5.999...
const FUZZ: f64 = 1e-12;

#[cfg(test)]
mod tests {
    use super::*;
    use testkit::assert_near;

    /// Machinery's Handbook Guide, section 2 (handbook p. 704 table).
    #[test]
    fn the_handbook_guide_examples_are_reproduced() {
        assert_near!(chord(1.0, 56, 1), 0.05607, 5e-6);
        assert_near!(chord(6.0, 8, 1), 2.296, 5e-4);
        assert_near!(2.0 * ring_radius(2.156, 56), 38.452, 1e-3);
    }

    /// The Engineering `ToolBox`: chord lengths of a divided circle of radius 1, and its example for radius 3.
    #[test]
    fn published_chords_of_the_unit_circle_are_reproduced() {
        let published = [
            (6, 1.0),
            (8, 0.7654),
            (10, 0.6180),
            (12, 0.5176),
            (16, 0.3902),
            (20, 0.3129),
            (24, 0.2611),
            (30, 0.2091),
            (36, 0.1743),
            (40, 0.1569),
            (48, 0.1308),
            (54, 0.1163),
        ];
        for (divisions, length) in published {
            assert_near!(chord(2.0, divisions, 1), length, 5e-5);
        }
        // The example multiplies the rounded 6.2653 by 3.
        assert_near!(24.0 * chord(6.0, 24, 1), 18.7959, 1.5e-4);
    }

    /// Machinery's Handbook, 31st ed. (2020), p. 82 (S/R) and p. 78 (12 sides in a circle of 8 cm).
    #[test]
    fn published_sides_of_regular_polygons_are_reproduced() {
        for (sides, ratio) in [
            (5, 1.1756),
            (6, 1.0),
            (7, 0.8678),
            (8, 0.7654),
            (64, 0.0981),
        ] {
            assert_near!(chord(2.0, sides, 1), ratio, 5e-5);
        }
        for (sides, ratio) in [
            (3, 0.5774),
            (7, 1.1524),
            (12, 1.9319),
            (20, 3.1962),
            (64, 10.190),
        ] {
            assert_near!(ring_radius(1.0, sides), ratio, 5e-4);
        }
        assert_near!(chord(16.0, 12, 1), 4.141, 5e-4);
    }

    #[test]
    fn exact_values_of_touching_rings_are_reproduced() {
        // Computed: r / sin(180/n).
        assert_near!(ring_radius(16.0, 12), 30.909_626, 1e-6);
        assert_near!(ring_radius(16.0, 40), 101.963_959, 1e-6);
        assert_near!(chord(400.0, 60, 1), 20.934_382_5, 1e-7);
    }

    #[test]
    fn a_capacity_that_fits_exactly_is_not_lost_to_rounding() {
        assert_eq!(ring_capacity(8.0, 8.0), 6);
        assert_eq!(ring_capacity(200.0, 25.0), 50);
        assert_eq!(ring_capacity(100.0, 20.0), 31);
        assert_eq!(ring_capacity(150.0, 20.0), 47);
        for holes in 2..3000 {
            assert_eq!(ring_capacity(ring_radius(7.3, holes), 7.3), holes);
        }
    }

    #[test]
    fn invalid_lengths_hold_one_hole() {
        for (radius, pitch) in [
            (0.0, 5.0),
            (2.0, 5.0),
            (-1.0, 5.0),
            (5.0, 0.0),
            (f64::NAN, 1.0),
        ] {
            assert_eq!(ring_capacity(radius, pitch), 1);
        }
        assert_eq!(chord(5.0, 0, 1), 0.0);
        assert_eq!(ring_radius(5.0, 1), 0.0);
        assert_near!(ring_radius(5.0, 2), 2.5, 1e-12);
    }

    #[test]
    fn full_turns_do_not_change_a_chord() {
        assert_near!(chord(10.0, 6, 3), 10.0, 1e-12);
        assert_near!(chord(10.0, 6, 6), 0.0, 1e-12);
        assert_near!(chord(10.0, 6, 7), chord(10.0, 6, 1), 1e-12);
        assert_near!(chord(10.0, 7, 2), chord(10.0, 7, 5), 1e-12);
    }
}
