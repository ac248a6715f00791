//! Hand edits, tied to a hole's name so that they survive a change of pitch.

use serde::{Deserialize, Serialize};

use crate::{Board, Bore, Center, HoleId, Role};

/// One hand edit of one hole, or of the same hole of every player.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Edit {
    /// The hole that is edited.
    pub hole: HoleId,
    /// Whether the same hole of every other player is edited too.
    pub mirrored: bool,
    /// The change.
    pub change: Change,
}

impl Edit {
    /// Whether the edit applies to this hole, directly or by mirroring.
    pub fn concerns(&self, hole: HoleId) -> bool {
        self.hole == hole || (self.mirrored && self.hole == hole.of_player(self.hole.player()))
    }
}

/// What an edit changes.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(tag = "kind", rename_all = "lowercase", deny_unknown_fields)]
pub enum Change {
    /// Moved from where the pattern puts it, in the player's frame.
    Move {
        /// To the clockwise side, mm.
        #[serde(rename = "u_mm")]
        u: f64,
        /// Outward, mm.
        #[serde(rename = "v_mm")]
        v: f64,
    },
    /// Not drilled.
    Drop,
    /// Drilled with a different bore.
    Bore {
        /// The bore instead of the role's.
        bore: Bore,
    },
    /// A hole the pattern doesn't have (its role is extra), in the player's frame.
    Add {
        /// To the clockwise side of the axis, mm.
        #[serde(rename = "u_mm")]
        u: f64,
        /// Outward from the center pin, mm.
        #[serde(rename = "v_mm")]
        v: f64,
        /// Its bore.
        bore: Bore,
    },
}

/// Hand edits as a maker makes them: each replaces the previous edit of its kind of the same hole or holes.
impl Board {
    /// The hand-made move of a hole, or of the same hole of every player: u and v, mm.
    ///
    /// ```
    /// use board::{Board, HoleId};
    /// let mut board = Board::default();
    /// let hole: HoleId = "T1-03".parse().unwrap();
    /// board.set_moved(hole, true, (1.5, -0.5));
    /// assert_eq!(board.moved(hole, true), (1.5, -0.5));
    /// // Changed for all players alike: the same hole of another sector has moved as far.
    /// assert_eq!(board.moved(hole.of_player(4), true), (1.5, -0.5));
    /// ```
    pub fn moved(&self, hole: HoleId, mirrored: bool) -> (f64, f64) {
        let moves = self.edits.iter().filter(|edit| edit.is_to(hole, mirrored));
        moves.fold((0.0, 0.0), |sum, edit| match edit.change {
            Change::Move { u, v } => (sum.0 + u, sum.1 + v),
            _ => sum,
        })
    }

    /// Moves a hole by this offset, in mm, from where the pattern puts it; an offset of zero undoes the move. An existing move
    /// keeps its place in the list.
    pub fn set_moved(&mut self, hole: HoleId, mirrored: bool, (u, v): (f64, f64)) {
        let is_move =
            |edit: &Edit| edit.is_to(hole, mirrored) && matches!(edit.change, Change::Move { .. });
        let place = self.edits.iter().position(is_move);
        let mut left = Some(Change::Move { u, v }).filter(|_| (u, v) != (0.0, 0.0));
        if let Some(edit) = place.and_then(|place| self.edits.get_mut(place))
            && let Some(change) = left.take()
        {
            edit.change = change;
            let mut is_first = true;
            self.edits
                .retain(|edit| !is_move(edit) || core::mem::take(&mut is_first));
            return;
        }
        self.edits.retain(|edit| !is_move(edit));
        self.edits.extend(left.map(|change| Edit {
            hole,
            mirrored,
            change,
        }));
    }

    /// Drops a hole.
    ///
    /// ```
    /// use board::{Board, HoleId};
    /// let mut board = Board::default();
    /// let all = board::layout(&board)?.holes.len();
    /// board.drop_hole("S1-2".parse().unwrap(), true);
    /// assert_eq!(board::layout(&board)?.holes.len(), all - board.players as usize);
    /// # Ok::<(), board::BuildError>(())
    /// ```
    pub fn drop_hole(&mut self, hole: HoleId, mirrored: bool) {
        let added =
            |edit: &Edit| edit.is_to(hole, mirrored) && matches!(edit.change, Change::Add { .. });
        if self.edits.iter().any(added) {
            self.edits.retain(|edit| !edit.is_to(hole, mirrored));
        } else {
            self.edits.push(Edit {
                hole,
                mirrored,
                change: Change::Drop,
            });
        }
    }

    /// Gives a hole its own bore; `None` restores the role's.
    pub fn set_bore(&mut self, hole: HoleId, mirrored: bool, bore: Option<Bore>) {
        self.edits.retain(|edit| {
            !(edit.is_to(hole, mirrored) && matches!(edit.change, Change::Bore { .. }))
        });
        self.edits.extend(bore.map(|bore| Edit {
            hole,
            mirrored,
            change: Change::Bore { bore },
        }));
    }

    /// The hole drilled at the center pin, including hand edits.
    pub fn drilled_center(&self) -> Center {
        let to_center = self.edits.iter().filter(|edit| edit.hole == HoleId::CENTER);
        to_center.fold(self.center, |center, edit| match (edit.change, center) {
            (Change::Drop, _) => Center::Nothing,
            (Change::Bore { bore }, Center::Hole { pilot, .. }) => Center::Hole { bore, pilot },
            (Change::Bore { bore }, Center::Pivot { .. }) => Center::Pivot {
                diameter: bore.diameter,
                depth: bore.depth,
            },
            _ => center,
        })
    }

    /// Adds a hole to the first player's sector, or to every player's, and returns its name.
    pub fn add_hole(&mut self, mirrored: bool, (u, v): (f64, f64), bore: Bore) -> HoleId {
        let taken = |number: &u32| {
            let same =
                |edit: &Edit| edit.hole.role() == Role::Extra && edit.hole.number() == *number;
            self.edits.iter().any(same)
        };
        let number = (1..=u32::MAX).find(|number| !taken(number)).unwrap_or(1);
        let hole = HoleId::new(Role::Extra, 1, number);
        self.edits.push(Edit {
            hole,
            mirrored,
            change: Change::Add { u, v, bore },
        });
        hole
    }
}

impl Edit {
    /// Whether the edit would move the center hole.
    pub(crate) fn moves_center(&self) -> bool {
        self.hole == HoleId::CENTER && matches!(self.change, Change::Move { .. })
    }

    /// Whether the edit was made to exactly this hole, or to exactly this hole of every player.
    fn is_to(&self, hole: HoleId, mirrored: bool) -> bool {
        self.mirrored == mirrored
            && if mirrored {
                self.concerns(hole)
            } else {
                self.hole == hole
            }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::layout;

    fn hole(name: &str) -> HoleId {
        name.parse().unwrap()
    }

    #[test]
    fn a_move_replaces_the_previous_one_and_a_zero_offset_undoes_it() {
        let mut board = Board::default();
        board.set_moved(hole("T2-3"), true, (1.0, 2.0));
        board.set_moved(hole("T4-3"), true, (3.0, 4.0));
        assert_eq!(board.moved(hole("T1-3"), true), (3.0, 4.0));
        assert_eq!(board.moved(hole("T1-3"), false), (0.0, 0.0));
        assert_eq!(board.edits.len(), 1);
        board.set_moved(hole("T1-3"), true, (0.0, 0.0));
        assert_eq!(board, Board::default());
    }

    #[test]
    fn dropping_an_added_hole_leaves_no_trace() {
        let mut board = Board::default();
        let bore = board.bores.track;
        let first = board.add_hole(true, (0.0, 20.0), bore);
        let second = board.add_hole(false, (5.0, 30.0), bore);
        assert_eq!((first, second), (hole("X1-1"), hole("X1-2")));
        assert_eq!(layout(&board).unwrap().holes.len(), 145 + 6 + 1);
        board.drop_hole(hole("X3-1"), true);
        board.drop_hole(second, false);
        assert_eq!(board, Board::default());
    }

    #[test]
    fn a_hole_can_get_its_own_bore_and_lose_it_again() {
        let mut board = Board::default();
        let bore = Bore {
            diameter: 8.0,
            ..board.bores.track
        };
        board.set_bore(hole("T1-1"), false, Some(bore));
        assert_eq!(
            layout(&board).unwrap().hole(hole("T1-1")).unwrap().bore,
            bore
        );
        board.set_bore(hole("T1-1"), false, None);
        board.drop_hole(hole("T1-1"), true);
        assert_eq!(layout(&board).unwrap().holes.len(), 145 - 6);
    }
}
