//! One function that solves for any open value.

use board::{Board, INCH, Units};

use super::tightest::{Kept, measure};
use super::{
    FitError, Limit, bore::with_bores, largest_bore, largest_piece, largest_pitch, rim_left,
    smallest_board,
};

/// The numbers that can be left open, to be solved from the rest.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Open {
    /// The largest pitch that keeps the rim margin.
    Pitch,
    /// The smallest board that keeps the rim margin.
    Board,
    /// The rim margin that the board has.
    Rim,
    /// The largest bore of track, home lanes and start pockets that keeps webs and the rim margin, and in which the piece sits
    /// properly.
    Bore,
    /// The largest piece that keeps the gap to its neighbors.
    Piece,
}

impl Open {
    /// Every value that can be left open, in the order lists show them.
    pub const ALL: [Self; 5] = [Self::Pitch, Self::Board, Self::Rim, Self::Bore, Self::Piece];

    /// Its name on screens.
    pub const fn label(self) -> &'static str {
        match self {
            Self::Pitch => "hole spacing",
            Self::Board => "board diameter",
            Self::Rim => "rim margin",
            Self::Bore => "bore diameter",
            Self::Piece => "piece diameter",
        }
    }
}

/// The number that was left open, with its result.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Solved {
    /// The number that was left open.
    pub open: Open,
    /// Its result, mm.
    pub mm: f64,
}

/// Solves for an open value; everything else stays unchanged.
///
/// # Errors
/// [`FitError`] where the board cannot be laid out, or nothing fits.
///
/// ```
/// use workshop::{Open, solve};
/// let mut board = board::Board::default();
/// solve(&board, Open::Board)?.apply(&mut board);
/// assert!((workshop::rim_left(&board)? - board.limits.rim).abs() < 1e-9);
/// # Ok::<(), workshop::FitError>(())
/// ```
pub fn solve(board: &Board, open: Open) -> Result<Solved, FitError> {
    let mm = match open {
        Open::Pitch => largest_pitch(board),
        Open::Board => smallest_board(board),
        Open::Rim => rim_left(board),
        Open::Bore => largest_bore(board),
        Open::Piece => largest_piece(board),
    }?;
    Ok(Solved { open, mm })
}

/// The direction in which a length gives more room.
#[derive(Clone, Copy)]
pub(super) enum Way {
    /// A larger length does.
    Up,
    /// A smaller length does.
    Down,
}

/// The nearest fraction of an inch that works instead of an exact length, mm.
///
/// A rule has marks at fractions, and a length between two of them is set by eye. In millimeters the result is the exact
/// length, as it is where no fraction nearby works.
pub(super) fn nearest_fraction(
    units: Units,
    exact: f64,
    way: Way,
    works: impl Fn(f64) -> bool,
) -> f64 {
    /// Number of fractions tried beyond the nearest, where pockets may jump to a thinner place.
    const TRIES: u32 = 8;
    let Units::Inch(fraction) = units else {
        return exact;
    };
    let step = INCH / f64::from(fraction.parts());
    let (nearest, step) = match way {
        Way::Up => (units.round_up(exact), step),
        Way::Down => (units.round_down(exact), -step),
    };
    let mut near = (0..TRIES).map(|more| nearest + f64::from(more) * step);
    near.find(|mm| *mm > 0.0 && works(*mm)).unwrap_or(exact)
}

impl Solved {
    /// The nearest fraction of an inch that works, on an inch board; the exact length on other boards, and where no fraction
    /// nearby works.
    ///
    /// ```
    /// use board::{Board, Units};
    /// use workshop::{Open, solve};
    /// let board = Board { units: Units::INCH, ..Board::default() };
    /// let exact = solve(&board, Open::Board)?;
    /// let neat = exact.neat(&board);
    /// assert!(neat.mm >= exact.mm && neat.mm - exact.mm < 25.4 / 64.0);
    /// # Ok::<(), workshop::FitError>(())
    /// ```
    #[must_use]
    pub fn neat(self, board: &Board) -> Self {
        let way = match self.open {
            Open::Board => Way::Up,
            _ => Way::Down,
        };
        let at = |mm| Self {
            open: self.open,
            mm,
        };
        at(nearest_fraction(board.units, self.mm, way, |mm| {
            at(mm).works(board)
        }))
    }

    /// Whether the board keeps the limits with the solved value.
    fn works(&self, board: &Board) -> bool {
        let kept: Kept = match self.open {
            Open::Pitch | Open::Board | Open::Rim => &[Limit::Rim],
            Open::Bore => &[Limit::Rim, Limit::Web],
            Open::Piece => &[Limit::Gap, Limit::Edge],
        };
        let mut solved = board.clone();
        self.apply(&mut solved);
        measure(&solved, kept).is_ok_and(|tightest| tightest.is_kept())
    }

    /// Stores it in the document.
    pub fn apply(&self, board: &mut Board) {
        match self.open {
            Open::Pitch => board.pitch = self.mm,
            Open::Board => board.blank.diameter = self.mm,
            Open::Rim => board.limits.rim = self.mm,
            Open::Bore => *board = with_bores(board, self.mm),
            Open::Piece => board.piece.diameter = self.mm,
        }
    }
}
