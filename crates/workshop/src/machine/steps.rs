//! The work that a CNC machine does: the holes, the center hole, the grooves, and the edge as its last program.

use crate::bores::steps::kinds_but_center;
use crate::grooves::steps::set;
use crate::jig::steps::{
    edge_by_machine, grooves_by_machine, marked_for_machine, reach, ring_on_pin,
};
use crate::job::{Method, Operation, Task, counted};
use crate::{Caution, Workpiece, passes};

/// Drilling, grooves and edge by program; empty for other methods.
pub fn operations(workpiece: &Workpiece) -> Vec<Operation> {
    let board = workpiece.board();
    if Method::of(board) != Method::Machine {
        return Vec::new();
    }
    let mut all = vec![bores(workpiece)];
    if grooves_by_machine(board) {
        all.push(grooves(workpiece));
    }
    if edge_by_machine(board) {
        all.extend(edge(workpiece));
        all.extend(freed(workpiece));
    }
    all
}

/// Drilling every bore but the center hole.
///
/// Half an hour to set up, ten minutes for each bit and six seconds for each hole; common practice, no source.
fn bores(workpiece: &Workpiece) -> Operation {
    let table = workpiece.hole_table();
    let (bits, holes) = (table.bits().len(), table.rows.len());
    Operation {
        sums: &["bores"],
        ..Operation::of(Task::MachinedBores)
    }
    .with("CNC machine, drilling programs", 30.0 + 10.0 * bits as f64 + 0.1 * holes as f64)
    .minding(&[Caution::Cnc])
    .says(marked_for_machine(workpiece).into_iter().flatten())
    .says([
        "Hold the blank down outside the circle, clamps out of the bit's way and lower than the safe height. Set X0 Y0 on the center, \
         X along the grain, Y+ to 12 o'clock, Z0 on the top face."
            .to_owned(),
        "Find the emergency stop. Run each program in the air first, then on scrap, then on the blank, bit by bit.".into(),
    ])
    .says(dowels(workpiece))
    .says(kinds_but_center(workpiece, "measure a hole in scrap before the first in the blank"))
}

/// The way a blank comes back to its place on the machine for a program after the holes.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Return {
    /// It stays clamped from the first program to the last.
    Stays,
    /// On two dowels through its waste, since other work comes between two programs.
    Dowels,
    /// By its round edge: its waste is sawn off by then.
    Edge,
}

/// The way the blank comes back for the grooves and the edge.
///
/// Resin is poured and cured away from the machine, and a ring is routed on the pin. The center hole may be bored and filled by
/// then, and would not fix the rotation of the blank anyway.
pub fn way_back(workpiece: &Workpiece) -> Return {
    let board = workpiece.board();
    let is_poured = workpiece.pour().is_some_and(|pour| !pour.bores.is_empty());
    if edge_by_machine(board) && (is_poured || ring_on_pin(board)) {
        Return::Dowels
    } else if !edge_by_machine(board) && is_poured {
        Return::Edge
    } else {
        Return::Stays
    }
}

/// A sentence on two dowels that return the blank to its place, where a later program needs it; common practice, no source.
fn dowels(workpiece: &Workpiece) -> Option<String> {
    (way_back(workpiece) == Return::Dowels).then(|| {
        "Before you unclamp the blank, drill two dowel holes through its waste, well outside the circle, into the spoilboard: two dowels \
         bring it back to the same place for the later programs."
            .to_owned()
    })
}

/// The sentence on where X and Y are for a program after the holes.
///
/// The circle was cut about the center, so its edge leads back to it; two holes far apart fix the rotation. Common practice, no
/// source.
pub fn set_again(workpiece: &Workpiece) -> &'static str {
    match way_back(workpiece) {
        Return::Stays => "Leave the blank clamped where it is, and keep X0 Y0 as for the holes.",
        Return::Dowels => {
            "If the blank was off the machine, put it back on its two dowels. Keep X0 Y0 as for the holes."
        }
        Return::Edge => {
            "The board is round by now: hold it down with double-sided tape and blocks around it. Set X0 Y0 again, halfway between two \
             opposite points of its edge, both ways, and turn the board until the tip of the bit meets the middle of two track holes far \
             apart at their X and Y in the hole table."
        }
    }
}

/// Routing V-grooves by program, with the blank where it was for the bores.
fn grooves(workpiece: &Workpiece) -> Operation {
    Operation {
        sums: &["grooves"],
        ..Operation::of(Task::MachinedGrooves)
    }
    .with("CNC machine, V bit", 25.0)
    .minding(&[Caution::Cnc])
    .says(set(workpiece))
    .says([
        set_again(workpiece).to_owned(),
        "Set Z0 with the tip of the V bit, and run the program in the air first.".into(),
    ])
}

/// Cutting the edge by program, down to a skin that is cut by hand.
///
/// It is the last program, since little holds the board afterward. Without a skin the program cuts the board free, which must
/// then be held from below.
fn edge(workpiece: &Workpiece) -> Option<Operation> {
    let board = workpiece.board();
    let run = board.machine.as_ref()?.edge?;
    let deep = board.blank.thickness - run.skin;
    let held = if run.skin > 0.0 {
        format!(
            "It is the last program: the skin of {} that it leaves only keeps the board in place until you cut it free, so do that at once.",
            workpiece.length(run.skin)
        )
    } else {
        "It is the last program, and cuts the board free: first screw the board to the spoilboard from below, where the base will cover the \
         holes."
            .to_owned()
    };
    Some(
        Operation::of(Task::MachinedEdge)
            .with(
                format!("CNC machine, cutter of {}", workpiece.length(run.cutter)),
                20.0,
            )
            .minding(&[Caution::Cnc])
            .says([
                set_again(workpiece).to_owned(),
                held,
                format!(
                    "Set Z0 on the top face with this cutter, which must reach {}. Run the program of the edge in the air first, then on the \
                     blank: {} of at most {}.",
                    workpiece.at_least(reach(workpiece.units(), deep)),
                    counted(passes(deep, run.pass), "pass", "passes"),
                    workpiece.at_most(run.pass)
                ),
            ]),
    )
}

/// The thickest skin that a knife cuts through in a few strokes, mm; common practice, no source.
const KNIFE: f64 = 1.0;

/// Freeing the board from its blank, right after its last program.
fn freed(workpiece: &Workpiece) -> Option<Operation> {
    let run = workpiece.board().machine.as_ref()?.edge?;
    let operation = Operation::of(Task::Free);
    if run.skin <= 0.0 {
        return Some(
            operation
                .with("screwdriver, chisel", 5.0)
                .says(["Take the screws out and lift the board off the spoilboard.".to_owned()]),
        );
    }
    let skin = workpiece.length(run.skin);
    let (tool, cautions, cut) = if run.skin <= KNIFE {
        (
            "sharp knife, router with a flush-trim bit",
            &[Caution::Router][..],
            format!(
                "While board and waste lie flat on the spoilboard, cut through the skin of {skin} all around with a knife, in light strokes; \
                 lift neither before the board is free."
            ),
        )
    } else {
        (
            "jig saw or handsaw, router with a flush-trim bit",
            &[Caution::HandSaw, Caution::Router][..],
            format!(
                "Slide board and waste onto a sheet of plywood, so that the skin carries nothing. Clamp both to the bench, and saw through the \
                 skin of {skin} all around."
            ),
        )
    };
    let trimmed = "Clamp the board alone and trim it flush with a bearing bit, counter-clockwise around the board; switch off and move the \
                   clamps to reach all of it.";
    let operation = operation.with(tool, 10.0).minding(cautions);
    Some(operation.says([cut, trimmed.to_owned()]))
}
