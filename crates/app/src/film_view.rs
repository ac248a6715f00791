//! The section through the film of the finish, as it is printed on the finish plan.

use drawing::film_sheet;
use egui::Ui;
use workshop::Workpiece;

use crate::sheet_view::{SheetViewState, sheet_view_ui};

/// Points for a millimeter at which the words are easily read.
const READABLE: f32 = 3.6;
/// The narrowest and the widest sheet that a film is laid out on, mm.
const NARROW: f64 = 90.0;
const WIDE: f64 = 260.0;

/// Shows the layers of the finish on the wood, or says where they are planned.
pub fn film_ui(ui: &mut Ui, workpiece: &Workpiece, state: &mut SheetViewState) {
    let width = f64::from(ui.available_width() / READABLE).clamp(NARROW, WIDE);
    match film_sheet(workpiece, width) {
        Some(sheet) => {
            let name = "Section through the film of the finish";
            sheet_view_ui(ui, ui.available_size(), &sheet, name, state);
        }
        None => {
            ui.centered_and_justified(|ui| {
                ui.label("No coats are planned. Plan them under Finish coats at the stage Finish.")
            });
        }
    }
}
