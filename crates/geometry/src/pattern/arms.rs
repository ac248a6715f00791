//! Arms: one per player along the axis, with parallel sides; neighboring arms share their inner corner.

use crate::error::Nearest;
use crate::limits::{ARM_WIDTH, check_even, check_players};
use crate::{Angle, Error, Point};

/// Once around an arm: from the inner corner outward, across the end, and back to one pitch from the next corner.
pub(super) fn track(
    across: u32,
    players: u32,
    spaces: u32,
    pitch: f64,
) -> Result<Vec<Point>, Error> {
    check_players("a track of arms", players, 2)?;
    let (half, out) = steps(across, spaces)?;
    let corner = corner(half, players);
    let (half, end) = (i64::from(half), i64::from(out));
    let up = (0..=end).map(|step| (-half, step));
    let over = (1 - half..half).map(|column| (column, end));
    let down = (1..=end).rev().map(|step| (half, step));
    Ok(up
        .chain(over)
        .chain(down)
        .map(|(column, step)| Point::new(column as f64 * pitch, (corner + step as f64) * pitch))
        .collect())
}

/// Pitches from the axis to a side of the arm, and from the inner corner to the arm's end.
fn steps(across: u32, spaces: u32) -> Result<(u32, u32), Error> {
    let (least, most) = (*ARM_WIDTH.start(), *ARM_WIDTH.end());
    if !ARM_WIDTH.contains(&across) {
        let nearest = Nearest::in_range(across, least, most);
        return Err(Error::ArmWidth { across, nearest });
    }
    if across.is_multiple_of(2) {
        let nearest = Nearest::beside(across, least, most);
        return Err(Error::ArmWidth { across, nearest });
    }
    let half = across / 2;
    let fewest = 2 * half + 2;
    check_even("a track of arms", spaces, fewest)?;
    if spaces < fewest {
        return Err(Error::ShortArms {
            across,
            spaces,
            least: fewest,
        });
    }
    Ok((half, (spaces - 2 * half) / 2))
}

/// Distance of the inner corner from the center, in pitches.
fn corner(half: u32, players: u32) -> f64 {
    // Two arms are in line: their shared corner is exactly level with the pin.
    if players == 2 {
        return 0.0;
    }
    f64::from(half) / Angle::turn_part(1, 2 * i64::from(players)).tan()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Sector, turn_in};
    use testkit::assert_near;

    #[test]
    fn four_arms_three_wide_go_out_across_and_back() {
        let arm = track(3, 4, 8, 10.0).unwrap();
        let wanted = [
            (-10.0, 10.0),
            (-10.0, 20.0),
            (-10.0, 30.0),
            (-10.0, 40.0),
            (0.0, 40.0),
            (10.0, 40.0),
            (10.0, 30.0),
            (10.0, 20.0),
        ];
        assert_eq!(arm.len(), wanted.len());
        for (space, (u, v)) in arm.iter().zip(wanted) {
            assert_near!(*space, Point::new(u, v), 1e-12);
        }
    }

    #[test]
    fn the_last_space_is_one_pitch_from_the_next_corner() {
        for (across, players, spaces) in [(3, 6, 14), (5, 2, 8), (7, 24, 8), (3, 3, 4)] {
            let arm = track(across, players, spaces, 20.0).unwrap();
            let next = Sector::new(1, players, Angle::ZERO).place(arm[0]);
            assert_near!(next.distance(arm[arm.len() - 1]), 20.0, 1e-9);
            assert_eq!(arm[turn_in(spaces) as usize - 1].x, 0.0);
        }
    }

    #[test]
    fn invalid_arm_widths_and_lengths_are_refused() {
        let width = |across| track(across, 6, 40, 20.0).unwrap_err().to_string();
        assert!(width(4).ends_with("not 4; use 3 or 5"));
        assert!(width(1).ends_with("not 1; use 3"));
        assert!(width(900).ends_with("not 900; use 249"));
        assert_eq!(
            track(5, 6, 4, 20.0),
            Err(Error::ShortArms {
                across: 5,
                spaces: 4,
                least: 6
            })
        );
        assert!(track(5, 6, 6, 20.0).is_ok());
        assert!(track(249, 6, 250, 20.0).is_ok());
    }
}
