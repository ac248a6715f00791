//! Help in the window: search, guide, keys, words.

use board::field;

use super::*;
use crate::places::place_of;

/// A board that plans for everything that a field may belong to.
fn rich(name: &str) -> Fake {
    let path = format!(
        "{}/../../tests/fixtures/rich/{name}.json",
        env!("CARGO_MANIFEST_DIR")
    );
    let fake = Fake::new();
    fake.put("/rich.json", &std::fs::read(path).unwrap());
    fake
}

/// Whether a label is on screen, inside the window.
fn shown(story: &Story, label: &str) -> bool {
    let window = egui::Rect::from_min_size(egui::Pos2::ZERO, egui::vec2(1280.0, 820.0));
    let mut named = story.harness.query_all_by_label(label);
    named.any(|node| window.contains_rect(node.rect()))
}

#[test]
fn a_search_goes_to_the_field_that_it_finds() {
    let mut story = Story::begin();
    story.keys(Modifiers::COMMAND, Key::K);
    story.harness.event(egui::Event::Text("least floor".into()));
    story.harness.run_steps(4);
    assert!(!shown(&story, "Minimum sizes") || story.sees("field"));
    story.harness.key_press(Key::Enter);
    story.harness.run_steps(8);
    assert!(story.app().view.dialog.is_none());
    assert_eq!(story.app().view.stage, crate::stage::Stage::LayOut);
}

/// Every field that a search may find is brought into view on some board, from any stage and with any section folded.
#[test]
fn every_field_of_the_search_is_brought_into_view() {
    let mut left: Vec<_> = field::all_fields()
        .filter(|field| place_of(field).is_some())
        .collect();
    assert!(left.len() > 200, "{} fields", left.len());
    for name in [
        "c-polygon-magnets",
        "b-lobes-pegs",
        "a-ring-marbles",
        "d-arms-discs",
        "f-custom-paper",
    ] {
        let mut story = Story::in_world(rich(name), Some("/rich.json"), [1280.0, 820.0]);
        let board = story.app().session.board.clone();
        left.retain(|field| {
            if field.value(&board, 0).is_none() {
                return true;
            }
            let ctx = story.harness.ctx.clone();
            story.harness.state_mut().go_to(&ctx, field);
            story.harness.run_steps(4);
            let caption = place_of(field).map(|place| place.caption);
            !caption.is_some_and(|caption| shown(&story, &caption))
        });
    }
    let lost: Vec<_> = left.iter().map(|field| field.path).collect();
    assert!(lost.is_empty(), "{lost:#?}");
}

#[test]
fn the_guide_opens_at_the_stage_at_hand_and_turns_to_other_chapters() {
    let mut story = Story::begin();
    story.press("Drill");
    story.keys(Modifiers::NONE, Key::F1);
    assert!(story.app().view.help.shown && story.sees("Index plate"));
    story.press("Keyboard shortcuts");
    assert!(story.sees("Ctrl+Shift+S") && story.sees("Save as…"));
    story.press("Words explained");
    assert!(story.sees("the straight distance") || story.sees("Bookmatch"));
    story.keys(Modifiers::NONE, Key::Escape);
    assert!(!story.app().view.help.shown);
}

#[test]
fn a_slash_searches_where_no_text_is_typed() {
    let mut story = Story::begin();
    story.keys(Modifiers::NONE, Key::Slash);
    assert!(story.sees("Search commands"));
    story.harness.event(egui::Event::Text("undo".into()));
    story.harness.run();
    story.keys(Modifiers::NONE, Key::Escape);
    assert!(story.app().view.dialog.is_none());
}

#[test]
fn a_field_that_is_searched_for_takes_what_is_typed_then() {
    let mut story = Story::begin();
    story.press("Finish");
    story.keys(Modifiers::COMMAND, Key::K);
    for typed in ["Board diameter", "812 mm"] {
        story.harness.event(egui::Event::Text(typed.into()));
        story.harness.run_steps(2);
        story.keys(Modifiers::NONE, Key::Enter);
        story.harness.run_steps(4);
    }
    assert_near!(story.app().session.board.blank.diameter, 812.0, 0.0);
    assert!(story.app().view.dialog.is_none());
}

#[test]
fn the_whole_board_by_its_keys_gives_the_drawing_the_keys() {
    let mut story = Story::begin();
    story.keys(Modifiers::COMMAND, Key::F);
    story.keys(Modifiers::NONE, Key::CloseBracket);
    assert!(story.app().view.selected.is_some());
    let before = story.app().session.board.edits.len();
    story.keys(Modifiers::NONE, Key::ArrowRight);
    assert_eq!(story.app().session.board.edits.len(), before + 1);
}

#[test]
fn a_dotted_caption_opens_its_word_by_click_and_by_key() {
    let mut story = Story::begin();
    let is_open = |story: &Story, word: &str| {
        let at = crate::terms::WORDS
            .iter()
            .position(|(known, _)| *known == word);
        story.app().view.help.shown && story.app().view.help.chosen() == at
    };
    // The caption ends before its field, and begins where all captions begin.
    let field = story.field(Role::SpinButton, "Roundover").rect();
    let caption = field.left_center() - egui::vec2(theme::CAPTION, 0.0);
    story.harness.drag_at(caption);
    story.harness.drop_at(caption);
    story.harness.run();
    assert!(is_open(&story, "Roundover"));
    story.keys(Modifiers::NONE, Key::Escape);
    assert!(!story.app().view.help.shown);
    let field = story.field(Role::SpinButton, "Hole spacing");
    field.focus();
    story.harness.run();
    story.keys(Modifiers::SHIFT, Key::F1);
    assert!(is_open(&story, "Hole spacing (pitch)"));
}

#[test]
fn help_takes_the_focus_and_gives_it_back() {
    let mut story = Story::begin();
    story.field(Role::SpinButton, "Roundover").focus();
    story.harness.run();
    let focused = |story: &Story| story.harness.ctx.memory(egui::Memory::focused);
    let before = focused(&story);
    assert!(before.is_some());
    story.keys(Modifiers::NONE, Key::F1);
    story.harness.run_steps(2);
    let within = focused(&story);
    assert!(within.is_some() && within != before);
    story.keys(Modifiers::NONE, Key::Escape);
    story.harness.run_steps(2);
    assert_eq!(focused(&story), before);
}
