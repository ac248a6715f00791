//! Changes would be lost.

use egui::Ui;

use super::{Answer, button_row, heading};
use crate::command::Command;
use crate::widgets::main_button;

/// Save, lose them, or stay.
pub fn unsaved_ui(ui: &mut Ui, then: Command) -> Option<Answer> {
    heading(ui, "Save the changes first?");
    ui.label("This board has changes that are in no file. They would be lost.");
    button_row(ui, |ui| {
        if main_button(ui, "Save").clicked() {
            return Some(Answer::SaveThen(then));
        }
        if ui.button("Lose the changes").clicked() {
            return Some(Answer::Discard(then));
        }
        ui.button("Cancel").clicked().then_some(Answer::Cancel)
    })
}
