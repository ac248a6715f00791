//! Helpers for tests of panels: they press, type and choose by the names that a screen reader says.

use board::Board;
use egui::Ui;
use egui::accesskit::Role;
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable as _;

use crate::theme;

/// A panel of a given height, on a new board.
pub fn panel(
    height: f32,
    show: impl FnMut(&mut Ui, &mut Board) + 'static,
) -> Harness<'static, Board> {
    Harness::builder()
        .with_size([340.0, height])
        .with_context_setup(theme::install)
        .build_ui_state(show, Board::default())
}

pub fn press(panel: &mut Harness<'static, Board>, label: &str) {
    panel.get_by_label(label).click();
    panel.run();
}

/// Types into a field for a number that has one, and leaves it with Enter.
pub fn type_into(panel: &mut Harness<'static, Board>, label: &str, text: &str) {
    enter(panel, Role::SpinButton, label, text);
}

/// Types into a field for text, and leaves it with Enter.
pub fn write_into(panel: &mut Harness<'static, Board>, label: &str, text: &str) {
    enter(panel, Role::TextInput, label, text);
}

fn enter(panel: &mut Harness<'static, Board>, role: Role, label: &str, text: &str) {
    panel.get_by_role_and_label(role, label).click();
    panel.run();
    if role == Role::TextInput {
        panel.key_press_modifiers(egui::Modifiers::COMMAND, egui::Key::A);
        panel.run();
    }
    panel.event(egui::Event::Text(text.into()));
    panel.run();
    panel.key_press(egui::Key::Enter);
    panel.run();
}

pub fn choose(panel: &mut Harness<'static, Board>, label: &str, option: &str) {
    panel.get_by_role_and_label(Role::ComboBox, label).click();
    panel.run();
    // In a long list it may be out of sight.
    panel.get_by_label(option).scroll_to_me();
    panel.run();
    press(panel, option);
}

pub fn sees(panel: &Harness<'static, Board>, words: &str) -> bool {
    panel.query_all_by_label_contains(words).next().is_some()
}
