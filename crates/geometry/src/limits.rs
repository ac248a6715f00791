//! The ranges of a maker's requests, and the checks that every builder starts with.

use core::ops::RangeInclusive;

use crate::Error;
use crate::error::Nearest;

/// Numbers of players that a board may have.
pub const PLAYERS: RangeInclusive<u32> = 1..=24;
/// Numbers of track spaces that each player may have. A circle of 250 spaces for one player, 12 mm apart, is nearly a meter
/// across, and more players have fewer each.
pub const SPACES: RangeInclusive<u32> = 1..=250;
/// The most holes of one home lane or one start pocket.
pub const MOST_HOLES: u32 = 60;
/// The accepted pitches, in mm. The largest is for pieces as wide as a plate: twenty of them go around a board of 1.6 m.
pub const PITCH: RangeInclusive<f64> = 0.1..=250.0;
/// Depths that lobes may have; deeper ones have valleys too narrow to step through in equal chords.
pub const LOBE_DEPTH: RangeInclusive<f64> = 0.0..=0.35;
/// Widths of arms, in holes; only odd ones have a middle column for the home lane. An arm has more spaces than it is wide.
pub const ARM_WIDTH: RangeInclusive<u32> = 3..=249;

/// Checks players, spaces and pitch against their ranges.
pub(crate) fn check_track(players: u32, spaces: u32, pitch: f64) -> Result<(), Error> {
    if !PLAYERS.contains(&players) {
        let nearest = Nearest::in_range(players, *PLAYERS.start(), *PLAYERS.end());
        return Err(Error::Players { players, nearest });
    }
    if !SPACES.contains(&spaces) {
        let nearest = Nearest::in_range(spaces, *SPACES.start(), *SPACES.end());
        return Err(Error::Spaces { spaces, nearest });
    }
    check_pitch(pitch)
}

/// Checks a pitch against its range.
pub(crate) fn check_pitch(pitch: f64) -> Result<(), Error> {
    if PITCH.contains(&pitch) {
        return Ok(());
    }
    // A NaN pitch ends up at the lower end.
    let nearest = pitch.max(*PITCH.start()).min(*PITCH.end());
    Err(Error::Pitch { pitch, nearest })
}

/// Checks that the holes of `what` are not too many.
pub(crate) fn check_holes(what: &'static str, holes: u32) -> Result<(), Error> {
    if holes <= MOST_HOLES {
        Ok(())
    } else {
        Err(Error::ManyHoles { what, holes })
    }
}

/// Checks that a pattern has enough players.
pub(crate) fn check_players(pattern: &'static str, players: u32, least: u32) -> Result<(), Error> {
    if players >= least {
        Ok(())
    } else {
        Err(Error::FewPlayers {
            pattern,
            players,
            least,
        })
    }
}

/// Checks that the whole track has at least three spaces.
pub(crate) fn check_closed(players: u32, spaces: u32) -> Result<(), Error> {
    if players * spaces >= 3 {
        return Ok(());
    }
    Err(Error::FewSpaces {
        players,
        spaces,
        least: 3_u32.div_ceil(players.max(1)),
    })
}

/// Checks that the number of spaces per player is even, for a pattern that needs at least `least` of them.
pub(crate) fn check_even(pattern: &'static str, spaces: u32, least: u32) -> Result<(), Error> {
    if spaces.is_multiple_of(2) {
        return Ok(());
    }
    Err(Error::OddSpaces {
        pattern,
        spaces,
        nearest: Nearest::beside(spaces, least, *SPACES.end()),
    })
}

/// Checks that a number is finite.
pub(crate) fn check_finite(what: &'static str, value: f64) -> Result<(), Error> {
    if value.is_finite() {
        Ok(())
    } else {
        Err(Error::NotFinite { what, value })
    }
}

/// Checks that a length is finite and positive.
pub(crate) fn check_positive(what: &'static str, value: f64) -> Result<(), Error> {
    check_finite(what, value)?;
    if value > 0.0 {
        Ok(())
    } else {
        Err(Error::NotPositive { what, value })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_ends_of_the_ranges_are_accepted_and_values_beyond_are_not() {
        assert_eq!(check_track(24, 250, 250.0), Ok(()));
        assert_eq!(check_track(1, 1, 0.1), Ok(()));
        assert!(matches!(
            check_track(25, 250, 20.0),
            Err(Error::Players { .. })
        ));
        assert!(matches!(
            check_track(0, 250, 20.0),
            Err(Error::Players { .. })
        ));
        assert!(matches!(
            check_track(24, 251, 20.0),
            Err(Error::Spaces { .. })
        ));
        assert!(matches!(
            check_holes("a lane", 61),
            Err(Error::ManyHoles { .. })
        ));
    }

    #[test]
    fn an_invalid_pitch_is_refused_with_a_valid_one() {
        for (pitch, wanted) in [
            (f64::NAN, 0.1),
            (f64::INFINITY, 250.0),
            (-5.0, 0.1),
            (0.0, 0.1),
        ] {
            let Err(Error::Pitch { nearest, .. }) = check_pitch(pitch) else {
                panic!("{pitch} was accepted");
            };
            assert_eq!(nearest, wanted);
        }
    }

    #[test]
    fn a_track_of_two_spaces_is_refused_with_the_least_number_that_works() {
        let error = check_closed(2, 1);
        assert_eq!(
            error,
            Err(Error::FewSpaces {
                players: 2,
                spaces: 1,
                least: 2
            })
        );
        assert_eq!(check_closed(3, 1), Ok(()));
    }
}
