//! The number of track spaces per player that fit on the board.
//!
//! Among counts of one parity, a track with more spaces is larger at every rank: its k-th farthest space is no closer to the
//! center pin. Let m be the number of spaces changed by hand. Counts whose space of rank m + 1 is too far out are ruled out by
//! bisection; smaller counts are tried one by one, since pockets and hand edits follow no such order.

use board::{Board, Role, field};

use super::tightest::{Kept, is_kept, measure};
use super::tried::Tried;
use super::{FitError, Limit};

/// The limits that counts are checked against.
const RIM: Kept = &[Limit::Rim];

/// The most track spaces per player at which every bore keeps the rim margin, on this board at this pitch; everything else
/// stays unchanged. Counts with which the pattern or the home lane cannot be built are skipped.
///
/// # Errors
/// [`FitError`] where no count can be built, or none fits.
///
/// ```
/// let board = board::Board { start: 0, ..board::Board::default() };
/// let room = board.blank.flat_radius() - board.limits.rim - 6.0;
/// assert_eq!(workshop::most_spaces(&board)?, geometry::ring_capacity(room, board.pitch) / 6);
/// # Ok::<(), workshop::FitError>(())
/// ```
pub fn most_spaces(board: &Board) -> Result<u32, FitError> {
    let mut tried = Tried::default();
    let most = [0, 1].map(|parity| most_in_reach(board, parity));
    let (least, largest) = (*geometry::SPACES.start(), most[0].max(most[1]));
    for spaces in (least..=largest).rev() {
        if most
            .get(spaces as usize % 2)
            .is_some_and(|most| spaces > *most)
        {
            continue;
        }
        let spare = tried.note(measure(&counted(board, spaces), RIM));
        if spare.is_some_and(is_kept) {
            return Ok(spaces);
        }
    }
    // No count within reach can be built, so the smallest one that can gives the shortfall.
    let smallest = most[0].min(most[1]) + 1;
    for spaces in smallest..=*geometry::SPACES.end() {
        if tried.has_layout() {
            break;
        }
        tried.note(measure(&counted(board, spaces), RIM));
    }
    Err(tried.failure(field::SPACES.range()))
}

/// The board with another number of spaces per player.
fn counted(board: &Board, spaces: u32) -> Board {
    Board {
        spaces,
        ..board.clone()
    }
}

/// The largest count of a parity that is not ruled out by the distance of its unchanged spaces; 0 or 1 where all are ruled out.
fn most_in_reach(board: &Board, parity: u32) -> u32 {
    let touched = touched(board);
    let room = board.blank.flat_radius() - board.limits.rim - board.bores.track.radius();
    let is_out = |spaces: u32| {
        let track = geometry::track(board.pattern, board.players, spaces, board.pitch);
        track.is_ok_and(|track| {
            let mut reaches: Vec<f64> =
                track.iter().map(|space| space.to_vec2().length()).collect();
            reaches.sort_unstable_by(|a, b| b.total_cmp(a));
            reaches
                .get(touched)
                .is_some_and(|reach| *reach > room + 1e-9)
        })
    };
    // Counts are 2 n + parity. The search doubles from small counts up, since long tracks take longer to build.
    let end = (*geometry::SPACES.end() - parity) / 2 + 1;
    let (mut inside, mut outside) = (0, 4);
    while outside < end && !is_out(2 * outside + parity) {
        (inside, outside) = (outside, 2 * outside);
    }
    outside = outside.min(end);
    while outside - inside > 1 {
        let middle = u32::midpoint(inside, outside);
        if is_out(2 * middle + parity) {
            outside = middle;
        } else {
            inside = middle;
        }
    }
    2 * inside + parity
}

/// Number of spaces per player that were changed by hand.
fn touched(board: &Board) -> usize {
    let on_track = board
        .edits
        .iter()
        .filter(|edit| edit.hole.role() == Role::Track);
    let numbers: std::collections::BTreeSet<u32> =
        on_track.map(|edit| edit.hole.number()).collect();
    numbers.len()
}
