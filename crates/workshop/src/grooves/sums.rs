//! Sums about V-grooves.

use crate::Workpiece;
use crate::sums::{GEOMETRY, Sum, SumGroup, TYPED};
use board::Measure;

/// The group; none where no grooves are planned.
pub fn group(workpiece: &Workpiece) -> Option<SumGroup> {
    let _board = workpiece.board();
    let plan = workpiece.grooves()?;
    let notes = if plan.dropped.is_empty() {
        Vec::new()
    } else {
        vec![format!(
            "{} lines find no room between their bores and are left out",
            plan.dropped.len()
        )]
    };
    Some(SumGroup {
        heading: "grooves",
        sums: vec![
            Sum::mm(
                "depth of the grooves",
                plan.depth,
                "(width - tip) / (2 tan(angle / 2))",
                GEOMETRY,
            ),
            Sum::new(
                "passes",
                Some(Measure::count(plan.passes)),
                "depth / depth of a pass, rounded up",
                TYPED,
            ),
            Sum::mm(
                "length of all grooves",
                plan.length,
                "lines, arcs and circles together, one pass",
                GEOMETRY,
            ),
        ],
        notes,
    })
}
