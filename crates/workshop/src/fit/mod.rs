//! Solving for an open value: pitch, board, rim margin, bore or piece, from all the rest as typed; and the depth of a bore for
//! its ball or disc.
//!
//! Holes that the program does not place by searching go in closed form. A hole's place is linear in the pitch ([`growth`]), so
//! the pitches at which it keeps the rim are an interval between the roots of a quadratic, the pitches at which two holes are too
//! close are another, and the bounds on board, bore and piece are differences of lengths. The result is a bound: no size past it
//! can fit, with pockets in any place.
//!
//! Pockets left to the program move with every size, and so may jump from one side of the track to the other: not every board
//! larger than one that fits does so too. A thin place inside the track can keep the rim on a small board, and give way to a
//! thicker one at the rim, too near it, on a larger. So bisection between distant ends is not valid. [`walk`] starts on the
//! bound, which is mostly the answer, and goes from there as far as the shortfall requires at least. Let W be the smallest web of
//! a pocket, rim included, at the place where it is largest. Every place keeps its webs to bores as the board grows, so W does
//! not fall then, and rises by half of the growth at most; it rises by no more than the bores shrink; and a pitch smaller by the
//! share e adds no more than e times the board's radius, since every place brought in by that share has thinner webs to bores.
//! From where W is as wide as all limits they are kept, and while it is W that falls short, no such step passes that size.
//!
//! A limit wider than W can be kept before, by a place whose thin web is another; so no step is longer than a hundredth of the
//! size until many were taken; a stretch of sizes shorter than a step can be missed, under a rim margin wider than the webs
//! around the pockets. The sides of the last step are brought together to 1e-9 mm, always measuring the board as it is laid out:
//! the size returned is one that was measured. Pockets themselves are placed to 1e-6 mm, so where they are what stops it, a size
//! solved anew from a slightly different start may differ by a few times that.

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

/// Whether the program looks for the place of the pockets, so that they move with every size.
fn has_auto_pockets(board: &Board) -> bool {
    board.start > 0 && (board.pocket.bearing.is_none() || board.pocket.radius.is_none())
}

/// Whether the holes of pockets move with the pitch otherwise than in a straight line.
fn has_bending_pockets(board: &Board) -> bool {
    has_auto_pockets(board) || (board.start > 0 && board.pocket.shape == PocketShape::Arc)
}

/// The board without start pockets, whose place bends as the pitch changes.
fn without_pockets(board: &Board) -> Board {
    Board {
        start: 0,
        ..board.clone()
    }
}
