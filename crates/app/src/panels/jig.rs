//! Controls of the jigs that are set by hand, and of the order of drilling.

use board::{Board, field};
use egui::Ui;
use workshop::JIG_CAUTIONS;

use super::rows::remark;
use crate::widgets::{cautions, fields_ui};

/// The jigs that are set by hand, and the order of drilling.
pub fn jig_ui(ui: &mut Ui, board: &mut Board) {
    fields_ui(
        ui,
        board,
        &[
            &field::METHOD,
            &field::JIG_KERF,
            &field::PLATES,
            &field::THROAT,
            &field::ORDER,
        ],
    );
    cautions(ui, &JIG_CAUTIONS);
}

/// The bits and guide bushings that the maker owns; the shop keeps them for every board.
pub fn tools_ui(ui: &mut Ui, board: &mut Board) {
    remark(
        ui,
        "Sizes in a list, as in 3/8, 1/2, 5/8. Your shop keeps them for every board.",
    );
    fields_ui(ui, board, field::TOOLS_FIELDS);
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::panels::hand::{self, sees, write_into};

    #[test]
    fn bits_are_typed_as_a_list_of_sizes() {
        let mut panel = hand::panel(400.0, tools_ui);
        write_into(&mut panel, "Forstner bits you own", "3/8\", 1/2\", 15 mm");
        assert_eq!(panel.state().tools.forstner, [9.525, 12.7, 15.0]);
        write_into(&mut panel, "Forstner bits you own", "10, wide");
        assert!(sees(&panel, "Not a length"));
        assert_eq!(panel.state().tools.forstner.len(), 3);
    }

    #[test]
    fn plates_are_whole_numbers() {
        let mut panel = hand::panel(400.0, jig_ui);
        write_into(&mut panel, "Index plates", "24, 96 100");
        assert_eq!(panel.state().jig.plates, [24, 96, 100]);
        write_into(&mut panel, "Index plates", "7.5");
        assert!(sees(&panel, "Not a whole number: \"7.5\""));
        assert_eq!(panel.state().jig.plates, [24, 96, 100]);
    }
}
