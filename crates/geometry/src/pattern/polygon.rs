//! The polygon: a regular one with as many sides as players, with spaces along the sides and on the corners.

use crate::limits::{check_even, check_players};
use crate::{Angle, Error, Point};

/// One side of the polygon: space 1 is the corner counterclockwise of the axis, and the side is `spaces` pitches long.
pub(super) fn track(players: u32, spaces: u32, pitch: f64) -> Result<Vec<Point>, Error> {
    check_players("a polygon", players, 3)?;
    check_even("a polygon", spaces, 2)?;
    let half_side = f64::from(spaces) * pitch / 2.0;
    let apothem = half_side / Angle::turn_part(1, 2 * i64::from(players)).tan();
    let middle = i64::from(spaces / 2);
    Ok((0..i64::from(spaces))
        .map(|step| Point::new((step - middle) as f64 * pitch, apothem))
        .collect())
}

#[cfg(test)]
mod tests {
    use super::*;
    use testkit::assert_near;

    /// Machinery's Handbook, 31st ed. (2020), p. 82: r/S (inscribed radius) and R/S (outer radius) for side S.
    #[test]
    fn the_handbook_radii_are_reproduced() {
        for (sides, inner, outer) in [
            (3, 0.2887, 0.5774),
            (5, 0.6882, 0.8507),
            (6, 0.8660, 1.0),
            (8, 1.2071, 1.3066),
            (12, 1.8660, 1.9319),
            (20, 3.1569, 3.1962),
        ] {
            let side = track(sides, 10, 0.1).unwrap();
            assert_near!(side[5], Point::new(0.0, inner), 5e-5);
            assert_near!(side[0].to_vec2().hypot(), outer, 5e-5);
        }
    }

    #[test]
    fn the_first_space_is_the_corner_midway_between_axes() {
        let side = track(5, 8, 20.0).unwrap();
        let bearing = Angle::atan2(side[0].x, side[0].y);
        assert_near!(bearing.as_degrees(), -36.0, 1e-12);
    }

    #[test]
    fn an_odd_number_of_spaces_is_refused() {
        assert!(matches!(
            track(4, 9, 20.0),
            Err(Error::OddSpaces { spaces: 9, .. })
        ));
        assert!(matches!(
            track(2, 8, 20.0),
            Err(Error::FewPlayers { least: 3, .. })
        ));
    }
}
