//! Controls of the pattern, the home lanes and the start pockets.

use board::{Board, Field, field};
use egui::Ui;
use workshop::Mend;

use super::blame::blame_ui;
use super::rows::fitted;
use crate::command::Command;
use crate::current::Current;
use crate::widgets::{auto_ui, field_ui};

/// Players, shape of the track, spaces, pitch, rotation.
pub fn pattern_ui(ui: &mut Ui, board: &mut Board, current: &Current, asked: &mut Vec<Command>) {
    for field in [
        &field::PLAYERS,
        &field::PATTERN,
        &field::LOBE_DEPTH,
        &field::ACROSS,
        &field::SPACES,
    ] {
        judged_ui(ui, board, current, field);
    }
    fitted(ui, board, &field::PITCH, Mend::FitPitch, asked);
    blame_ui(ui, current, &field::PITCH);
    field_ui(ui, board, &field::ROTATION);
}

/// Home holes, start holes, and where the start pockets lie.
pub fn lanes_ui(ui: &mut Ui, board: &mut Board, current: &Current) {
    judged_ui(ui, board, current, &field::HOME);
    judged_ui(ui, board, current, &field::START);
    if board.start == 0 {
        return;
    }
    field_ui(ui, board, &field::POCKET_SHAPE);
    let spot = current
        .good()
        .and_then(|workpiece| workpiece.layout().pocket);
    let (bearing, radius) =
        spot.map_or((0.0, 0.0), |spot| (spot.bearing.as_degrees(), spot.radius));
    auto_ui(ui, board, &field::POCKET_BEARING, bearing);
    auto_ui(ui, board, &field::POCKET_RADIUS, radius);
    blame_ui(ui, current, &field::POCKET_RADIUS);
}

/// A field, and below it the reason why the board cannot be laid out, if this field can fix that.
fn judged_ui(ui: &mut Ui, board: &mut Board, current: &Current, field: &Field) {
    field_ui(ui, board, field);
    blame_ui(ui, current, field);
}
