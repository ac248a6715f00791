//! Sanding, masking and the coats of finish.

use board::{Board, Coat, CoatKind, Measure, PieceKind};

use crate::finish::parts::on;
use crate::job::{Operation, TIMED, Task, USUAL, Wait};
use crate::{Caution, Workpiece, coat_data, hard_after, hard_hours};

/// From the last cut to a finish that is hard.
pub fn operations(workpiece: &Workpiece) -> Vec<Operation> {
    let board = workpiece.board();
    let mut all = vec![sand(workpiece)];
    let bare = bare(workpiece);
    if !board.finish.is_empty() && !bare.is_empty() {
        all.push(
            Operation::of(Task::Mask)
                .with("dowels, masking tape", 20.0)
                .says(bare),
        );
    }
    let each = |coat: &Coat| core::iter::repeat_n(*coat, coat.coats as usize);
    let numbered = board.finish.iter().flat_map(each).zip(1_u32..);
    all.extend(numbered.map(|(coat, number)| applied(workpiece, coat, number)));
    all.extend(board.finish.last().map(|coat| harden(coat.kind)));
    all
}

/// The grits that a board is sanded with, one after the other: film finishes end at 180, oil, shellac and wax at 220; common
/// practice, no source.
pub fn grits(board: &Board) -> &'static [u32] {
    let first = board.finish.first();
    match first.map(|coat| coat_data(coat.kind).wood_grit) {
        Some(180) => &[120, 150, 180],
        _ => &[120, 150, 180, 220],
    }
}

/// From grit to grit, not so fine that a finish finds no hold.
///
/// Each grit takes off the scratches of the one before it, and no more than half again as fine; common practice, no source.
fn sand(workpiece: &Workpiece) -> Operation {
    let grits: Vec<String> = grits(workpiece.board())
        .iter()
        .map(ToString::to_string)
        .collect();
    let grits = grits.join(", ");
    Operation::of(Task::Sand)
        .with(format!("random-orbit sander, paper of grit {grits}"), 90.0)
        .minding(&[Caution::Dust, Caution::Noise])
        .says([
            format!("Sand with the grain through {grits}; leave out no grit, and take the dust off after each."),
            "Break the rims of the bores and grooves by hand, a turn of folded paper each; keep the sander flat over them."
                .into(),
            "Wipe with a damp cloth to raise the grain, let it dry, and go over it once more with the last grit.".into(),
        ])
}

/// The parts that no finish may get on.
fn bare(workpiece: &Workpiece) -> Vec<String> {
    let board = workpiece.board();
    let mut bare = Vec::new();
    if board.piece.kind == PieceKind::Peg {
        bare.push(
            "Plug the peg holes with dowels or foam: a film of finish takes the play that the pegs have.".to_owned(),
        );
    }
    if board.base.is_some() && board.screws.is_empty() {
        bare.push(
            "Tape off where the base or its feet are glued: glue does not hold on finish."
                .to_owned(),
        );
    }
    if workpiece.lid().size.is_some() {
        bare.push("Tape off where the lid rubs or slides.".to_owned());
    }
    bare
}

/// A coat and the time it dries.
///
/// Both faces get as many coats, or the board cups as one of them takes up the moisture of the air sooner.
fn applied(workpiece: &Workpiece, coat: Coat, number: u32) -> Operation {
    let count: u32 = workpiece.board().finish.iter().map(|coat| coat.coats).sum();
    let is_last = number == count;
    let dries = Measure::hours(coat.dries).shown(workpiece.board().units);
    let rubbed = if number > 1 {
        " Rub the coat before it down first, with a gray pad or grit 320, and take the dust off."
    } else {
        ""
    };
    let taken_off = if is_last {
        " Take plugs and tape off before it is hard."
    } else {
        ""
    };
    let rags: &[Caution] = if coat_data(coat.kind).is_oily {
        &[Caution::OilyRags]
    } else {
        &[]
    };
    Operation {
        number,
        wait: Some(Wait {
            hours: coat.dries,
            reason: "the coat dries",
            source: TIMED,
        }),
        ..Operation::of(Task::Coat)
    }
    .with("brush or lint-free rag", 40.0)
    .minding(rags)
    .says([format!(
        "Coat {number}: {} {}; let it dry {dries}.{rubbed}{taken_off}",
        coat.kind.label(),
        on(coat.place)
    )])
}

/// The wait until the last coat can be played on.
///
/// Hands at nothing, and the longest wait of all.
fn harden(kind: CoatKind) -> Operation {
    Operation {
        wait: Some(Wait {
            hours: hard_hours(kind),
            reason: "the finish hardens",
            source: USUAL,
        }),
        ..Operation::of(Task::Harden)
    }
    .says([format!("Time until it is hard: {}.", hard_after(kind))])
}
