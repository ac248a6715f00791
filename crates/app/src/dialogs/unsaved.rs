//! Changes would be lost.

use egui::Ui;

use super::{Answer, button_row, heading};
use crate::command::Command;
use crate::widgets::main_button;

/// Save, lose them, or stay.
pub fn unsaved_ui(ui: &mut Ui, then: Command) -> Option<Answer> {
    heading(ui, "Save changes?");
    ui.label("This board has unsaved changes.");
    button_row(ui, |ui| {
        if main_button(ui, "Save").clicked() {
            return Some(Answer::SaveThen(then));
        }
        if ui.button("Don't save").clicked() {
            return Some(Answer::Discard(then));
        }
        ui.button("Cancel").clicked().then_some(Answer::Cancel)
    })
}
