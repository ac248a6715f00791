//! All colors of a board: every colored part, with its medium and its player.
//!
//! The checks of color use this list, so that each of them names the same parts in the same words.

use board::{BorePart, HoleName, Hue, Role};

use super::Tint;
use crate::{GrooveKind, Workpiece};

/// A place of the board that can be colored.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Place {
    /// A part of bores.
    Bore(BorePart),
    /// V-grooves.
    Groove,
    /// The top face between two players' lines.
    Field,
    /// The players' marks.
    Mark,
}

/// One color at one part of the board.
#[derive(Debug, Clone, PartialEq)]
pub struct Used {
    /// The part, worded as the start of a sentence.
    pub part: &'static str,
    /// The place.
    pub place: Place,
    /// The color.
    pub tint: Tint,
    /// The player whose color it is; 0 if it is shared.
    pub player: u32,
    /// The holes that have the color or are next to it.
    pub holes: Vec<HoleName>,
    /// Length of the grooves that have it, mm; 0 for other places.
    pub length: f64,
}

/// Every color on the wood of a board, by part.
///
/// Holes of one role, color and player are one entry with all their names. The list is empty for a board left as bare wood.
pub fn used(workpiece: &Workpiece) -> Vec<Used> {
    let mut found = Vec::new();
    if workpiece.board().colors.colors_wood() {
        bores(workpiece, &mut found);
        grooves(workpiece, &mut found);
        fields(workpiece, &mut found);
        marks(workpiece, &mut found);
    }
    found
}

/// The colors of bores, by role or set by hand.
///
/// Holes colored by hand are one part, whatever their role.
fn bores(workpiece: &Workpiece, found: &mut Vec<Used>) {
    let colors = &workpiece.board().colors;
    for hole in &workpiece.layout().holes {
        let id = hole.name.id();
        let Some(has) = workpiece.color_of(id) else {
            continue;
        };
        let by_hand = colors.holes.iter().any(|one| one.concerns(id));
        let (part, is_players) = if by_hand {
            ("holes colored by hand", false)
        } else {
            (
                role_words(id.role()),
                colors.of(id.role()).hue == Hue::Player,
            )
        };
        let player = if is_players { id.player() } else { 0 };
        let place = Place::Bore(has.on);
        add(found, part, place, has.tint, player)
            .holes
            .push(hole.name);
    }
}

/// The colors of grooves that are routed.
///
/// Grooves that are not planned have no color, even if the document keeps one for them.
fn grooves(workpiece: &Workpiece, found: &mut Vec<Used>) {
    let colors = &workpiece.board().colors;
    let laid = workpiece.grooves().map_or(&[][..], |plan| &plan.grooves);
    for groove in laid {
        let owner = groove.player;
        let Some(tint) = workpiece.groove_color(groove.kind, owner) else {
            continue;
        };
        let is_players = super::groove_part(colors, groove.kind).hue == Hue::Player;
        let player = if is_players { owner } else { 0 };
        let part = groove_words(groove.kind);
        let one = add(found, part, Place::Groove, tint, player);
        one.holes.extend(groove.holes.iter().copied());
        one.length += groove.length();
    }
}

/// The colors of the players' fields.
fn fields(workpiece: &Workpiece, found: &mut Vec<Used>) {
    let is_players = workpiece.board().colors.sectors.hue == Hue::Player;
    let players = if is_players {
        workpiece.board().players
    } else {
        1
    };
    for player in 1..=players {
        if let Some(tint) = workpiece.sector_color(player) {
            let whose = if is_players { player } else { 0 };
            add(found, "player fields", Place::Field, tint, whose);
        }
    }
}

/// The players' marks, where they are made on the board.
///
/// A mark is listed with the holes of its start pocket, which the window highlights when the finding is selected.
fn marks(workpiece: &Workpiece, found: &mut Vec<Used>) {
    let Some(made) = workpiece.board().colors.marks else {
        return;
    };
    for look in workpiece.players() {
        let tint = Tint {
            color: look.color,
            medium: made.medium,
        };
        let names = pocket_names(workpiece, look.player);
        let one = add(found, "marks", Place::Mark, tint, look.player);
        one.holes.extend(names);
    }
}

/// The holes of a player's start pocket, or of the home lane if there is none.
pub fn pocket_names(workpiece: &Workpiece, player: u32) -> Vec<HoleName> {
    let of = |role| {
        let holes = workpiece.layout().holes.iter().map(|hole| hole.name);
        let is_it = |name: &HoleName| name.id().role() == role && name.id().player() == player;
        holes.filter(is_it).collect::<Vec<_>>()
    };
    let start = of(Role::Start);
    if start.is_empty() {
        of(Role::Home)
    } else {
        start
    }
}

/// The entry of a part with this color, added if there is none yet.
fn add<'a>(
    found: &'a mut Vec<Used>,
    part: &'static str,
    place: Place,
    tint: Tint,
    player: u32,
) -> &'a mut Used {
    let is_it =
        |one: &Used| (one.part, one.place, one.tint, one.player) == (part, place, tint, player);
    let at = found.iter().position(is_it).unwrap_or_else(|| {
        found.push(Used {
            part,
            place,
            tint,
            player,
            holes: Vec::new(),
            length: 0.0,
        });
        found.len() - 1
    });
    &mut found[at]
}

/// The bores of a role, as words within a sentence.
const fn role_words(role: Role) -> &'static str {
    match role {
        Role::Track => "track spaces",
        Role::Home => "home lanes",
        Role::Start => "start pockets",
        Role::Extra => "extra holes",
        Role::Center => "the center",
    }
}

/// Grooves of a kind that are colored together, as words within a sentence.
const fn groove_words(kind: GrooveKind) -> &'static str {
    match kind {
        GrooveKind::Ring => "routed rings",
        GrooveKind::Rim => "the border ring",
        _ => "grooves",
    }
}

impl Used {
    /// The part and the player whose color it is, as words within a sentence.
    pub fn words(&self) -> String {
        if self.player == 0 {
            self.part.into()
        } else {
            format!("{} of player {}", self.part, self.player)
        }
    }
}
