//! The keys: one line for each command that has them, and those of the drawing.

use egui::{Grid, Ui};

use crate::command::Command;
use crate::theme;

/// Keys of the drawing, which are no commands.
const OF_THE_DRAWING: [(&str, &str); 16] = [
    (
        "Tab, Shift+Tab",
        "Go to the next control or the one before, and into the drawing",
    ),
    ("[ and ]", "Previous or next hole"),
    ("Ctrl+arrow keys", "Next hole in that direction"),
    (
        "Comma and period",
        "Previous or next thing other than a hole: lanes, pockets, grooves, edge, rotation",
    ),
    (
        "Arrow keys",
        "Move the chosen holes or thing, with Shift ten times as far; else move the drawing",
    ),
    ("Delete", "Remove the chosen holes"),
    (
        "Drag",
        "Take along what lights up; on plain wood move the drawing",
    ),
    (
        "Ctrl and drag",
        "Move a hole alone; on plain wood choose by a box",
    ),
    (
        "+ and −, wheel",
        "Zoom in and out; the wheel does it about the pointer",
    ),
    ("0, double click", "Bring the whole board into view"),
    ("Click", "Choose a hole"),
    ("Ctrl and click", "Choose another hole too"),
    ("Shift and drag", "Measure from thing to thing"),
    ("Enter", "While measuring: lay an end at the chosen hole"),
    ("Page Up, Page Down", "Previous or next page of a preview"),
    (
        "Escape",
        "Undo a drag, end measuring, or close an open window",
    ),
];

/// The keys, in two columns.
pub fn keys_ui(ui: &mut Ui) {
    group(
        ui,
        "Commands",
        Command::ALL.into_iter().filter_map(|command| {
            let keys = command.shortcut()?;
            Some((written(keys), command.label().to_owned()))
        }),
    );
    group(
        ui,
        "In the drawing",
        OF_THE_DRAWING
            .iter()
            .map(|(keys, what)| ((*keys).to_owned(), (*what).to_owned())),
    );
}

/// Keys as this system writes them.
fn written(keys: egui::KeyboardShortcut) -> String {
    keys.format(&egui::ModifierNames::NAMES, cfg!(target_os = "macos"))
}

fn group(ui: &mut Ui, title: &str, rows: impl Iterator<Item = (String, String)>) {
    ui.label(theme::bold(title));
    Grid::new(title)
        .num_columns(2)
        .striped(true)
        .show(ui, |ui| {
            for (keys, what) in rows {
                ui.label(theme::bold(keys));
                ui.label(what);
                ui.end_row();
            }
        });
    ui.add_space(theme::GAP);
}
