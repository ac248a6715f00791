//! An earlier run ended before its board was saved.

use egui::Ui;

use super::{Answer, button_row, heading};
use crate::rescue::Rescued;
use crate::widgets::main_button;

/// Open it, or give it up.
pub fn rescued_ui(ui: &mut Ui, rescued: &Rescued) -> Option<Answer> {
    heading(ui, "Open the board that was not saved?");
    let title = &rescued.board.title;
    let from = rescued.path.as_ref().map_or_else(
        || "It was in no file yet.".to_owned(),
        |path| format!("It was changed after {} was saved.", path.display()),
    );
    ui.label(format!(
        "The program ended before “{title}” was saved. {from}"
    ));
    button_row(ui, |ui| {
        if main_button(ui, "Open it").clicked() {
            return Some(Answer::Rescue(Box::new(rescued.clone())));
        }
        ui.button("Give it up").clicked().then_some(Answer::GiveUp)
    })
}
