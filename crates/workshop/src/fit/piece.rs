//! The largest piece that the board has room for, and the smallest board that a piece needs.

use board::{Board, Range, field};
use geometry::Circle;

use super::growth::{Growing, growing};
use super::open::{Way, nearest_fraction};
use super::size::smallest_keeping;
use super::tightest::{Kept, ROUNDING, measure, tightest};
use super::walk::Walk;
use super::{FitError, Limit, has_bending_pockets, without_pockets};

/// The limits that a pitch has to respect.
const SPACING: Kept = &[Limit::Web, Limit::Gap];
/// The limits that a board has to respect as well.
const ALL: Kept = &[Limit::Rim, Limit::Web, Limit::Gap];

/// The smallest pitch and board for a piece, mm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PieceBoard {
    /// The pitch.
    pub pitch: f64,
    /// Diameter of the board.
    pub diameter: f64,
}

/// The largest diameter of piece that keeps the gap to its neighbors and stays inside the board's edge, mm; everything else
/// stays unchanged.
///
/// # Errors
/// [`FitError`] where the board cannot be laid out, or not even the smallest piece has room.
///
/// ```
/// // Neighbors are one pitch apart, and 2 mm are to be left between pieces.
/// let board = board::Board::default();
/// assert!((workshop::largest_piece(&board)? - (board.pitch - 2.0)).abs() < 1e-9);
/// # Ok::<(), workshop::FitError>(())
/// ```
pub fn largest_piece(board: &Board) -> Result<f64, FitError> {
    let range = field::PIECE_DIAMETER.range();
    let mut smallest = board.clone();
    smallest.piece.diameter = range.min;
    let layout = board::layout(&smallest).map_err(FitError::Build)?;
    // A piece grows into a gap by its diameter, and toward the edge by its radius.
    let growth = |limit: Kept, share: f64| {
        let tightest = tightest(&smallest, &layout, limit);
        if tightest.is_kept() {
            Ok(range.min + share * tightest.spare)
        } else {
            Err(FitError::nothing(range, tightest))
        }
    };
    let most = growth(&[Limit::Gap], 1.0)?.min(growth(&[Limit::Edge], 2.0)?);
    Ok(most.clamp(range.min, range.max))
}

/// The smallest pitch at which bores keep their webs and pieces their gaps, whatever the diameter of the board, mm; everything
/// else stays unchanged.
///
/// It is the pitch that piece and bore need, with unlimited room for pockets that the program places.
///
/// # Errors
/// [`FitError`] where the board cannot be laid out, or no pitch has room.
///
/// ```
/// // 16 mm pieces with 2 mm between them.
/// let board = board::Board { start: 0, ..board::Board::default() };
/// assert!((workshop::smallest_pitch_for_piece(&board)? - 18.0).abs() < 1e-9);
/// # Ok::<(), workshop::FitError>(())
/// ```
pub fn smallest_pitch_for_piece(board: &Board) -> Result<f64, FitError> {
    let range = field::PITCH.range();
    let mut roomy = board.clone();
    roomy.blank.diameter = field::BOARD_DIAMETER.range().max;
    let fixed = if has_bending_pockets(board) {
        without_pockets(&roomy)
    } else {
        roomy.clone()
    };
    let at = |board: &Board, pitch| Board {
        pitch,
        ..board.clone()
    };
    let holes = growing(&fixed)?;
    let Some(start) = Spacing::of(board, &holes).first_clear(range) else {
        let missing = measure(&at(&fixed, range.max), SPACING)?;
        return Err(FitError::nothing(range, missing));
    };
    let walk = Walk {
        range,
        start,
        end: range.max,
        per_mm: 1.0,
    };
    walk.first_kept(|pitch| measure(&at(&roomy, pitch), SPACING))
}

/// The smallest pitch that the web and the gap between pieces allow, and the smallest board on which pattern and pockets then
/// keep all limits, mm; everything else stays unchanged.
///
/// # Errors
/// [`FitError`] where the board cannot be laid out, or no size is large enough.
pub fn smallest_board_for_piece(board: &Board) -> Result<PieceBoard, FitError> {
    let pitch = smallest_pitch_for_piece(board)?;
    let pitched = Board {
        pitch,
        ..board.clone()
    };
    let diameter = smallest_keeping(&pitched, ALL, field::BOARD_DIAMETER.range().max)?;
    Ok(PieceBoard { pitch, diameter })
}

/// The pitch that piece and bore need, rounded to what a maker can lay out, mm.
///
/// It is that of [`smallest_pitch_for_piece`]; on an inch board, the next fraction at which the same limits are kept.
///
/// # Errors
/// The errors of [`smallest_pitch_for_piece`].
pub fn neat_pitch_for_piece(board: &Board) -> Result<f64, FitError> {
    let exact = smallest_pitch_for_piece(board)?;
    let mut roomy = board.clone();
    roomy.blank.diameter = field::BOARD_DIAMETER.range().max;
    let works = |pitch| {
        let pitched = Board {
            pitch,
            ..roomy.clone()
        };
        measure(&pitched, SPACING).is_ok_and(|tightest| tightest.is_kept())
    };
    Ok(nearest_fraction(board.units, exact, Way::Up, works))
}

/// The pitch and the board that a piece needs, rounded to what a maker can lay out.
///
/// They are those of [`smallest_board_for_piece`]; on an inch board, the next fractions at which the same limits are kept.
///
/// # Errors
/// The errors of [`smallest_board_for_piece`].
pub fn neat_board_for_piece(board: &Board) -> Result<PieceBoard, FitError> {
    let pitch = neat_pitch_for_piece(board)?;
    let pitched = Board {
        pitch,
        ..board.clone()
    };
    let exact = smallest_keeping(&pitched, ALL, field::BOARD_DIAMETER.range().max)?;
    let works = |diameter| {
        let mut sized = pitched.clone();
        sized.blank.diameter = diameter;
        measure(&sized, ALL).is_ok_and(|tightest| tightest.is_kept())
    };
    let diameter = nearest_fraction(board.units, exact, Way::Up, works);
    Ok(PieceBoard { pitch, diameter })
}

/// Holes that move with the pitch, and the distances they must keep.
struct Spacing<'a> {
    holes: &'a [Growing],
    web: f64,
    piece: f64,
    gap: f64,
}

impl<'a> Spacing<'a> {
    /// The holes of a board, with its limits for wood and for pieces.
    fn of(board: &Board, holes: &'a [Growing]) -> Self {
        Self {
            holes,
            web: board.limits.web,
            piece: board.piece.diameter,
            gap: board.limits.piece_gap,
        }
    }

    /// The smallest pitch in the range at which no two holes are too close. At each pitch it skips to the larger pitch up to
    /// which the pairs that are too close stay so.
    fn first_clear(&self, range: Range) -> Option<f64> {
        let mut pitch = self.least_pitch().max(range.min);
        while let Some(next) = self.clear_of(pitch) {
            if next > range.max {
                return None;
            }
            if next <= pitch {
                break;
            }
            pitch = next;
        }
        Some(pitch)
    }

    /// The pitch up to which the pairs that are too close at a pitch stay so; `None` if no pairs are.
    fn clear_of(&self, pitch: f64) -> Option<f64> {
        let mouths: Vec<Circle> = self.holes.iter().map(|hole| hole.mouth(pitch)).collect();
        let thin = geometry::close_webs(&mouths, self.web - ROUNDING);
        let seats: Vec<&Growing> = self.holes.iter().filter(|hole| hole.is_seat).collect();
        let pieces: Vec<Circle> = seats
            .iter()
            .map(|seat| Circle::new(seat.at(pitch), self.piece / 2.0))
            .collect();
        let tight = geometry::close_webs(&pieces, self.gap - ROUNDING);
        let bores = thin.iter().filter_map(|web| {
            let (one, other) = (self.holes.get(web.a)?, self.holes.get(web.b)?);
            Some(one.near(other, one.radius + other.radius + self.web)?.most)
        });
        let pieces = tight.iter().filter_map(|web| {
            let (one, other) = (seats.get(web.a)?, seats.get(web.b)?);
            Some(one.near(other, self.piece + self.gap)?.most)
        });
        bores.chain(pieces).reduce(f64::max)
    }

    /// The least pitch that the unmoved holes need, wherever the others are.
    fn least_pitch(&self) -> f64 {
        let untouched: Vec<Circle> = self
            .holes
            .iter()
            .filter(|hole| hole.is_seat && hole.moved.length() < UNTOUCHED)
            .map(|hole| Circle::new(hole.by_pitch.to_point(), 0.0))
            .collect();
        let narrowest = self
            .holes
            .iter()
            .map(|hole| hole.radius)
            .fold(f64::INFINITY, f64::min);
        let needed = (self.piece + self.gap).max(2.0 * narrowest + self.web);
        let closest = geometry::smallest_web(&untouched).map_or(0.0, |closest| closest.mm);
        if closest > UNTOUCHED {
            needed / closest * (1.0 - UNTOUCHED)
        } else {
            0.0
        }
    }
}

/// A hand-made offset this small is only rounding, mm.
const UNTOUCHED: f64 = 1e-9;
