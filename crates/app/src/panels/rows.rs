//! Rows that several panels share.

use board::{Board, Field};
use egui::{Align, Button, Layout, Response, Ui, vec2};
use workshop::Mend;

use crate::command::Command;
use crate::theme;
use crate::widgets::{FIT, field_width, fit_button, fitted_ui, row};

/// A caption and a value calculated from other numbers; the tooltip says from which.
pub fn fact(ui: &mut Ui, caption: &str, value: &str, from: &str) {
    known(
        ui,
        caption,
        |ui| ui.add(egui::Label::new(value).wrap()),
        from,
    );
}

/// The same for a number, right-aligned with the fields, so that numbers form a column.
pub fn amount(ui: &mut Ui, caption: &str, value: &str, from: &str) {
    let number = |ui: &mut Ui| {
        let size = vec2(field_width(ui), ui.spacing().interact_size.y);
        let right = Layout::right_to_left(Align::Center);
        ui.allocate_ui_with_layout(size, right, |ui| ui.label(value))
            .inner
    };
    known(ui, caption, number, from);
}

/// A row of words. Its id differs from that of a field with the same caption, which would otherwise lose the keyboard focus to it.
fn known(ui: &mut Ui, caption: &str, words: impl FnOnce(&mut Ui) -> Response, from: &str) {
    ui.push_id("known", |ui| {
        row(ui, caption, |ui, _| words(ui).on_hover_text(from));
    });
}

/// A caption, a calculated value, and the button that lets the program improve it.
pub fn fitted_fact(
    ui: &mut Ui,
    caption: &str,
    [value, from]: [&str; 2],
    mend: Mend,
    asked: &mut Vec<Command>,
) {
    let fit = row(ui, caption, |ui, _| {
        let room = field_width(ui) - FIT - ui.spacing().item_spacing.x;
        let size = vec2(room, ui.spacing().interact_size.y);
        let start = Layout::left_to_right(Align::Center);
        ui.allocate_ui_with_layout(size, start, |ui| {
            ui.set_min_width(room);
            let label = ui.add(egui::Label::new(value).truncate());
            label.on_hover_text(format!("{value}\n{from}"));
        });
        fit_button(ui, mend.label(), mend.tooltip())
    });
    if fit {
        asked.push(Command::Mend(mend));
    }
}

/// A number in a column of a table, under the right end of its head; the tooltip says from which others it follows.
pub fn number_cell(ui: &mut Ui, words: impl Into<egui::WidgetText>, from: &str) {
    let right = Layout::right_to_left(Align::Center);
    ui.with_layout(right, |ui| ui.label(words).on_hover_text(from));
}

/// Small words below the rows that they explain.
pub fn remark(ui: &mut Ui, words: &str) {
    ui.label(theme::quiet(words));
}

/// A number of the board, and beside it the button that lets the program find the best one.
pub fn fitted(ui: &mut Ui, board: &mut Board, field: &Field, mend: Mend, asked: &mut Vec<Command>) {
    if fitted_ui(ui, board, field, [mend.label(), mend.tooltip()]) {
        asked.push(Command::Mend(mend));
    }
}

/// The button that adds an entry to a list, off where the list is full; returns whether it was pressed.
pub fn add_button(ui: &mut Ui, words: &str, count: usize, list: &board::Field) -> bool {
    let has_room = (count as f64) < list.range().max;
    let button = ui.add_enabled(has_room, Button::new(words));
    button.on_hover_text(list.hint).clicked()
}
