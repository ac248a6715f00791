//! A maker's work in the window, through the names on its controls.

mod colors;
mod files;
mod guide;
mod help;
mod order;
mod proof;
mod shop;
mod stages;
mod surface;
mod tabs;
mod words;

use std::sync::Arc;

use board::{Units, read_board};
use egui::accesskit::Role;
use egui::{Key, Modifiers};
use egui_kittest::kittest::{NodeT as _, Queryable as _};
use egui_kittest::{Harness, Node};
use testkit::{Soft, assert_near};
use workshop::Severity;

use crate::command::Command;
use crate::fake::Fake;
use crate::host::Picked;
use crate::samples::SAMPLES;
use crate::settings::Settings;
use crate::theme;
use crate::window::App;

/// The window with a world of its own.
struct Story {
    harness: Harness<'static, App>,
    host: Arc<Fake>,
}

impl Story {
    fn begin() -> Self {
        Self::in_world(Fake::new(), None, [1280.0, 820.0])
    }

    fn in_world(fake: Fake, file: Option<&'static str>, size: [f32; 2]) -> Self {
        let host = Arc::new(fake);
        let theirs = host.clone();
        let harness = Harness::builder()
            .with_size(size)
            .with_max_steps(12)
            .with_theme(egui::Theme::Light)
            .renderer(Soft::default())
            .build_eframe(move |cc| {
                theme::install(&cc.egui_ctx);
                App::new(
                    &cc.egui_ctx,
                    Settings::default(),
                    theirs,
                    file.map(std::path::Path::new),
                )
            });
        let mut story = Self { harness, host };
        story.harness.run();
        story
    }

    fn app(&self) -> &App {
        self.harness.state()
    }

    fn press(&mut self, label: &str) {
        self.harness.get_by_label(label).click();
        self.harness.run();
    }

    /// Scrolls to a control that may be out of sight, and presses it.
    fn reach(&mut self, label: &str) {
        self.harness.get_by_label(label).scroll_to_me();
        self.harness.run();
        self.press(label);
    }

    fn keys(&mut self, modifiers: Modifiers, key: Key) {
        self.harness.key_press_modifiers(modifiers, key);
        self.harness.run();
    }

    /// A field by its role and name: that of a dialog, where the controls below it have one of that name too.
    fn field<'tree>(&'tree self, role: Role, label: &'tree str) -> Node<'tree> {
        let all = self.harness.query_all_by_role_and_label(role, label);
        let Some(last) = all.last() else {
            panic!("no {role:?} {label}");
        };
        last
    }

    /// Replaces the words of a text field by typing, and leaves it with Enter.
    fn write_into(&mut self, label: &str, text: &str) {
        self.field(Role::TextInput, label).scroll_to_me();
        self.harness.run();
        self.field(Role::TextInput, label).click();
        self.harness.run_steps(4);
        self.keys(Modifiers::COMMAND, Key::A);
        self.harness.event(egui::Event::Text(text.into()));
        self.harness.run();
        self.keys(Modifiers::NONE, Key::Enter);
    }

    /// Types into a number field and leaves it with Enter.
    fn type_into(&mut self, label: &str, text: &str) {
        self.field(Role::SpinButton, label).scroll_to_me();
        self.harness.run();
        self.field(Role::SpinButton, label).click();
        self.harness.run();
        self.harness.event(egui::Event::Text(text.into()));
        self.harness.run();
        self.keys(Modifiers::NONE, Key::Enter);
    }

    /// Replaces the words of a text field.
    fn fill(&mut self, label: &str, text: &str) {
        self.field(Role::TextInput, label).focus();
        self.harness.run();
        self.keys(Modifiers::COMMAND, Key::A);
        self.harness.event(egui::Event::Text(text.into()));
        self.harness.run();
    }

    fn choose(&mut self, label: &str, option: &str) {
        self.field(Role::ComboBox, label).click();
        self.harness.run();
        self.press(option);
    }

    fn holes(&self) -> usize {
        self.app()
            .current
            .good()
            .map_or(0, |workpiece| workpiece.layout().holes.len())
    }

    fn sees(&self, words: &str) -> bool {
        self.harness
            .query_all_by_label_contains(words)
            .next()
            .is_some()
    }
}

#[test]
fn it_opens_on_a_sample_board_with_127_holes() {
    let story = Story::begin();
    assert_eq!(story.holes(), 127);
    assert!(story.sees("127"));
    // Marbles choke small children: no green check stands above that.
    assert!(!story.sees("No problems found"));
    assert!(story.sees("Keep it away from children under 3"));
}

#[test]
fn four_players_in_place_of_six_make_85_holes_at_once() {
    let mut story = Story::begin();
    story.type_into("Players", "4");
    assert_eq!(story.app().session.board.players, 4);
    assert_eq!(story.holes(), 4 * (13 + 5 + 3) + 1);
    assert!(story.sees("85"));
}

#[test]
fn lengths_are_typed_in_any_unit_and_kept_in_millimeters() {
    let mut story = Story::begin();
    story.type_into("Hole spacing", "13/16\"");
    assert_near!(story.app().session.board.pitch, 20.6375, 1e-9);
    story.press("in");
    assert_eq!(story.app().session.board.units, Units::INCH);
    assert_near!(story.app().session.board.pitch, 20.6375, 1e-9);
    story.type_into("Hole spacing", "20 mm");
    assert_near!(story.app().session.board.pitch, 20.0, 1e-9);
}

#[test]
fn what_cannot_be_read_is_said_and_changes_nothing() {
    let mut story = Story::begin();
    story.type_into("Hole spacing", "5/8/2");
    assert_near!(story.app().session.board.pitch, 19.0, 0.0);
    assert!(story.sees("can be read two ways"));
    story.type_into("Hole spacing", "9999");
    assert_near!(story.app().session.board.pitch, 19.0, 0.0);
    assert!(story.sees("use 0.1 mm to 250 mm"));
    story.type_into("Hole spacing", "20");
    assert!(!story.sees("The old value stays"));
}

#[test]
fn a_field_that_is_only_passed_through_keeps_its_value_to_the_last_digit() {
    let mut story = Story::begin();
    story.press("in");
    for label in ["Hole spacing", "Board diameter"] {
        let field = story.harness.get_by_role_and_label(Role::SpinButton, label);
        field.focus();
        story.harness.run();
        story.keys(Modifiers::NONE, Key::Tab);
    }
    let board = &story.app().session.board;
    assert_eq!((board.pitch, board.blank.diameter), (19.0, 500.0));
}

#[test]
fn a_count_that_is_typed_letter_by_letter_and_spoiled_is_kept_as_it_was() {
    let mut story = Story::begin();
    story
        .harness
        .get_by_role_and_label(Role::SpinButton, "Players")
        .click();
    story.harness.run();
    for letter in ["1", "x"] {
        story.harness.event(egui::Event::Text(letter.into()));
        story.harness.run();
    }
    story.keys(Modifiers::NONE, Key::Enter);
    assert_eq!(story.app().session.board.players, 6);
    assert!(story.sees("Not a whole number"));
}

#[test]
fn an_edit_is_one_step_back_and_forward() {
    let mut story = Story::begin();
    story.type_into("Players", "4");
    story.type_into("Hole spacing", "20");
    story.keys(Modifiers::COMMAND, Key::Z);
    assert_eq!(
        (
            story.app().session.board.players,
            story.app().session.board.pitch
        ),
        (4, 19.0)
    );
    story.keys(Modifiers::COMMAND, Key::Z);
    assert_eq!(story.app().session.board.players, 6);
    story.keys(Modifiers::COMMAND | Modifiers::SHIFT, Key::Z);
    assert_eq!(story.app().session.board.players, 4);
}

#[test]
fn a_board_that_cannot_be_built_says_why_and_keeps_what_was_typed() {
    let mut story = Story::begin();
    story.choose("Track shape", "arms");
    story.type_into("Spaces per player", "13");
    assert_eq!(story.app().session.board.spaces, 13);
    assert!(story.sees("use 12 or 14"));
    assert!(story.sees("Cannot be built"));
    story.type_into("Spaces per player", "14");
    assert!(!story.sees("Cannot be built"));
}

#[test]
fn a_finding_lights_its_holes_while_it_is_chosen() {
    let mut story = Story::begin();
    story.type_into("Hole spacing", "14");
    let findings = story.app().current.good().unwrap().findings();
    assert_eq!(findings[0].severity, Severity::Stop);
    assert!(story.app().view.lit(findings).is_empty());
    story
        .harness
        .get_by_label_contains("Stop · room for pieces")
        .click();
    story.harness.run();
    let findings = story.app().current.good().unwrap().findings();
    assert!(story.app().view.lit(findings).len() > 80);
}

#[test]
fn wood_in_the_seasons_is_typed_and_its_sums_stand_among_the_figures() {
    let mut story = Story::begin();
    story.harness.state_mut().session.board.wood = None;
    story.press("Wood");
    story.press("All figures");
    assert!(!story.sees("Movement over the year"));
    story.reach("Plan for seasonal movement");
    story.fold("Seasonal movement");
    story.type_into("Dampest room, humidity", "80");
    let wood = story.app().session.board.wood.as_ref().unwrap();
    assert_eq!(
        (wood.species.as_str(), wood.humid.humidity),
        ("black-walnut", 80.0)
    );
    assert!(story.sees("Movement over the year"));
}

#[test]
fn a_new_board_is_proposed_from_a_few_wishes() {
    let mut story = Story::begin();
    story.keys(Modifiers::COMMAND, Key::N);
    story.choose("Track shape", "arms");
    story.type_into("Players", "4");
    story.press("Begin");
    let board = &story.app().session.board;
    assert_eq!(
        (board.players, board.pattern),
        (4, geometry::Pattern::Arms { across: 3 })
    );
    assert!(story.app().current.error().is_none());
}

#[test]
fn a_chosen_hole_is_left_out_for_every_player_and_taken_back() {
    let mut story = Story::begin();
    story.harness.state_mut().view.selected = Some("T1-3".parse().unwrap());
    story.harness.state_mut().view.show_chosen = true;
    story.harness.run();
    story.reach("Remove this hole");
    assert_eq!(story.holes(), 121);
    story.reach("Take back");
    assert_eq!(story.holes(), 127);
}

#[test]
fn board_and_pitch_are_fitted_to_each_other() {
    let mut story = Story::begin();
    story.type_into("Hole spacing", "15");
    story.press("Fit board to pattern");
    let margin = |story: &Story| {
        let workpiece = story.app().current.good().unwrap();
        workpiece.figures().smallest_rim.unwrap().0
    };
    assert_near!(margin(&story), story.app().session.board.limits.rim, 1e-9);
    assert_near!(story.app().session.board.pitch, 15.0, 0.0);
    story.type_into("Board diameter", "600");
    story.press("Fit spacing to board");
    assert!(story.app().session.board.pitch > 19.0);
    assert_near!(margin(&story), story.app().session.board.limits.rim, 1e-9);
    assert_near!(story.app().session.board.blank.diameter, 600.0, 0.0);
}

#[test]
fn a_stage_is_marked_where_a_stop_is_to_be_mended() {
    let mut story = Story::begin();
    let said = |story: &Story, label: &str| {
        let tab = story.harness.get_by_label(label);
        tab.accesskit_node().description().unwrap_or_default()
    };
    assert!(!said(&story, "Lay out").contains("stop"));
    story.type_into("Hole spacing", "10");
    let words = said(&story, "Lay out");
    assert!(words.contains("Here: 2 stops"), "{words}");
    assert!(!said(&story, "Hand over").contains("Here"));
}

#[test]
fn bores_are_told_apart_by_role_without_changing_any() {
    let mut story = Story::begin();
    story.press("Drill");
    let before = story.app().session.board.clone();
    story.reach("same for all");
    assert_eq!(story.app().session.board, before);
    story.type_into("Home depth", "7");
    let bores = story.app().session.board.bores;
    assert_eq!(
        (bores.home.depth, bores.track, bores.start),
        (7.0, before.bores.track, before.bores.start)
    );
    story.reach("same for all");
    assert_eq!(story.app().session.board, before);
}

#[test]
fn each_command_has_keys_or_a_menu_entry() {
    let mut story = Story::begin();
    let mut seen = Vec::new();
    for menu in ["File", "Edit", "View", "Help"] {
        story.press(menu);
        seen.extend(
            Command::ALL
                .into_iter()
                .filter(|command| story.sees(command.label())),
        );
        story.keys(Modifiers::NONE, Key::Escape);
    }
    for command in Command::ALL {
        assert!(
            seen.contains(&command) || command.shortcut().is_some(),
            "{command:?} cannot be reached"
        );
    }
}

#[test]
fn at_the_smallest_size_the_panels_lie_inside_the_window() {
    let story = Story::in_world(Fake::new(), None, [900.0, 600.0]);
    let window = egui::Rect::from_min_size(egui::Pos2::ZERO, egui::vec2(900.0, 600.0));
    for label in [
        "Export templates",
        "Board plan",
        "Board diameter",
        "File",
        "mm",
        "in",
    ] {
        let rect = story.harness.get_by_label(label).rect();
        assert!(window.contains_rect(rect), "{label} at {rect:?}");
    }
    assert!(story.harness.get_by_label("Board plan").rect().width() > 250.0);
}

#[test]
fn every_dialog_names_its_controls() {
    for command in [
        Command::New,
        Command::Open,
        Command::SaveAs,
        Command::Export,
    ] {
        let mut story = Story::begin();
        let keys = command.shortcut().unwrap();
        // The check for nameless controls runs with each of these frames.
        story.keys(keys.modifiers, keys.logical_key);
        assert!(story.app().view.dialog.is_some(), "{command:?}");
        story.keys(Modifiers::NONE, Key::Escape);
        assert!(story.app().view.dialog.is_none(), "{command:?}");
    }
    let mut story = Story::begin();
    story.press("Help");
    story.press("Working safely…");
    assert!(story.sees("local codes"));
}

#[test]
fn the_window_looks_as_it_did() {
    let mut story = Story::in_world(Fake::new(), None, [1000.0, 680.0]);
    let mut pictures = egui_kittest::SnapshotResults::new();
    pictures.add(story.harness.try_snapshot("window-light"));
    story.keys(Modifiers::COMMAND, Key::D);
    pictures.add(story.harness.try_snapshot("window-dark"));
}

#[test]
fn findings_are_mended_by_a_click_and_the_click_is_undone() {
    let mut story = Story::begin();
    story.type_into("Board diameter", "450");
    assert!(story.sees("into the roundover or over the edge"));
    story.press("Fit board to pattern (stop: rim margin)");
    let diameter = story.app().session.board.blank.diameter;
    assert!(diameter > 450.0, "{diameter}");
    assert!(!story.sees("into the roundover or over the edge"));
    story.keys(Modifiers::COMMAND, Key::Z);
    assert_near!(story.app().session.board.blank.diameter, 450.0, 0.0);
}

#[test]
fn undo_and_redo_say_what_they_do() {
    let mut story = Story::begin();
    // The keys stand beside the words.
    let step = |story: &mut Story, words: &str| {
        story.press("Edit");
        story.harness.get_by_label_contains(words).click();
        story.harness.run();
    };
    story.type_into("Hole spacing", "20");
    story.type_into("Players", "4");
    story.press("Wood");
    step(&mut story, "Undo: players");
    assert_eq!(story.app().view.stage, crate::stage::Stage::LayOut);
    assert!(story.sees("Undone: players"));
    step(&mut story, "Undo: hole spacing");
    assert_near!(story.app().session.board.pitch, 19.0, 0.0);
    step(&mut story, "Redo: hole spacing");
    assert_near!(story.app().session.board.pitch, 20.0, 0.0);
    story.press("Edit");
    assert!(story.sees("Undo: hole spacing") && story.sees("Redo: players"));
}

#[test]
fn alt_and_f10_open_menus() {
    let mut story = Story::begin();
    story.keys(Modifiers::NONE, Key::F10);
    assert!(story.sees("New board…"));
    story.keys(Modifiers::NONE, Key::Escape);
    assert!(!story.sees("New board…"));
    for modifiers in [Modifiers::ALT, Modifiers::NONE] {
        story
            .harness
            .event(egui::Event::ModifiersChanged(modifiers));
        story.harness.run();
    }
    assert!(story.sees("New board…"));
    story.keys(Modifiers::NONE, Key::Escape);
    story.keys(Modifiers::ALT, Key::V);
    assert!(story.sees("High contrast"));
    story.press("High contrast");
    assert!(story.app().settings.high_contrast);
}

#[test]
fn a_message_goes_after_a_time() {
    let mut story = Story::begin();
    story.type_into("Players", "4");
    story.keys(Modifiers::COMMAND, Key::Z);
    assert!(story.sees("Undone: players"));
    // A quarter of a second a frame.
    story.harness.run_steps(60);
    assert!(!story.sees("Undone: players"));
}

#[test]
fn the_board_is_cut_open_through_the_chosen_hole_and_follows_what_is_typed() {
    let mut story = Story::begin();
    story.press("Section");
    story
        .harness
        .get_by_label("Section of the board, cut through T1-07");
    story.press("The next hole");
    story
        .harness
        .get_by_label("Section of the board, cut through T1-08");
    story.keys(Modifiers::COMMAND, Key::J);
    story.harness.get_by_label("Board plan");
    assert_eq!(story.app().view.selected, "T1-8".parse().ok());
    story.keys(Modifiers::COMMAND, Key::J);
    let before = story.harness.render().unwrap();
    story.type_into("Board thickness", "30");
    let after = story.harness.render().unwrap();
    assert_ne!(before, after);
}

#[test]
fn a_slab_is_typed_and_a_knot_moves_the_best_place() {
    let mut story = Story::begin();
    story.press("Wood");
    story.choose("Blank outline", "length and width");
    story.type_into("Blank length", "1400");
    story.type_into("Blank width", "600");
    let place = |story: &Story| {
        let workpiece = story.app().current.good().unwrap();
        workpiece
            .stock()
            .unwrap()
            .center(workpiece.board())
            .unwrap()
    };
    assert_near!(place(&story).y, 300.0, 1e-6);
    story.reach("Add a round flaw");
    let before = place(&story);
    story.type_into("Flaw 1 along", "300");
    let after = place(&story);
    assert!((before - after).length() > 1.0, "{before:?} {after:?}");
    assert!(story.sees("bookmatched halves"));
}

#[test]
fn live_edges_are_typed_as_a_list_and_faults_are_said() {
    let mut story = Story::begin();
    story.press("Wood");
    story.choose("Blank outline", "length and width");
    story.fill("Lower live edge", "0; 12; 8");
    story.keys(Modifiers::NONE, Key::Tab);
    let lower = |story: &Story| match &story.app().session.board.stock.outline {
        board::StockOutline::Slab { lower, .. } => lower.clone(),
        _ => Vec::new(),
    };
    assert_eq!(lower(&story), [0.0, 12.0, 8.0]);
    story.fill("Lower live edge", "0; twelve");
    story.keys(Modifiers::NONE, Key::Tab);
    assert_eq!(lower(&story), [0.0, 12.0, 8.0]);
    assert!(story.sees("The old value stays"));
}

#[test]
fn a_pattern_is_turned_off_the_seam() {
    let mut story = Story::begin();
    story.keys(Modifiers::COMMAND, Key::Num2);
    story.fold("Joining");
    story.choose("Made of", "bookmatched halves");
    let cut = |story: &Story| {
        let workpiece = story.app().current.good().unwrap();
        workpiece.turns().unwrap().now.mm
    };
    assert!(cut(&story) < 0.0);
    story.reach("Turn the pattern off the seams (caution: seam)");
    assert!(cut(&story) > 0.0, "{}", cut(&story));
}

#[test]
fn most_spaces_are_found_from_the_menu() {
    let mut story = Story::begin();
    story.type_into("Board diameter", "700");
    story.press("Edit");
    story.press("Most spaces on this board");
    assert!(story.app().session.board.spaces > 13);
}
