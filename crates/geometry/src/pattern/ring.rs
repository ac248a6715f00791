//! The ring pattern: all spaces equally far apart on one circle around the center pin.

use crate::limits::check_closed;
use crate::{Angle, Error, Point, point_at, ring_radius};

use super::turn_in;

/// The track of one sector: `spaces` of the `players * spaces` points on the circle whose chords are one pitch long.
///
/// # Errors
///
/// [`Error`] if there are fewer than three points in total.
pub(super) fn track(players: u32, spaces: u32, pitch: f64) -> Result<Vec<Point>, Error> {
    check_closed(players, spaces)?;
    let all = players * spaces;
    let radius = ring_radius(pitch, all);
    let middle = i64::from(turn_in(spaces));
    Ok((1..=i64::from(spaces))
        .map(|space| point_at(radius, Angle::turn_part(space - middle, i64::from(all))))
        .collect())
}

#[cfg(test)]
mod tests {
    use super::*;
    use testkit::assert_near;

    /// Machinery's Handbook, 31st ed. (2020), p. 711, example 3(a): center (7.5, 6), radius 5, six holes, the first 30 degrees
    /// counterclockwise from +x. Here the holes go clockwise, so the list is read backward.
    #[test]
    fn the_hole_circle_of_the_handbook_is_reproduced() {
        let ring = track(1, 6, 5.0).unwrap();
        let center = Point::new(7.5, 6.0).to_vec2();
        // Space 4, where the home lane turns in, is at 12 o'clock; in the handbook it is the second hole.
        for (space, wanted) in [
            (5, Point::new(11.8301, 8.5)),
            (4, Point::new(7.5, 11.0)),
            (3, Point::new(3.1699, 8.5)),
        ] {
            assert_near!(ring[space - 1] + center, wanted, 1e-4);
        }
    }

    #[test]
    fn the_chords_add_up_to_a_full_turn_centered_on_the_pin() {
        let ring = track(1, 47, 12.7).unwrap();
        let chords: f64 = (0..47)
            .map(|space| ring[space].distance(ring[(space + 1) % 47]))
            .sum();
        assert_near!(chords, 47.0 * 12.7, 1e-9);
        let sum = ring
            .iter()
            .fold(crate::Vec2::ZERO, |sum, hole| sum + hole.to_vec2());
        assert_near!(sum.to_point(), Point::ORIGIN, 1e-9);
    }

    #[test]
    fn two_spaces_make_no_ring() {
        assert!(track(1, 2, 20.0).is_err());
        assert!(track(2, 1, 20.0).is_err());
        assert_eq!(track(1, 3, 20.0).unwrap().len(), 3);
    }
}
