//! The blank with the board on it, to scale: knots, corners and the center pin can be dragged.

use board::Board;
use egui::Ui;

use crate::derived::Derived;
use crate::study::Study;

/// What is looked at on the blank in this run.
#[derive(Debug, Default)]
pub struct BlankViewState {}

/// What the blank view shows beside the document.
pub struct BlankSeen<'a> {
    /// What follows from the document.
    pub derived: &'a Derived,
    /// What took longer, if it is done.
    pub study: Option<&'a Study>,
}

/// Draws the blank, and moves in the document what is dragged.
pub fn blank_view_ui(
    ui: &mut Ui,
    board: &mut Board,
    seen: &BlankSeen<'_>,
    _state: &mut BlankViewState,
) {
    let known = seen.derived.blank.plan().is_some() || seen.study.is_some();
    let words = if known {
        board.title.as_str()
    } else {
        "Nothing is known of the blank yet"
    };
    ui.centered_and_justified(|ui| ui.label(words));
}
