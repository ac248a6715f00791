//! Colors: those of each player and each part of the board, and how they are seen.
//!
//! A document names the colored parts; here they are resolved hole by hole and groove by groove, with the players' colors and
//! marks from the set if none were chosen.

pub mod amount;
pub mod check;
pub mod mends;
mod places;
mod player;
pub mod resin;
mod seen;
mod sight;
pub mod steps;
pub mod used;
pub mod words;

use board::{BorePart, Colored, HoleId, Hue, Medium, Rgb};

use crate::{GrooveKind, Workpiece};

pub use places::{MARK_LINE, mark_places};
pub use player::{PlayerLook, mark_name, player_look};
pub use seen::seen_on;
pub use sight::{
    ALIKE, LEAST_CONTRAST, Sight, color_distance, color_name, contrast, distance_to, luminance,
    seen_by,
};

/// The resolved color of a part of the board.
///
/// The color is that of the material; [`seen_on`] gives the color seen on the wood.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Tint {
    /// The color in the can.
    pub color: Rgb,
    /// The medium that carries it.
    pub medium: Medium,
}

/// The resolved color of a hole.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct HoleTint {
    /// The part of the bore that is colored.
    pub on: BorePart,
    /// Its color.
    pub tint: Tint,
}

impl Workpiece {
    /// The color of a hole and the part that has it; `None` if the hole stays bare.
    ///
    /// ```
    /// use board::{Board, HoleId, Hue, Role};
    /// use workshop::Workpiece;
    /// let mut board = Board::default();
    /// board.colors.home.hue = Hue::Player;
    /// let workpiece = Workpiece::of(&board)?;
    /// let color = |role| workpiece.color_of(HoleId::new(role, 2, 1));
    /// assert_eq!(color(Role::Home).unwrap().tint.color, workpiece.players()[1].color);
    /// assert_eq!(color(Role::Track), None);
    /// # Ok::<(), board::BuildError>(())
    /// ```
    pub fn color_of(&self, hole: HoleId) -> Option<HoleTint> {
        let look = self.board().colors.of_hole(hole);
        let color = color(self, look.hue, hole.player())?;
        let tint = Tint {
            color,
            medium: look.medium,
        };
        Some(HoleTint { on: look.on, tint })
    }

    /// The color of a groove of a kind for a player, counted from 1; `None` if it stays bare. A shared groove (player 0), such
    /// as the ring inside the rim, never has a player's color.
    pub fn groove_color(&self, kind: GrooveKind, player: u32) -> Option<Tint> {
        let colors = &self.board().colors;
        settled(self, groove_part(colors, kind), player)
    }

    /// The color of a player's field on the top face; `None` if it stays bare.
    ///
    /// Players are counted from 1; a number beyond the players of the board has no player's color.
    pub fn sector_color(&self, player: u32) -> Option<Tint> {
        settled(self, self.board().colors.sectors, player)
    }
}

/// The document's color for a kind of groove.
pub(crate) const fn groove_part(colors: &board::Colors, kind: GrooveKind) -> Colored {
    match kind {
        GrooveKind::Ring => colors.rings,
        GrooveKind::Rim => colors.rim,
        GrooveKind::Track
        | GrooveKind::Home
        | GrooveKind::AroundHome
        | GrooveKind::AroundStart
        | GrooveKind::Sector
        | GrooveKind::Middle => colors.grooves,
    }
}

/// The color of a part for a player, counted from 1.
///
/// Grooves and fields have the same two settings, hue and medium.
fn settled(workpiece: &Workpiece, colored: Colored, player: u32) -> Option<Tint> {
    let color = color(workpiece, colored.hue, player)?;
    Some(Tint {
        color,
        medium: colored.medium,
    })
}

/// The color that a hue stands for with a player; shared parts have no player's color.
fn color(workpiece: &Workpiece, hue: Hue, player: u32) -> Option<Rgb> {
    match hue {
        Hue::Bare => None,
        Hue::One { color } => Some(color),
        Hue::Player => {
            let place = (player as usize).checked_sub(1)?;
            workpiece.players().get(place).map(|look| look.color)
        }
    }
}
