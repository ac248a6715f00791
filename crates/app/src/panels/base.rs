//! Controls of what the board stands on.

use board::{Board, field};
use egui::Ui;
use workshop::Caution;

use crate::widgets::{cautions, fields_ui};

/// Turntable or feet, and the opening that the board must go through.
pub fn base_ui(ui: &mut Ui, board: &mut Board) {
    fields_ui(ui, board, field::BASE_FIELDS);
    fields_ui(ui, board, field::PASSAGE_FIELDS);
    if board.base.is_some() {
        cautions(
            ui,
            &[
                Caution::BandSaw,
                Caution::Router,
                Caution::DrillPress,
                Caution::Eyes,
                Caution::Dust,
            ],
        );
    }
}
