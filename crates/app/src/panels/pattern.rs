//! Controls of the pattern, the home lanes and the start pockets.

use board::{Board, ranges};
use egui::Ui;
use geometry::{Pattern, PocketShape};
use workshop::Mend;

use super::blame::{Blamed, blame_ui};
use super::controls::fit_button;
use crate::command::Command;
use crate::current::Current;
use crate::widgets::{Field, auto_field, choice, count_field, length_field, plain_field};

/// What "auto" means for a start pocket.
const AUTO: &str = "Where the most wood is left around it";

/// The patterns as they are first chosen.
const PATTERNS: [Pattern; 4] = [
    Pattern::Ring,
    Pattern::Lobes { depth: 0.15 },
    Pattern::Polygon,
    Pattern::Arms { across: 3 },
];

/// Players, shape of the track, spaces, pitch, rotation.
pub fn pattern_ui(ui: &mut Ui, board: &mut Board, current: &Current, asked: &mut Vec<Command>) {
    count_field(ui, "Players", &mut board.players, ranges::PLAYERS);
    blame_ui(ui, current, Blamed::Players);
    kind_ui(ui, &mut board.pattern);
    match &mut board.pattern {
        Pattern::Lobes { depth } => {
            plain_field(ui, "Lobe depth", depth, ranges::LOBE_DEPTH);
            blame_ui(ui, current, Blamed::LobeDepth);
        }
        Pattern::Arms { across } => {
            count_field(ui, "Holes across", across, ranges::ACROSS);
            blame_ui(ui, current, Blamed::Across);
        }
        Pattern::Ring | Pattern::Polygon => {}
    }
    count_field(ui, "Spaces a player", &mut board.spaces, ranges::SPACES);
    blame_ui(ui, current, Blamed::Spaces);
    length_field(ui, "Pitch", &mut board.pitch, ranges::PITCH, board.units)
        .on_hover_text("Straight distance between the centers of neighbors along the track");
    blame_ui(ui, current, Blamed::Pitch);
    fit_button(ui, Mend::FitPitch, asked);
    plain_field(ui, "Rotation", &mut board.rotation, ranges::ROTATION)
        .on_hover_text("Bearing of the first player's axis, clockwise from 12 o'clock");
}

/// The shape of the track; another shape begins with a number of its own.
fn kind_ui(ui: &mut Ui, pattern: &mut Pattern) {
    let kind = |pattern: Pattern| core::mem::discriminant(&pattern);
    let mut chosen = PATTERNS
        .into_iter()
        .find(|one| kind(*one) == kind(*pattern))
        .unwrap_or(*pattern);
    if choice(ui, "Track", &mut chosen, &PATTERNS, label) {
        *pattern = chosen;
    }
}

const fn label(pattern: Pattern) -> &'static str {
    match pattern {
        Pattern::Ring => "ring",
        Pattern::Lobes { .. } => "lobes",
        Pattern::Polygon => "polygon",
        Pattern::Arms { .. } => "arms",
    }
}

/// Home holes, start holes, and where the start pockets lie.
pub fn lanes_ui(ui: &mut Ui, board: &mut Board, current: &Current) {
    count_field(ui, "Home holes", &mut board.home, ranges::HOME);
    blame_ui(ui, current, Blamed::Home);
    count_field(ui, "Start holes", &mut board.start, ranges::START);
    blame_ui(ui, current, Blamed::Start);
    if board.start == 0 {
        return;
    }
    let shapes = [
        PocketShape::Row,
        PocketShape::Arc,
        PocketShape::Block,
        PocketShape::Ring,
    ];
    choice(
        ui,
        "Start pocket",
        &mut board.pocket.shape,
        &shapes,
        |shape| match shape {
            PocketShape::Row => "row",
            PocketShape::Arc => "arc",
            PocketShape::Block => "block",
            PocketShape::Ring => "ring",
        },
    );
    let spot = current
        .good()
        .and_then(|workpiece| workpiece.layout().pocket);
    let (bearing, radius) =
        spot.map_or((0.0, 0.0), |spot| (spot.bearing.as_degrees(), spot.radius));
    let units = board.units;
    let pocket = &mut board.pocket;
    auto_field(
        ui,
        "Pocket bearing",
        &mut pocket.bearing,
        bearing,
        Field {
            range: ranges::POCKET_BEARING,
            units,
        },
        AUTO,
    );
    auto_field(
        ui,
        "Pocket radius",
        &mut pocket.radius,
        radius,
        Field {
            range: ranges::POCKET_RADIUS,
            units,
        },
        AUTO,
    );
    blame_ui(ui, current, Blamed::PocketRadius);
}
