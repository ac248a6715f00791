//! Work on the base: drilling its screw holes, and attaching it.

use board::{Base, Footing};

use super::screw::Screw;
use crate::job::{Operation, Task, counted};
use crate::{Caution, Workpiece};

/// Movement across the base over a year from which screws get slots, mm: the play of a screw in its clearance hole; common
/// practice, no source.
const NEEDS_SLOTS: f64 = 0.5;

/// The operations for the screw holes and the base; none if neither is planned.
pub fn operations(workpiece: &Workpiece) -> Vec<Operation> {
    let board = workpiece.board();
    let mut all = Vec::new();
    if !board.screws.is_empty() {
        all.push(screw_holes(workpiece));
    }
    all.extend(board.base.map(|base| fixed(workpiece, &base)));
    all
}

/// Drilling the holes in the underside, none deeper than typed.
///
/// They are drilled before the finish, so that no chips are pressed into it.
fn screw_holes(workpiece: &Workpiece) -> Operation {
    let rings = workpiece.board().screws.iter().map(|ring| {
        let screw = Screw::of(ring, workpiece.units());
        format!(
            "Drill {} on a circle of {}, {} wide for {} screws, and no deeper than {}: a collar or tape on the bit.",
            counted(ring.count, "pilot hole", "pilot holes"),
            workpiece.length(ring.circle),
            workpiece.length(screw.pilot),
            screw.name(workpiece.units()),
            workpiece.at_most(ring.depth)
        )
    });
    let count: f64 = workpiece.screws().len() as f64;
    Operation::of(Task::ScrewHoles)
        .with("hand drill or drill press, stop collar", 10.0 + 2.0 * count)
        .minding(&[Caution::DrillPress])
        .says(rings)
}

/// Attaching the turntable or the feet.
fn fixed(workpiece: &Workpiece, base: &Base) -> Operation {
    let (across, stands) = match base.footing {
        Footing::Round { diameter } => (
            diameter,
            format!(
                "Fix the base of {} to the underside, its middle under the center pin.",
                workpiece.length(diameter)
            ),
        ),
        Footing::Feet { count, circle } => (
            circle,
            format!(
                "Fix {} at equal steps on a circle of {} about the center pin.",
                counted(count, "foot", "feet"),
                workpiece.length(circle)
            ),
        ),
    };
    Operation {
        sums: &["base"],
        ..Operation::of(Task::Base)
    }
    .with("screwdriver, soft pad", 20.0)
    .says([stands])
    .says(screws(workpiece, base))
    .says(moving(workpiece, across))
}

/// The lengths of the screws: the thickness of the part they go through plus at most the depth of the hole.
///
/// The document has only the total height of the base; for a bearing, the maker measures the thickness of its plate.
fn screws(workpiece: &Workpiece, base: &Base) -> Vec<String> {
    let rings = workpiece.board().screws.iter().map(|ring| {
        format!(
            "Screws on the circle of {}: at most {} longer than what they go through, so {} through a base {} high; a \
             bearing's plate adds only its own thickness. Try one in its hole before you drive the rest.",
            workpiece.length(ring.circle),
            workpiece.at_most(ring.depth),
            workpiece.at_most(ring.depth + base.height),
            workpiece.length(base.height)
        )
    });
    rings.collect()
}

/// The way of fixing that lets the wood move over its base; its distance is known only for a chosen wood.
///
/// Plywood does not move; the board on it does, by the yearly change of its width over the base.
fn moving(workpiece: &Workpiece, across: f64) -> Option<String> {
    let moves = workpiece
        .moves()
        .ok()
        .map(|moves| moves.over_the_year(across).abs());
    match moves {
        Some(mm) if mm < NEEDS_SLOTS => None,
        Some(mm) => Some(format!(
            "Over the year the wood moves by {} across the base. Drive only the middle screws tight, and give the outer ones slots \
             across the grain. A base of plywood does not move itself.",
            workpiece.length((mm * 10.0).ceil() / 10.0)
        )),
        None => Some(
            "Wood moves across its grain. Drive only the middle screws tight, and give the outer ones slots across the \
             grain. A base of plywood does not move itself."
                .to_owned(),
        ),
    }
}
