//! A template of one sector that is turned from player to player about the center pin.
//!
//! It lies on player 1's sector first. For each next sector it is turned clockwise, and an index pin goes through it into a
//! hole that was drilled in the sector before, so the index hole is at the place of that hole.
//!
//! Errors add up from turn to turn, since each sector is drilled from the one before. With play at each pin the last sector may
//! be off by all of them where it meets the first; the wood left there is given for the typical and for the worst case.

mod closing;
mod copies;
mod index;
#[cfg(test)]
mod tests;

use board::{Hole, HoleId, HoleName, Layout, SectorJig};
use geometry::{Angle, Circle, Point, bearing_of, point_at};

pub use closing::{Closing, PlayError};
pub use copies::SectorTurn;

use crate::Workpiece;
use closing::{Play, closing};
use copies::Copies;

/// The jig and its turns.
#[derive(Debug, Clone, PartialEq)]
pub struct SectorPlan {
    /// The holes drilled through it, which are player 1's.
    pub holes: Vec<Hole>,
    /// The index holes; the first one leads.
    pub index: Vec<IndexHole>,
    /// The least hardboard between an index hole and another hole of the jig, mm.
    pub web: f64,
    /// The sectors in the order they are drilled, clockwise from player 1.
    pub turns: Vec<SectorTurn>,
    /// The holes of the last sector that the pins meet when the jig is turned once more, onto the first; fewer where that
    /// sector was changed by hand.
    pub proof: Vec<HoleName>,
    /// The angle by which the last sector may be off, degrees.
    pub turned: PlayError,
    /// The least wood that play leaves between the last sector and the first.
    pub closing: Option<Closing>,
}

/// A hole of the jig for an index pin.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct IndexHole {
    /// The hole of player 1 whose copy in each sector takes the pin.
    pub name: HoleName,
    /// Its outline at its place in the jig.
    pub mouth: Circle,
}

/// The reason why a board has no sector jig.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
pub enum SectorJigError {
    /// A single sector has no turns.
    #[error("a board for one has no next sector: a sector jig needs two players or more")]
    OnePlayer,
    /// The center has no hole for the pin.
    #[error(
        "a sector jig turns on a pin, and nothing is drilled at the center: plan a pivot or a playing hole there"
    )]
    NoPin,
    /// No hole can take the index pin.
    #[error(
        "no hole of player 1 has a twin in every sector, so an index pin has no hole to go into: make edits for every player \
         alike"
    )]
    NoIndex,
}

/// The jig of a board that has one planned; none for other boards.
///
/// # Errors
/// [`SectorJigError`] if there is no next sector, no center pin, or no hole that can take an index pin in every sector.
pub(crate) fn sector_jig(workpiece: &Workpiece) -> Option<Result<SectorPlan, SectorJigError>> {
    let jig = workpiece.board().sector_jig?;
    Some(plan(workpiece, jig))
}

/// The jig of a board with its index holes, its turns and their total error.
fn plan(workpiece: &Workpiece, jig: SectorJig) -> Result<SectorPlan, SectorJigError> {
    let (board, layout) = (workpiece.board(), workpiece.layout());
    if board.players < 2 {
        return Err(SectorJigError::OnePlayer);
    }
    if board.drilled_center().pilot().is_none() {
        return Err(SectorJigError::NoPin);
    }
    let own: Vec<Hole> = of_player(layout, 1).copied().collect();
    let copies = Copies::of(workpiece, &own);
    let (index, web) = index::choose(workpiece, &copies, jig).ok_or(SectorJigError::NoIndex)?;
    let circles: Vec<Circle> = index.iter().map(|hole| hole.mouth).collect();
    let play = Play::new(jig.play, board.players, &circles);
    let last: Vec<Hole> = of_player(layout, board.players).copied().collect();
    let turned = play.turned();
    Ok(SectorPlan {
        turns: copies.turns(layout, &index),
        proof: copies.pins(board.players + 1, &index),
        closing: closing(&last, &own, &play),
        turned: PlayError {
            worst: turned.worst.to_degrees(),
            likely: turned.likely.to_degrees(),
        },
        holes: own,
        index,
        web,
    })
}

/// The holes of a player's sector.
fn of_player(layout: &Layout, player: u32) -> impl Iterator<Item = &Hole> {
    layout
        .holes
        .iter()
        .filter(move |hole| hole.name.id() != HoleId::CENTER && hole.name.id().player() == player)
}

/// The angle that each sector spans.
fn sector(players: u32) -> Angle {
    Angle::degrees(360.0 / f64::from(players.max(1)))
}

/// A point turned clockwise about the center pin.
fn turned(at: Point, turn: Angle) -> Point {
    point_at(at.to_vec2().length(), bearing_of(at) + turn)
}
