//! Holes found by their names, roles and players, and chosen one by one or all together.

use board::{Hole, HoleId, Layout, several};
use egui::{Id, ScrollArea, Ui};

use crate::canvas::spoken_name;
use crate::widgets::typed_search;

/// The most holes that are listed; the button chooses all that were found.
const MOST: usize = 60;
/// Height of the list, in points.
const HEIGHT: f32 = 120.0;

/// The field to search in and what it finds; gives the holes that are to be chosen.
pub fn find_ui(ui: &mut Ui, layout: &Layout, chosen: &[HoleId]) -> Option<Vec<HoleId>> {
    let hint = [
        "T1-07, home, player 2",
        "By name, role or player; every word must be in it",
    ];
    let text = typed_search(ui, "Find holes", Id::unique("holes sought"), hint);
    if text.trim().is_empty() {
        return None;
    }
    let found = found(layout, &text);
    if found.is_empty() {
        ui.weak("No hole is called so. Try T1, home or player 2.");
        return None;
    }
    let mut asked = None;
    let all = || found.iter().map(|hole| hole.name.id()).collect();
    if ui
        .button(format!("Choose {}", several(found.len(), "hole")))
        .clicked()
    {
        asked = Some(all());
    }
    let list = ScrollArea::vertical()
        .id_salt("found holes")
        .max_height(HEIGHT);
    list.show(ui, |ui| {
        for hole in found.iter().take(MOST) {
            let id = hole.name.id();
            if ui
                .selectable_label(chosen.contains(&id), spoken_name(hole))
                .clicked()
            {
                asked = Some(vec![id]);
            }
        }
        if found.len() > MOST {
            ui.weak(format!("and {} more", found.len() - MOST));
        }
    });
    asked
}

/// The holes that have every word of a text in their names as they are spoken, in whatever case; a number is that of the player.
fn found<'a>(layout: &'a Layout, text: &str) -> Vec<&'a Hole> {
    let words: Vec<String> = text.split_whitespace().map(str::to_lowercase).collect();
    let has_all = |hole: &&Hole| {
        let name = spoken_name(hole).to_lowercase();
        let player = hole.name.id().player().to_string();
        let has = |word: &String| match word.parse::<u32>() {
            Ok(_) => *word == player,
            Err(_) => name.contains(word),
        };
        words.iter().all(has)
    };
    layout.holes.iter().filter(has_all).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use board::{Board, layout};

    #[test]
    fn holes_are_found_by_name_role_and_player() {
        let layout = layout(&Board::default()).unwrap();
        let count = |text: &str| found(&layout, text).len();
        assert_eq!(count("t1-07"), 1);
        assert_eq!(count("home player 2"), 5);
        assert_eq!(count("START"), 18);
        assert_eq!(count("center"), 1);
        assert_eq!(count("pocket lane"), 0);
    }
}
