//! The section through the film of the finish, as it is printed on the finish plan.

use drawing::film_sheet;
use egui::Ui;
use workshop::Workpiece;

use crate::sheet_view::{SheetViewState, sheet_view_ui};
use crate::widgets::empty_state;

/// Points for a millimeter at which the words are easily read.
const READABLE: f32 = 3.6;
/// The narrowest and the widest sheet that a film is laid out on, mm.
const NARROW: f64 = 90.0;
const WIDE: f64 = 260.0;

/// Shows the layers of the finish on the wood; where there are none, offers to plan them and returns whether that was
/// pressed.
pub fn film_ui(ui: &mut Ui, workpiece: &Workpiece, state: &mut SheetViewState) -> bool {
    let width = f64::from(ui.available_width() / READABLE).clamp(NARROW, WIDE);
    let Some(sheet) = film_sheet(workpiece, width) else {
        let words = "The layers of the finish stand here as soon as there are coats: what bonds to what, and how thick it gets.";
        return empty_state(ui, "No coats planned yet", words, "Plan the finish");
    };
    let name = "Section through the film of the finish";
    sheet_view_ui(ui, ui.available_size(), &sheet, name, state);
    false
}
