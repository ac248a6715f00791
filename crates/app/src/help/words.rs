//! The words of the trade, one below the other, each with its meaning and, where it helps, a sketch.

use egui::{Align, Layout, Sense, Ui, vec2};

use super::sketch;
use crate::terms::WORDS;
use crate::theme::{self, Tokens};

/// Size of a sketch, in points.
const SKETCH: egui::Vec2 = egui::Vec2::new(100.0, 60.0);

/// The words; one of them is brought into view and stands out.
pub fn words_ui(ui: &mut Ui, sought: Option<usize>, chosen: Option<usize>) {
    for (at, (word, meaning)) in WORDS.iter().enumerate() {
        let ground = if chosen == Some(at) {
            Tokens::of(ui).chosen
        } else {
            egui::Color32::TRANSPARENT
        };
        let frame = egui::Frame::new()
            .fill(ground)
            .corner_radius(theme::TIGHT)
            .inner_margin(theme::TIGHT);
        let shown = frame.show(ui, |ui| {
            ui.set_min_width(ui.available_width());
            ui.horizontal_top(|ui| {
                let (rect, _) = ui.allocate_exact_size(SKETCH, Sense::hover());
                sketch::paint(ui, rect, word);
                ui.add_space(theme::GAP);
                let room = vec2(ui.available_width(), 0.0);
                ui.allocate_ui_with_layout(room, Layout::top_down(Align::Min), |ui| {
                    ui.label(theme::bold(*word));
                    ui.label(*meaning);
                });
            });
        });
        if sought == Some(at) {
            shown.response.scroll_to_me(Some(Align::Center));
        }
        ui.add_space(theme::TIGHT);
    }
}
