//! One question for whatever is left open.

use board::Board;

use super::{
    FitError, bore::with_bores, largest_bore, largest_piece, largest_pitch, rim_left,
    smallest_board,
};

/// The numbers that can be left open, to be solved from the rest.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Open {
    /// The largest pitch that keeps the rim margin.
    Pitch,
    /// The smallest board that keeps the rim margin.
    Board,
    /// The rim margin that there is.
    Rim,
    /// The largest bore of track, home lanes and start pockets that keeps webs and the rim margin.
    Bore,
    /// The largest piece that keeps the gap to its neighbors.
    Piece,
}

impl Open {
    /// Everything that can be left open, in the order lists show it.
    pub const ALL: [Self; 5] = [Self::Pitch, Self::Board, Self::Rim, Self::Bore, Self::Piece];

    /// The words that screens use.
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

/// Solves for what is left open; all else stays as it is.
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

impl Solved {
    /// Puts it into the document.
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
