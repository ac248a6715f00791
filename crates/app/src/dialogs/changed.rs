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
        "{} was changed by another program or window after it was opened here. Saving over it would lose those changes.",
        path.display()
    ));
    button_row(ui, |ui| {
        if main_button(ui, "Save as…").clicked() {
            return Some(Answer::Elsewhere(then));
        }
        if ui.button("Replace it").clicked() {
            return Some(Answer::Replace(then));
        }
        let open = ui
            .button("Open it, lose my changes")
            .clicked()
            .then(|| Answer::Open(PathBuf::from(path)));
        open.or_else(|| ui.button("Cancel").clicked().then_some(Answer::Cancel))
    })
}
