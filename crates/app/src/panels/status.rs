//! The line below: what is under the pointer, and what was done last.

use egui::{Align, Layout, RichText, Ui};

use crate::jobs::Jobs;
use crate::study::Studies;
use crate::theme::Tokens;
use crate::view::ViewState;

const STOP: &str = "Stop until the board changes";
const STOP_EXPORT: &str = "Stop the export; no file is written then";

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
        ui.add(egui::Label::new(words).truncate());
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

/// The job that is running; an export says what it is at, and can be stopped.
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
