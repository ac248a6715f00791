//! The steps of cutting the circle.

use board::HoleId;

use crate::Caution;
use crate::Workpiece;
use crate::bores::steps::{bores, pilot};
use crate::bores::sums::kinds;
use crate::job::Step;

/// The circle on its pin, and its edge.
pub fn circle(workpiece: &Workpiece) -> Step {
    let board = workpiece.board();
    let [near, _, far] = crate::circle_cut(board.blank.radius(), board.jig.kerf).disc;
    let mut work = vec![format!(
        "Turn the blank on a pin of {}: from the middle of the pin {} to the near side of the cut, {} to its far side.",
        workpiece.length(board.jig.pin),
        workpiece.length(near),
        workpiece.length(far),
    )];
    if board.blank.roundover > 0.0 {
        work.push(format!(
            "Round the upper edge over by {}.",
            workpiece.length(board.blank.roundover)
        ));
    }
    if let (Some(_), Some(hole)) = (pilot(workpiece), workpiece.layout().hole(HoleId::CENTER)) {
        work.extend(kinds([hole]).iter().map(|kind| bores(workpiece, kind)));
    }
    Step {
        title: "Circle",
        cautions: vec![Caution::TableSaw, Caution::Router],
        work,
        sums: &[],
    }
}
