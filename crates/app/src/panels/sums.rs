//! The sums of the bench beside the drawing; each shows its formula and source when it is pointed at.

use board::Board;
use egui::{Align, Label, Layout, Response, RichText, Ui};
use workshop::{Sum, sums};

use crate::current::Current;
use crate::theme;

/// Every sum of what is planned, group by group.
pub fn sums_ui(ui: &mut Ui, board: &Board, current: &Current) {
    let Some((good, derived)) = current.good() else {
        return;
    };
    // The scroll bar lies over what is at the very right.
    ui.set_max_width(ui.available_width() - theme::GAP);
    for group in sums(good, &derived.layout) {
        ui.add_space(theme::GAP);
        ui.label(RichText::new(titled(group.heading)).family(theme::strong()));
        for sum in &group.sums {
            let shown = |measure: workshop::Measure| measure.shown(board.units);
            let value = sum.value.map_or_else(|| "never".into(), shown);
            let row = figure_ui(ui, &named(sum, board), value);
            row.on_hover_text(format!("{}\nSource: {}", sum.formula, sum.source));
        }
        for note in &group.notes {
            ui.label(RichText::new(note).weak().small());
        }
    }
    let words =
        "Point at a figure for its formula and source; the export Bench sums has all of them.";
    ui.label(RichText::new(words).weak().small());
}

/// The name at the left, broken where it is long, and the value at the right.
fn figure_ui(ui: &mut Ui, name: &str, value: String) -> Response {
    let line = ui.horizontal(|ui| {
        ui.with_layout(Layout::right_to_left(Align::Min), |ui| {
            ui.label(RichText::new(value).family(theme::strong()));
            ui.with_layout(Layout::left_to_right(Align::Min), |ui| {
                ui.add(Label::new(name).wrap());
            });
        });
    });
    line.response
}

/// With a capital letter.
fn titled(heading: &str) -> String {
    let mut letters = heading.chars();
    letters.next().map_or_else(String::new, |first| {
        first.to_uppercase().chain(letters).collect()
    })
}

/// What a sum is, and for what it is worked out.
fn named(sum: &Sum, board: &Board) -> String {
    match sum.at {
        Some(at) => format!("{}, {}", sum.name, at.shown(board.units)),
        None => sum.name.into(),
    }
}
