//! The safety dialog: cautions about the risks to hands, eyes, lungs and small children.

use egui::{ScrollArea, Ui};
use workshop::{Caution, FIRST};

use super::{Answer, heading};
use crate::theme;
use crate::widgets::main_button;

/// Every caution with its source; returns [`Answer::Cancel`] when Close was pressed.
pub fn safety_ui(ui: &mut Ui) -> Option<Answer> {
    heading(ui, "Working safely");
    let height = (ui.ctx().content_rect().height() - 260.0).max(160.0);
    ScrollArea::vertical().max_height(height).show(ui, |ui| {
        for caution in Caution::ALL {
            ui.label(theme::bold(caution.label()));
            ui.label(caution.words());
            ui.label(theme::quiet(caution.source()));
        }
    });
    ui.add_space(theme::GAP);
    ui.label(FIRST);
    ui.add_space(theme::GAP);
    main_button(ui, "Close").clicked().then_some(Answer::Cancel)
}
