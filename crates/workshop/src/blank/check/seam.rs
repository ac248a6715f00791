//! Rule: no bore is on a glued seam or close to one.

use board::{Board, Build, Hole, HoleId, HoleName, Measure, capital, counted};

use crate::blank::panel::panel_width;
use crate::check::{Finding, HAIR, Rule, Severity};
use crate::{Mend, Workpiece};

pub const STATEMENT: &str = "A hole keeps the set distance from every seam: a hole across a seam opens the glue line, \
     and resin runs along it. The default, {1 mm|1/32\"}, is common practice, no source.";

/// Findings for bores that a seam cuts or nearly cuts, and for seams that are off the board.
pub fn check(workpiece: &Workpiece) -> Vec<Finding> {
    let found = [near(workpiece), center(workpiece), misplaced(workpiece)];
    found.into_iter().flatten().collect()
}

/// Whether the center hole is on a seam because of how the board is joined, rather than by seams that were typed.
///
/// Two halves meet at the center, and so does an even number of strips: no rotation of the pattern moves the hole off that
/// seam.
const fn is_joined_there(board: &Board) -> bool {
    matches!(board.panel.build, Build::Halves | Build::Strips { .. })
}

/// Distance from the edge of a bore to the nearest seam, mm; negative if the seam cuts it; none without seams.
fn away(workpiece: &Workpiece, hole: &Hole) -> Option<f64> {
    let seams = workpiece.seams().iter();
    let away = seams.map(|seam| (hole.center.y - seam).abs() - hole.bore.radius());
    away.min_by(f64::total_cmp)
}

/// A note about the center hole of a board that is joined there.
///
/// It is reported apart from all other bores, so that it is never named as the worst of them: the maker cannot change it.
fn center(workpiece: &Workpiece) -> Option<Finding> {
    let board = workpiece.board();
    let hole = workpiece.layout().hole(HoleId::CENTER)?;
    let away = away(workpiece, hole)?;
    (is_joined_there(board) && away < board.limits.seam - HAIR).then(|| {
        let message = "The center hole lies on a glue joint. Glue that joint well, and seal the hole before you pour resin.";
        Finding::new(Severity::Note, Rule::Seam, message.into())
            .measuring(Measure::mm(away), Measure::mm(board.limits.seam))
            .about(vec![hole.name])
    })
}

/// Bores that a seam cuts or passes close to.
fn near(workpiece: &Workpiece) -> Option<Finding> {
    let (board, layout) = (workpiece.board(), workpiece.layout());
    let counts = |hole: &&Hole| hole.name.id() != HoleId::CENTER || !is_joined_there(board);
    let near: Vec<(f64, HoleName)> = layout
        .holes
        .iter()
        .filter(counts)
        .filter_map(|hole| {
            let away = away(workpiece, hole)?;
            (away < board.limits.seam - HAIR).then_some((away, hole.name))
        })
        .collect();
    let &(least, name) = near.iter().min_by(|a, b| a.0.total_cmp(&b.0))?;
    let cut = near.iter().filter(|(away, _)| *away < 0.0).count();
    let beside = near.len() - cut;
    let length = |mm| Measure::mm(mm).shown(board.units);
    let limit = length(board.limits.seam);
    let cut_by = counted(cut, "hole is cut by a seam", "holes are cut by a seam");
    let count = match (cut, beside) {
        (_, 0) => cut_by,
        (0, _) => format!(
            "{} within {limit} of a seam",
            counted(beside, "hole is", "holes are")
        ),
        _ => format!(
            "{cut_by}, and {} within {limit} of one",
            counted(beside, "is", "are")
        ),
    };
    let said = match (least < 0.0, beside) {
        (true, 0) => format!(
            "{name}, where the seam lies {} inside the rim; it has to lie at least {limit} outside",
            length(-least)
        ),
        (true, _) => format!(
            "{name}, where the seam lies {} inside the rim",
            length(-least)
        ),
        (false, _) => format!("{name}, {} away", length(least)),
    };
    let (advice, mends) = advised(workpiece);
    let message = format!("{count}. Worst: {said}. {advice}");
    Some(
        Finding::new(Severity::Caution, Rule::Seam, message)
            .measuring(Measure::mm(least), Measure::mm(board.limits.seam))
            .about(near.iter().map(|(_, name)| *name).collect())
            .mended_by(mends),
    )
}

/// What to do about bores at a seam, and the fix that does it: a turn of the pattern where one helps, and another joint.
fn advised(workpiece: &Workpiece) -> (String, &'static [Mend]) {
    let board = workpiece.board();
    let joint = if is_joined_there(board) {
        "join the board in another way"
    } else {
        "move the seam"
    };
    let Some(turns) = workpiece.turns() else {
        return (format!("{}.", capital(joint)), &[]);
    };
    match (turns.clears(board.limits.seam), turns.can_be_better()) {
        (true, true) => (
            format!("Turn the pattern, or {joint}."),
            &[Mend::TurnOffSeams],
        ),
        (false, true) => {
            let mends: &[Mend] = if turns.at_best.mm < 0.0 {
                &[Mend::LeastCutBySeams]
            } else {
                &[Mend::TurnOffSeams]
            };
            let bound = capital(&turns.bound(board.units));
            (
                format!("{bound}. Turn the pattern there, or {joint}."),
                mends,
            )
        }
        (false, false) => (format!("No other angle is better: {joint}."), &[]),
        // Only a bore that no turn moves is at a seam.
        (true, false) => (format!("{}.", capital(joint)), &[]),
    }
}

/// Typed seams that are off the panel or coincide, so that they are no seams.
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
            "The seam at {} lies off the panel, which ends {} from the center pin.",
            length(off),
            length(&edge)
        ),
        (None, Some(twice)) => format!("Two seams lie at {}. Remove one.", length(twice)),
        (None, None) => return None,
    };
    Some(Finding::new(Severity::Note, Rule::Seam, message))
}

#[cfg(test)]
mod tests {
    use super::*;

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

    /// With other bores close to the seam, the center is reported apart and is not the worst of them.
    #[test]
    fn a_center_hole_on_the_joint_of_halves_is_only_a_note() {
        let mut board = Board {
            home: 0,
            start: 0,
            rotation: 30.0 / 14.0,
            ..Board::default()
        };
        board.panel.build = Build::Halves;
        let found = check(&Workpiece::of(&board).unwrap());
        assert_eq!(found.len(), 1, "{found:?}");
        assert_eq!(found[0].severity, Severity::Note);
        assert_eq!(found[0].measured, Some(Measure::mm(-6.0)));
        assert_eq!(found[0].mends, []);
        board.rotation = 0.0;
        let found = check(&Workpiece::of(&board).unwrap());
        let severities: Vec<Severity> = found.iter().map(|found| found.severity).collect();
        assert_eq!(severities, [Severity::Caution, Severity::Note]);
        let is_center = |name: &HoleName| name.id() == HoleId::CENTER;
        assert!(!found[0].holes.iter().any(is_center), "{found:?}");
        assert!(!found[0].message.contains("worst C"), "{found:?}");
        assert_eq!(found[0].mends, [Mend::TurnOffSeams]);
    }

    #[test]
    fn a_seam_typed_through_the_center_hole_is_reported_with_all_others() {
        let mut board = Board {
            home: 0,
            start: 0,
            rotation: 30.0 / 14.0,
            ..Board::default()
        };
        board.panel.build = Build::Seams { at: vec![0.0] };
        let found = check(&Workpiece::of(&board).unwrap());
        assert_eq!((found.len(), found[0].severity), (1, Severity::Caution));
        assert_eq!(found[0].holes, [HoleId::CENTER.named(1)]);
    }

    #[test]
    fn seams_off_the_panel_or_typed_twice_are_reported() {
        let told = |at: &[f64]| {
            let mut board = Board::default();
            board.panel.build = Build::Seams { at: at.to_vec() };
            misplaced(&Workpiece::of(&board).unwrap()).map(|found| found.message)
        };
        assert_eq!(told(&[-100.0, 100.0]), None);
        assert!(
            told(&[340.0])
                .unwrap()
                .contains("340 mm lies off the panel")
        );
        assert_eq!(
            told(&[50.0, 10.0, 50.0]).unwrap(),
            "Two seams lie at 50 mm. Remove one."
        );
    }

    #[test]
    fn a_seam_beyond_all_bores_gives_no_finding() {
        assert_eq!(with_seam(319.0), None);
        assert_eq!(check(&Workpiece::of(&Board::default()).unwrap()), []);
    }
}
