//! Controls of the pieces, the bores and the center.

mod drills;
mod find;
pub mod hole;
mod insert;
mod owned;
pub mod piece;
mod strip;

use board::{Board, Bore, Bores, Center, PieceKind, Units, field};
use egui::{Id, RichText, Ui};
use workshop::Mend;

use crate::command::Command;
use crate::panels::bores::drills::{drills_ui, pin_drills_ui};
use crate::panels::bores::insert::insert_ui;
use crate::panels::bores::owned::owned_ui;
use crate::panels::bores::strip::strip_ui;
use crate::panels::rows::fitted;
use crate::widgets::{Field, auto_ui, choice_ui, field_ui, fitted_number_ui, number_ui, row};

/// The piece, and who plays with it.
pub fn pieces_ui(ui: &mut Ui, board: &mut Board, asked: &mut Vec<Command>) {
    field_ui(ui, board, &field::PIECE_KIND);
    let largest = Mend::LargestPiece;
    fitted(ui, board, &field::PIECE_DIAMETER, largest, asked);
    if board.piece.kind != PieceKind::Marble {
        field_ui(ui, board, &field::PIECE_HEIGHT);
        let fitting = board.bores.track.diameter;
        auto_ui(ui, board, &field::SHANK, fitting);
    }
    field_ui(ui, board, &field::YOUNGEST);
}

/// The bores by role.
pub fn bores_ui(ui: &mut Ui, board: &mut Board, asked: &mut Vec<Command>) {
    field_ui(ui, board, &field::SPUR);
    let mut bores = board.bores;
    if same_for_all_ui(ui, &mut bores) {
        fitted_seat_ui(ui, "Bore", &mut bores.track, board, asked);
        bores.home = bores.track;
        bores.start = bores.track;
    } else {
        fitted_seat_ui(ui, "Track", &mut bores.track, board, asked);
        seat_ui(ui, "Home", &mut bores.home, board);
        seat_ui(ui, "Start", &mut bores.start, board);
    }
    board.bores = bores;
}

/// The same with a button beside the diameter that finds the largest for all roles.
fn fitted_seat_ui(
    ui: &mut Ui,
    whose: &str,
    bore: &mut Bore,
    board: &Board,
    asked: &mut Vec<Command>,
) {
    let (mend, field, units) = (Mend::LargestBore, &field::TRACK_DIAMETER, board.units);
    let numeric = Field {
        range: field.range(),
        units,
    };
    let fit = [mend.label(), mend.tooltip(), &field.hint_in(units)];
    let caption = format!("{whose} diameter");
    if fitted_number_ui(ui, &caption, &mut bore.diameter, numeric, fit) {
        asked.push(Command::Mend(mend));
    }
    drills_ui(ui, &caption, bore, units);
    depth_ui(ui, whose, bore, units);
    set_in_ui(ui, whose, bore, board);
}

/// The bore of a role, with the sizes of its fit strip and the depth for what is set into it.
fn seat_ui(ui: &mut Ui, whose: &str, bore: &mut Bore, board: &Board) {
    bore_ui(ui, whose, bore, board.units);
    set_in_ui(ui, whose, bore, board);
}

/// Below a bore: the bit that the maker owns for it, its fit strip, and the depth for what is set into it.
fn set_in_ui(ui: &mut Ui, whose: &str, bore: &mut Bore, board: &Board) {
    owned_ui(ui, &format!("{whose} diameter"), bore, board);
    strip_ui(ui, whose, bore, board.units);
    if board.piece.kind == PieceKind::Magnet {
        insert_ui(ui, whose, bore, board);
    }
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

/// Diameter with the nearest drills, depth and bottom of a bore, named for whose it is.
pub fn bore_ui(ui: &mut Ui, whose: &str, bore: &mut Bore, units: Units) {
    let diameter = format!("{whose} diameter");
    number_ui(
        ui,
        &diameter,
        &field::TRACK_DIAMETER,
        &mut bore.diameter,
        units,
    );
    drills_ui(ui, &diameter, bore, units);
    depth_ui(ui, whose, bore, units);
}

fn depth_ui(ui: &mut Ui, whose: &str, bore: &mut Bore, units: Units) {
    let [depth, bottom] = ["depth", "bottom"].map(|what| format!("{whose} {what}"));
    number_ui(ui, &depth, &field::TRACK_DEPTH, &mut bore.depth, units);
    choice_ui(ui, &bottom, &mut bore.bottom);
}

/// The hole at the center pin, and the jig's pin.
pub fn center_ui(ui: &mut Ui, board: &mut Board) {
    let units = board.units;
    field_ui(ui, board, &field::CENTER);
    let mut center = board.center;
    match &mut center {
        Center::Nothing => {
            ui.label(
                RichText::new("No hole: the circle jig needs another way to hold the blank.")
                    .weak(),
            );
        }
        Center::Pivot { diameter, depth } => {
            number_ui(
                ui,
                "Pivot diameter",
                &field::PIVOT_DIAMETER,
                diameter,
                units,
            );
            pin_drills_ui(ui, "Pivot diameter", diameter, units);
            number_ui(ui, "Pivot depth", &field::PIVOT_DEPTH, depth, units);
        }
        Center::Hole { bore, pilot } => {
            seat_ui(ui, "Center", bore, board);
            number_ui(ui, "Pilot diameter", &field::PILOT, pilot, units);
            pin_drills_ui(ui, "Pilot diameter", pilot, units);
        }
    }
    board.center = center;
    field_ui(ui, board, &field::JIG_PIN);
}
