//! Changes would be lost.

use egui::Ui;

use super::{Answer, heading};
use crate::command::Command;
use crate::theme;
use crate::widgets::main_button;

/// Save, lose them, or stay.
pub fn unsaved_ui(ui: &mut Ui, then: Command) -> Option<Answer> {
    heading(ui, "Save the changes first?");
    ui.label("This board has changes that are in no file. They would be lost.");
    ui.add_space(theme::GAP);
    let layout = egui::Layout::right_to_left(egui::Align::Center);
    ui.with_layout(layout, |ui| {
        if main_button(ui, "Save").clicked() {
            return Some(Answer::SaveThen(then));
        }
        if ui.button("Lose the changes").clicked() {
            return Some(Answer::Discard(then));
        }
        ui.button("Cancel").clicked().then_some(Answer::Cancel)
    })
    .inner
}
