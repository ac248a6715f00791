//! Solving for an open value (pitch, board, rim margin, bore or piece) from all other values, and for the depth of a bore for
//! its ball or disc.
//!
//! Holes that the program does not place by searching are solved in closed form. A hole's place is linear in the pitch
//! ([`growth`]), so the pitches at which it keeps the rim margin are an interval between the roots of a quadratic, the pitches
//! at which two holes are too close are another such interval, and the bounds on board, bore and piece are differences of
//! lengths. The result is a bound: no size beyond it can fit, wherever the pockets are.
//!
//! Pockets that the program places move with every size, and may jump from one side of the track to the other, so a board
//! larger than one that fits need not fit. On a small board the best place may be a thin one inside the track that keeps the
//! rim margin; on a larger board a thicker place may win at the rim, too close to it. So bisection between distant ends is not
//! valid. [`walk`] starts at the bound, which is usually the answer, and from there takes steps no longer than the shortfall
//! requires. Let W be the smallest web of a pocket, rim included, at the place where it is largest. As the board grows, every
//! place keeps its webs to bores, so W does not fall, and it rises by at most half of the growth. As the bores shrink, W rises
//! by no more than they do. A pitch smaller by the share e adds no more than e times the board's radius, since every place
//! moved inward by that share has thinner webs to bores. Once W is as wide as all limits, they are kept; as long as it is W
//! that falls short, no such step passes that size.
//!
//! A limit wider than W can be kept sooner, by a place whose thin web is a different one. So no step is longer than a hundredth
//! of the size until many have been taken; a range of sizes shorter than a step can still be missed where the rim margin is
//! wider than the webs around the pockets. The ends of the last step are narrowed down to 1e-9 mm, always by measuring the
//! board as laid out: the size returned was itself measured. Pockets are placed to 1e-6 mm, so where they are the obstacle, a
//! size solved again from a slightly different start may differ by a few times that.

mod bore;
mod bore_bound;
mod error;
mod growth;
mod insert;
mod open;
mod piece;
pub mod propose;
mod size;
mod spaces;
mod tightest;
mod tried;
mod walk;

#[cfg(test)]
mod scans;

pub use bore::{largest_bore, largest_bore_bound};
pub use bore_bound::BoreBound;
pub use error::{FitError, Limit};
pub use insert::{InsertError, InsertWish, insert_depth};
pub use open::{Open, Solved, solve};
pub use piece::{
    PieceBoard, largest_piece, neat_board_for_piece, neat_pitch_for_piece,
    smallest_board_for_piece, smallest_pitch_for_piece,
};
pub use propose::{
    BoardOrder, Offer, OrderSlab, ProposeError, Refusal, Wish, Wishes, propose, propose_for_shop,
    propose_order,
};
pub use size::{largest_pitch, rim_left, smallest_board};
pub use spaces::most_spaces;

use board::Board;
use geometry::PocketShape;

/// Whether the program searches for the place of the pockets, so that they move with every size.
fn has_auto_pockets(board: &Board) -> bool {
    board.start > 0 && (board.pocket.bearing.is_none() || board.pocket.radius.is_none())
}

/// Whether the holes of pockets do not move in a straight line with the pitch.
fn has_bending_pockets(board: &Board) -> bool {
    has_auto_pockets(board) || (board.start > 0 && board.pocket.shape == PocketShape::Arc)
}

/// The board without start pockets, whose places do not move in a straight line as the pitch changes.
fn without_pockets(board: &Board) -> Board {
    Board {
        start: 0,
        ..board.clone()
    }
}
