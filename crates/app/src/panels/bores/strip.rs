//! The sizes of a fit strip in a line below a bore; pressing one uses it.

use board::{Bore, Units, show_setting};
use egui::{Button, RichText, Role, TextStyle, Ui, WidgetInfo};
use workshop::fit_diameters;

use crate::theme;

/// A line below the controls of a bore: the sizes of its fit strip, the present size in the middle.
pub fn strip_ui(ui: &mut Ui, whose: &str, bore: &mut Bore, units: Units) {
    ui.scope(|ui| {
        // A line no higher than its small words.
        ui.spacing_mut().interact_size.y = ui.text_style_height(&TextStyle::Small);
        ui.horizontal_wrapped(|ui| {
            ui.spacing_mut().item_spacing.x = theme::GAP / 2.0;
            ui.label(theme::quiet("Fit strip")).on_hover_text(HINT);
            let wanted = bore.diameter;
            for diameter in fit_diameters(wanted, units) {
                let size = show_setting(diameter, units);
                // The sign of the unit stands on the field above.
                let words = size.trim_end_matches(" mm").trim_end_matches('"');
                let words = RichText::new(words).small();
                let button = Button::selectable(diameter == wanted, words)
                    .frame_when_inactive(true)
                    .small();
                let button = ui.add(button);
                button.widget_info(|| {
                    let name = format!("{whose} fit strip, use {size}");
                    WidgetInfo::labeled(Role::Button, true, name)
                });
                if button
                    .on_hover_text(format!("This size fits: use {size}. {HINT}"))
                    .clicked()
                {
                    bore.diameter = diameter;
                }
            }
        });
    });
}

const HINT: &str = "Print the fit strip under Export, drill its five holes in scrap of the same wood, try the piece in each, and \
     press the size that fits";

#[cfg(test)]
mod tests {
    use super::*;
    use crate::panels::bores::{bores_ui, center_ui};
    use crate::panels::hand::{self, press, sees};
    use testkit::assert_near;

    #[test]
    fn the_size_that_fits_is_taken_by_one_press_and_stands_in_the_middle_then() {
        let mut panel = hand::panel(900.0, |ui, board| bores_ui(ui, board, &mut Vec::new()));
        press(&mut panel, "Bore fit strip, use 12.1 mm");
        let bores = panel.state().bores;
        assert_eq!(bores.track.diameter, 12.1);
        assert_eq!((bores.home, bores.start), (bores.track, bores.track));
        assert!(sees(&panel, "Bore fit strip, use 12.3 mm"));
        assert!(!sees(&panel, "Bore fit strip, use 11.8 mm"));
    }

    #[test]
    fn a_board_in_inches_is_fitted_by_128ths_and_the_center_too() {
        let mut panel = hand::panel(600.0, |ui, board| {
            board.units = Units::INCH;
            center_ui(ui, board);
        });
        // 12 mm and 1/128 in.
        press(&mut panel, "Center fit strip, use 0.48\"");
        let bore = panel.state().center.bore().unwrap();
        assert_near!(bore.diameter, 12.0 + board::INCH / 128.0, 1e-9);
    }
}
