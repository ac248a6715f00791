//! The scale of type and the scale of spaces: every size of words and every gap in the window is one of these.

use egui::{FontFamily, FontId, RichText};

/// Words that explain, in points.
pub const SMALL: f32 = 11.5;
/// Words of the controls, and all that is read.
pub const BODY: f32 = 13.5;
/// Headings of panels and groups.
pub const HEADING: f32 = 15.0;
/// Titles of dialogs.
pub const TITLE: f32 = 17.0;
/// Figures that matter.
pub const FIGURE: f32 = 20.0;

/// The least space, between lines that belong together, in points.
pub const HAIR: f32 = 2.0;
/// Space inside a part.
pub const TIGHT: f32 = 4.0;
/// Width of a caption, and of the field beside it, in the narrowest panel.
pub const CAPTION: f32 = 122.0;
pub const FIELD: f32 = 148.0;
/// Space between the parts of a panel.
pub const GAP: f32 = 8.0;
/// Space between groups of parts.
pub const PART: f32 = 16.0;
/// The one indent, under a mark, a box or a triangle.
pub const INDENT: f32 = 24.0;

/// The family of words that stand out.
pub fn strong() -> FontFamily {
    FontFamily::Name("strong".into())
}

/// Words that stand out among others of their size.
pub fn bold(words: impl Into<String>) -> RichText {
    RichText::new(words).family(strong())
}

/// A heading of a panel or of a group.
pub fn heading(words: impl Into<String>) -> RichText {
    bold(words).size(HEADING)
}

/// A figure that matters.
pub fn figure(words: impl Into<String>) -> RichText {
    bold(words).size(FIGURE)
}

/// Small words of less weight, which explain.
pub fn quiet(words: impl Into<String>) -> RichText {
    RichText::new(words).weak().small()
}

/// The type for reading, in a family, for painted words.
pub fn body(family: FontFamily) -> FontId {
    FontId::new(BODY, family)
}

/// The type of words that explain, for words that are painted.
pub fn small() -> FontId {
    FontId::new(SMALL, FontFamily::Proportional)
}

#[cfg(test)]
mod tests {
    use std::fs;
    use std::path::{Path, PathBuf};

    fn files(folder: &Path, found: &mut Vec<PathBuf>) {
        for entry in fs::read_dir(folder).unwrap() {
            let path = entry.unwrap().path();
            if path.is_dir() {
                files(&path, found);
            } else if path.extension().is_some_and(|ending| ending == "rs") {
                found.push(path);
            }
        }
    }

    /// A size of type or a space that is a number of its own would be one more of them.
    #[test]
    fn sizes_and_spaces_come_from_the_scales() {
        let mut found = Vec::new();
        files(
            &Path::new(env!("CARGO_MANIFEST_DIR")).join("src"),
            &mut found,
        );
        assert!(found.len() > 100, "{} files", found.len());
        for path in found.iter().filter(|path| !path.ends_with("scale.rs")) {
            let text = fs::read_to_string(path).unwrap();
            for call in [
                "add_space(",
                ".size(",
                "FontId::new(",
                "FontId::proportional(",
            ] {
                for (at, _) in text.match_indices(call) {
                    let rest = &text[at + call.len()..];
                    let begins = rest.trim_start().chars().next();
                    let is_number = begins.is_some_and(|letter| letter.is_ascii_digit());
                    let line = rest.lines().next().unwrap_or_default();
                    assert!(!is_number, "{}: {call}{line}", path.display());
                }
            }
        }
    }
}
