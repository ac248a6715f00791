//! Drilling at punch marks, drilling the center hole, and setting balls or discs into the bores.

use board::{Bore, Bottom, Center, Hole, HoleId, Insert, PieceKind};

use crate::bores::profile::deepest;
use crate::bores::sums::{Kind, kinds};
use crate::jig::steps::edge_by_machine;
use crate::job::{Method, Operation, Task};
use crate::machine::steps::set_again;
use crate::{Caution, Workpiece};

/// The operations for bores drilled on a press, the center hole, and the inserts.
pub fn operations(workpiece: &Workpiece) -> Vec<Operation> {
    let mut all = Vec::new();
    if Method::of(workpiece.board()) == Method::Template {
        all.push(punched(workpiece));
    }
    all.extend(center(workpiece));
    all.extend(inserts(workpiece));
    all
}

/// Drilling at punch marks, bit by bit.
///
/// A minute for each bore and a quarter of an hour to set up; common practice, no source.
fn punched(workpiece: &Workpiece) -> Operation {
    let holes = but_center(workpiece).count();
    Operation {
        sums: &["bores"],
        ..Operation::of(Task::PunchedBores)
    }
    .with("drill press with depth stop", 15.0 + holes as f64)
    .minding(&[Caution::DrillPress])
    .says(kinds_but_center(workpiece, STOP))
}

/// Every hole but the center hole.
fn but_center(workpiece: &Workpiece) -> impl Iterator<Item = &Hole> {
    let holes = workpiece.layout().holes.iter();
    holes.filter(|hole| hole.name.id() != HoleId::CENTER)
}

/// How a depth is set on a press with a depth stop.
pub const STOP: &str = "set the stop on scrap, measure a hole, then drill";

/// Router bits run several times as fast as a drill press, and their shanks pull out of its chuck: common practice, no source.
const NO_ROUTER_BIT: &str = "A router bit does not belong in a drill press. For a flat or round bottom use a cutter made for drill-press \
     speed, or a plunge router with a template.";

/// All bores but the center hole, one sentence for each kind, with how its depth is set.
pub fn kinds_but_center(workpiece: &Workpiece, proved: &str) -> Vec<String> {
    let kinds = kinds(but_center(workpiece));
    let told = |kind: &Kind| bores(workpiece, kind, proved);
    let mut all: Vec<String> = kinds.iter().map(told).collect();
    let is_cut = |kind: &Kind| matches!(kind.bore.bottom, Bottom::Flat | Bottom::Ball);
    if kinds.iter().any(is_cut) && Method::of(workpiece.board()) != Method::Machine {
        all.push(NO_ROUTER_BIT.into());
    }
    all
}

/// All bores of one kind.
fn bores(workpiece: &Workpiece, kind: &Kind, proved: &str) -> String {
    let which = match kind.holes.as_slice() {
        [first, .., last] => format!("{} holes, {first} to {last},", kind.holes.len()),
        [only] => format!("The hole {only},"),
        [] => String::new(),
    };
    format!("{which} {}: {proved}.", size(workpiece, kind.bore))
}

/// The playing hole at the center, drilled once nothing turns on the pin any more; `None` if the center is not a playing hole.
///
/// Where the pin stood, its bit has no wood to start in: the circle that it scored earlier or a guide block guides it.
fn center(workpiece: &Workpiece) -> Option<Operation> {
    let Center::Hole { bore, pilot } = workpiece.board().drilled_center() else {
        return None;
    };
    if Method::of(workpiece.board()) == Method::Machine {
        return Some(center_by_machine(workpiece, bore));
    }
    let drill = format!(
        "Drill it {}: set the stop on scrap first.",
        size(workpiece, bore)
    );
    let plug =
        "If the bit wanders, plug the pin's hole flush with a dowel and mark the center again.";
    Some(
        Operation::of(Task::CenterBore)
            .with(
                format!(
                    "drill press, over the pin's hole of {}",
                    workpiece.length(pilot)
                ),
                10.0,
            )
            .minding(&[Caution::DrillPress])
            .says([guide(bore).to_owned(), drill, plug.to_owned()]),
    )
}

/// The playing hole at the center by program.
///
/// Where the edge is cut on the pin, the blank leaves the machine before this hole, and its zero is found again in the pin's
/// hole; a single hole at the zero needs no rotation. Common practice, no source.
fn center_by_machine(workpiece: &Workpiece, bore: Bore) -> Operation {
    let set = if edge_by_machine(workpiece.board()) {
        set_again(workpiece)
    } else {
        "The board was off the machine and is round by now: hold it down with double-sided tape and blocks around it. Set X0 Y0 again on the \
         middle of the pin's hole: turn a dial indicator around its wall, or stand a pin in it and touch off both sides, both ways. Set Z0 on \
         the top face."
    };
    let run = format!(
        "Run the program of the center hole, the last one for the holes, in the air first and then in the board. It is {}: measure a hole in \
         scrap first.",
        size(workpiece, bore)
    );
    Operation::of(Task::CenterBore)
        .with("CNC machine, the program of the center hole", 10.0)
        .minding(&[Caution::Cnc])
        .says([set.to_owned(), run])
}

/// Diameter, bottom and depth of a bore.
fn size(workpiece: &Workpiece, bore: Bore) -> String {
    format!(
        "{} across, {}, {} deep",
        workpiece.length(bore.diameter),
        bore.bottom.label(),
        workpiece.length(bore.depth)
    )
}

/// The guide for a bit that has no wood at its center.
const fn guide(bore: Bore) -> &'static str {
    match bore.bottom {
        Bottom::Forstner => {
            "Clamp the board with the bit's rim in the circle that it scored before the pin's hole was drilled: its spur \
             has no wood there. Or clamp scrap with a hole of the bit's diameter over it as a guide."
        }
        Bottom::Flat | Bottom::Ball => {
            "Clamp scrap with a hole of the bit's diameter over it as a guide: nothing else guides this bit."
        }
        Bottom::Point118 | Bottom::Point135 => {
            "The point of the drill finds the pin's hole by itself."
        }
    }
}

/// The sentences about drilling the pin's hole at the center.
///
/// A pin hole below a playing hole is no deeper than that hole, or it would show in the floor.
pub fn pin_hole(workpiece: &Workpiece) -> Vec<String> {
    let length = |mm| workpiece.length(mm);
    match workpiece.board().drilled_center() {
        Center::Nothing => Vec::new(),
        Center::Pivot { diameter, depth } => vec![format!(
            "Drill the center {} across and {} deep, square to the face.",
            length(diameter),
            length(depth)
        )],
        Center::Hole { bore, pilot } => {
            let mut work = Vec::new();
            if bore.bottom == Bottom::Forstner {
                work.push(format!(
                    "Score a full circle at the center with the {} Forstner bit first: once the pin's hole is there, its spur \
                     has no wood to start in.",
                    length(bore.diameter)
                ));
            }
            work.push(format!(
                "Drill {} across in the middle, square to the face, no deeper than {}, as deep as the playing hole will \
                 be.",
                length(pilot),
                workpiece.at_most(deepest(bore, workpiece.board().bores.spur))
            ));
            work
        }
    }
}

/// Setting a ball or disc into each bore of a board for magnet pieces.
///
/// They are set before the finish, which then covers them as the document specifies; before a resin pour, the glue only keeps
/// them from floating up.
fn inserts(workpiece: &Workpiece) -> Option<Operation> {
    let board = workpiece.board();
    if board.piece.kind != PieceKind::Magnet || workpiece.seats().is_empty() {
        return None;
    }
    let seats = workpiece.seats().len();
    let set_in = match board.piece.insert {
        Insert::Ball => "ball",
        Insert::Disc { .. } => "disc",
    };
    let poured = board.filling.filter(|filling| filling.around_insert);
    let held = if poured.is_some() {
        format!(
            "Set a {set_in} in each hole on a dot of glue, so that resin does not float or tilt it."
        )
    } else {
        format!("Glue a {set_in} into each hole with epoxy, and press it home.")
    };
    let operation = Operation::of(Task::Inserts)
        .with("tweezers or a magnet on a stick, degreaser, glue", 10.0 + 0.3 * seats as f64)
        .minding(&[Caution::Resin, Caution::Solvents, Caution::SmallParts, Caution::Magnets])
        .says([
            format!("Degrease the {set_in}s with the windows open and no flame near, and vacuum the holes."),
            held,
            "Lay a straightedge over the holes: each stands as far below the face as the section shows.".into(),
        ]);
    Some(operation.waiting(12.0, "the glue that holds them sets"))
}
