//! The controls of the printer, by the names on them.

use super::*;
use crate::theme;
use egui::Key;
use egui::accesskit::Role;
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable as _;
use testkit::assert_near;

type State = (Board, Printers);

fn panel(printers: Printers) -> Harness<'static, State> {
    let show = |ui: &mut Ui, state: &mut State| printer_ui(ui, &mut state.0, &mut state.1);
    let builder = Harness::builder()
        .with_size([360.0, 760.0])
        .with_context_setup(theme::install);
    let mut harness = builder.build_ui_state(show, (Board::default(), printers));
    harness.run();
    harness
}

/// With one printer, as the button makes it.
fn with_printer() -> Harness<'static, State> {
    let mut harness = panel(Printers::default());
    harness.get_by_label("Add a printer").click();
    harness.run();
    harness
}

fn fill(harness: &mut Harness<'static, State>, label: &str, text: &str) {
    let field = |harness: &Harness<'static, State>| {
        harness
            .get_by_role_and_label(Role::TextInput, label)
            .focus();
    };
    field(harness);
    harness.run();
    harness.key_press_modifiers(egui::Modifiers::COMMAND, Key::A);
    harness.run();
    harness.event(egui::Event::Text(text.into()));
    harness.run();
    harness.key_press(Key::Enter);
    harness.run();
}

fn sees(harness: &Harness<'static, State>, words: &str) -> bool {
    harness.query_all_by_label_contains(words).next().is_some()
}

#[test]
fn readings_become_factors_and_what_they_take_out() {
    let mut harness = with_printer();
    // The bars of an A4 sheet are 170 and 260 mm long.
    fill(&mut harness, "Level readings", "169; 169; 169");
    assert!(sees(&harness, "the upright bar is not measured yet"));
    fill(&mut harness, "Upright readings", "260");
    let printer = harness.state().1.correction().unwrap();
    assert_near!(printer.print.x, 170.0 / 169.0, 1e-12);
    assert!(sees(&harness, "× 1.0059") && sees(&harness, "× 1.0000"));
    assert!(sees(&harness, "not measured"));
    // The board's radius is 320 mm: 320 / 170 = 1.88 mm off; by half a division of 0.5 mm, 0.47 mm.
    assert!(sees(&harness, "1.88 mm") && sees(&harness, "up to 0.47 mm"));
    assert!(sees(&harness, "comes out −1.88 mm across and +0 mm up"));
}

#[test]
fn faults_stand_below_the_readings_that_they_are_about() {
    let mut harness = with_printer();
    fill(&mut harness, "Level readings", "107 mm");
    fill(&mut harness, "Upright readings", "260; 262");
    let fault = harness.get_by_label_contains("more than 10 % off").rect();
    let place = |label: &str| harness.get_by_role_and_label(Role::TextInput, label).rect();
    assert!(fault.top() > place("Level readings").top());
    assert!(fault.bottom() < place("Upright readings").bottom());
    assert!(sees(&harness, "range from 260 mm to 262 mm"));
    assert_eq!(harness.state().1.correction(), None);
    fill(&mut harness, "Level readings", "seventeen");
    assert!(sees(&harness, "The old value stays"));
    let readings = &harness.state().1.chosen().unwrap().readings;
    assert_eq!(readings.level.readings, [107.0]);
}

#[test]
fn printers_are_renamed_chosen_and_removed() {
    let mut harness = with_printer();
    fill(&mut harness, "Printer name", "Laser");
    assert_eq!(harness.state().1.chosen().unwrap().name, "Laser");
    fill(&mut harness, "Printer name", " ");
    assert!(sees(&harness, "a printer needs a name"));
    harness.get_by_label("Add a printer").click();
    harness.run();
    fill(&mut harness, "Printer name", "Laser");
    assert!(sees(&harness, "another printer is named"));
    harness
        .get_by_role_and_label(Role::ComboBox, "Printer")
        .click();
    harness.run();
    harness.get_by_label("Laser").click();
    harness.run();
    assert_eq!(harness.state().1.chosen().unwrap().name, "Laser");
    harness.get_by_label("Remove this printer").click();
    harness.run();
    assert_eq!(harness.state().1.chosen(), None);
    assert_eq!(harness.state().1.all().len(), 1);
    assert!(sees(&harness, "No printer prints quite true"));
}

#[test]
fn what_the_correction_leaves_is_taken_as_the_accuracy_of_printing() {
    let mut harness = with_printer();
    fill(&mut harness, "Level readings", "169");
    fill(&mut harness, "Upright readings", "260");
    harness.get_by_label("Take as print scale error").click();
    harness.run();
    // 0.25 / 169, rounded up to five places.
    assert_near!(harness.state().0.errors.print, 0.001_48, 1e-12);
}

#[test]
fn another_paper_offers_the_lengths_of_its_own_sheet() {
    let mut harness = with_printer();
    assert!(!sees(&harness, "Lengths of the"));
    harness.state_mut().0.template.paper = board::Paper::A3;
    harness.run();
    harness.get_by_label("Lengths of the A3 sheet").click();
    harness.run();
    let readings = &harness.state().1.chosen().unwrap().readings;
    assert!(readings.level.nominal > 200.0);
    assert!(!sees(&harness, "Lengths of the"));
}

#[test]
fn every_control_has_a_name() {
    let mut harness = with_printer();
    fill(&mut harness, "Level readings", "169");
    harness.check_accessibility();
}
