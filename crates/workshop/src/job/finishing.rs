//! Filling, finishing, standing, handing over.

use board::{Footing, Insert, PieceKind};

use super::{Job, Step, counted};
use crate::{Caution, Measure, hard_after, pour};

/// Resin in the bores; none where no bore is deep enough to be filled.
pub fn fill(job: Job<'_>) -> Option<Step> {
    let filling = job.board.filling?;
    let pour = pour(job.board, job.layout).filter(|pour| !pour.bores.is_empty())?;
    let units = job.board.units;
    let mut work = Vec::new();
    if job.board.piece.kind == PieceKind::Magnet {
        let set_in = match job.board.piece.insert {
            Insert::Ball => "ball",
            Insert::Disc { .. } => "disc",
        };
        work.push(format!(
            "Set a {set_in} in each bore, clean and free of oil."
        ));
    }
    work.push(format!(
        "Mix {} in {} by the filling plan; each can be worked for {}, mixing included.",
        Measure::Milliliters(pour.resin).shown(units),
        counted(pour.batches.len(), "batch", "batches"),
        Measure::Minutes(pour.working).shown(units)
    ));
    if filling.below_top > 0.0 {
        work.push(format!(
            "Fill each bore to {} below the top face.",
            job.length(filling.below_top)
        ));
    } else {
        work.push("Fill each bore to the top face.".into());
    }
    if pour.overfill_height > 0.0 {
        work.push(format!(
            "When it is fully cured, level off the {} that stand above the top face.",
            job.length(pour.overfill_height)
        ));
    }
    Some(Step {
        title: "Filling",
        cautions: vec![Caution::Resin],
        work,
        sums: &["filling"],
    })
}

/// The coats of finish.
pub fn finish(job: Job<'_>) -> Option<Step> {
    let coats = &job.board.finish;
    let last = coats.last()?;
    let mut work: Vec<String> = coats
        .iter()
        .enumerate()
        .map(|(at, coat)| {
            let number = at + 1;
            let next = if number < coats.len() {
                format!(
                    "; let it dry {}",
                    Measure::Hours(coat.dries).shown(job.board.units)
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
        cautions: Vec::from_iter(Some(Caution::OilyRags).filter(|rags| rags.concerns(job.board))),
        work,
        sums: &[],
    })
}

/// Turntable or feet.
pub fn base(job: Job<'_>) -> Option<Step> {
    let base = job.board.base?;
    let stands = match base.footing {
        Footing::Round { diameter } => {
            format!(
                "Fix the base of {} to the underside, its middle under the center pin.",
                job.length(diameter)
            )
        }
        Footing::Feet { count, circle } => {
            let feet = counted(count, "foot", "feet");
            format!(
                "Fix {feet} at equal steps on a circle of {} about the center pin.",
                job.length(circle)
            )
        }
    };
    let mut work = vec![stands];
    for ring in &job.board.screws {
        work.push(format!(
            "{} on a circle of {}, drilled {} wide and no deeper than {}, with play across the grain.",
            counted(ring.count, "screw", "screws"),
            job.length(ring.circle),
            job.length(ring.diameter),
            job.length(ring.depth)
        ));
    }
    Some(Step {
        title: "Base",
        cautions: Vec::new(),
        work,
        sums: &["base"],
    })
}

/// What goes with the board.
pub fn hand_over(job: Job<'_>) -> Step {
    let piece = job.board.piece;
    let mut cautions = vec![Caution::SmallParts];
    if piece.kind == PieceKind::Magnet {
        cautions.push(Caution::Magnets);
    }
    let work = vec![
        format!(
            "Count {} {} of {}, try each in its hole, and turn and tilt the board.",
            crate::recess::pieces(job.board),
            piece.kind.label(),
            job.length(piece.diameter)
        ),
        format!(
            "Say in writing that it is for players of {} years and over, and why.",
            piece.youngest
        ),
    ];
    Step {
        title: "Hand-over",
        cautions,
        work,
        sums: &["pieces"],
    }
}
