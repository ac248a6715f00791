//! The steps of drilling.

use board::{Center, HoleId};

use crate::Caution;
use crate::bores::sums::{Kind, kinds};
use crate::job::{Job, Step};

/// Drilling, bit by bit.
pub fn drill(job: Job<'_>) -> Step {
    let mut work: Vec<String> = pilot(job).into_iter().collect();
    let later = job
        .layout
        .hole(HoleId::CENTER)
        .filter(|_| pilot(job).is_some());
    let now = job.layout.holes.iter().filter(|hole| Some(*hole) != later);
    work.extend(kinds(now).iter().map(|kind| bores(job, kind)));
    Step {
        title: "Bores",
        cautions: vec![Caution::DrillPress],
        work,
        sums: &["bores"],
    }
}

/// All bores of one kind.
pub fn bores(job: Job<'_>, kind: &Kind) -> String {
    let which = match kind.holes.as_slice() {
        [first, .., last] => format!("{} bores, {first} to {last},", kind.holes.len()),
        [only] => format!("The bore {only},"),
        [] => String::new(),
    };
    format!(
        "{which} {} across, {}, {} deep: set the stop on scrap, measure a hole, then drill.",
        job.length(kind.bore.diameter),
        kind.bore.bottom.label(),
        job.length(kind.bore.depth),
    )
}

pub fn pilot(job: Job<'_>) -> Option<String> {
    match job.board.drilled_center() {
        Center::Hole { pilot, .. } => {
            let pilot = job.length(pilot);
            Some(format!(
                "At the center drill the pilot of {pilot} first; the hole there comes after the circle is cut."
            ))
        }
        Center::Pivot { .. } | Center::Nothing => None,
    }
}
