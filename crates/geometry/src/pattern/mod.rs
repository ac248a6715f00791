//! The track and the home lane of one sector, for each of the four patterns.
//!
//! One sector is computed in its local frame, and every other is the same one rotated, so the board is exactly symmetric at no
//! cost. Neighbors are one pitch apart in a straight line, including the last space of a sector and the first of the next.

mod arms;
mod lobes;
mod polygon;
mod ring;

use crate::limits::{check_finite, check_holes, check_pitch, check_track};
use crate::{Error, Point};

/// The line that a track follows around the board.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Pattern {
    /// A circle.
    Ring,
    /// A circle with one lobe per player: radius `R (1 + depth cos N b)` at a bearing b from an axis.
    Lobes {
        /// Height of the lobes as a fraction of the mean radius; 0 is the ring, 0.35 the maximum.
        depth: f64,
    },
    /// A regular polygon with one side per player and its corners midway between the axes.
    Polygon,
    /// Arms with parallel sides, one per player, along the axes.
    Arms {
        /// Width of an arm in holes: odd, 3 or more.
        across: u32,
    },
}

/// The number of the turn-in space in its sector, counted from 1.
///
/// ```
/// assert_eq!(geometry::turn_in(14), 8);
/// ```
pub fn turn_in(spaces: u32) -> u32 {
    spaces / 2 + 1
}

/// The track spaces of one sector in its local frame, spaces 1 to `spaces` in order, `pitch` mm apart.
///
/// The turn-in space lies on the axis, at u = 0.
///
/// ```
/// use geometry::{Pattern, track, turn_in};
/// let spaces = track(Pattern::Arms { across: 3 }, 6, 14, 20.0)?;
/// let turn_in = spaces[turn_in(14) as usize - 1];
/// assert!(turn_in.x.abs() < 1e-9 && (turn_in.y - 154.641).abs() < 1e-3);
/// # Ok::<(), geometry::Error>(())
/// ```
///
/// # Errors
///
/// [`Error`] if a count or the pitch is out of range, or if the pattern cannot be built from these counts; it gives the nearest
/// values that work.
pub fn track(pattern: Pattern, players: u32, spaces: u32, pitch: f64) -> Result<Vec<Point>, Error> {
    check_track(players, spaces, pitch)?;
    match pattern {
        Pattern::Ring => ring::track(players, spaces, pitch),
        Pattern::Lobes { depth } => lobes::track(depth, players, spaces, pitch),
        Pattern::Polygon => polygon::track(players, spaces, pitch),
        Pattern::Arms { across } => arms::track(across, players, spaces, pitch),
    }
}

/// The holes of a home lane in the local frame: on the axis, from the turn-in space's neighbor inward.
///
/// `turn_in_v` is the distance of the turn-in space from the center, in mm.
///
/// ```
/// let lane = geometry::home_lane(154.6, 4, 20.0)?;
/// assert!((lane[3].y - 74.6).abs() < 1e-9);
/// # Ok::<(), geometry::Error>(())
/// ```
///
/// # Errors
///
/// [`Error::LongLane`], with the most holes that fit, if the lane would reach or pass the center; another [`Error`] if a value
/// is out of range.
pub fn home_lane(turn_in_v: f64, holes: u32, pitch: f64) -> Result<Vec<Point>, Error> {
    check_pitch(pitch)?;
    check_holes("a home lane", holes)?;
    check_finite("the turn-in space's distance from the center", turn_in_v)?;
    // Pitches from the turn-in space to the center; a hole on the center to within rounding counts as on it.
    let room = turn_in_v / pitch - FUZZ;
    if holes > 0 && f64::from(holes) >= room {
        return Err(Error::LongLane {
            holes,
            most: (room.ceil() - 1.0).max(0.0) as u32,
            turn_in: turn_in_v,
            needed: f64::from(holes) * pitch,
            pitch_under: (turn_in_v / f64::from(holes)).max(0.0),
        });
    }
    Ok((1..=holes)
        .map(|hole| Point::new(0.0, turn_in_v - f64::from(hole) * pitch))
        .collect())
}

/// A hole this close to the center, in pitches, counts as on it.
const FUZZ: f64 = 1e-9;

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_lane_that_reaches_the_center_is_refused_with_the_most_holes_that_fit() {
        for (turn_in_v, holes, most) in [
            (80.0, 4, 3),
            (80.0 + 1e-10, 4, 3),
            (79.9, 4, 3),
            (80.1, 5, 4),
            (15.0, 1, 0),
            (-3.0, 1, 0),
        ] {
            let Err(Error::LongLane { most: told, .. }) = home_lane(turn_in_v, holes, 20.0) else {
                panic!("{holes} holes from {turn_in_v} mm were accepted");
            };
            assert_eq!(told, most);
            assert!(home_lane(turn_in_v, most, 20.0).is_ok());
        }
        assert_eq!(home_lane(80.001, 4, 20.0).unwrap().len(), 4);
    }

    #[test]
    fn an_invalid_lane_is_refused() {
        assert!(home_lane(f64::NAN, 4, 20.0).is_err());
        assert!(home_lane(100.0, 61, 1.0).is_err());
        assert!(home_lane(100.0, 4, 0.0).is_err());
        assert_eq!(home_lane(0.0, 0, 20.0), Ok(Vec::new()));
    }

    #[test]
    fn the_errors_give_counts_that_work() {
        let arms = Pattern::Arms { across: 3 };
        assert_eq!(
            track(arms, 6, 13, 20.0).unwrap_err().to_string(),
            "a track of arms needs an even number of spaces per player, not 13; use 12 or 14"
        );
        assert!(track(arms, 6, 12, 20.0).is_ok() && track(arms, 6, 14, 20.0).is_ok());
        assert_eq!(
            track(Pattern::Polygon, 2, 14, 20.0)
                .unwrap_err()
                .to_string(),
            "a polygon needs at least 3 players, not 2"
        );
    }
}
