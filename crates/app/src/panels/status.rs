//! The line below: what is under the pointer, and what was done last.

use egui::{Align, Layout, RichText, Ui};

use crate::study::Studies;
use crate::theme::Tokens;
use crate::view::ViewState;

const STOP: &str = "Stop until the board changes";

/// The line below the board.
pub fn status_ui(ui: &mut Ui, view: &mut ViewState, running: Option<&str>, studies: &Studies) {
    let tokens = Tokens::of(ui);
    if let Some(left) = view.age_notice(ui.input(|input| input.time)) {
        ui.ctx().request_repaint_after_secs(left as f32);
    }
    ui.horizontal_centered(|ui| {
        let idle = "Point at a hole; drag to pan, turn the wheel to zoom";
        let words = if view.readout.is_empty() {
            RichText::new(idle).weak()
        } else {
            RichText::new(&view.readout)
        };
        ui.add(egui::Label::new(words).truncate());
        ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
            if let Some(running) = running {
                ui.label(RichText::new(format!("{running} …")).weak());
            }
            if studies.is_long(ui.ctx()) {
                if ui.button("Stop").on_hover_text(STOP).clicked() {
                    studies.stop();
                }
                ui.label(RichText::new("working out the blank and its risks …").weak());
            }
            if let Some(notice) = &view.notice {
                let color = if notice.is_error {
                    tokens.stop
                } else {
                    tokens.fine
                };
                let mark = if notice.is_error { "▲" } else { "✓" };
                ui.add(
                    egui::Label::new(
                        RichText::new(format!("{mark} {}", notice.words)).color(color),
                    )
                    .truncate(),
                )
                .on_hover_text(&notice.words);
            }
        });
    });
}
