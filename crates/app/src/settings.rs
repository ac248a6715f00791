//! Settings of the machine rather than of a board; kept by the window toolkit.

use std::path::{Path, PathBuf};

use serde::{Deserialize, Serialize};

use crate::looks::Looks;
use crate::section::Folds;

/// Settings of the machine rather than of a board.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Settings {
    /// Light, dark, or as the system says.
    pub theme: egui::ThemePreference,
    /// Whether colors are those of high contrast.
    pub high_contrast: bool,
    /// The folder of the last export; empty before the first.
    pub export_folder: PathBuf,
    /// Whether the screen shows names of holes.
    pub show_names: bool,
    /// Whether the plan shows the figure of its wood.
    pub show_wood: bool,
    /// Pixels a millimeter of the screen, as a ruler showed; none before that was checked.
    pub pixels_per_mm: Option<f64>,
    /// The sections of the controls that the maker has folded or unfolded.
    pub folds: Folds,
    /// The panel of the controls; where the window is narrow, the one that controls and findings share.
    pub controls: KeptPanel,
    /// The panel of the findings.
    pub findings: KeptPanel,
    /// The views that the maker has chosen for stages of the work.
    pub looks: Looks,
    /// Board files that were opened or saved, the last one first.
    pub recent: Vec<PathBuf>,
}

/// A panel beside the drawing, as the maker has left it.
#[derive(Debug, Clone, Copy, PartialEq, Default, Serialize, Deserialize)]
#[serde(default)]
pub struct KeptPanel {
    /// The width that the maker has given it, in points; `None` for as much as there is room for.
    pub width: Option<f32>,
    /// Whether it is folded away.
    pub folded: bool,
}

/// Number of board files that are remembered.
const RECENT: usize = 8;

impl Settings {
    /// Remembers a board file as the last one that was opened or saved.
    pub fn remember(&mut self, path: &Path) {
        self.recent.retain(|other| other != path);
        self.recent.insert(0, path.into());
        self.recent.truncate(RECENT);
    }

    /// The key that the toolkit keeps them under.
    pub const KEY: &'static str = "settings";
}

impl Default for Settings {
    fn default() -> Self {
        Self {
            theme: egui::ThemePreference::Light,
            high_contrast: false,
            export_folder: PathBuf::new(),
            show_names: true,
            show_wood: true,
            pixels_per_mm: None,
            folds: Folds::default(),
            controls: KeptPanel::default(),
            findings: KeptPanel::default(),
            looks: Looks::default(),
            recent: Vec::new(),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_last_files_are_remembered_once_each() {
        let mut settings = Settings::default();
        for name in ["a", "b", "a", "c", "d", "e", "f", "g", "h", "i"] {
            settings.remember(Path::new(name));
        }
        let names: Vec<&str> = settings
            .recent
            .iter()
            .filter_map(|path| path.to_str())
            .collect();
        assert_eq!(names, ["i", "h", "g", "f", "e", "d", "c", "a"]);
    }
}
