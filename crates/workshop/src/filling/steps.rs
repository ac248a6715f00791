//! The steps of filling.

use board::{Insert, Measure, PieceKind};

use crate::Caution;
use crate::Workpiece;
use crate::job::{Step, counted};

/// Resin in the bores; none where no bore is deep enough to be filled.
pub fn fill(workpiece: &Workpiece) -> Option<Step> {
    let filling = workpiece.board().filling?;
    let pour = workpiece.pour().filter(|pour| !pour.bores.is_empty())?;
    let units = workpiece.board().units;
    let mut work = Vec::new();
    if workpiece.board().piece.kind == PieceKind::Magnet {
        let set_in = match workpiece.board().piece.insert {
            Insert::Ball => "ball",
            Insert::Disc { .. } => "disc",
        };
        work.push(format!(
            "Set a {set_in} in each bore, clean and free of oil."
        ));
    }
    work.push(format!(
        "Mix {} in {} by the filling plan; each can be worked for {}, mixing included.",
        Measure::milliliters(pour.resin).shown(units),
        counted(pour.batches.len(), "batch", "batches"),
        Measure::minutes(pour.working).shown(units)
    ));
    if filling.below_top > 0.0 {
        work.push(format!(
            "Fill each bore to {} below the top face.",
            workpiece.length(filling.below_top)
        ));
    } else {
        work.push("Fill each bore to the top face.".into());
    }
    if pour.overfill_height > 0.0 {
        work.push(format!(
            "When it is fully cured, level off the {} that stand above the top face.",
            workpiece.length(pour.overfill_height)
        ));
    }
    Some(Step {
        title: "Filling",
        cautions: vec![Caution::Resin],
        work,
        sums: &["filling"],
    })
}
