//! One field that finds commands, fields of the document, words and chapters.

use board::{Field, Units, field};
use egui::{Key, ScrollArea, TextEdit, Ui};

use super::CHAPTERS;
use crate::command::Command;
use crate::places::place_of;
use crate::terms::WORDS;
use crate::theme;

/// The text of the search, and which of its results is chosen.
#[derive(Default)]
pub struct SearchState {
    /// The text, as typed.
    pub text: String,
    chosen: usize,
    /// Whether the field has had the focus: one types at once.
    entered: bool,
}

/// Something that a search has found.
#[derive(Clone, Copy)]
pub enum Found {
    /// A command to carry out.
    Command(Command),
    /// A field to go to.
    Field(&'static Field),
    /// A chapter to read, by its place.
    Chapter(usize),
    /// A word that is explained, by its place.
    Word(usize),
}

impl Found {
    /// Its name, and what kind of thing it is.
    fn words(self) -> (String, &'static str) {
        match self {
            Self::Command(command) => (command.label().into(), "command"),
            Self::Field(field) => (field.label(0), "field"),
            Self::Chapter(at) => (CHAPTERS.get(at).map_or("", |it| it.title()).into(), "guide"),
            Self::Word(at) => (WORDS.get(at).map_or("", |it| it.0).into(), "word"),
        }
    }

    /// More words that it is found by.
    fn more(self, units: Units) -> String {
        match self {
            Self::Command(command) => command.tooltip().into(),
            Self::Field(field) => format!("{} {}", field.path, field.hint_in(units)),
            Self::Chapter(_) => String::new(),
            Self::Word(at) => WORDS.get(at).map_or("", |it| it.1).into(),
        }
    }
}

/// So many results are listed.
const MOST: usize = 40;

/// Everything with all words of a text: first names that begin with the text, then names that contain it, then the rest.
pub fn found(text: &str, units: Units) -> Vec<Found> {
    let text = text.trim().to_lowercase();
    if text.is_empty() {
        return Vec::new();
    }
    let parts: Vec<&str> = text.split_whitespace().collect();
    let mut ranked: Vec<(u8, Found)> = everything()
        .filter_map(|found| Some((rank(found, &text, &parts, units)?, found)))
        .collect();
    ranked.sort_by_key(|(rank, _)| *rank);
    ranked
        .into_iter()
        .map(|(_, found)| found)
        .take(MOST)
        .collect()
}

/// Everything that can be found; of the fields those that a panel shows whole.
fn everything() -> impl Iterator<Item = Found> {
    let fields = field::all_fields().filter(|field| place_of(field).is_some());
    let commands = Command::ALL.into_iter().map(Found::Command);
    commands
        .chain(fields.map(Found::Field))
        .chain((0..WORDS.len()).map(Found::Word))
        .chain((0..CHAPTERS.len()).map(Found::Chapter))
}

/// The rank of a match, 0 being best; none where it does not match.
fn rank(found: Found, text: &str, parts: &[&str], units: Units) -> Option<u8> {
    let name = found.words().0.to_lowercase();
    let all_in = |place: &str| parts.iter().all(|part| place.contains(part));
    if name == text {
        Some(0)
    } else if name.starts_with(text) {
        Some(1)
    } else if all_in(&name) {
        Some(2)
    } else {
        let more = format!("{name} {}", found.more(units).to_lowercase());
        all_in(&more).then_some(3)
    }
}

/// The search field and its results; returns the chosen one.
pub fn search_ui(ui: &mut Ui, state: &mut SearchState, units: Units) -> Option<Found> {
    let label = ui.label("Search commands, fields, words and the guide").id;
    let before = state.text.clone();
    // Up and down go through the results while the field keeps the focus.
    let moves = ui.input_mut(|input| {
        let none = egui::Modifiers::NONE;
        let down = input.consume_key(none, Key::ArrowDown);
        i32::from(down) - i32::from(input.consume_key(none, Key::ArrowUp))
    });
    let edit = TextEdit::singleline(&mut state.text).desired_width(f32::INFINITY);
    let field = ui.add(edit).labelled_by(label);
    if !core::mem::replace(&mut state.entered, true) {
        field.request_focus();
    }
    let entered = field.lost_focus() && ui.input(|input| input.key_pressed(Key::Enter));
    let found = found(&state.text, units);
    if state.text != before {
        state.chosen = 0;
    }
    let last = found.len().saturating_sub(1);
    state.chosen = state.chosen.saturating_add_signed(moves as isize).min(last);
    let mut picked = entered.then(|| found.get(state.chosen).copied()).flatten();
    ui.add_space(theme::GAP);
    if found.is_empty() && !state.text.trim().is_empty() {
        ui.label("No match. Try a shorter word, such as hole, paper or resin.");
    }
    ScrollArea::vertical().max_height(280.0).show(ui, |ui| {
        for (at, one) in found.iter().enumerate() {
            let (name, kind) = one.words();
            let row = ui.horizontal(|ui| {
                let chosen = ui.selectable_label(at == state.chosen, &name);
                ui.label(theme::quiet(kind));
                ui.accesskit_node_builder(chosen.id, |node| node.set_description(kind));
                chosen
            });
            if at == state.chosen {
                // The field keeps the focus; screen readers say the result that Enter goes to.
                let active = row.inner.id.accesskit_id();
                ui.accesskit_node_builder(field.id, |node| node.set_active_descendant(active));
            }
            if row.inner.clicked() {
                picked = Some(*one);
            }
            if at == state.chosen && moves != 0 {
                row.inner.scroll_to_me(None);
            }
        }
    });
    picked
}

#[cfg(test)]
mod tests {
    use super::*;

    fn names(text: &str) -> Vec<String> {
        let found = found(text, Units::Mm);
        found.into_iter().map(|one| one.words().0).collect()
    }

    #[test]
    fn names_that_begin_with_the_text_come_first() {
        assert_eq!(names("hole spacing")[0], field::PITCH.label(0));
        assert_eq!(names("pitch")[0], "Hole spacing (pitch)");
        assert!(names("pitch").contains(&field::PITCH.label(0)));
        assert_eq!(names("exp")[0], "Export…");
        assert!(names("bushing").iter().any(|name| name == "Guide bushing"));
        assert!(names("  ").is_empty() && names("xyzzy").is_empty());
    }

    /// For any text, the list stays short enough to be read.
    #[test]
    fn the_list_stays_short() {
        assert_eq!(names("e").len(), MOST);
    }
}
