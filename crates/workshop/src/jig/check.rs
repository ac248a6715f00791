//! Rule: the drill press reaches every hole.

use board::{HoleName, Measure, at_mark, field};

use crate::check::{Finding, HAIR, Rule, Severity, counted};
use crate::{Method, Workpiece};

pub const STATEMENT: &str = "A drill press reaches holes no farther from the edge of the board than its chuck is from \
     its column: about {100 to 200 mm|4\" to 8\"} for a press that stands on the bench (from memory). This is checked with the \
     board cut round, where holes are drilled at a press; on a blank with its corners still on, the press reaches less far.";

/// A finding about holes too far from the edge, or about a reach that is unknown where it matters.
pub fn check(workpiece: &Workpiece) -> Option<Finding> {
    if !at_the_press(workpiece) {
        return None;
    }
    let edge = workpiece.board().blank.radius();
    let holes = workpiece.layout().holes.iter();
    let away = holes.map(|hole| (edge - hole.center.to_vec2().length(), hole.name));
    match workpiece.board().jig.throat {
        Some(throat) => too_far(workpiece, throat, away),
        None => unknown(workpiece, away),
    }
}

/// Whether the bores are drilled on a press.
fn at_the_press(workpiece: &Workpiece) -> bool {
    match Method::of(workpiece.board()) {
        Method::Template | Method::Pivot | Method::SectorJig => true,
        Method::Router | Method::Machine => false,
    }
}

/// Holes farther in than the press reaches, from all holes with their distance from the edge.
fn too_far(
    workpiece: &Workpiece,
    throat: f64,
    away: impl Iterator<Item = (f64, HoleName)>,
) -> Option<Finding> {
    let far: Vec<(f64, HoleName)> = away.filter(|(away, _)| *away > throat + HAIR).collect();
    let farthest = far.iter().map(|(away, _)| *away).max_by(f64::total_cmp)?;
    let message = format!(
        "The drill press reaches {} in from the edge, too short for {}. Drill them with a plunge router or a portable \
         drill guide, or on a press with a deeper throat.",
        Measure::mm(throat).shown(workpiece.units()),
        counted(far.len(), "hole")
    );
    let finding = Finding::new(Severity::Caution, Rule::Throat, message);
    let finding = finding.measuring(Measure::mm(farthest), Measure::mm(throat));
    Some(finding.about(far.into_iter().map(|(_, name)| name).collect()))
}

/// A board with holes farther in than many presses reach, where the maker's own reach is unknown: the fix starts from the reach
/// of a small press.
///
/// A jig for one sector may be drilled with a portable guide, as its step says, so this does not ask for a press there.
fn unknown(workpiece: &Workpiece, away: impl Iterator<Item = (f64, HoleName)>) -> Option<Finding> {
    if Method::of(workpiece.board()) == Method::SectorJig {
        return None;
    }
    let units = workpiece.units();
    let (farthest, name) = away.max_by(|one, other| one.0.total_cmp(&other.0))?;
    let small = field::THROAT.begun(units);
    if farthest <= small + HAIR {
        return None;
    }
    let message = format!(
        "Hole {name} lies {} from the edge; a small bench-top drill press reaches {}. Measure yours from the middle of the chuck to the \
         column and enter it as the drill press throat, or plan on a portable drill guide.",
        Measure::mm(at_mark(farthest, units)).shown(units),
        Measure::mm(small).shown(units)
    );
    Some(Finding::new(Severity::Note, Rule::Throat, message).about(vec![name]))
}

#[cfg(test)]
mod tests {
    use super::*;
    use board::{Board, DrillingMethod};

    #[test]
    fn holes_farther_in_than_the_throat_are_reported() {
        let found = |throat| {
            let mut board = Board::default();
            board.jig.throat = throat;
            check(&Workpiece::of(&board).unwrap())
        };
        let unknown = found(None).unwrap();
        assert_eq!(unknown.severity, Severity::Note);
        assert!(
            unknown
                .message
                .starts_with("Hole C lies 320 mm from the edge"),
            "{unknown:?}"
        );
        // The center of a board of 640 mm is 320 mm in from the edge.
        assert_eq!(found(Some(320.0)), None);
        let center = found(Some(319.9)).unwrap();
        assert_eq!(
            (center.holes.len(), center.measured),
            (1, Some(Measure::mm(320.0)))
        );
        assert!(
            center.message.contains("too short for 1 hole."),
            "{center:?}"
        );
        assert!(found(Some(100.0)).unwrap().holes.len() > 20);
    }

    #[test]
    fn the_throat_is_checked_only_where_a_press_drills_the_bores() {
        let found = |method, throat| {
            let mut board = Board {
                method,
                ..Board::default()
            };
            board.jig.throat = throat;
            check(&Workpiece::of(&board).unwrap()).map(|found| found.severity)
        };
        let short = Some(100.0);
        assert_eq!(found(DrillingMethod::Machine, None), None);
        assert_eq!(found(DrillingMethod::Machine, short), None);
        assert_eq!(found(DrillingMethod::Router, short), None);
        assert_eq!(found(DrillingMethod::SectorJig, None), None);
        assert_eq!(
            found(DrillingMethod::SectorJig, short),
            Some(Severity::Caution)
        );
        assert_eq!(found(DrillingMethod::Pivot, None), Some(Severity::Note));
    }

    #[test]
    fn a_small_board_needs_no_throat() {
        let mut board = Board::default();
        board.blank.diameter = 300.0;
        assert_eq!(check(&Workpiece::of(&board).unwrap()), None);
    }
}
