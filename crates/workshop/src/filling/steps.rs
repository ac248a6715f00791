//! The work of filling bores with resin: sealing, pouring, leveling.

use board::{Board, Measure};

use super::total;
use crate::job::{HandsOn, Operation, TIMED, Task, USUAL, Wait, counted, for_each};
use crate::wood::species_of;
use crate::{Caution, Pour, Workpiece};

/// Species with pores so large that resin bleeds into them: ring-porous and semi-ring-porous hardwoods, and mahogany; from
/// memory.
const OPEN_PORED: [&str; 17] = [
    "black-ash",
    "white-ash",
    "butternut",
    "american-elm",
    "hackberry",
    "pecan-hickory",
    "true-hickory",
    "honeylocust",
    "black-locust",
    "mahogany",
    "red-oak",
    "white-oak",
    "persimmon",
    "sassafras",
    "teak",
    "black-walnut",
    "southern-yellow-pine",
];

/// Sealing if the wood needs it, pouring, and leveling where resin stands proud; empty if no bore is deep enough to be
/// filled.
pub fn operations(workpiece: &Workpiece) -> Vec<Operation> {
    let Some(pour) = workpiece.pour().filter(|pour| !pour.bores.is_empty()) else {
        return Vec::new();
    };
    let mut all = Vec::new();
    if is_open_pored(workpiece.board()) == Some(true) {
        all.push(seal(pour));
    }
    all.extend(fill(workpiece, pour));
    if pour.overfill_height > 0.0 {
        all.push(level(workpiece, pour));
    }
    all
}

/// Whether shellac may be applied to the bores before resin: on wood with open pores, and on unknown wood.
pub fn may_be_sealed(board: &Board) -> bool {
    board.filling.is_some() && is_open_pored(board) != Some(false)
}

/// Whether the wood has large open pores; none for unknown wood.
fn is_open_pored(board: &Board) -> Option<bool> {
    let wood = board.wood.as_ref()?;
    let species = species_of(wood).ok()?;
    Some(OPEN_PORED.contains(&species.id))
}

/// The sentence against flames while alcohol from the shellac is in the air.
const NO_FLAME: &str = "Open the windows, and keep flames, sparks and pilot lights out of the room: shellac is thinned with alcohol.";

/// The sentence that alcohol must have evaporated before heat is used.
const NO_VAPOR: &str =
    "Let the shellac dry, and take its can and rags out of the room before you use heat.";

/// The sentence on breaking bubbles with heat; common practice, no source. A torch could ignite tape, rags and solvent.
const NO_BUBBLES: &str = "Break bubbles with one quick pass of a heat gun: heat held in one place scorches the wood and makes the resin \
     set too fast. Use no torch near tape, rags or solvents.";

/// Sealing each bore with a thin film.
///
/// The shellac is dewaxed, since nothing sticks well to its wax; common practice, no source.
fn seal(pour: &Pour) -> Operation {
    Operation::of(Task::Seal)
        .with("small brush, dewaxed shellac", 10.0 + 0.3 * pour.bores.len() as f64)
        .minding(&[Caution::Solvents])
        .says([
            NO_FLAME.to_owned(),
            "Vacuum the holes and brush a thin coat of dewaxed shellac on wall and floor of each, none on the rim; a second \
             where it sinks in."
                .to_owned(),
        ])
        .waiting(2.0, "the shellac dries")
}

/// Mixing and pouring, in the maker's own times.
///
/// Time and amount are those of one board, as everything in the work plan; each board has batches of its own.
fn fill(workpiece: &Workpiece, pour: &Pour) -> Option<Operation> {
    let filling = workpiece.board().filling?;
    let units = workpiece.board().units;
    let mut work = Vec::new();
    let mut cautions = vec![Caution::Resin];
    if is_open_pored(workpiece.board()).is_none() {
        cautions.push(Caution::Solvents);
        work.push(
            "If the wood has open pores, brush dewaxed shellac into each hole first and let it dry: resin bleeds into them."
                .to_owned(),
        );
        work.push(NO_FLAME.to_owned());
    }
    if may_be_sealed(workpiece.board()) {
        work.push(NO_VAPOR.to_owned());
    }
    work.push(
        "Level the board. Tape over grooves that are cut by now, and over everything else that has to stay clean.".into(),
    );
    work.extend(crate::colors::resin::tinted(workpiece));
    let batches = pour.of_one_board();
    work.push(format!(
        "Mix {}{} in {} by the filling plan; each can be worked for {}, mixing included.",
        Measure::milliliters(total(batches.iter().map(|batch| batch.ml))).shown(units),
        for_each(workpiece.board().schedule.boards),
        counted(batches.len(), "batch", "batches"),
        Measure::minutes(pour.working).shown(units)
    ));
    work.push(if filling.below_top > 0.0 {
        format!(
            "Fill each hole to {} below the top face.",
            workpiece.length(filling.below_top)
        )
    } else {
        "Fill each hole to the top face.".into()
    });
    work.push(NO_BUBBLES.into());
    let minutes = total(batches.iter().map(|batch| batch.minutes));
    Some(
        Operation {
            hands_on: HandsOn {
                minutes,
                source: TIMED,
            },
            wait: Some(Wait {
                hours: CURE,
                reason: "the resin cures, by its label",
                source: USUAL,
            }),
            tool: "scale or marked cups, sticks, syringe, heat gun for bubbles".into(),
            sums: &["filling"],
            ..Operation::of(Task::Fill)
        }
        .minding(&cautions)
        .says(work),
    )
}

/// Hours until epoxy can be machined, unless its label says otherwise; common practice, no source.
pub const CURE: f64 = 72.0;

/// Leveling the resin down to the top face.
///
/// A drop left in the cup cures as the bores do, and can be tested without harm.
fn level(workpiece: &Workpiece, pour: &Pour) -> Operation {
    Operation::of(Task::Level)
        .with("card scraper, then a sander with a hard pad", 10.0 + 0.3 * pour.bores.len() as f64)
        .minding(&[Caution::Resin])
        .says([format!(
            "Press the leftover in the cup with a fingernail: it must take no mark. Level off the {} that stand above the top \
             face, slowly, so that it does not get warm.",
            workpiece.length(pour.overfill_height)
        )])
}
