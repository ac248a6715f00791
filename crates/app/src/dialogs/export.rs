//! What to export, and where to.

use std::path::{Path, PathBuf};

use egui::{RichText, Ui};

use super::path::{path_row, typed};
use super::{Answer, buttons, fault_ui, heading};
use crate::exports::Kind;
use crate::host::{Ask, Host};
use crate::theme;
use workshop::{Finding, stops};

/// What to export, and where to.
pub struct ExportDialog {
    kinds: Vec<(Kind, String, bool)>,
    /// The folder, as typed.
    pub folder: String,
    replace: bool,
    /// Whether the board has findings that stop it.
    stopped: bool,
    /// What went wrong.
    pub fault: Option<String>,
}

impl ExportDialog {
    /// Every kind, to a folder; of a board that findings may stop.
    pub fn new(board: &board::Board, findings: &[Finding], folder: &Path) -> Self {
        let kinds = Kind::ALL
            .into_iter()
            .map(|kind| (kind, kind.file_name(board), true))
            .collect();
        Self {
            kinds,
            folder: folder.display().to_string(),
            replace: false,
            stopped: stops(findings),
            fault: None,
        }
    }

    /// Takes another folder; leave to replace files was for the one before.
    pub fn set_folder(&mut self, folder: String) {
        self.folder = folder;
        self.replace = false;
    }
}

/// Kinds with what they are for, folder, and leave to replace files.
pub fn export_ui(ui: &mut Ui, dialog: &mut ExportDialog, host: &dyn Host) -> Option<Answer> {
    heading(ui, "Export templates and tables");
    if dialog.stopped {
        let words = "▲ This board has findings that say stop: mend them before wood is cut.";
        ui.label(RichText::new(words).color(theme::Tokens::of(ui).stop));
    }
    for (kind, file, chosen) in &mut dialog.kinds {
        ui.checkbox(chosen, kind.label());
        ui.horizontal(|ui| {
            ui.add_space(24.0);
            ui.vertical(|ui| {
                ui.label(RichText::new(kind.purpose()).small());
                ui.label(RichText::new(file.as_str()).weak().small());
            });
        });
    }
    ui.add_space(theme::GAP);
    let before = dialog.folder.clone();
    let (browse, _) = path_row(ui, "Folder", &mut dialog.folder, &mut true);
    if dialog.folder != before {
        dialog.replace = false;
    }
    let folder = typed(&dialog.folder);
    let there = there(dialog, &folder, host);
    if !there.is_empty() {
        ui.label(format!("There already: {}", there.join(", ")));
        ui.checkbox(&mut dialog.replace, "Replace files that are there");
    }
    ui.add_space(theme::GAP);
    ui.label(
        RichText::new(
            "Print at 100 %, not fitted to the page, and measure the bars before drilling.",
        )
        .weak(),
    );
    fault_ui(ui, dialog.fault.as_ref());
    let kinds: Vec<Kind> = dialog
        .kinds
        .iter()
        .filter(|(_, _, chosen)| *chosen)
        .map(|(kind, _, _)| *kind)
        .collect();
    let ready = !kinds.is_empty()
        && !dialog.folder.trim().is_empty()
        && (there.is_empty() || dialog.replace);
    let (export, cancel) = buttons(ui, "Export", ready);
    if browse {
        Some(Answer::Browse(Ask::Folder))
    } else if export {
        Some(Answer::Export(kinds, folder, dialog.replace))
    } else {
        cancel.then_some(Answer::Cancel)
    }
}

/// The chosen files that are in the folder already.
fn there(dialog: &ExportDialog, folder: &PathBuf, host: &dyn Host) -> Vec<String> {
    let chosen = dialog.kinds.iter().filter(|(_, _, chosen)| *chosen);
    chosen
        .map(|(_, file, _)| file.clone())
        .filter(|file| host.exists(&Path::new(folder).join(file)))
        .collect()
}
