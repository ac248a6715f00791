//! Routing V-grooves by hand: the rings about the pin, and all others.

use board::{Grooves, Measure};

use crate::jig::steps::{grooves_by_machine, ring_on_pin};
use crate::job::{Operation, Task, counted};
use crate::{Caution, Workpiece, groove_depth, passes};

/// The grooves that a hand-held router cuts.
pub fn operations(workpiece: &Workpiece) -> Vec<Operation> {
    let board = workpiece.board();
    let Some(wanted) = board.grooves.filter(|_| !grooves_by_machine(board)) else {
        return Vec::new();
    };
    let mut all = Vec::new();
    if ring_on_pin(board) {
        all.push(ring(workpiece));
    }
    if besides_the_ring(&wanted) {
        all.push(grooves(workpiece));
    }
    all
}

/// Whether there are grooves other than rings about the pin.
pub fn besides_the_ring(wanted: &Grooves) -> bool {
    wanted.track
        || wanted.home
        || wanted.around_home.is_some()
        || wanted.around_start.is_some()
        || wanted.rings.is_some()
        || wanted.sectors_from.is_some()
}

/// The settings of the V bit.
pub fn set(workpiece: &Workpiece) -> Option<String> {
    let wanted = workpiece.board().grooves?;
    let depth = groove_depth(&wanted);
    if depth <= 0.0 {
        // The findings report it too, but a depth of 0 or less would read like a setting.
        return Some(
            "This V bit's tip is as wide as the groove, and cuts no V: use a sharper bit.".into(),
        );
    }
    Some(format!(
        "V bit of {}: grooves {} wide are {} deep, in {}; try it on scrap.",
        Measure::degrees(wanted.angle).shown(workpiece.units()),
        workpiece.length(wanted.width),
        Measure::mm(depth).shown(workpiece.units()),
        counted(passes(depth, wanted.pass), "pass", "passes"),
    ))
}

/// Routing the rings about the pin, on a trammel.
///
/// They are the only grooves that turn on the pin, and so the only ones to be cut before the pin's hole is drilled out.
fn ring(workpiece: &Workpiece) -> Operation {
    let wanted = workpiece.board().grooves.unwrap_or_default();
    let border = wanted.rim.map(|inside| {
        format!(
            "Set the trammel so that {} of wood stays between the ring and the roundover, and go around pass by pass.",
            workpiece.length(inside)
        )
    });
    let middle = wanted.middle.map(|off| {
        format!(
            "Set the trammel so that the ring around the middle begins {} from the center of the pin, and go around pass \
             by pass.",
            workpiece.length(off)
        )
    });
    Operation {
        sums: &["grooves"],
        ..Operation::of(Task::PinRings)
    }
    .with("router on a trammel, V bit, the pin in its hole", 20.0)
    .minding(&[Caution::Router])
    .says(set(workpiece))
    .says(border)
    .says(middle)
}

/// Routing all other grooves.
fn grooves(workpiece: &Workpiece) -> Operation {
    Operation {
        sums: &["grooves"],
        ..Operation::of(Task::Grooves)
    }
    .with("router, V bit, straightedge and guides", 90.0)
    .minding(&[Caution::Router])
    .says(set(workpiece))
    .says(["Stop each line short of its holes, as the template shows.".to_owned()])
}
