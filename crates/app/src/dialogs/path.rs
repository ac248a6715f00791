//! The dialogs for the file to open and the file to save to.

use std::path::{Path, PathBuf};

use egui::{TextEdit, Ui};

use super::{Answer, buttons, fault_ui, heading};
use crate::command::Command;
use crate::host::{Ask, Host};

/// A path to be typed or browsed for.
#[derive(Default)]
pub struct PathDialog {
    /// The path, as typed.
    pub path: String,
    /// The fault, if there is one.
    pub fault: Option<String>,
    /// Whether an existing file may be replaced.
    replace: bool,
    /// The command that waits for the board to be saved.
    then: Option<Command>,
    /// Whether the field has had the focus, which it gets when the dialog opens.
    entered: bool,
}

impl PathDialog {
    /// Begins with a path to save to, and what is done after that.
    pub fn new(path: &Path, then: Option<Command>) -> Self {
        Self {
            path: path.display().to_string(),
            then,
            ..Self::default()
        }
    }

    /// Sets another path and withdraws the permission to replace a file, which was given for the old path.
    pub fn set_path(&mut self, path: String) {
        self.path = path;
        self.replace = false;
    }
}

/// The dialog for the board file to open.
pub fn open_ui(ui: &mut Ui, dialog: &mut PathDialog) -> Option<Answer> {
    heading(ui, "Open a board");
    let PathRow { browse, entered } =
        path_row(ui, "Board file", &mut dialog.path, &mut dialog.entered);
    fault_ui(ui, dialog.fault.as_ref());
    let (open, cancel) = buttons(ui, "Open", !dialog.path.trim().is_empty());
    if browse {
        Some(Answer::Browse(Ask::Open))
    } else if open || entered {
        Some(Answer::Open(typed(&dialog.path)))
    } else {
        cancel.then_some(Answer::Cancel)
    }
}

/// The dialog for the file to save the board to.
pub fn save_ui(ui: &mut Ui, dialog: &mut PathDialog, host: &dyn Host) -> Option<Answer> {
    heading(ui, "Save the board as");
    let before = dialog.path.clone();
    let PathRow { browse, entered } =
        path_row(ui, "Board file", &mut dialog.path, &mut dialog.entered);
    if dialog.path != before {
        dialog.replace = false;
    }
    let path = with_ending(&typed(&dialog.path));
    let exists = host.exists(&path);
    if exists {
        ui.checkbox(&mut dialog.replace, "Replace existing file");
    }
    fault_ui(ui, dialog.fault.as_ref());
    let ready = !dialog.path.trim().is_empty() && (!exists || dialog.replace);
    let (save, cancel) = buttons(ui, "Save", ready);
    if browse {
        let name = path
            .file_name()
            .map(|name| name.to_string_lossy().into_owned());
        Some(Answer::Browse(Ask::Save(name.unwrap_or_default())))
    } else if ready && (save || entered) {
        Some(Answer::SaveAs(path, dialog.then))
    } else {
        cancel.then_some(Answer::Cancel)
    }
}

/// Width of the button that asks the system, in points.
const BROWSE: f32 = 90.0;

/// The maker's input in a row for a path.
pub struct PathRow {
    /// Whether the Browse button was pressed.
    pub browse: bool,
    /// Whether Enter was pressed in the field.
    pub entered: bool,
}

/// A field for a path, and a button that opens the system's file dialog.
///
/// The field takes the focus unless it has been `focused` before.
pub fn path_row(ui: &mut Ui, caption: &str, path: &mut String, focused: &mut bool) -> PathRow {
    let label = ui.label(caption).id;
    let room = (ui.available_width() - BROWSE).clamp(120.0, 370.0);
    ui.horizontal(|ui| {
        let field = ui
            .add(TextEdit::singleline(path).desired_width(room))
            .labelled_by(label);
        if !core::mem::replace(focused, true) {
            field.request_focus();
        }
        let entered = field.lost_focus() && ui.input(|input| input.key_pressed(egui::Key::Enter));
        if entered {
            // Where the path does not work, the next one can be typed at once.
            *focused = false;
        }
        PathRow {
            browse: ui.button("Browse…").clicked(),
            entered,
        }
    })
    .inner
}

/// The typed path without spaces around it, made absolute so that a notice can say where a file went.
pub fn typed(path: &str) -> PathBuf {
    let path = PathBuf::from(path.trim());
    std::path::absolute(&path).unwrap_or(path)
}

/// The path with the extension of board files added if it lacks one; a point within the name is not an extension.
fn with_ending(path: &Path) -> PathBuf {
    let has_it = path
        .extension()
        .is_some_and(|ending| ending.eq_ignore_ascii_case("json"));
    let Some(name) = path.file_name().filter(|_| !has_it) else {
        return path.into();
    };
    let mut name = name.to_os_string();
    name.push(".json");
    path.with_file_name(name)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_board_file_ends_in_json_whatever_points_its_name_has() {
        let ended = |path: &str| with_ending(Path::new(path)).display().to_string();
        assert_eq!(ended("/b/walnut"), "/b/walnut.json");
        assert_eq!(ended("/b/walnut 5.5"), "/b/walnut 5.5.json");
        assert_eq!(ended("/b/walnut.JSON"), "/b/walnut.JSON");
        assert_eq!(ended("/"), "/");
    }
}
