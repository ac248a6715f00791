//! The work that a CNC machine does.

use crate::bores::steps::kinds_but_center;
use crate::grooves::steps::set;
use crate::jig::steps::{edge_by_machine, grooves_by_machine};
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
    .says([
        "Hold the blank down outside the circle, clamps out of the bit's way and lower than the safe height. Set X0 Y0 on the center, \
         Y+ to 12 o'clock, Z0 on the top face."
            .to_owned(),
        "Find the emergency stop. Run each program in the air first, then on scrap, then on the blank, bit by bit.".into(),
    ])
    .says(dowels(workpiece))
    .says(kinds_but_center(workpiece, "measure a hole in scrap before the first in the blank"))
}

/// A sentence on two dowels that return the blank to its place, where a later program needs it; common practice, no source.
///
/// By then the center hole may be bored and filled, and the center alone would not fix the rotation of the blank.
fn dowels(workpiece: &Workpiece) -> Option<String> {
    grooves_by_machine(workpiece.board()).then(|| {
        "Before you unclamp the blank, drill two dowel holes through its waste, well outside the circle, into the spoilboard: two dowels \
         bring it back to the same place for the grooves."
            .to_owned()
    })
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
    .says(["If the blank was off the machine, put it back on its two dowels. Keep X0 Y0 as for the holes, set Z0 with the tip of the V bit, and run the program in the air first.".to_owned()])
}

/// Cutting the edge by program, down to a skin that is sawn by hand.
///
/// Without a skin the program cuts the board free, which must then be held from below.
fn edge(workpiece: &Workpiece) -> Option<Operation> {
    let board = workpiece.board();
    let run = board.machine.as_ref()?.edge?;
    let deep = board.blank.thickness - run.skin;
    let held = if run.skin > 0.0 {
        format!(
            "Leave the skin of {} uncut until every program has run: it holds the board in the blank.",
            workpiece.length(run.skin)
        )
    } else {
        "First screw the board to the spoilboard from below, where the base will cover the holes: the program cuts it free. Leave the screws in \
         until every program has run."
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
                held,
                format!(
                    "Run the program of the edge in the air first, then on the blank: {} of at most {}.",
                    counted(passes(deep, run.pass), "pass", "passes"),
                    workpiece.at_most(run.pass)
                ),
            ]),
    )
}

/// Freeing the board from its blank, once no program needs it held any more.
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
    let sawn = format!(
        "Clamp board and waste to the bench, and saw through the skin of {} all around. Clamp the board alone and trim it flush with a \
         bearing bit, counter-clockwise around the board; switch off and move the clamps to reach all of it.",
        workpiece.length(run.skin)
    );
    Some(
        operation
            .with("jig saw or handsaw, router with a flush-trim bit", 10.0)
            .minding(&[Caution::HandSaw, Caution::Router])
            .says([sawn]),
    )
}
