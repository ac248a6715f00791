//! The guide in the window: the same pages as in the project's own documentation, without a network.

use std::sync::LazyLock;

use egui::{ComboBox, Ui};
use egui_commonmark::{CommonMarkCache, CommonMarkViewer};

use crate::stage::Stage;

/// A chapter of the guide.
pub struct Chapter {
    /// The name of its file, without the ending.
    pub name: &'static str,
    /// Its text.
    text: &'static str,
}

/// Chapters by the names of their files.
macro_rules! chapters {
    ($($name:literal),+ $(,)?) => {
        &[$(Chapter {
            name: $name,
            text: include_str!(concat!("../../../../docs/guide/", $name, ".md")),
        }),+]
    };
}

/// The chapters, in the order of the work.
pub const CHAPTERS: &[Chapter] = chapters![
    "first-board",
    "drawing",
    "bores",
    "blank",
    "wood",
    "base",
    "template",
    "hardboard",
    "jig",
    "machine",
    "grooves",
    "recess",
    "filling",
    "section",
    "repair",
    "colors",
    "finish",
    "calendar",
    "shopping",
    "price",
    "proof",
    "job",
];

impl Chapter {
    /// Its title.
    pub fn title(&self) -> &'static str {
        let first = self.text.lines().next().unwrap_or_default();
        first.trim_start_matches(['#', ' '])
    }

    /// Its text as the window shows it: pictures and pages that are not in the window are left out.
    pub fn shown(&self) -> String {
        let lines = self.text.lines().filter(|line| !line.starts_with("!["));
        let text: Vec<String> = lines.map(without_outer_links).collect();
        text.join("\n")
    }
}

/// A line whose links to pages outside the guide are only their words.
fn without_outer_links(line: &str) -> String {
    let mut left = line;
    let mut plain = String::new();
    while let Some((before, rest)) = left.split_once("](../") {
        let (open, words) = before.rsplit_once('[').unwrap_or(("", before));
        plain.push_str(open);
        plain.push_str(words);
        left = rest.split_once(')').map_or("", |(_, after)| after);
    }
    plain.push_str(left);
    plain
}

/// The chapter about a stage, by its place in the list.
pub fn chapter_of(stage: Stage) -> usize {
    let name = match stage {
        Stage::LayOut => "first-board",
        Stage::Wood => "blank",
        Stage::Template => "template",
        Stage::Drill => "jig",
        Stage::Bench => "grooves",
        Stage::Finish => "colors",
        Stage::HandOver => "calendar",
    };
    let is_it = |chapter: &Chapter| chapter.name == name;
    CHAPTERS.iter().position(is_it).unwrap_or_default()
}

/// The texts as the window shows them.
static SHOWN: LazyLock<Vec<String>> =
    LazyLock::new(|| CHAPTERS.iter().map(Chapter::shown).collect());

/// The list of chapters.
pub fn choose_ui(ui: &mut Ui, chosen: &mut usize) {
    ui.horizontal(|ui| {
        let label = ui.label("Chapter").id;
        let title = CHAPTERS.get(*chosen).map_or("", Chapter::title);
        let list = ComboBox::from_id_salt("chapter")
            .selected_text(title)
            .width(260.0);
        let shown = list.show_ui(ui, |ui| {
            for (at, chapter) in CHAPTERS.iter().enumerate() {
                ui.selectable_value(chosen, at, chapter.title());
            }
        });
        shown.response.labelled_by(label);
    });
}

/// A chapter, whose links to other chapters turn to them.
pub fn chapter_ui(ui: &mut Ui, cache: &mut CommonMarkCache, chosen: &mut usize) {
    let Some(text) = SHOWN.get(*chosen) else {
        return;
    };
    let files = || {
        CHAPTERS
            .iter()
            .map(|chapter| format!("{}.md", chapter.name))
    };
    for file in files() {
        cache.add_link_hook(file);
    }
    CommonMarkViewer::new().show(ui, cache, text);
    if let Some(at) = files().position(|file| cache.get_link_hook(&file) == Some(true)) {
        *chosen = at;
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_page_of_the_guide_is_a_chapter() {
        let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/../../docs/guide");
        let entries = std::fs::read_dir(folder).unwrap().map(Result::unwrap);
        let mut names: Vec<String> = entries
            .filter_map(|entry| {
                let name = entry.file_name().into_string().unwrap();
                name.strip_suffix(".md").map(ToOwned::to_owned)
            })
            .collect();
        let mut chapters: Vec<&str> = CHAPTERS.iter().map(|chapter| chapter.name).collect();
        names.sort();
        chapters.sort_unstable();
        assert_eq!(chapters, names);
    }

    #[test]
    fn chapters_have_titles_and_no_pictures_or_links_that_lead_nowhere() {
        for chapter in CHAPTERS {
            assert!(!chapter.title().is_empty(), "{}", chapter.name);
            let text = chapter.shown();
            assert!(
                !text.contains("![") && !text.contains("](.."),
                "{}",
                chapter.name
            );
            let links = text.split("](").skip(1);
            for link in links.filter_map(|rest| rest.split(')').next()) {
                let known = CHAPTERS.iter().any(|it| format!("{}.md", it.name) == link);
                assert!(known, "{} links to {link}", chapter.name);
            }
        }
        assert_eq!(
            without_outer_links("see [G-code](../formats/gcode.md), it"),
            "see G-code, it"
        );
    }

    #[test]
    fn every_stage_has_a_chapter() {
        for stage in Stage::ALL {
            let at = chapter_of(stage);
            assert!(at > 0 || stage == Stage::LayOut, "{stage:?}");
        }
    }
}
