//! A maker in inches, and the shop that each new board begins with.

use board::Paper;

use super::*;

const SHOP: &str = "/home/maker/settings/shop.json";

#[test]
fn a_new_board_in_inches_begins_on_letter_with_round_sizes() {
    let mut story = Story::begin();
    story.keys(Modifiers::COMMAND, Key::N);
    story.choose("Units", "inches, to 1/64");
    story.press("Begin");
    let board = &story.app().session.board;
    assert_eq!(board.template.paper, Paper::Letter);
    assert_eq!((board.limits.web, board.limits.rim), (3.175, 6.35));
    assert!(board.units.is_inch());
}

#[test]
fn an_untouched_board_takes_us_sizes_with_the_unit_and_gives_them_back() {
    let mut story = Story::begin();
    let sample = story.app().session.board.clone();
    story.press("in");
    let board = story.app().session.board.clone();
    assert_eq!(board.template.paper, Paper::Letter);
    let sizes = [board.template.margin, board.panel.planer, board.pitch];
    assert_eq!(sizes, [9.525, 317.5, sample.pitch]);
    story.press("mm");
    assert_eq!(story.app().session.board, sample);
    story.keys(Modifiers::COMMAND, Key::N);
    story.press("Begin");
    assert_eq!(story.app().session.board.pitch, 19.0);
    story.press("in");
    assert_eq!(story.app().session.board.pitch, 19.05);
}

#[test]
fn a_board_that_was_changed_keeps_its_sizes_when_the_unit_changes() {
    let mut story = Story::begin();
    story.type_into("Hole spacing", "20");
    story.press("in");
    let board = &story.app().session.board;
    assert!(board.units.is_inch());
    assert_eq!((board.template.paper, board.limits.web), (Paper::A4, 3.0));
}

#[test]
fn the_shop_keeps_what_was_changed_and_gives_it_to_the_next_board() {
    let mut story = Story::begin();
    story.harness.state_mut().session.board.panel.planer = 406.4;
    story.harness.run();
    let kept = String::from_utf8(story.host.file(SHOP).unwrap()).unwrap();
    assert!(kept.contains("\"panel.planer_mm\": 406.4"), "{kept}");
    story.keys(Modifiers::COMMAND, Key::N);
    story.press("Don't save");
    story.press("Begin");
    assert_eq!(story.app().session.board.panel.planer, 406.4);
    story.keys(Modifiers::COMMAND, Key::N);
    story.press("Begin with my shop");
    story.press("Begin");
    assert_eq!(story.app().session.board.panel.planer, 300.0);
}

#[test]
fn a_part_that_is_planned_begins_with_the_shop() {
    let fake = Fake::new();
    let text = br#"{"format": 1, "shop": {"router.bushing_mm": 19.0}}"#;
    fake.put(SHOP, text);
    let mut story = Story::in_world(fake, None, [1280.0, 820.0]);
    story.press("Template");
    story.fold("Hardboard");
    story.reach("Make router template");
    let router = story.app().session.board.router.unwrap();
    assert_eq!(router.bushing, 19.0);
}

#[test]
fn the_shop_is_seen_and_changed_in_a_dialog_of_its_own() {
    let mut story = Story::begin();
    story.press("File");
    story.press("Shop…");
    assert!(story.sees("Your shop"));
    // The dialog finds its height, and later the list glides.
    story.harness.run_steps(30);
    story
        .harness
        .get_by_role_and_label(Role::ComboBox, "Paper")
        .click();
    story.harness.run_steps(10);
    story.press("Legal");
    let planer = story
        .harness
        .get_by_role_and_label(Role::SpinButton, "Planer width");
    planer.scroll_to_me();
    story.harness.run_steps(30);
    story.type_into("Planer width", "410");
    story.press("Done");
    let kept = String::from_utf8(story.host.file(SHOP).unwrap()).unwrap();
    assert!(kept.contains("\"panel.planer_mm\": 410.0"), "{kept}");
    assert!(kept.contains("\"template.paper\": \"legal\""), "{kept}");
    assert_eq!(story.app().session.board.panel.planer, 300.0);
}

#[test]
fn bits_that_are_listed_in_the_shop_count_for_the_board_at_hand() {
    let mut story = Story::begin();
    story.press("File");
    story.press("Shop…");
    story.harness.run_steps(30);
    let bits = story
        .harness
        .get_by_role_and_label(Role::TextInput, "Forstner bits you own");
    bits.scroll_to_me();
    story.harness.run_steps(30);
    story.write_into("Forstner bits you own", "10, 12.7, 20");
    story.press("Done");
    assert_eq!(story.app().session.board.tools.forstner, [10.0, 12.7, 20.0]);
    let kept = String::from_utf8(story.host.file(SHOP).unwrap()).unwrap();
    assert!(kept.contains("\"tools.forstner_mm\""), "{kept}");
}

#[test]
fn a_broken_shop_is_told_and_prevents_nothing() {
    let fake = Fake::new();
    fake.put(SHOP, b"{");
    let story = Story::in_world(fake, None, [1280.0, 820.0]);
    assert!(story.sees("Your shop cannot be read"));
    assert_eq!(story.holes(), 127);
}

/// Another window has kept a planer meanwhile; a change here does not take it away.
#[test]
fn the_shop_of_another_window_is_not_overwritten() {
    const SHOP: &str = "/home/maker/settings/shop.json";
    let mut other = Story::begin();
    other.press("Wood");
    other.fold("Joining");
    other.type_into("Planer width", "410");
    let theirs = other.host.file(SHOP).expect("no shop was kept");
    let mut story = Story::begin();
    story.host.put(SHOP, &theirs);
    story.press("Template");
    story.type_into("Printer margin", "12");
    let kept = String::from_utf8(story.host.file(SHOP).unwrap()).unwrap();
    assert!(kept.contains("410") && kept.contains("12"), "{kept}");
}
