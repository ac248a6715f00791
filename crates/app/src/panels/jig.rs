//! Controls of the jigs that are set by hand, and of the order of drilling.

use board::{Board, field};
use egui::Ui;
use workshop::Caution;

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
    cautions(ui, &[Caution::DrillPress, Caution::TableSaw]);
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::panels::hand::{self, sees, write_into};

    #[test]
    fn plates_are_whole_numbers() {
        let mut panel = hand::panel(400.0, jig_ui);
        write_into(&mut panel, "Index plates", "24, 84 90");
        assert_eq!(panel.state().jig.plates, [24, 84, 90]);
        write_into(&mut panel, "Index plates", "7.5");
        assert!(sees(&panel, "Not a whole number: \"7.5\""));
        assert_eq!(panel.state().jig.plates, [24, 84, 90]);
    }
}
