//! The largest bore that leaves enough wood and still holds the piece.

use board::{Board, Change, Hole, Role, field};
use geometry::Circle;

use super::bore_bound::{BoreBound, widest_for_piece};
use super::tightest::{Kept, measure, tightest};
use super::walk::Walk;
use super::{FitError, Limit, has_auto_pockets, without_pockets};
use crate::figures::rim_margin;

/// The limits that a bore has to respect.
const WOOD: Kept = &[Limit::Rim, Limit::Web];

/// The largest diameter for all bores of track, home lanes and start pockets at which every bore keeps its webs and the rim
/// margin, and the piece sits properly in it, mm. The center hole, added holes, bores set by hand and everything else stay
/// unchanged.
///
/// # Errors
/// [`FitError`] where the board cannot be laid out, or no diameter leaves enough wood.
///
/// ```
/// // Neighbors are one pitch apart, and 6 mm of wood are to be left between bores.
/// let mut board = board::Board { start: 0, ..board::Board::default() };
/// board.limits.web = 6.0;
/// assert!((workshop::largest_bore(&board)? - (board.pitch - 6.0)).abs() < 1e-9);
/// # Ok::<(), workshop::FitError>(())
/// ```
pub fn largest_bore(board: &Board) -> Result<f64, FitError> {
    Ok(largest_bore_bound(board)?.0)
}

/// The result of [`largest_bore`] and the limit that keeps the bores from being wider.
///
/// # Errors
/// As [`largest_bore`].
///
/// ```
/// use workshop::BoreBound;
/// let mut board = board::Board { start: 0, ..board::Board::default() };
/// board.limits.web = 6.0;
/// let (_, bound) = workshop::largest_bore_bound(&board)?;
/// assert!(matches!(bound, BoreBound::Wood { .. }));
/// # Ok::<(), workshop::FitError>(())
/// ```
pub fn largest_bore_bound(board: &Board) -> Result<(f64, BoreBound), FitError> {
    let range = field::BORE_DIAMETER;
    let bored = |diameter| with_bores(board, diameter);
    let mut fixed = bored(range.min);
    if has_auto_pockets(board) {
        fixed = without_pockets(&fixed);
    }
    let layout = board::layout(&fixed).map_err(FitError::Build)?;
    let smallest = tightest(&fixed, &layout, WOOD);
    if !smallest.is_kept() {
        return Err(FitError::nothing(range, smallest));
    }
    let piece = bound_by_piece(board);
    let by_piece = piece.as_ref().map_or(f64::INFINITY, |(mm, _)| *mm);
    let most = most_bore(board, &layout.holes).min(by_piece);
    let walk = Walk {
        range,
        start: most.clamp(range.min, range.max),
        end: range.min,
        per_mm: 1.0,
    };
    let mm = walk.first_kept(|diameter| measure(&bored(diameter), WOOD))?;
    if let Some((by_piece, bound)) = piece
        && mm >= by_piece
    {
        return Ok((mm, bound));
    }
    let met = measure(&bored(mm), WOOD)?;
    let (limit, holes) = (met.limit, met.holes);
    Ok((mm, BoreBound::Wood { limit, holes }))
}

/// The limit that the piece imposes on the bores of all roles; `None` if it imposes none.
fn bound_by_piece(board: &Board) -> Option<(f64, BoreBound)> {
    let bores = [board.bores.track, board.bores.home, board.bores.start];
    let bounds = bores
        .into_iter()
        .filter_map(|bore| widest_for_piece(board, bore));
    bounds.min_by(|one, other| one.0.total_cmp(&other.0))
}

/// The board with the same diameter for the bores of all roles.
pub(super) fn with_bores(board: &Board, diameter: f64) -> Board {
    let mut bored = board.clone();
    for bore in [
        &mut bored.bores.track,
        &mut bored.bores.home,
        &mut bored.bores.start,
    ] {
        bore.diameter = diameter;
    }
    bored
}

/// The largest diameter for which holes at these places have room.
fn most_bore(board: &Board, holes: &[Hole]) -> f64 {
    let (open, set): (Vec<&Hole>, Vec<&Hole>) =
        holes.iter().partition(|hole| is_of_role(board, hole));
    let points: Vec<Circle> = open
        .iter()
        .map(|hole| Circle::new(hole.center, 0.0))
        .collect();
    let flat = board.blank.flat_radius() - board.limits.rim;
    let to_rim = points.iter().map(|&point| 2.0 * rim_margin(flat, point));
    let to_set = set.iter().flat_map(|set| {
        let mouth = set.mouth();
        points.iter().map(move |point| {
            2.0 * (point.center.distance(mouth.center) - mouth.radius - board.limits.web)
        })
    });
    let to_each_other = geometry::smallest_web(&points).map(|web| web.mm - board.limits.web);
    to_rim
        .chain(to_set)
        .chain(to_each_other)
        .fold(f64::INFINITY, f64::min)
}

/// Whether a hole has the bore of its role.
fn is_of_role(board: &Board, hole: &Hole) -> bool {
    let id = hole.name.id();
    let by_hand =
        |edit: &board::Edit| matches!(edit.change, Change::Bore { .. }) && edit.concerns(id);
    matches!(id.role(), Role::Track | Role::Home | Role::Start) && !board.edits.iter().any(by_hand)
}
