//! The dialog before a command that would lose unsaved changes.

use egui::Ui;

use super::{Answer, button_row, heading};
use crate::command::Command;
use crate::widgets::main_button;

/// Offers to save, to discard the changes, or to cancel.
pub fn unsaved_ui(ui: &mut Ui, then: Command) -> Option<Answer> {
    heading(ui, "Save changes?");
    ui.label("This board has unsaved changes.");
    button_row(ui, |ui| {
        let stays = ui.button("Cancel").clicked().then_some(Answer::Cancel);
        let loses = ui.button("Don't save").clicked();
        let loses = loses.then_some(Answer::Discard(then));
        let saves = main_button(ui, "Save").clicked();
        stays.or(loses).or(saves.then_some(Answer::SaveThen(then)))
    })
}
