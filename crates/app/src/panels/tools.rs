//! The tools of the plan, beside the tabs over it.

use egui::{Button, Ui};

use crate::command::Command;
use crate::view::ViewState;

/// The tools for work on the plan.
pub fn tools_ui(ui: &mut Ui, view: &mut ViewState) {
    let measures = view.canvas.measuring();
    let button = Button::selectable(measures, Command::Measure.label()).frame_when_inactive(true);
    let keys = Command::Measure.shortcut();
    let keys = keys.map_or_else(String::new, |keys| ui.ctx().format_shortcut(&keys));
    let hint = format!("{} ({keys})", Command::Measure.tooltip());
    if ui.add(button).on_hover_text(hint).clicked() {
        view.asked.push(Command::Measure);
    }
}
