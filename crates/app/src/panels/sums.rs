//! The sums of the bench beside the drawing; each shows its formula and source when it is pointed at.

use board::Board;
use egui::{Align, Label, Layout, Response, RichText, Ui};

use crate::current::Current;
use crate::theme;

/// Every sum of what is planned, group by group.
pub fn sums_ui(ui: &mut Ui, board: &Board, current: &Current) {
    let Some(workpiece) = current.good() else {
        return;
    };
    // The scroll bar lies over what is at the very right.
    ui.set_max_width(ui.available_width() - theme::GAP);
    for group in workpiece.sums() {
        ui.add_space(theme::GAP);
        ui.label(RichText::new(board::capital(group.heading)).family(theme::strong()));
        for sum in group.brief() {
            let row = figure_ui(ui, &sum.titled(board.units), sum.shown(board.units));
            row.on_hover_text(format!("{}\nSource: {}", sum.formula, sum.source));
        }
        for note in &group.notes {
            ui.label(RichText::new(note).weak().small());
        }
    }
    let words = "Point at a figure for its formula and source. Of many alike the first three stand here; the export Bench \
        sums has all.";
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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::panels::hand::{self, sees};
    use egui_kittest::kittest::Queryable as _;

    #[test]
    fn of_many_speeds_the_first_few_stand_in_the_panel() {
        let panel = hand::panel(900.0, |ui, board| {
            board.pattern = geometry::Pattern::Lobes { depth: 0.15 };
            board.blank.diameter = 600.0;
            let current = Current::of(board);
            sums_ui(ui, board, &current);
        });
        assert!(sees(&panel, "marble below the top face"));
        assert!(sees(&panel, "nearest metric Forstner bit, 12 mm"));
        let speeds = panel.query_all_by_label_contains("speed at which the marble rolls out");
        assert_eq!(speeds.count(), 3);
    }
}
