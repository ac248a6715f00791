//! Controls of the pieces, the bores and the center.

use board::{Board, Bore, Bores, Bottom, Center, PieceKind, Units, ranges};
use egui::{Id, RichText, Ui};
use workshop::Mend;

use super::controls::fit_button;
use super::drills::{drills_ui, pin_drills_ui};
use crate::command::Command;
use crate::widgets::{Field, auto_field, choice, count_field, length_field, row};

/// The piece, and the bores by role.
pub fn bores_ui(ui: &mut Ui, board: &mut Board, asked: &mut Vec<Command>) {
    let units = board.units;
    choice(
        ui,
        "Pieces",
        &mut board.piece.kind,
        &PieceKind::ALL,
        PieceKind::label,
    );
    length_field(
        ui,
        "Piece diameter",
        &mut board.piece.diameter,
        ranges::PIECE,
        units,
    )
    .on_hover_text("Measure the largest");
    fit_button(ui, Mend::LargestPiece, asked);
    piece_ui(ui, board);
    fit_button(ui, Mend::LargestBore, asked);
    length_field(
        ui,
        "Forstner spur",
        &mut board.bores.spur,
        ranges::SPUR,
        units,
    )
    .on_hover_text("How far the spur of your bit reaches below the floor of the bore");
    let bores = &mut board.bores;
    if same_for_all_ui(ui, bores) {
        let captions = ["Bore diameter", "Bore depth", "Bottom"];
        bore_ui(ui, captions, &mut bores.track, units);
        bores.home = bores.track;
        bores.start = bores.track;
        return;
    }
    bore_ui(
        ui,
        ["Track diameter", "Track depth", "Track bottom"],
        &mut bores.track,
        units,
    );
    bore_ui(
        ui,
        ["Home diameter", "Home depth", "Home bottom"],
        &mut bores.home,
        units,
    );
    bore_ui(
        ui,
        ["Start diameter", "Start depth", "Start bottom"],
        &mut bores.start,
        units,
    );
}

/// Height and shank of pegs and magnet pieces, and who plays.
fn piece_ui(ui: &mut Ui, board: &mut Board) {
    let units = board.units;
    let piece = &mut board.piece;
    if piece.kind != PieceKind::Marble {
        length_field(
            ui,
            "Piece height",
            &mut piece.height,
            ranges::PIECE_HEIGHT,
            units,
        );
        let field = Field {
            range: ranges::SHANK,
            units,
        };
        let caption = match piece.kind {
            PieceKind::Magnet => "Set ball",
            PieceKind::Marble | PieceKind::Peg => "Shank",
        };
        let now = board.bores.track.diameter;
        auto_field(
            ui,
            caption,
            &mut piece.shank,
            now,
            field,
            "Made to fit the bores",
        );
    }
    count_field(ui, "Youngest player", &mut piece.youngest, ranges::YOUNGEST)
        .on_hover_text("Age in years: small pieces and magnets are a hazard to children");
}

/// Whether one bore serves for all roles. Bores that are equal may still be shown apart, so that they can be
/// made to differ; that is kept for as long as the window is open and changes nothing in the document.
fn same_for_all_ui(ui: &mut Ui, bores: &mut Bores) -> bool {
    let apart_id = Id::unique("bores shown apart");
    let apart = ui
        .data(|data| data.get_temp::<bool>(apart_id))
        .unwrap_or(false);
    let equal = bores.track == bores.home && bores.track == bores.start;
    let mut same = equal && !apart;
    row(ui, "Bores", |ui, _| {
        if ui.checkbox(&mut same, "same for all").changed() {
            ui.data_mut(|data| data.insert_temp(apart_id, !same));
            if same {
                bores.home = bores.track;
                bores.start = bores.track;
            }
        }
    });
    same
}

/// Diameter with the nearest drills, depth and bottom of a bore, under these captions.
pub fn bore_ui(ui: &mut Ui, captions: [&str; 3], bore: &mut Bore, units: Units) {
    let [diameter, depth, bottom] = captions;
    length_field(
        ui,
        diameter,
        &mut bore.diameter,
        ranges::BORE_DIAMETER,
        units,
    );
    drills_ui(ui, diameter, bore, units);
    length_field(ui, depth, &mut bore.depth, ranges::BORE_DEPTH, units);
    choice(ui, bottom, &mut bore.bottom, &Bottom::ALL, Bottom::label);
}

/// What is at the center pin, and the jig's pin.
pub fn center_ui(ui: &mut Ui, board: &mut Board) {
    kind_ui(ui, board);
    let units = board.units;
    match &mut board.center {
        Center::Nothing => {
            ui.label(
                RichText::new("No hole: the circle jig needs another way to hold the blank.")
                    .weak(),
            );
        }
        Center::Pivot { diameter, depth } => {
            length_field(ui, "Pivot diameter", diameter, ranges::PILOT, units);
            pin_drills_ui(ui, "Pivot diameter", diameter, units);
            length_field(ui, "Pivot depth", depth, ranges::BORE_DEPTH, units);
        }
        Center::Hole { bore, pilot } => {
            bore_ui(
                ui,
                ["Center diameter", "Center depth", "Center bottom"],
                bore,
                units,
            );
            length_field(ui, "Pilot diameter", pilot, ranges::PILOT, units);
            pin_drills_ui(ui, "Pilot diameter", pilot, units);
        }
    }
    length_field(ui, "Jig pin", &mut board.jig.pin, ranges::PIN, units)
        .on_hover_text("The pin that the circle jig turns on");
}

#[derive(Clone, Copy, PartialEq)]
enum Kind {
    Nothing,
    Pivot,
    Hole,
}

/// Another kind of center begins with the jig's pin and the track's bore.
fn kind_ui(ui: &mut Ui, board: &mut Board) {
    let mut kind = match board.center {
        Center::Nothing => Kind::Nothing,
        Center::Pivot { .. } => Kind::Pivot,
        Center::Hole { .. } => Kind::Hole,
    };
    let changed = choice(
        ui,
        "At the center",
        &mut kind,
        &[Kind::Nothing, Kind::Pivot, Kind::Hole],
        |kind| match kind {
            Kind::Nothing => "no hole",
            Kind::Pivot => "pivot for the jig",
            Kind::Hole => "playing hole",
        },
    );
    if changed {
        let pin = board.jig.pin;
        board.center = match kind {
            Kind::Nothing => Center::Nothing,
            Kind::Pivot => Center::Pivot {
                diameter: pin,
                depth: 10.0,
            },
            Kind::Hole => Center::Hole {
                bore: board.bores.track,
                pilot: pin,
            },
        };
    }
}
