//! Work on the base: drilling its screw holes, and attaching it.

use board::{Measure, ScrewCircle};
use geometry::Angle;

use super::fixing::{Fixing, fixed};
use super::screw::Screw;
use crate::job::{Operation, Task, counted};
use crate::{Caution, Workpiece};

/// The operations for the screw holes and the base; none where neither is planned.
pub fn operations(workpiece: &Workpiece) -> Vec<Operation> {
    let board = workpiece.board();
    let mut all = Vec::new();
    if !board.screws.is_empty() {
        all.push(screw_holes(workpiece));
    }
    all.extend(board.base.map(|base| fixed(workpiece, &base)));
    all
}

/// The sentence on the center of the underside and the direction of 12 o'clock on it.
///
/// The pin's hole does not come through, and a playing hole may have replaced it, so that only the round edge leads to the
/// center from below.
pub fn center_below(workpiece: &Workpiece) -> String {
    format!(
        "Find the center of the underside: draw a diameter along the grain, and one square to it from 12 o'clock, each where a rule reads \
         the full {}. The two cross in the center.",
        workpiece.length(workpiece.board().blank.diameter)
    )
}

/// Drilling the holes in the underside, none deeper than typed.
///
/// They are drilled before the finish, so that no chips are pressed into it.
fn screw_holes(workpiece: &Workpiece) -> Operation {
    let center = if workpiece.board().recess.is_some() {
        "Set the holes out from the two diameters drawn for the recess.".to_owned()
    } else {
        center_below(workpiece)
    };
    let rings = workpiece.board().screws.iter();
    let count: f64 = workpiece.screws().len() as f64;
    Operation::of(Task::ScrewHoles)
        .with("hand drill or drill press, stop collar", 10.0 + 2.0 * count)
        .minding(&[Caution::DrillPress])
        .says([center])
        .says(rings.map(|ring| pilot_holes(workpiece, ring)))
        .says(is_bearing(workpiece).then(|| {
            "Hold the bearing's plate over the marks before you drill: its holes must lie on them."
                .to_owned()
        }))
}

/// Whether the base is a bearing, whose plate has its screw holes.
fn is_bearing(workpiece: &Workpiece) -> bool {
    let base = workpiece.board().base;
    base.is_some_and(|base| Fixing::of(workpiece, &base) == Fixing::ScrewedRound)
}

/// The sentence on a circle of pilot holes.
///
/// Bearings are those of the top face, which run the other way round once the board is turned over.
fn pilot_holes(workpiece: &Workpiece, ring: &ScrewCircle) -> String {
    let units = workpiece.units();
    let screw = Screw::of(ring, units);
    let first = Angle::degrees(ring.bearing).wrapped().as_degrees();
    let first = match Measure::degrees(first).shown(units) {
        zero if zero == "0°" => "at 12 o'clock".to_owned(),
        angle => format!("{angle} counter-clockwise from 12 o'clock"),
    };
    format!(
        "Drill {} on a circle of {}, the first {first} as seen from below, {} wide for {} screws, and no deeper than {}: a collar or tape on \
         the bit.",
        counted(ring.count, "pilot hole", "pilot holes"),
        workpiece.length(ring.circle),
        workpiece.length(screw.pilot),
        screw.name(units),
        workpiece.at_most(ring.depth)
    )
}
