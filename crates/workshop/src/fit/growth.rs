//! Movement of holes as the pitch grows: each moves in a straight line, at a multiple of the pitch plus its hand-made offset.

use board::{Board, BuildError, HoleName, layout};
use geometry::{Circle, Point, Vec2};

/// Two pitches that determine the lines.
const PITCHES: [f64; 2] = [16.0, 32.0];

/// A hole whose place is `by_pitch` times the pitch plus `moved`.
#[derive(Debug, Clone, Copy)]
pub(super) struct Growing {
    pub(super) name: HoleName,
    pub(super) by_pitch: Vec2,
    pub(super) moved: Vec2,
    pub(super) radius: f64,
    /// Whether it holds a piece.
    pub(super) is_seat: bool,
}

/// A range of pitches.
#[derive(Debug, Clone, Copy)]
pub(super) struct Pitches {
    pub(super) least: f64,
    pub(super) most: f64,
}

/// Every hole of a board whose pockets, if any, stay where they were set.
///
/// # Errors
/// [`BuildError`] where the board cannot be laid out.
pub(super) fn growing(board: &Board) -> Result<Vec<Growing>, BuildError> {
    let at = |pitch| {
        layout(&Board {
            pitch,
            ..board.clone()
        })
    };
    let [small, large] = PITCHES.map(at);
    let (small, large) = (small?, large?);
    let seats = small.seats(board).len();
    let holes = small.holes.iter().zip(&large.holes).enumerate();
    Ok(holes
        .map(|(place, (near, far))| {
            let by_pitch = (far.center - near.center) / (PITCHES[1] - PITCHES[0]);
            Growing {
                name: near.name,
                by_pitch,
                moved: near.center.to_vec2() - by_pitch * PITCHES[0],
                radius: near.bore.radius(),
                is_seat: place < seats,
            }
        })
        .collect())
}

impl Growing {
    /// Its center at a pitch.
    pub(super) fn at(&self, pitch: f64) -> Point {
        (self.by_pitch * pitch + self.moved).to_point()
    }

    /// Its mouth at a pitch.
    pub(super) fn mouth(&self, pitch: f64) -> Circle {
        Circle::new(self.at(pitch), self.radius)
    }

    /// The pitches at which the hole is no farther than a distance from the center pin.
    pub(super) fn within(&self, distance: f64) -> Option<Pitches> {
        within(self.by_pitch, self.moved, distance)
    }

    /// The pitches at which the hole is no farther than a distance from another.
    pub(super) fn near(&self, other: &Self, distance: f64) -> Option<Pitches> {
        let (by_pitch, moved) = (self.by_pitch - other.by_pitch, self.moved - other.moved);
        within(by_pitch, moved, distance)
    }
}

/// The pitches p at which the length of `a p + b` is at most a distance: those between the roots of a² p² + 2 a·b p + b² =
/// distance².
fn within(a: Vec2, b: Vec2, distance: f64) -> Option<Pitches> {
    if distance < 0.0 {
        return None;
    }
    let square = a.hypot2();
    if square < STILL * STILL {
        return (b.length() <= distance).then_some(Pitches {
            least: f64::NEG_INFINITY,
            most: f64::INFINITY,
        });
    }
    let middle = -a.dot(b) / square;
    // The distance of the line from the origin, divided by the speed along it.
    let aside = a.cross(b) / square.sqrt();
    let half = ((distance - aside) * (distance + aside) / square).sqrt();
    // The root of a negative number, NaN, means that the line stays farther away.
    (half >= 0.0).then_some(Pitches {
        least: middle - half,
        most: middle + half,
    })
}

/// Movement per mm of pitch that is only rounding.
const STILL: f64 = 1e-12;

#[cfg(test)]
mod tests {
    use super::*;
    use testkit::assert_near;

    #[test]
    fn growing_holes_match_the_layout() {
        let mut board = Board {
            pattern: geometry::Pattern::Lobes { depth: 0.2 },
            start: 0,
            ..Board::default()
        };
        board.set_moved("T1-3".parse().unwrap(), true, (4.0, -7.0));
        let holes = growing(&board).unwrap();
        for pitch in [0.1, 19.0, 250.0] {
            board.pitch = pitch;
            for (hole, growing) in layout(&board).unwrap().holes.iter().zip(&holes) {
                assert_eq!(hole.name, growing.name);
                assert_near!(hole.center, growing.at(pitch), 1e-11 * pitch.max(1.0));
            }
        }
    }

    #[test]
    fn a_line_is_within_a_distance_between_two_pitches() {
        let found = within(Vec2::new(2.0, 0.0), Vec2::new(-10.0, 3.0), 5.0).unwrap();
        assert_near!(found.least, 3.0, 1e-12);
        assert_near!(found.most, 7.0, 1e-12);
        assert!(within(Vec2::new(2.0, 0.0), Vec2::new(-10.0, 6.0), 5.0).is_none());
        assert!(within(Vec2::ZERO, Vec2::new(0.0, 6.0), 5.0).is_none());
        assert!(within(Vec2::ZERO, Vec2::new(0.0, 4.0), 5.0).is_some());
    }
}
