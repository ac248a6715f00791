//! Controls of what a piece weighs, and of what holds a magnet piece.

use board::{Board, PieceKind, field};
use egui::Ui;
use workshop::Caution;

use crate::widgets::{cautions, fields_ui};

/// The weight of one piece, and the hold of a magnet piece.
pub fn piece_ui(ui: &mut Ui, board: &mut Board) {
    fields_ui(ui, board, field::WEIGHT_FIELDS);
    if board.piece.kind == PieceKind::Magnet {
        fields_ui(ui, board, field::MAGNET_FIELDS);
        cautions(ui, &[Caution::Magnets]);
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::panels::hand::{self, choose, press, sees, type_into, write_into};
    use board::Insert;
    use testkit::assert_near;

    #[test]
    fn a_piece_is_weighed_and_a_magnet_measured() {
        let mut panel = hand::panel(800.0, piece_ui);
        write_into(&mut panel, "Weight of one", "5.4 g");
        assert_near!(panel.state().piece.mass.unwrap(), 5.4, 1e-12);
        assert!(!sees(&panel, "Set in each hole"));
        panel.state_mut().piece.kind = PieceKind::Magnet;
        panel.run();
        choose(&mut panel, "Set in each hole", "a steel disc");
        type_into(&mut panel, "Disc thickness", "2");
        press(&mut panel, "Enter magnet data");
        type_into(&mut panel, "Measured pull", "4.5");
        type_into(&mut panel, "Friction", "0.35");
        let piece = panel.state().piece;
        assert_eq!(piece.insert, Insert::Disc { thickness: 2.0 });
        let magnet = piece.magnet.unwrap();
        assert_near!(magnet.pull, 4.5, 0.0);
        assert_near!(magnet.friction, 0.35, 1e-12);
        assert!(!sees(&panel, "Two swallowed magnets can kill"));
        press(&mut panel, "▲ Magnets");
        assert!(sees(&panel, "Two swallowed magnets can kill"));
    }
}
