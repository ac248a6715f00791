//! Solving for what the maker leaves open: the board for a pitch, the pitch for a board.
//!
//! What is kept is the rim margin of every bore, pockets and changes by hand included; webs are left to the
//! findings. Both sizes are found by halving: a board that is larger, or a pitch that is smaller, leaves no
//! less rim.

use board::{Board, BuildError, ranges};
use geometry::Circle;

use crate::figures::rim_margin;

/// Why nothing fits.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum FitError {
    /// The board cannot be laid out, whatever the size.
    #[error(transparent)]
    Build(#[from] BuildError),
    /// No size in its range keeps the rim margin.
    #[error("no {} from {} to {} mm keeps the rim margin; {short:.3} mm are missing at best", range.name, range.min, range.max)]
    Nothing {
        /// What was looked for.
        range: board::Range,
        /// How much is missing where it is least, mm.
        short: f64,
    },
}

/// The smallest diameter of board on which every bore keeps the rim margin, mm; all else stays as it is.
///
/// # Errors
/// [`FitError`] where the board cannot be laid out, or none in the range of diameters is large enough.
///
/// ```
/// use board::Board;
/// let board = Board { start: 0, ..Board::default() };
/// let diameter = workshop::smallest_board(&board)?;
/// let outermost = geometry::ring_radius(board.pitch, 84) + 6.0;
/// assert!((diameter - 2.0 * (outermost + board.limits.rim + board.blank.roundover)).abs() < 1e-9);
/// # Ok::<(), workshop::FitError>(())
/// ```
pub fn smallest_board(board: &Board) -> Result<f64, FitError> {
    let sized = |diameter: f64| {
        let mut sized = board.clone();
        sized.blank.diameter = diameter;
        sized
    };
    let spare = |diameter: f64| spare(&sized(diameter));
    let range = ranges::BOARD;
    let short = -spare(range.max)?;
    if short > 0.0 {
        return Err(FitError::Nothing { range, short });
    }
    // A board too small to be laid out does not fit either.
    Ok(halve(range.max, range.min, |diameter| {
        spare(diameter).is_ok_and(|spare| spare >= 0.0)
    }))
}

/// The largest pitch at which every bore keeps the rim margin on the board, mm; all else stays as it is.
///
/// # Errors
/// [`FitError`] where the board cannot be laid out, or none in the range of pitches is small enough.
///
/// ```
/// use board::Board;
/// let board = Board { start: 0, ..Board::default() };
/// let pitch = workshop::largest_pitch(&board)?;
/// let room = board.blank.flat_radius() - board.limits.rim - 6.0;
/// assert!((geometry::ring_radius(pitch, 84) - room).abs() < 1e-9);
/// # Ok::<(), workshop::FitError>(())
/// ```
pub fn largest_pitch(board: &Board) -> Result<f64, FitError> {
    let spare = |pitch: f64| {
        spare(&Board {
            pitch,
            ..board.clone()
        })
    };
    let range = ranges::PITCH;
    let short = -spare(range.min)?;
    if short > 0.0 {
        return Err(FitError::Nothing { range, short });
    }
    Ok(halve(range.min, range.max, |pitch| {
        spare(pitch).is_ok_and(|spare| spare >= 0.0)
    }))
}

/// By how much the tightest rim margin exceeds its limit, mm.
fn spare(board: &Board) -> Result<f64, BuildError> {
    let layout = board::layout(board)?;
    let flat = board.blank.flat_radius();
    let margins = layout
        .holes
        .iter()
        .map(|hole| rim_margin(flat, hole.mouth()));
    // A board without holes has only its middle to keep inside.
    let least = margins
        .fold(f64::INFINITY, f64::min)
        .min(rim_margin(flat, Circle::new((0.0, 0.0), 0.0)));
    Ok(least - board.limits.rim)
}

/// The last size that fits, on the way from one that does to one that may not.
fn halve(fitting: f64, other: f64, fits: impl Fn(f64) -> bool) -> f64 {
    if fits(other) {
        return other;
    }
    let (mut good, mut bad) = (fitting, other);
    loop {
        let middle = f64::midpoint(good, bad);
        // Two neighboring numbers have none between them.
        if middle == good || middle == bad {
            return good;
        }
        if fits(middle) {
            good = middle;
        } else {
            bad = middle;
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use board::{Change, Edit, layout};
    use geometry::Pattern;
    use testkit::assert_near;

    const PATTERNS: [Pattern; 4] = [
        Pattern::Ring,
        Pattern::Lobes { depth: 0.2 },
        Pattern::Polygon,
        Pattern::Arms { across: 3 },
    ];

    fn least_margin(board: &Board) -> f64 {
        spare(board).unwrap() + board.limits.rim
    }

    #[test]
    fn the_smallest_board_keeps_the_margin_and_none_to_spare() {
        for pattern in PATTERNS {
            let mut board = Board {
                pattern,
                start: 0,
                ..Board::default()
            };
            board.blank.diameter = smallest_board(&board).unwrap();
            assert_near!(least_margin(&board), board.limits.rim, 1e-9);
        }
    }

    #[test]
    fn the_largest_pitch_keeps_the_margin_and_none_to_spare() {
        for pattern in PATTERNS {
            let mut board = Board {
                pattern,
                start: 0,
                ..Board::default()
            };
            board.pitch = largest_pitch(&board).unwrap();
            assert_near!(least_margin(&board), board.limits.rim, 1e-9);
        }
    }

    #[test]
    fn pockets_left_to_the_program_are_kept_inside_too() {
        for pattern in PATTERNS {
            let mut board = Board {
                pattern,
                ..Board::default()
            };
            board.blank.diameter = smallest_board(&board).unwrap();
            assert!(least_margin(&board) >= board.limits.rim, "{pattern:?}");
            board.pitch = largest_pitch(&board).unwrap();
            assert!(least_margin(&board) >= board.limits.rim, "{pattern:?}");
        }
    }

    #[test]
    fn changes_by_hand_count() {
        let plain = Board {
            start: 0,
            ..Board::default()
        };
        let change = Change::Move { u: 0.0, v: 10.0 };
        let edit = Edit {
            hole: "T1-8".parse().unwrap(),
            mirrored: false,
            change,
        };
        let moved = Board {
            edits: vec![edit],
            ..plain.clone()
        };
        assert_near!(
            smallest_board(&moved).unwrap(),
            smallest_board(&plain).unwrap() + 20.0,
            1e-9
        );
        let pitch = largest_pitch(&moved).unwrap();
        let board = Board { pitch, ..moved };
        assert_near!(least_margin(&board), board.limits.rim, 1e-9);
        assert!(layout(&board).is_ok());
    }

    #[test]
    fn where_nothing_fits_it_says_how_much_is_missing() {
        let mut board = Board::default();
        board.blank.diameter = 30.0;
        let Err(FitError::Nothing { short, .. }) = largest_pitch(&board) else {
            panic!("something fits")
        };
        assert!(short > 0.0);
        let odd = Board {
            pattern: Pattern::Arms { across: 3 },
            spaces: 13,
            ..Board::default()
        };
        assert!(matches!(smallest_board(&odd), Err(FitError::Build(_))));
    }
}
