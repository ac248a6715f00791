//! Controls of what a piece weighs, and of what holds a magnet piece.

use board::{Board, Insert, Magnet, Piece, PieceKind, Units, ranges};
use egui::Ui;
use workshop::Caution;

use crate::widgets::{Field, cautions, choice, length_field, plain_field, planned, settled_field};

#[derive(Clone, Copy, PartialEq)]
enum Kind {
    Ball,
    Disc,
}

/// Thickness at which a disc begins, mm; common practice, no source.
const DISC: f64 = 1.5;

/// What one piece weighs, and how a magnet piece holds.
pub fn piece_ui(ui: &mut Ui, board: &mut Board) {
    let units = board.units;
    let piece = &mut board.piece;
    let field = |range| Field { range, units };
    settled_field(
        ui,
        "One weighs",
        &mut piece.mass,
        field(ranges::PIECE_MASS),
        "by its size",
    );
    settled_field(
        ui,
        "Density",
        &mut piece.density,
        field(ranges::DENSITY),
        "as usual",
    );
    if piece.kind != PieceKind::Magnet {
        return;
    }
    insert_ui(ui, piece, units);
    planned(ui, "Magnet", "measured", &mut piece.magnet);
    if let Some(magnet) = &mut piece.magnet {
        magnet_ui(ui, magnet, units);
    }
    cautions(ui, &[Caution::Magnets]);
}

fn insert_ui(ui: &mut Ui, piece: &mut Piece, units: Units) {
    let mut kind = match piece.insert {
        Insert::Ball => Kind::Ball,
        Insert::Disc { .. } => Kind::Disc,
    };
    let label = |kind| match kind {
        Kind::Ball => "a steel ball",
        Kind::Disc => "a steel disc",
    };
    if choice(
        ui,
        "Set in each hole",
        &mut kind,
        &[Kind::Ball, Kind::Disc],
        label,
    ) {
        piece.insert = match kind {
            Kind::Ball => Insert::Ball,
            Kind::Disc => Insert::Disc { thickness: DISC },
        };
    }
    if let Insert::Disc { thickness } = &mut piece.insert {
        length_field(ui, "Disc thickness", thickness, ranges::DISC, units);
    }
}

fn magnet_ui(ui: &mut Ui, magnet: &mut Magnet, units: Units) {
    plain_field(ui, "Pull", &mut magnet.pull, ranges::PULL)
        .on_hover_text("Bare magnet off the bare insert, measured with a scale");
    plain_field(ui, "Friction", &mut magnet.friction, ranges::FRICTION)
        .on_hover_text("Tangent of the tilt at which the piece begins to slide without its magnet");
    for (caption, value, range) in [
        ("Magnet diameter", &mut magnet.diameter, ranges::MAGNET),
        ("Magnet thickness", &mut magnet.thickness, ranges::MAGNET),
        ("Set back by", &mut magnet.set_back, ranges::MAGNET_GAP),
        ("Finish over it", &mut magnet.finish, ranges::MAGNET_GAP),
    ] {
        length_field(ui, caption, value, range, units);
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::panels::hand::{self, choose, press, sees, type_into, write_into};
    use testkit::assert_near;

    #[test]
    fn a_piece_is_weighed_and_a_magnet_measured() {
        let mut panel = hand::panel(800.0, piece_ui);
        write_into(&mut panel, "One weighs", "5.4 g");
        assert_near!(panel.state().piece.mass.unwrap(), 5.4, 1e-12);
        assert!(!sees(&panel, "Set in each hole"));
        panel.state_mut().piece.kind = PieceKind::Magnet;
        panel.run();
        choose(&mut panel, "Set in each hole", "a steel disc");
        type_into(&mut panel, "Disc thickness", "2");
        press(&mut panel, "measured");
        type_into(&mut panel, "Pull", "4.5");
        type_into(&mut panel, "Friction", "0.35");
        let piece = panel.state().piece;
        assert_eq!(piece.insert, Insert::Disc { thickness: 2.0 });
        let magnet = piece.magnet.unwrap();
        assert_near!(magnet.pull, 4.5, 0.0);
        assert_near!(magnet.friction, 0.35, 1e-12);
        assert!(sees(&panel, "Two swallowed magnets can kill"));
    }
}
