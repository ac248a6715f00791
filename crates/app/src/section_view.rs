//! The board cut open: the sheet of its section, through the chosen hole.

use board::HoleId;
use drawing::{Stamp, section_page};
use egui::{Button, ComboBox, Ui};
use workshop::{Workpiece, cut_through};

use crate::sheet_view::{SheetViewState, sheet_view_ui};
use crate::theme;

/// Points for a millimeter at which the words of a section are easily read.
const READABLE: f32 = 3.0;
/// The narrowest and the widest sheet that a section is laid out on, mm.
const NARROW: f64 = 180.0;
const WIDE: f64 = 297.0;

/// Shows the section through the chosen hole, and lets another be chosen.
pub fn section_ui(
    ui: &mut Ui,
    workpiece: &Workpiece,
    chosen: &mut Option<HoleId>,
    state: &mut SheetViewState,
) {
    let Some(mut hole) = cut_through(workpiece, *chosen) else {
        ui.label("There is no hole to cut through.");
        return;
    };
    let before = hole;
    holes_ui(ui, workpiece, &mut hole);
    if hole != before {
        *chosen = Some(hole);
    }
    let width = f64::from(ui.available_width() / READABLE).clamp(NARROW, WIDE);
    let stamp = Stamp::default();
    let sheet = section_page(workpiece, hole, width, &stamp);
    if let (Some(sheet), Some(hole)) = (sheet, workpiece.layout().hole(hole)) {
        let name = format!("Section of the board, cut through {}", hole.name);
        sheet_view_ui(ui, ui.available_size(), &sheet, &name, state);
    }
}

/// One hole after the other, or any by name.
fn holes_ui(ui: &mut Ui, workpiece: &Workpiece, hole: &mut HoleId) {
    let holes = &workpiece.layout().holes;
    let at = holes.iter().position(|other| other.name.id() == *hole);
    let beside = |step: isize| {
        let at = at?.checked_add_signed(step)?;
        Some(holes.get(at)?.name.id())
    };
    ui.horizontal(|ui| {
        ui.add_space(theme::GAP);
        let caption = ui.label("Cut through").id;
        let mut step = |ui: &mut Ui, sign: &str, words: &str, to: Option<HoleId>| {
            let button = ui.add_enabled(to.is_some(), Button::new(sign));
            button
                .widget_info(|| egui::WidgetInfo::labeled(egui::Role::Button, to.is_some(), words));
            if button.on_hover_text(words).clicked()
                && let Some(to) = to
            {
                *hole = to;
            }
        };
        step(ui, "←", "The hole before", beside(-1));
        step(ui, "→", "The next hole", beside(1));
        let shown = at
            .and_then(|at| holes.get(at))
            .map(|hole| hole.name.to_string());
        let names = ComboBox::from_id_salt("cut through")
            .selected_text(shown.unwrap_or_default())
            .width(90.0);
        let list = names.show_ui(ui, |ui| {
            for other in holes {
                ui.selectable_value(hole, other.name.id(), other.name.to_string());
            }
        });
        list.response.labelled_by(caption);
    });
}
