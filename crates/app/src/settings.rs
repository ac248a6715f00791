//! What belongs to the machine rather than to a board; kept by the window toolkit.

use std::path::PathBuf;

use serde::{Deserialize, Serialize};

/// What belongs to the machine rather than to a board.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Settings {
    /// Light, dark, or as the system says.
    pub theme: egui::ThemePreference,
    /// The folder of the last export; empty before the first.
    pub export_folder: PathBuf,
    /// Whether the screen shows names of holes.
    pub show_names: bool,
}

impl Settings {
    /// The key that the toolkit keeps them under.
    pub const KEY: &'static str = "settings";
}

impl Default for Settings {
    fn default() -> Self {
        Self {
            theme: egui::ThemePreference::Light,
            export_folder: PathBuf::new(),
            show_names: true,
        }
    }
}
