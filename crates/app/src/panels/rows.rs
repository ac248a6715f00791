//! Rows that several panels share.

use board::{Board, Field};
use egui::{Align, Button, Layout, Response, Ui, vec2};
use workshop::Mend;

use crate::command::Command;
use crate::theme;
use crate::widgets::{CAPTION, FIELD, fitted_ui, row};

/// A caption and what is known of it.
pub fn fact(ui: &mut Ui, caption: &str, value: &str) {
    row(ui, caption, |ui, _| ui.add(egui::Label::new(value).wrap()));
}

/// A caption and a number, which ends where the fields end: numbers below each other stand in a column.
pub fn amount(ui: &mut Ui, caption: &str, value: &str) -> Response {
    row(ui, caption, |ui, _| {
        let size = vec2(FIELD, ui.spacing().interact_size.y);
        let right = Layout::right_to_left(Align::Center);
        ui.allocate_ui_with_layout(size, right, |ui| ui.label(value))
            .inner
    })
}

/// A number in a column of a table, under the right end of its head.
pub fn number_cell(ui: &mut Ui, words: impl Into<egui::WidgetText>) {
    let right = Layout::right_to_left(Align::Center);
    ui.with_layout(right, |ui| ui.label(words));
}

/// Small words below the rows that they explain.
pub fn remark(ui: &mut Ui, words: &str) {
    ui.label(theme::quiet(words));
}

/// A small button below a field that lets the program find the number.
pub fn fit_button(ui: &mut Ui, mend: Mend, asked: &mut Vec<Command>) {
    let command = Command::Mend(mend);
    ui.horizontal(|ui| {
        ui.add_space(CAPTION + ui.spacing().item_spacing.x);
        let size = vec2(FIELD, ui.spacing().interact_size.y);
        let button = ui.add(Button::new(command.label()).min_size(size));
        if button.on_hover_text(command.tooltip()).clicked() {
            asked.push(command);
        }
    });
}

/// A number of the board, and beside it the button that lets the program find one.
pub fn fitted(ui: &mut Ui, board: &mut Board, field: &Field, mend: Mend, asked: &mut Vec<Command>) {
    if fitted_ui(ui, board, field, [mend.label(), mend.tooltip()]) {
        asked.push(Command::Mend(mend));
    }
}

/// The button that adds an entry to a list, off where the list is full; tells whether it was pressed.
pub fn add_button(ui: &mut Ui, words: &str, count: usize, list: &board::Field) -> bool {
    let has_room = (count as f64) < list.range().max;
    let button = ui.add_enabled(has_room, Button::new(words));
    button.on_hover_text(list.hint).clicked()
}
