//! The dialog of a new board: a few wishes, from which the program proposes a sound one.

use board::{Board, Center, PieceKind, Units, field};
use egui::{RichText, Ui};
use geometry::Pattern;
use workshop::Wishes;

use super::{Answer, buttons, fault_ui, heading};
use crate::widgets::{choice_ui, number_ui};

/// A few wishes.
pub struct NewDialog {
    units: Units,
    players: u32,
    pattern: Pattern,
    piece: PieceKind,
    center: Center,
    /// Whether the board begins with what the shop has.
    with_shop: bool,
    /// The fault, if there is one.
    pub fault: Option<String>,
}

impl NewDialog {
    /// Six players on a ring, in a unit.
    pub fn new(units: Units) -> Self {
        Self {
            units,
            players: 6,
            pattern: Pattern::Ring,
            piece: PieceKind::Marble,
            center: Board::default().center,
            with_shop: true,
            fault: None,
        }
    }

    fn wishes(&self) -> Wishes {
        Wishes {
            units: Some(self.units),
            players: Some(self.players),
            pattern: Some(self.pattern),
            piece: Some(self.piece),
            center: Some(self.center),
            ..Wishes::default()
        }
    }
}

/// Unit, players, pattern, pieces, center.
pub fn new_ui(ui: &mut Ui, dialog: &mut NewDialog) -> Option<Answer> {
    heading(ui, "New board");
    choice_ui(ui, "Show lengths in", &mut dialog.units);
    let mut players = f64::from(dialog.players);
    number_ui(
        ui,
        "How many play",
        &field::PLAYERS,
        &mut players,
        dialog.units,
    );
    dialog.players = players as u32;
    choice_ui(ui, "Shape of track", &mut dialog.pattern);
    choice_ui(ui, "Played with", &mut dialog.piece);
    choice_ui(ui, "In the middle", &mut dialog.center);
    let about = "Your own paper, planer, bits, saw and resin, as you last had them; see File, Shop";
    ui.checkbox(&mut dialog.with_shop, "Begin with my shop")
        .on_hover_text(about);
    ui.label(
        RichText::new(
            "Bores, hole spacing and board are chosen to suit; all can be changed after.",
        )
        .weak(),
    );
    fault_ui(ui, dialog.fault.as_ref());
    let (begin, cancel) = buttons(ui, "Begin", true);
    if begin {
        Some(Answer::New(Box::new(dialog.wishes()), dialog.with_shop))
    } else {
        cancel.then_some(Answer::Cancel)
    }
}
