//! Pitch, board and pocket of a draft, so that webs, rim and room for pieces keep their limits.

use geometry::{Circle, PocketShape};

use super::neat::Neat;
use crate::{Blank, Board, BuildError, Hole, Layout, Pocket, field, layout};

/// How far a limit may be missed by rounding, mm.
const TOLERANCE: f64 = 1e-9;
/// The shapes of a pocket, the one to take of equals first.
const SHAPES: [PocketShape; 4] = [
    PocketShape::Row,
    PocketShape::Block,
    PocketShape::Ring,
    PocketShape::Arc,
];

/// Whether all limits on webs, rim and room for pieces are kept with some shape of pocket.
pub fn keeps_limits(board: &Board) -> bool {
    keeps_somehow(board, 0.0)
}

/// Least distance between two centers at which bores and pieces keep their limits, mm.
pub fn least_distance(board: &Board) -> f64 {
    (board.bores.track.diameter + board.limits.web)
        .max(board.piece.diameter + board.limits.piece_gap)
}

/// How near two holes of the pattern come, pockets aside, as a share of the pitch; none where no two differ.
///
/// # Errors
/// [`BuildError`] where the pattern cannot be laid out.
pub fn closeness(board: &Board) -> Result<Option<f64>, BuildError> {
    let points: Vec<Circle> = without_pockets(board)?
        .holes
        .iter()
        .map(|hole| Circle::new(hole.center, 0.0))
        .collect();
    let closest = geometry::smallest_web(&points).filter(|closest| closest.mm > 0.0);
    Ok(closest.map(|closest| closest.mm / board.pitch))
}

/// By how much webs and room for pieces of the pattern, pockets aside, exceed their limits, mm; negative where
/// they fall short, whatever the board.
///
/// # Errors
/// [`BuildError`] where the pattern cannot be laid out.
pub fn pattern_spare(board: &Board) -> Result<f64, BuildError> {
    Ok(spacing_spare(board, &without_pockets(board)?))
}

/// Sets the smallest neat board on which pockets and rim keep their limits; whether all limits are kept then.
///
/// A pattern whose own holes are too near each other does so on any board; its pockets then keep what it does.
///
/// # Errors
/// [`BuildError`] where the pattern cannot be laid out.
pub fn fit_board(board: &mut Board, neat: &Neat) -> Result<bool, BuildError> {
    let pattern = without_pockets(board)?;
    let wanted = spacing_spare(board, &pattern).min(0.0);
    let outermost = pattern.holes.iter().map(outer_radius).fold(0.0, f64::max);
    let least = 2.0 * (outermost + board.limits.rim + board.blank.roundover);
    // Outside everything else there is room for any pocket.
    let most = least + 2.0 * board.pitch * f64::from(board.start + 3);
    let step = neat.board_step;
    let keeps = |steps: f64| {
        let diameter = step.times(steps);
        let blank = Blank {
            diameter,
            ..board.blank
        };
        let sized = Board {
            blank,
            ..board.clone()
        };
        keeps_somehow(&sized, wanted)
    };
    let (smallest, largest) = (
        step.count_up(least),
        step.count_up(most.min(field::BOARD_DIAMETER.range().max)),
    );
    // A larger board leaves a pocket no less room.
    let (fits, steps) = if keeps(smallest) {
        (true, smallest)
    } else if keeps(largest) {
        (true, halve(largest, smallest, keeps))
    } else {
        (false, smallest)
    };
    board.blank.diameter = step.times(steps);
    Ok(fits && wanted >= 0.0)
}

/// Sets the largest neat pitch that keeps all limits on the given board, or, where none does, the one at which
/// the track alone keeps the rim margin; whether all limits are kept then.
///
/// # Errors
/// [`BuildError`] where the pattern cannot be laid out.
pub fn fit_pitch(board: &mut Board, neat: &Neat) -> Result<bool, BuildError> {
    let step = neat.fine_pitch_step;
    let reach = geometry::reach(board.pattern, board.players, board.spaces)?;
    let room = board.blank.flat_radius() - board.limits.rim - board.bores.track.radius();
    let most = step
        .count_down((room / reach).min(field::PITCH.range().max))
        .max(1.0);
    let closeness = closeness(board)?.unwrap_or(1.0);
    let least = step.count_up(least_distance(board) / closeness).max(1.0);
    let keeps = |steps: f64| {
        let pitch = step.times(steps);
        keeps_somehow(
            &Board {
                pitch,
                ..board.clone()
            },
            0.0,
        )
    };
    // A pocket inside the track at some pitch grows with it up to the largest. So if that does not do, pockets lie
    // outside the track, where a smaller pitch leaves them no less room.
    let (fits, steps) = if least > most {
        (false, most)
    } else if keeps(most) {
        (true, most)
    } else if keeps(least) {
        (true, halve(least, most, keeps))
    } else {
        (false, most)
    };
    board.pitch = step.times(steps);
    Ok(fits)
}

/// Sets the pocket shape with the most to spare, the first of equals.
pub fn fit_pocket(board: &mut Board) {
    let mut best: Option<(PocketShape, f64)> = None;
    for shape in SHAPES {
        let shaped = with_pocket(board, shape);
        let Ok(layout) = layout(&shaped) else {
            continue;
        };
        let spare = spare(&shaped, &layout);
        if best.is_none_or(|(_, most)| spare > most + 1e-6) {
            best = Some((shape, spare));
        }
    }
    if let Some((shape, _)) = best {
        board.pocket.shape = shape;
    }
}

/// The number of steps nearest to `other` that keeps, between one that does and one that does not.
fn halve(keeping: f64, other: f64, keeps: impl Fn(f64) -> bool) -> f64 {
    let (mut good, mut bad) = (keeping, other);
    while (good - bad).abs() > 1.0 {
        let middle = f64::midpoint(good, bad).floor();
        if keeps(middle) {
            good = middle;
        } else {
            bad = middle;
        }
    }
    good
}

fn without_pockets(board: &Board) -> Result<Layout, BuildError> {
    layout(&Board {
        start: 0,
        blank: Blank {
            diameter: field::BOARD_DIAMETER.range().max,
            ..board.blank
        },
        ..board.clone()
    })
}

fn with_pocket(board: &Board, shape: PocketShape) -> Board {
    let pocket = Pocket {
        shape,
        ..board.pocket
    };
    Board {
        pocket,
        ..board.clone()
    }
}

/// Whether any shape of pocket leaves so much to spare.
fn keeps_somehow(board: &Board, wanted: f64) -> bool {
    SHAPES.into_iter().any(|shape| {
        let shaped = with_pocket(board, shape);
        layout(&shaped).is_ok_and(|layout| spare(&shaped, &layout) >= wanted - TOLERANCE)
    })
}

/// By how much the tightest web, gap between pieces or rim margin exceeds its limit, mm.
pub fn spare(board: &Board, layout: &Layout) -> f64 {
    let holes = layout.holes.iter();
    let outermost = holes.map(outer_radius).fold(0.0, f64::max);
    let margin = board.blank.flat_radius() - outermost;
    spacing_spare(board, layout).min(margin - board.limits.rim)
}

fn spacing_spare(board: &Board, layout: &Layout) -> f64 {
    let least =
        |circles: &[Circle]| geometry::smallest_web(circles).map_or(f64::INFINITY, |web| web.mm);
    let pieces: Vec<Circle> = layout
        .seats(board)
        .iter()
        .map(|hole| Circle::new(hole.center, board.piece.diameter / 2.0))
        .collect();
    let webs = least(&layout.mouths()) - board.limits.web;
    webs.min(least(&pieces) - board.limits.piece_gap)
}

/// How far from the center pin a bore reaches, mm.
fn outer_radius(hole: &Hole) -> f64 {
    hole.center.to_vec2().length() + hole.bore.radius()
}

#[cfg(test)]
mod tests {
    use super::super::{Wishes, propose};
    use super::*;
    use crate::Units;
    use geometry::Pattern;

    fn sized(board: &Board, diameter: f64) -> Board {
        let blank = Blank {
            diameter,
            ..board.blank
        };
        Board {
            blank,
            ..board.clone()
        }
    }

    #[test]
    fn no_smaller_board_keeps_the_limits() {
        for (players, spaces, start) in [(2, 8, 4), (4, 10, 5), (6, 6, 4), (8, 4, 4), (3, 14, 10)] {
            let wishes = Wishes {
                players: Some(players),
                spaces: Some(spaces),
                start: Some(start),
                ..Wishes::default()
            };
            let board = propose(&wishes).unwrap();
            let mut diameter = board.blank.diameter - 10.0;
            while diameter > 20.0 {
                assert!(
                    !keeps_limits(&sized(&board, diameter)),
                    "{players} players, {spaces} spaces: {diameter} does, {} was chosen",
                    board.blank.diameter
                );
                diameter -= 10.0;
            }
        }
    }

    #[test]
    fn on_a_given_board_no_larger_pitch_keeps_the_limits() {
        for (diameter, pattern, start) in [
            (650.0, Pattern::Ring, 4),
            (560.0, Pattern::Lobes { depth: 0.2 }, 4),
            (500.0, Pattern::Arms { across: 3 }, 4),
            (620.0, Pattern::Polygon, 4),
            // So many that they do not go inside the track.
            (700.0, Pattern::Ring, 30),
        ] {
            let wishes = Wishes {
                diameter: Some(diameter),
                pattern: Some(pattern),
                start: Some(start),
                ..Wishes::default()
            };
            let board = propose(&wishes).unwrap();
            assert_eq!(board.blank.diameter, diameter);
            assert!(keeps_limits(&board), "{pattern:?}");
            for more in [1, 3, 10] {
                let pitch = board.pitch + f64::from(more) / 10.0;
                let wider = Board {
                    pitch,
                    ..board.clone()
                };
                assert!(!keeps_limits(&wider), "{pattern:?}: {pitch} would do");
            }
        }
    }

    #[test]
    fn a_board_for_too_small_a_pitch_keeps_the_rim_all_the_same() {
        let wishes = Wishes {
            pitch: Some(14.0),
            bore: Some(12.0),
            ..Wishes::default()
        };
        let board = propose(&wishes).unwrap();
        let layout = layout(&board).unwrap();
        let outermost = layout.holes.iter().map(outer_radius).fold(0.0, f64::max);
        assert!(board.blank.flat_radius() - outermost >= board.limits.rim - 1e-9);
        assert!((spacing_spare(&board, &layout) - pattern_spare(&board).unwrap()).abs() < 1e-9);
    }

    #[test]
    fn with_no_pocket_every_shape_is_as_good_and_the_row_is_taken() {
        let mut board = Board {
            start: 0,
            ..Board::default()
        };
        board.pocket.shape = PocketShape::Arc;
        fit_pocket(&mut board);
        assert_eq!(board.pocket.shape, PocketShape::Row);
    }

    #[test]
    fn the_shape_taken_has_the_most_to_spare() {
        for units in [Units::Mm, Units::Inch] {
            for spaces in [4, 6, 10] {
                let wishes = Wishes {
                    units: Some(units),
                    spaces: Some(spaces),
                    ..Wishes::default()
                };
                let board = propose(&wishes).unwrap();
                let of = |shape| {
                    let shaped = with_pocket(&board, shape);
                    layout(&shaped).map_or(f64::NEG_INFINITY, |layout| spare(&shaped, &layout))
                };
                let taken = of(board.pocket.shape);
                assert!(SHAPES.into_iter().all(|shape| of(shape) <= taken + 1e-6));
            }
        }
    }
}
