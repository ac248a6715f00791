//! Shop math about readings after the work.

use crate::sums::{GEOMETRY, Sum, SumGroup};
use crate::{Workpiece, readings};

/// The group; `None` if nothing was measured.
pub fn group(workpiece: &Workpiece) -> Option<SumGroup> {
    if workpiece.board().measured.distances.is_empty() {
        return None;
    }
    let told = readings(workpiece);
    let sums = told.readings.iter().flat_map(|reading| {
        let between = reading.ends.to_vec();
        let mm =
            |name, mm, formula, source| Sum::mm(name, mm, formula, source).about(between.clone());
        [
            mm(
                "distance to measure",
                reading.nominal,
                "between the centers as laid out",
                GEOMETRY,
            ),
            mm(
                "measured longer by",
                reading.long(),
                "measured − to measure",
                GEOMETRY,
            ),
            mm(
                "left unexplained",
                reading.left,
                "least squares",
                "Schwarz 1978, from memory",
            ),
        ]
    });
    Some(SumGroup {
        heading: "readings",
        sums: sums.collect(),
        notes: Vec::new(),
    })
}
