//! The status line at the bottom: the thing under the pointer, and the last message.

use egui::accesskit::Live;
use egui::{Align, Layout, RichText, Ui, vec2};

use crate::jobs::Jobs;
use crate::study::Studies;
use crate::theme::Tokens;
use crate::view::{Notice, ViewState};
use crate::widgets::words_width;

const STOP: &str = "Stop until the board changes";
const STOP_EXPORT: &str = "Stop the export; no file is written then";

/// Largest share of the line that a message takes beside the words about the place under the pointer.
const MOST_MESSAGE: f32 = 0.7;

/// A message after a mark for success, warning or failure.
fn spoken(notice: &Notice) -> String {
    let mark = if notice.is_error { "▲" } else { "✓" };
    format!("{mark} {}", board::capital(&notice.words))
}

/// The line below the board.
pub fn status_ui(ui: &mut Ui, view: &mut ViewState, jobs: &Jobs, studies: &Studies) {
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
        // The message is shown in full where there is room, even beside long words.
        let message = view
            .notice
            .as_ref()
            .map_or(0.0, |notice| words_width(ui, spoken(notice)));
        let room = ui.available_width() - message.min(MOST_MESSAGE * ui.available_width());
        let size = vec2(room, ui.available_height());
        let left = Layout::left_to_right(Align::Center);
        ui.allocate_ui_with_layout(size, left, |ui| {
            ui.add(egui::Label::new(words).truncate());
        });
        ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
            job_ui(ui, jobs);
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
                let words = RichText::new(spoken(notice)).color(color);
                let label = ui
                    .add(egui::Label::new(words).truncate())
                    .on_hover_text(&notice.words);
                let is_error = notice.is_error;
                ui.accesskit_node_builder(label.id, |node| {
                    // Screen readers say it when it comes.
                    node.set_live(if is_error {
                        Live::Assertive
                    } else {
                        Live::Polite
                    });
                });
            }
        });
    });
}

/// The job that is running; an export shows its progress, and can be stopped.
fn job_ui(ui: &mut Ui, jobs: &Jobs) {
    let Some(running) = jobs.running() else {
        return;
    };
    let watch = jobs.watch();
    if watch.is_stopped() {
        ui.label(RichText::new("stopping …").weak());
        return;
    }
    if jobs.is_exporting() {
        if ui.button("Stop").on_hover_text(STOP_EXPORT).clicked() {
            watch.stop();
        }
        // The progress of a job changes while nothing else on screen does.
        ui.ctx().request_repaint_after_secs(0.3);
    }
    let at = watch.at();
    let words = if at.is_empty() {
        format!("{running} …")
    } else {
        format!("{running}: {at} …")
    };
    ui.label(RichText::new(words).weak());
}
