//! The bit that the maker owns for a bore, in a line below its diameter; pressing it uses its size.

use board::{Board, Bore, Units};
use egui::{Button, RichText, Role, TextStyle, Ui, WidgetInfo};
use workshop::{OwnedBit, bit_name, owned_bit};

use super::drills::difference_of;
use crate::theme;
use crate::widgets::caption_width;

/// A line below the field with this caption: the bit of that size that the maker owns, or the nearest one that suits the piece. Nothing
/// is shown where no bits of that kind are listed.
pub fn owned_ui(ui: &mut Ui, caption: &str, bore: &mut Bore, board: &Board) {
    let Some(owned) = owned_bit(board, *bore) else {
        return;
    };
    let told = |ui: &mut Ui, words: &str| {
        ui.horizontal(|ui| {
            ui.add_space(caption_width(ui) + ui.spacing().item_spacing.x);
            ui.label(theme::quiet(words));
        });
    };
    ui.scope(|ui| {
        ui.spacing_mut().interact_size.y = ui.text_style_height(&TextStyle::Small);
        match owned {
            OwnedBit::Same => told(ui, "among the bits you own"),
            OwnedBit::Unsuited => told(ui, "no bit you own suits the piece"),
            OwnedBit::Near(bit) => near_ui(ui, caption, bore, bit, board.units),
        }
    });
}

/// A small button that takes the bit, with its size beyond the bore's.
fn near_ui(ui: &mut Ui, caption: &str, bore: &mut Bore, bit: f64, units: Units) {
    let name = bit_name(bit, units);
    ui.horizontal(|ui| {
        ui.spacing_mut().item_spacing.x = theme::GAP / 2.0;
        ui.label(theme::quiet("your nearest bit:"));
        let button = ui.add(Button::new(RichText::new(&name).small()).small());
        button.widget_info(|| {
            WidgetInfo::labeled(Role::Button, true, format!("{caption}, use your {name}"))
        });
        let about = "Make the bore as wide as the nearest bit you own that suits the piece";
        if button.on_hover_text(about).clicked() {
            *bore = bore.by_cutter(bit);
        }
        let larger = difference_of(bit - bore.cutter(), units);
        ui.label(theme::quiet(larger));
    });
}

#[cfg(test)]
mod tests {
    use crate::panels::bores::{bores_ui, pieces_ui};
    use crate::panels::hand::{self, press, sees, type_into};

    #[test]
    fn a_press_takes_the_bit_that_the_maker_owns() {
        // A marble of 40 mm sinks by 11 % into a bore of 25 mm.
        let mut panel = hand::panel(900.0, |ui, board| {
            board.tools.forstner = vec![10.0, 12.7, 25.0];
            pieces_ui(ui, board, &mut Vec::new());
            bores_ui(ui, board, &mut Vec::new());
        });
        assert!(sees(&panel, "+0.7 mm"));
        press(&mut panel, "Bore diameter, use your 1/2\"");
        assert_eq!(panel.state().bores.start.diameter, 12.7);
        assert!(sees(&panel, "among the bits you own"));
        type_into(&mut panel, "Piece diameter", "40");
        type_into(&mut panel, "Bore diameter", "24");
        assert!(sees(&panel, "your nearest bit:"));
        type_into(&mut panel, "Piece diameter", "8");
        assert!(sees(&panel, "no bit you own suits the piece"));
    }
}
