//! The file that is to be saved holds what this window has never seen.

use std::path::{Path, PathBuf};

use egui::Ui;

use super::{Answer, button_row, heading};
use crate::command::Command;
use crate::widgets::main_button;

/// Save elsewhere, replace it, look at it, or stay.
pub fn changed_ui(ui: &mut Ui, path: &Path, then: Option<Command>) -> Option<Answer> {
    heading(ui, "Replace the file on disk?");
    ui.label(format!(
        "{} has changed on disk since it was opened here. Saving would overwrite those changes.",
        path.display()
    ));
    button_row(ui, |ui| {
        if main_button(ui, "Save as…").clicked() {
            return Some(Answer::Elsewhere(then));
        }
        if ui.button("Replace").clicked() {
            return Some(Answer::Replace(then));
        }
        let open = ui
            .button("Discard my changes and reload")
            .clicked()
            .then(|| Answer::Open(PathBuf::from(path)));
        open.or_else(|| ui.button("Cancel").clicked().then_some(Answer::Cancel))
    })
}
