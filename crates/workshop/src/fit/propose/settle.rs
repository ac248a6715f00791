//! Pitch, board and pocket of a draft from the solver, each rounded to a neat value on the safe side and measured again.

use board::{Board, Range, field};
use geometry::PocketShape;

use super::super::size::smallest_keeping;
use super::super::tightest::{Kept, measure, tightest};
use super::super::{FitError, Limit, largest_pitch, smallest_pitch_for_piece, without_pockets};
use super::neat::{Neat, Step};
use super::wishes::Wishes;
use crate::check::HAIR;

/// The limits that a new board keeps.
pub const ALL: Kept = &[Limit::Rim, Limit::Web, Limit::Gap];
/// The shapes of a pocket, with the preferred one of equals first.
const SHAPES: [PocketShape; 4] = [
    PocketShape::Row,
    PocketShape::Block,
    PocketShape::Ring,
    PocketShape::Arc,
];
/// The diameters that a board may have.
const BOARD: Range = field::BOARD_DIAMETER.range();

/// Sets the pitch where it is open: on an open board the smallest neat pitch that the pattern needs, if that exceeds the
/// draft's; on a given board the largest at which the pattern keeps the rim margin.
///
/// # Errors
/// [`FitError`] where the pattern cannot be laid out, or no pitch works.
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

/// Fits the board to the pockets, or the pitch to a given board, and returns whether all limits are kept then.
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

/// The next neat pitch that is not smaller than an exact one, or the exact one itself at the end of the range.
fn neat_up(step: Step, needed: f64) -> f64 {
    let pitch = step.up(needed);
    if pitch > field::PITCH.range().max {
        needed
    } else {
        pitch
    }
}

/// Whether bores or pieces of a board without pockets overlap, or bores overlap the edge.
///
/// # Errors
/// [`FitError`] where it cannot be laid out.
pub fn overlaps(pattern: &Board) -> Result<bool, FitError> {
    let mut bare = pattern.clone();
    (bare.limits.web, bare.limits.piece_gap) = (0.0, 0.0);
    let tightest = measure(&bare, &[Limit::Flat, Limit::Web, Limit::Gap])?;
    Ok(tightest.spare < -HAIR)
}

/// Sets the smallest neat board on which pockets and rim keep their limits.
fn fit_board(board: &mut Board, step: Step) -> Result<(), FitError> {
    let kept = loosened(board)?;
    let bound = smallest_keeping(&without_pockets(&kept), ALL, BOARD.max)?;
    let fewest = shaped(&kept).fold(None, |fewest, shaped| {
        fewest_steps(&shaped, step, step.count_up(bound), fewest).or(fewest)
    });
    board.blank.diameter = match fewest {
        Some(steps) => step.times(steps),
        None => smallest_diameter(board)?,
    };
    Ok(())
}

/// The fewest steps, from one number up and below another, to a board on which the pocket keeps all limits.
fn fewest_steps(board: &Board, step: Step, from: f64, under: Option<f64>) -> Option<f64> {
    let limits = board.limits;
    // All limits are kept only where the thinnest web is as wide as the narrowest of them; the shortfall of any limit exceeds
    // that of the thinnest web by no more than this.
    let wide = limits.piece_gap + board.piece.diameter - board.bores.start.diameter;
    let apart = wide.max(limits.rim).max(limits.web) - limits.rim.min(limits.web);
    let mut steps = from;
    while under.is_none_or(|under| steps < under) && step.times(steps) <= BOARD.max {
        let mut sized = board.clone();
        sized.blank.diameter = step.times(steps);
        // Where it cannot be laid out, the shortfall is unknown.
        let missing = measure(&sized, ALL).map_or(1.0, |found| -found.spare);
        if missing <= HAIR {
            return Some(steps);
        }
        // The thinnest web grows by at most half of the growth of the board.
        let least = 2.0 * (missing - apart);
        steps = (steps + 1.0).max(step.count_up(sized.blank.diameter + least));
    }
    None
}

/// The smallest board on which pockets of some shape and the rim keep their limits, mm. A pattern whose own holes are too close
/// is so on any board; its pockets then keep the limits that the pattern itself keeps.
///
/// # Errors
/// [`FitError`] where the pattern cannot be laid out, or no board is large enough.
pub fn smallest_diameter(board: &Board) -> Result<f64, FitError> {
    let kept = loosened(board)?;
    // Each shape is solved only for results no worse than the best so far.
    let all = shaped(&kept).fold(None, |best: Option<Result<f64, FitError>>, shaped| {
        let most = best
            .as_ref()
            .map_or(BOARD.max, |best| *best.as_ref().unwrap_or(&BOARD.max));
        let found = smallest_keeping(&shaped, ALL, most);
        Some(match best {
            Some(best) => found.or(best),
            None => found,
        })
    });
    all.unwrap_or_else(|| smallest_keeping(&kept, ALL, BOARD.max))
}

/// Sets the largest neat pitch that keeps all limits on the board; if there is none, the pitch stays unchanged.
fn fit_pitch(board: &mut Board, step: Step) -> Result<(), FitError> {
    let needed = smallest_pitch_for_piece(&without_pockets(board))?;
    if let Some(pitch) = largest_sound_pitch(board, step, needed)? {
        board.pitch = pitch;
    }
    Ok(())
}

/// The largest neat pitch, no smaller than bores and pieces need, at which pockets of some shape keep all limits, mm.
///
/// A pocket inside the track gains room with the pitch up to the largest that keeps the rim margin. If it does not fit there,
/// pockets lie outside the track, where a smaller pitch leaves them no less room, so the pitch is found by bisection.
///
/// # Errors
/// [`FitError`] where the pattern cannot be laid out, or no pitch is small enough for it.
pub fn largest_sound_pitch(
    board: &Board,
    step: Step,
    needed: f64,
) -> Result<Option<f64>, FitError> {
    let most = largest_pitch(&without_pockets(board))?;
    let does = |pitch| {
        keeps(&Board {
            pitch,
            ..board.clone()
        })
    };
    let (mut good, mut bad) = (step.count_up(needed), step.count_down(most));
    if good > bad {
        // There is no neat pitch between them.
        return Ok((needed <= most && does(needed)).then_some(needed));
    }
    if does(step.times(bad)) {
        return Ok(Some(step.times(bad)));
    }
    if !does(step.times(good)) {
        return Ok(None);
    }
    while bad - good > 1.0 {
        let middle = f64::midpoint(good, bad).floor();
        if does(step.times(middle)) {
            good = middle;
        } else {
            bad = middle;
        }
    }
    Ok(Some(step.times(good)))
}

/// Sets the pocket shape with the most room to spare, the first of equals.
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

/// The board with its limits on webs and gaps reduced to what its pattern leaves without pockets.
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
