//! The steps of finishing.

use crate::Workpiece;
use crate::job::Step;
use crate::{Caution, hard_after};
use board::Measure;

/// The coats of finish.
pub fn finish(workpiece: &Workpiece) -> Option<Step> {
    let coats = &workpiece.board().finish;
    let last = coats.last()?;
    let mut work: Vec<String> = coats
        .iter()
        .enumerate()
        .map(|(at, coat)| {
            let number = at + 1;
            let next = if number < coats.len() {
                format!(
                    "; let it dry {}",
                    Measure::hours(coat.dries).shown(workpiece.board().units)
                )
            } else {
                String::new()
            };
            format!("Coat {number}: {}{next}.", coat.kind.label())
        })
        .collect();
    work.push(format!("Time until it is hard: {}.", hard_after(last.kind)));
    Some(Step {
        title: "Finish",
        cautions: Vec::from_iter(
            Some(Caution::OilyRags).filter(|rags| rags.concerns(workpiece.board())),
        ),
        work,
        sums: &[],
    })
}
