//! Solving for the pitch, the board and the rim margin.

use board::{Board, Range, field};

use super::growth::{Growing, Pitches, growing};
use super::tightest::{Kept, Tightest, measure, tightest};
use super::walk::Walk;
use super::{FitError, Limit, has_auto_pockets, has_bending_pockets, without_pockets};

/// The limits that pitch and board are checked against.
const RIM: Kept = &[Limit::Rim];

/// The smallest diameter of board on which every bore keeps the rim margin, mm; everything else stays unchanged.
///
/// # Errors
/// [`FitError`] where the board cannot be laid out, or none in the range of diameters is large enough.
///
/// ```
/// use board::Board;
/// let board = Board { start: 0, ..Board::default() };
/// let diameter = workshop::smallest_board(&board)?;
/// let outermost = geometry::ring_radius(board.pitch, 96) + 6.0;
/// assert!((diameter - 2.0 * (outermost + board.limits.rim + board.blank.roundover)).abs() < 1e-9);
/// # Ok::<(), workshop::FitError>(())
/// ```
pub fn smallest_board(board: &Board) -> Result<f64, FitError> {
    smallest_keeping(board, RIM, field::BOARD_DIAMETER.range().max)
}

/// The smallest diameter of board that keeps some limits, the rim margin among them, up to a largest one considered, mm.
pub(super) fn smallest_keeping(board: &Board, kept: Kept, most: f64) -> Result<f64, FitError> {
    let range = Range {
        max: most,
        ..field::BOARD_DIAMETER.range()
    };
    let sized = |diameter: f64| {
        let mut sized = board.clone();
        sized.blank.diameter = diameter;
        sized
    };
    let widest = sized(range.max);
    let fixed = if has_auto_pockets(board) {
        without_pockets(&widest)
    } else {
        widest
    };
    let outermost = tightest(
        &fixed,
        &board::layout(&fixed).map_err(FitError::Build)?,
        RIM,
    );
    let start = range.max - 2.0 * outermost.spare;
    if !outermost.is_kept() {
        return Err(FitError::nothing(range, outermost));
    }
    let walk = Walk {
        range,
        start: start.clamp(range.min, range.max),
        end: range.max,
        per_mm: 2.0,
    };
    walk.first_kept(|diameter| measure(&sized(diameter), kept))
}

/// The largest pitch at which every bore keeps the rim margin on the board, mm; everything else stays unchanged.
///
/// # Errors
/// [`FitError`] where the board cannot be laid out, or none in the range of pitches is small enough.
///
/// ```
/// use board::Board;
/// let board = Board { start: 0, ..Board::default() };
/// let pitch = workshop::largest_pitch(&board)?;
/// let room = board.blank.flat_radius() - board.limits.rim - 6.0;
/// assert!((geometry::ring_radius(pitch, 96) - room).abs() < 1e-9);
/// # Ok::<(), workshop::FitError>(())
/// ```
pub fn largest_pitch(board: &Board) -> Result<f64, FitError> {
    let range = field::PITCH.range();
    let fixed = if has_bending_pockets(board) {
        without_pockets(board)
    } else {
        board.clone()
    };
    let holes = growing(&fixed)?;
    let room = board.blank.flat_radius() - board.limits.rim;
    let Some(pitches) = pitches_within(&holes, room, range) else {
        return Err(FitError::nothing(range, least_missing(&holes, room, range)));
    };
    let walk = Walk {
        range,
        start: pitches.most,
        end: pitches.least,
        per_mm: pitches.most / board.blank.flat_radius().max(room),
    };
    walk.first_kept(|pitch| {
        let scaled = Board {
            pitch,
            ..board.clone()
        };
        measure(&scaled, RIM)
    })
}

/// The pitches at which all bores are within a distance from the center pin: the intersection of their intervals.
fn pitches_within(holes: &[Growing], room: f64, range: Range) -> Option<Pitches> {
    let all = Pitches {
        least: range.min,
        most: range.max,
    };
    let overlap = holes.iter().try_fold(all, |all, hole| {
        let own = hole.within(room - hole.radius)?;
        Some(Pitches {
            least: all.least.max(own.least),
            most: all.most.min(own.most),
        })
    });
    overlap.filter(|pitches| room >= 0.0 && pitches.least <= pitches.most)
}

/// The shortfall at the pitch where it is least. The largest of these distances is convex in the pitch, so that a ternary
/// search finds the minimum.
fn least_missing(holes: &[Growing], room: f64, range: Range) -> Tightest {
    let at = |pitch: f64| {
        let reach = |hole: &Growing| hole.at(pitch).to_vec2().length() + hole.radius;
        let reaches = holes.iter().map(|hole| (reach(hole), hole.name));
        reaches.max_by(|a, b| a.0.total_cmp(&b.0))
    };
    let reach = |pitch| at(pitch).map_or(0.0, |(reach, _)| reach);
    let (mut low, mut high) = (range.min, range.max);
    for _ in 0..200 {
        let third = (high - low) / 3.0;
        if reach(low + third) <= reach(high - third) {
            high -= third;
        } else {
            low += third;
        }
    }
    let best = f64::midpoint(low, high);
    Tightest {
        spare: room - reach(best),
        limit: Limit::Rim,
        holes: at(best).map(|(_, name)| name).into_iter().collect(),
    }
}

/// The rim margin that the board actually has, mm, for use as its limit; never more than a limit may be.
///
/// # Errors
/// [`FitError`] where the board cannot be laid out, or a bore runs into the roundover.
pub fn rim_left(board: &Board) -> Result<f64, FitError> {
    let range = Range {
        label: "Rim margin",
        ..field::LEAST_RIM.range()
    };
    let mut open = board.clone();
    open.limits.rim = 0.0;
    let left = measure(&open, &[Limit::Flat])?;
    if left.is_kept() {
        Ok(left.spare.clamp(range.min, range.max))
    } else {
        Err(FitError::nothing(range, left))
    }
}
