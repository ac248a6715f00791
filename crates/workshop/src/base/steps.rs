//! The steps of the base.

use board::Footing;

use crate::Workpiece;
use crate::job::{Step, counted};

/// Turntable or feet.
pub fn base(workpiece: &Workpiece) -> Option<Step> {
    let base = workpiece.board().base?;
    let stands = match base.footing {
        Footing::Round { diameter } => {
            format!(
                "Fix the base of {} to the underside, its middle under the center pin.",
                workpiece.length(diameter)
            )
        }
        Footing::Feet { count, circle } => {
            let feet = counted(count, "foot", "feet");
            format!(
                "Fix {feet} at equal steps on a circle of {} about the center pin.",
                workpiece.length(circle)
            )
        }
    };
    let mut work = vec![stands];
    for ring in &workpiece.board().screws {
        work.push(format!(
            "{} on a circle of {}, drilled {} wide and no deeper than {}, with play across the grain.",
            counted(ring.count, "screw", "screws"),
            workpiece.length(ring.circle),
            workpiece.length(ring.diameter),
            workpiece.length(ring.depth)
        ));
    }
    Some(Step {
        title: "Base",
        cautions: Vec::new(),
        work,
        sums: &["base"],
    })
}
