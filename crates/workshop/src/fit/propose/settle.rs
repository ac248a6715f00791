//! Pitch, board and pocket of a draft by the solver, each rounded to what is neat on the safe side and measured again.

use board::{Board, field};
use geometry::PocketShape;

use super::super::size::{largest_keeping, smallest_keeping};
use super::super::tightest::{Kept, measure, tightest};
use super::super::{FitError, Limit, largest_pitch, smallest_pitch_for_piece, without_pockets};
use super::neat::{Neat, Step};
use super::wishes::Wishes;
use crate::check::HAIR;

/// The limits that a new board keeps.
pub const ALL: Kept = &[Limit::Rim, Limit::Web, Limit::Gap];
/// The shapes of a pocket, the one to take of equals first.
const SHAPES: [PocketShape; 4] = [
    PocketShape::Row,
    PocketShape::Block,
    PocketShape::Ring,
    PocketShape::Arc,
];
/// Number of neat sizes measured past an exact one, as pockets may give way to a thinner place on a larger board.
const NEAT_TRIES: u32 = 40;

/// Sets the pitch where it is open: on a board that is open the smallest neat one that the pattern needs, if that is more
/// than the draft's; on a given board the largest at which the pattern keeps the rim margin.
///
/// # Errors
/// [`FitError`] where the pattern cannot be laid out, or no pitch does.
pub fn fit_pattern(board: &mut Board, wishes: &Wishes, neat: &Neat) -> Result<(), FitError> {
    match (wishes.pitch, wishes.diameter) {
        (None, None) => {
            let needed = smallest_pitch_for_piece(&without_pockets(board))?;
            board.pitch = board.pitch.max(neat_up(neat.pitch_step, needed));
        }
        (None, Some(_)) => {
            let most = largest_pitch(&without_pockets(board))?;
            let pitch = neat.fine_step.down(most);
            board.pitch = if pitch < field::PITCH.range().min {
                most
            } else {
                pitch
            };
        }
        (Some(_), _) => {}
    }
    Ok(())
}

/// Fits the board, or the pitch to a given board, to the pockets; whether all limits are kept then.
///
/// # Errors
/// [`FitError`] where a pattern cannot be laid out, or no board is large enough.
pub fn fit_pockets(board: &mut Board, wishes: &Wishes, neat: &Neat) -> Result<bool, FitError> {
    match (wishes.pitch, wishes.diameter) {
        (_, None) => fit_board(board, neat.board_step)?,
        (None, Some(_)) => fit_pitch(board, neat.fine_step)?,
        (Some(_), Some(_)) => {}
    }
    Ok(keeps(board))
}

/// A neat pitch no smaller than an exact one, or that itself at the end of the range.
fn neat_up(step: Step, needed: f64) -> f64 {
    let pitch = step.up(needed);
    if pitch > field::PITCH.range().max {
        needed
    } else {
        pitch
    }
}

/// Sets the smallest neat board on which pockets and rim keep their limits.
fn fit_board(board: &mut Board, step: Step) -> Result<(), FitError> {
    let exact = smallest_diameter(board)?;
    let kept = loosened(board)?;
    let sized = |diameter| {
        let mut sized = kept.clone();
        sized.blank.diameter = diameter;
        sized
    };
    let neat = (0..NEAT_TRIES)
        .map(|more| step.times(step.count_up(exact) + f64::from(more)))
        .find(|&diameter| keeps(&sized(diameter)));
    board.blank.diameter = neat.unwrap_or(exact);
    Ok(())
}

/// The smallest board on which pockets of some shape and the rim keep their limits, mm. A pattern whose own holes are
/// too near each other is so on any board; its pockets then keep what it does.
///
/// # Errors
/// [`FitError`] where the pattern cannot be laid out, or no board is large enough.
pub fn smallest_diameter(board: &Board) -> Result<f64, FitError> {
    of_shapes(
        &loosened(board)?,
        |shaped| smallest_keeping(shaped, ALL),
        f64::min,
    )
}

/// The largest pitch, no smaller than another, at which pockets of some shape keep all limits, mm.
///
/// # Errors
/// [`FitError`] where the pattern cannot be laid out, or no pitch does.
pub fn largest_sound_pitch(board: &Board, least: f64) -> Result<f64, FitError> {
    of_shapes(
        board,
        |shaped| largest_keeping(shaped, ALL, least),
        f64::max,
    )
}

/// Sets the largest neat pitch that keeps all limits on the board; where none does, the pitch is left as it is.
fn fit_pitch(board: &mut Board, step: Step) -> Result<(), FitError> {
    let needed = smallest_pitch_for_piece(&without_pockets(board))?;
    let at = |pitch| Board {
        pitch,
        ..board.clone()
    };
    // Pockets inside the track have the most room at the largest pitch, those outside at the smallest.
    if !(keeps(board) || keeps(&at(needed))) {
        return Ok(());
    }
    let exact = largest_sound_pitch(board, needed)?;
    let neat = (0..NEAT_TRIES)
        .map(|less| step.times(step.count_down(exact) - f64::from(less)))
        .take_while(|&pitch| pitch >= needed - HAIR && pitch >= field::PITCH.range().min)
        .find(|&pitch| keeps(&at(pitch)));
    board.pitch = neat.unwrap_or(exact);
    Ok(())
}

/// Sets the pocket shape with the most to spare, the first of equals.
pub fn fit_pocket(board: &mut Board) {
    let mut best: Option<(Board, f64)> = None;
    for shaped in shaped(board) {
        let Ok(found) = measure(&shaped, ALL) else {
            continue;
        };
        if best
            .as_ref()
            .is_none_or(|(_, most)| found.spare > most + 1e-6)
        {
            best = Some((shaped, found.spare));
        }
    }
    if let Some((best, _)) = best {
        *board = best;
    }
}

/// The board with limits on webs and gaps no wider than what its pattern leaves, pockets aside.
fn loosened(board: &Board) -> Result<Board, FitError> {
    let pattern = without_pockets(board);
    let layout = board::layout(&pattern)?;
    let mut loose = board.clone();
    let limits = &mut loose.limits;
    let webs: (_, Kept) = (&mut limits.web, &[Limit::Web]);
    let gaps: (_, Kept) = (&mut limits.piece_gap, &[Limit::Gap]);
    for (limit, kept) in [webs, gaps] {
        let short = tightest(&pattern, &layout, kept).spare.min(0.0);
        *limit = (*limit + short).max(0.0);
    }
    Ok(loose)
}

/// Whether some shape of pocket keeps all limits.
pub fn keeps(board: &Board) -> bool {
    let is_kept = |shaped: Board| measure(&shaped, ALL).is_ok_and(|found| found.spare >= -HAIR);
    shaped(board).any(is_kept)
}

/// The board with each shape of pocket; once where it has none.
pub fn shaped(board: &Board) -> impl Iterator<Item = Board> {
    let shapes = if board.start == 0 { 1 } else { SHAPES.len() };
    SHAPES.into_iter().take(shapes).map(|shape| {
        let mut shaped = board.clone();
        shaped.pocket.shape = shape;
        shaped
    })
}

/// The best of what the shapes of pocket allow; the fault of the last where none allows anything.
fn of_shapes(
    board: &Board,
    solve: impl Fn(&Board) -> Result<f64, FitError>,
    better: fn(f64, f64) -> f64,
) -> Result<f64, FitError> {
    let solved = shaped(board).map(|shaped| solve(&shaped));
    let best = solved.reduce(|best, next| match (best, next) {
        (Ok(best), Ok(next)) => Ok(better(best, next)),
        (Ok(one), Err(_)) | (_, Ok(one)) => Ok(one),
        (Err(_), Err(fault)) => Err(fault),
    });
    best.unwrap_or_else(|| solve(board))
}
