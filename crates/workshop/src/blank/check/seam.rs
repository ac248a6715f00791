//! Rule: no bore stands on a glued seam, or beside it.

use board::{HoleId, HoleName, Measure};

use crate::blank::panel::panel_width;
use crate::check::{Finding, HAIR, Rule, Severity, counted};
use crate::{Mend, SeamTurns, Workpiece};

pub const STATEMENT: &str = "A bore keeps the set distance from every seam: a bore across a seam opens the glue line, \
     and resin runs along it. The default of {1 mm} is common practice, no source.";

/// Findings where bores are cut by a seam or stand beside one, and where a seam is none.
pub fn check(workpiece: &Workpiece) -> Vec<Finding> {
    let found = [near(workpiece), misplaced(workpiece)];
    found.into_iter().flatten().collect()
}

/// Bores that are cut by a seam or stand beside one.
fn near(workpiece: &Workpiece) -> Option<Finding> {
    let (board, layout) = (workpiece.board(), workpiece.layout());
    let seams = workpiece.seams();
    let near: Vec<(f64, HoleName)> = layout
        .holes
        .iter()
        .filter_map(|hole| {
            let away = |seam: &f64| (hole.center.y - seam).abs() - hole.bore.radius();
            let least = seams.iter().map(away).min_by(f64::total_cmp)?;
            (least < board.limits.seam - HAIR).then_some((least, hole.name))
        })
        .collect();
    let &(least, name) = near.iter().min_by(|a, b| a.0.total_cmp(&b.0))?;
    let cut = near.iter().filter(|(away, _)| *away < 0.0).count();
    let beside = near.len() - cut;
    let mut parts = Vec::new();
    if cut > 0 {
        parts.push(format!("{} cut by a seam", counted(cut, "bore")));
    }
    if beside > 0 {
        parts.push(format!("{} beside one", counted(beside, "bore")));
    }
    let length = |mm| Measure::mm(mm).shown(board.units);
    let said = if least < 0.0 {
        format!("{} of it beyond the seam", length(-least))
    } else {
        format!("{} away", length(least))
    };
    let message = format!("{}; worst {name}: {said}", parts.join(", "));
    // No turn takes the center hole off a seam.
    let severity = if near.iter().any(|(_, name)| name.id() != HoleId::CENTER) {
        Severity::Caution
    } else {
        Severity::Note
    };
    let mends: &[Mend] = if workpiece.turns().is_some_and(SeamTurns::can_be_better) {
        &[Mend::TurnOffSeams]
    } else {
        &[]
    };
    Some(
        Finding::new(severity, Rule::Seam, message)
            .measuring(Measure::mm(least), Measure::mm(board.limits.seam))
            .about(near.iter().map(|(_, name)| *name).collect())
            .mended_by(mends),
    )
}

/// Seams that were typed lie off the panel, or upon each other: they are no seams.
fn misplaced(workpiece: &Workpiece) -> Option<Finding> {
    let (board, seams) = (workpiece.board(), workpiece.seams());
    let edge = panel_width(board) / 2.0;
    let off = seams.iter().find(|seam| seam.abs() >= edge - HAIR);
    let twice = seams
        .windows(2)
        .find(|pair| (pair[1] - pair[0]).abs() < HAIR)
        .and_then(|pair| pair.first());
    let length = |mm: &f64| Measure::mm(*mm).shown(board.units);
    let message = match (off, twice) {
        (Some(off), _) => format!(
            "the seam at {} lies off the panel, which ends {} from the center pin",
            length(off),
            length(&edge)
        ),
        (None, Some(twice)) => format!("two seams lie at {}", length(twice)),
        (None, None) => return None,
    };
    Some(Finding::new(Severity::Note, Rule::Seam, message))
}

#[cfg(test)]
mod tests {
    use super::*;
    use board::Board;
    use board::Build;

    fn with_seam(at: f64) -> Option<Finding> {
        let mut board = Board::default();
        board.panel.build = Build::Seams { at: vec![at] };
        near(&Workpiece::of(&board).unwrap())
    }

    #[test]
    fn a_seam_through_the_center_hole_cuts_it() {
        let found = with_seam(0.0).unwrap();
        assert!(found.holes.iter().any(|name| name.to_string() == "C"));
        assert_eq!(found.measured, Some(Measure::mm(-6.0)));
        assert_eq!(found.mends, [Mend::TurnOffSeams]);
    }

    #[test]
    fn a_center_hole_alone_is_noted_since_no_turn_helps() {
        let mut board = Board {
            home: 0,
            start: 0,
            rotation: 30.0 / 14.0,
            ..Board::default()
        };
        board.panel.build = Build::Halves;
        let found = near(&Workpiece::of(&board).unwrap()).unwrap();
        assert_eq!(found.holes.len(), 1, "{found:?}");
        assert_eq!(found.severity, Severity::Note);
        assert_eq!(found.mends, []);
    }

    #[test]
    fn seams_off_the_panel_or_typed_twice_are_told() {
        let told = |at: &[f64]| {
            let mut board = Board::default();
            board.panel.build = Build::Seams { at: at.to_vec() };
            misplaced(&Workpiece::of(&board).unwrap()).map(|found| found.message)
        };
        assert_eq!(told(&[-100.0, 100.0]), None);
        assert!(
            told(&[300.0])
                .unwrap()
                .contains("300 mm lies off the panel")
        );
        assert_eq!(told(&[50.0, 10.0, 50.0]).unwrap(), "two seams lie at 50 mm");
    }

    #[test]
    fn a_seam_beyond_all_bores_is_no_finding() {
        assert_eq!(with_seam(279.0), None);
        assert_eq!(check(&Workpiece::of(&Board::default()).unwrap()), []);
    }
}
