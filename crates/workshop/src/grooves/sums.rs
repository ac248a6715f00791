//! Shop math about V-grooves.

use crate::colors::resin::groove_resin;
use crate::sums::{GEOMETRY, Sum, SumGroup, TYPED};
use crate::{GroovePlan, Workpiece};
use board::Measure;

/// The group; `None` if no grooves are planned.
pub fn group(workpiece: &Workpiece) -> Option<SumGroup> {
    let plan = workpiece.grooves()?;
    let notes = if plan.dropped.is_empty() {
        Vec::new()
    } else {
        vec![format!(
            "{} lines have no room between their holes and are left out",
            plan.dropped.len()
        )]
    };
    let mut sums = cut(plan);
    sums.extend(resin(workpiece));
    Some(SumGroup {
        heading: "grooves",
        sums,
        notes,
    })
}

/// Depth, passes and length of the cuts.
fn cut(plan: &GroovePlan) -> Vec<Sum> {
    vec![
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
    ]
}

/// Resin for filled grooves of one board; empty if none are filled.
fn resin(workpiece: &Workpiece) -> Vec<Sum> {
    let Some(resin) = groove_resin(workpiece) else {
        return Vec::new();
    };
    let ml = |name, ml, formula| Sum::new(name, Some(Measure::milliliters(ml)), formula, GEOMETRY);
    vec![
        ml(
            "resin poured into the grooves",
            resin.poured,
            "length of the filled grooves · depth · (width + tip) / 2 · (1 + waste)",
        ),
        Sum::new(
            "cups for the grooves",
            Some(Measure::count(resin.cups)),
            "one for each color, and more where one batch is too small",
            TYPED,
        ),
        ml(
            "resin to mix for the grooves",
            resin.mixed,
            "poured + rest in a cup · cups",
        ),
    ]
}

#[cfg(test)]
mod tests {
    use super::*;
    use board::{Board, Colored, Filling, Grooves, Hue, Medium};

    #[test]
    fn filled_grooves_list_their_resin() {
        let mut board = Board {
            grooves: Some(Grooves::default()),
            filling: Some(Filling::default()),
            ..Board::default()
        };
        let count = |board: &Board| group(&Workpiece::of(board).unwrap()).unwrap().sums.len();
        assert_eq!(count(&board), 3);
        board.colors.grooves = Colored {
            hue: Hue::Player,
            medium: Medium::Resin,
        };
        assert_eq!(count(&board), 6);
    }
}
