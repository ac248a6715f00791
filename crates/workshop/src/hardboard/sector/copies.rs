//! The holes of each sector that the jig drills once it is turned there.

use std::collections::BTreeSet;

use board::{Hole, HoleId, HoleName, Layout};
use geometry::Point;

use crate::Workpiece;
use crate::hardboard::sector::{IndexHole, of_player, sector, turned};

/// Greatest distance between copies of a hole in two sectors at which one jig drills both, mm.
const ALIKE: f64 = 1e-6;

/// A sector that is drilled through the jig.
#[derive(Debug, Clone, PartialEq)]
pub struct SectorTurn {
    /// The player whose sector it is.
    pub player: u32,
    /// The holes for the index pins, in the order of the index holes; they belong to the sector before. Empty for the first
    /// sector.
    pub pins: Vec<HoleName>,
    /// Holes of the jig to skip here, as the jig names them: this sector has no such hole, or another bore.
    pub skip: Vec<HoleName>,
    /// Holes of this sector that the jig does not drill.
    pub apart: Vec<HoleName>,
}

/// The holes of every sector that are drilled through each hole of the jig.
pub struct Copies<'a> {
    /// The holes of the jig.
    pub own: &'a [Hole],
    /// For each player and each hole of the jig, the hole that it drills there.
    of: Vec<Vec<Option<&'a Hole>>>,
}

impl<'a> Copies<'a> {
    /// For each hole of player 1's sector, the holes where the jig drills it in each other sector.
    ///
    /// Holes that were moved, removed or added by hand have no copy: the jig skips them, and they are listed separately.
    pub fn of(workpiece: &'a Workpiece, own: &'a [Hole]) -> Self {
        let (board, layout) = (workpiece.board(), workpiece.layout());
        let of_player = |player: u32| {
            let turn = sector(board.players) * f64::from(player - 1);
            own.iter()
                .map(|hole| copy(layout, hole, player, turned(hole.center, turn)))
                .collect()
        };
        Self {
            own,
            of: (1..=board.players).map(of_player).collect(),
        }
    }

    /// Whether every sector drilled before the last has a copy of this hole of the jig, as an index pin needs.
    pub fn takes_pins(&self, at: usize) -> bool {
        let before = self.of.split_last().map_or(&[][..], |(_, before)| before);
        before
            .iter()
            .all(|holes| holes.get(at).is_some_and(Option::is_some))
    }

    /// The turns of the jig, sector by sector.
    pub fn turns(&self, layout: &Layout, index: &[IndexHole]) -> Vec<SectorTurn> {
        let turn = |(player, copies): (u32, &Vec<Option<&Hole>>)| {
            let drilled: BTreeSet<HoleId> =
                copies.iter().flatten().map(|hole| hole.name.id()).collect();
            let skipped = self.own.iter().zip(copies);
            SectorTurn {
                player,
                pins: self.pins(player, index),
                skip: skipped
                    .filter(|(_, copy)| copy.is_none())
                    .map(|(hole, _)| hole.name)
                    .collect(),
                apart: of_player(layout, player)
                    .filter(|hole| !drilled.contains(&hole.name.id()))
                    .map(|hole| hole.name)
                    .collect(),
            }
        };
        (1..).zip(&self.of).map(turn).collect()
    }

    /// The holes for the pins when the jig lies on a player's sector; they belong to the sector before.
    pub fn pins(&self, player: u32, index: &[IndexHole]) -> Vec<HoleName> {
        // The first sector, which is number 1, has none before it.
        let before = (player as usize)
            .checked_sub(2)
            .and_then(|at| self.of.get(at));
        let pin = |index: &IndexHole| {
            let at = self.own.iter().position(|hole| hole.name == index.name)?;
            Some((*before?.get(at)?)?.name)
        };
        index.iter().filter_map(pin).collect()
    }
}

/// The hole of a player at this place with the same bore: usually the one with the same number.
fn copy<'a>(layout: &'a Layout, hole: &Hole, player: u32, at: Point) -> Option<&'a Hole> {
    let same = |other: &&Hole| other.center.distance(at) < ALIKE && other.bore == hole.bore;
    layout
        .hole(hole.name.id().of_player(player))
        .filter(same)
        .or_else(|| of_player(layout, player).find(same))
}
