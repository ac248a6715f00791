//! The dialog for saving over a file that another program has changed since it was read.

use std::path::{Path, PathBuf};

use egui::Ui;

use super::{Answer, button_row, heading};
use crate::command::Command;
use crate::widgets::main_button;

/// Offers to save elsewhere, to replace the file, to open it, or to cancel.
pub fn changed_ui(ui: &mut Ui, path: &Path, then: Option<Command>) -> Option<Answer> {
    heading(ui, "Replace the file on disk?");
    ui.label(format!(
        "{} has changed on disk since it was opened here. Saving would overwrite those changes.",
        path.display()
    ));
    button_row(ui, |ui| {
        let stays = ui.button("Cancel").clicked().then_some(Answer::Cancel);
        let opens = ui
            .button("Discard my changes and reload")
            .clicked()
            .then(|| Answer::Open(PathBuf::from(path)));
        let replaces = ui.button("Replace").clicked();
        let replaces = replaces.then_some(Answer::Replace(then));
        let elsewhere = main_button(ui, "Save as…").clicked();
        let elsewhere = elsewhere.then_some(Answer::Elsewhere(then));
        stays.or(opens).or(replaces).or(elsewhere)
    })
}
