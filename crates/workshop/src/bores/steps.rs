//! The steps of drilling.

use board::{Center, HoleId};

use crate::Caution;
use crate::Workpiece;
use crate::bores::sums::{Kind, kinds};
use crate::job::Step;

/// Drilling, bit by bit.
pub fn drill(workpiece: &Workpiece) -> Step {
    let mut work: Vec<String> = pilot(workpiece).into_iter().collect();
    let later = workpiece
        .layout()
        .hole(HoleId::CENTER)
        .filter(|_| pilot(workpiece).is_some());
    let now = workpiece
        .layout()
        .holes
        .iter()
        .filter(|hole| Some(*hole) != later);
    work.extend(kinds(now).iter().map(|kind| bores(workpiece, kind)));
    Step {
        title: "Bores",
        cautions: vec![Caution::DrillPress],
        work,
        sums: &["bores"],
    }
}

/// All bores of one kind.
pub fn bores(workpiece: &Workpiece, kind: &Kind) -> String {
    let which = match kind.holes.as_slice() {
        [first, .., last] => format!("{} bores, {first} to {last},", kind.holes.len()),
        [only] => format!("The bore {only},"),
        [] => String::new(),
    };
    format!(
        "{which} {} across, {}, {} deep: set the stop on scrap, measure a hole, then drill.",
        workpiece.length(kind.bore.diameter),
        kind.bore.bottom.label(),
        workpiece.length(kind.bore.depth),
    )
}

pub fn pilot(workpiece: &Workpiece) -> Option<String> {
    match workpiece.board().drilled_center() {
        Center::Hole { pilot, .. } => {
            let pilot = workpiece.length(pilot);
            Some(format!(
                "At the center drill the pilot of {pilot} first; the hole there comes after the circle is cut."
            ))
        }
        Center::Pivot { .. } | Center::Nothing => None,
    }
}
