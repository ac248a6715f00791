//! The steps of the base.

use board::Footing;

use crate::job::{Job, Step, counted};

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
