//! Sizes of patterns, each proportional to its pitch.
//!
//! A board diameter, a rim margin or a piece size can therefore be solved for exactly with one division: the pitch that puts
//! the outermost spaces at a given distance is that distance divided by [`reach`].

use crate::{Error, Pattern, track};

/// The largest distance of a track space from the center pin, in pitches.
///
/// ```
/// use geometry::{Pattern, reach};
/// let pitch = 165.0 / reach(Pattern::Ring, 1, 6)?;
/// assert!((pitch - 165.0).abs() < 1e-9);
/// # Ok::<(), geometry::Error>(())
/// ```
///
/// # Errors
///
/// The errors of [`track`] for the counts or the pattern.
pub fn reach(pattern: Pattern, players: u32, spaces: u32) -> Result<f64, Error> {
    let spaces = track(pattern, players, spaces, 1.0)?;
    Ok(spaces
        .iter()
        .map(|space| space.to_vec2().hypot())
        .fold(0.0, f64::max))
}

#[cfg(test)]
mod tests {
    use super::*;
    use testkit::assert_near;

    #[test]
    fn the_reach_of_each_pattern_is_the_distance_of_its_farthest_point() {
        assert_near!(reach(Pattern::Ring, 6, 1).unwrap(), 1.0, 1e-12);
        assert_near!(reach(Pattern::Polygon, 6, 4).unwrap(), 4.0, 1e-12);
        // 3 pitches out from the corner at (-1, 1): the end corner is at (1, 4).
        let arms = Pattern::Arms { across: 3 };
        assert_near!(reach(arms, 4, 8).unwrap(), 17_f64.sqrt(), 1e-12);
        assert!(reach(arms, 4, 7).is_err());
    }

    #[test]
    fn a_pattern_grows_in_proportion_to_its_pitch() {
        let lobes = Pattern::Lobes { depth: 0.2 };
        let pitch = 23.7;
        let wide = track(lobes, 5, 13, pitch).unwrap();
        assert_near!(wide[6].y, pitch * reach(lobes, 5, 13).unwrap(), 1e-9);
    }
}
