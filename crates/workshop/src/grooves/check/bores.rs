//! Rule: grooves keep clear of bores.

use board::{Board, Hole, HoleName, Measure, counted, show_length, with_article};

use crate::check::{Finding, HAIR, Rule, Severity};
use crate::grooves::{Groove, GrooveKind, GroovePlan};
use crate::{Mend, Workpiece};

pub const STATEMENT: &str = "A groove stays clear of every hole that it does not join or go around, by the distance at \
     which straight grooves end before their holes, measured at the top face; thinner wood breaks out. An outline or ring \
     stays {1 mm} from the holes it goes around. That and the default, {1.5 mm|1/16\"}, are common practice, no source.";

/// Wood between an outline or a ring and the bores it surrounds, mm.
pub const LEAST_AROUND: f64 = 1.0;

/// Findings for bores that grooves cut into, bores that they come close to, and lines that have no room.
pub fn check(workpiece: &Workpiece) -> Vec<Finding> {
    let (board, layout) = (workpiece.board(), workpiece.layout());
    let (Some(wanted), Some(plan)) = (board.grooves, workpiece.grooves()) else {
        return Vec::new();
    };
    let near = layout.holes.iter().filter_map(|hole| {
        let (wood, kind) = nearest(hole, wanted.stop + wanted.width / 2.0, workpiece, plan)?;
        let wood = wood - wanted.width / 2.0;
        (wood < wanted.stop - HAIR).then_some((wood, kind, hole.name))
    });
    let (cut, thin): (Vec<_>, Vec<_>) = near.partition(|(wood, ..)| *wood <= HAIR);
    let parts = [(cut, Severity::Stop), (thin, Severity::Caution)];
    let found = parts
        .into_iter()
        .filter_map(|(near, severity)| found(board, &near, severity, wanted.stop));
    found
        .chain(around(workpiece, wanted.width, plan))
        .chain(no_room(plan))
        .chain(short(board, plan, wanted.width))
        .collect()
}

/// Outlines and rings that leave too little wood to the bores they surround, or cut into them.
///
/// The wood is measured, not derived from the typed gap: a bore changed by hand may be wider than its neighbors. Straight
/// grooves are not checked here, since they end at a set distance before the bores they join.
fn around(workpiece: &Workpiece, width: f64, plan: &GroovePlan) -> Option<Finding> {
    use GrooveKind::{AroundHome, AroundStart, Ring};
    let (board, layout) = (workpiece.board(), workpiece.layout());
    let closed = plan.grooves.iter();
    let closed = closed.filter(|groove| matches!(groove.kind, AroundHome | AroundStart | Ring));
    let pairs = closed.flat_map(|groove| groove.holes.iter().map(move |name| (groove, *name)));
    let wood = pairs.filter_map(|(groove, name)| {
        let hole = layout.hole(name.id())?;
        let away = groove
            .path
            .iter()
            .map(|stroke| stroke.distance(hole.center));
        let away = away.min_by(f64::total_cmp)?;
        Some((away - hole.bore.radius() - width / 2.0, groove.kind, name))
    });
    let thin: Vec<_> = wood
        .filter(|(wood, ..)| *wood < LEAST_AROUND - HAIR)
        .collect();
    let &(least, kind, name) = thin.iter().min_by(|a, b| a.0.total_cmp(&b.0))?;
    let count = counted(
        thin.len(),
        "hole is too close to the groove around it",
        "holes are too close to the groove around them",
    );
    let (severity, how) = if least <= HAIR {
        (Severity::Stop, "cut by".to_owned())
    } else {
        let wood = Measure::mm(least).shown(board.units);
        (Severity::Caution, format!("{wood} from"))
    };
    let message = format!(
        "{count}. Worst: {name}, {how} its {}; leave {} or more.",
        kind.label(),
        Measure::mm(LEAST_AROUND).shown(board.units)
    );
    Some(
        Finding::new(severity, Rule::GrooveBores, message)
            .measuring(Measure::mm(least), Measure::mm(LEAST_AROUND))
            .about(thin.into_iter().map(|(_, _, name)| name).collect())
            .mended_by(&[Mend::WiderOutlines]),
    )
}

/// The nearest center line of a groove unrelated to a hole, within reach, with its distance from the bore's edge.
fn nearest(
    hole: &Hole,
    reach: f64,
    workpiece: &Workpiece,
    plan: &GroovePlan,
) -> Option<(f64, GrooveKind)> {
    let strokes = workpiece.strokes();
    let radius = hole.bore.radius();
    let area = kurbo::Rect::from_center_size(hole.center, (2.0 * radius, 2.0 * radius));
    let near = strokes.near(area, reach).into_iter();
    near.filter_map(|at| strokes.get(at))
        .filter_map(|owned| Some((owned, plan.grooves.get(owned.at)?)))
        .filter(|(_, groove)| !groove.holes.contains(&hole.name))
        .map(|(owned, groove)| (owned.stroke.distance(hole.center) - radius, groove.kind))
        .min_by(|one, other| one.0.total_cmp(&other.0))
}

/// A finding for grooves and bores of one severity, with the nearest pair.
fn found(
    board: &Board,
    near: &[(f64, GrooveKind, HoleName)],
    severity: Severity,
    stop: f64,
) -> Option<Finding> {
    let &(wood, kind, name) = near.iter().min_by(|a, b| a.0.total_cmp(&b.0))?;
    let kind = with_article(kind.label());
    let message = if severity == Severity::Stop {
        let count = counted(near.len(), "hole", "holes");
        format!(
            "A groove cuts into {count}. First: {name}, cut by {kind}. Use a larger spacing or smaller bores."
        )
    } else {
        let count = counted(near.len(), "hole is", "holes are");
        let wood = Measure::mm(wood).shown(board.units);
        let wanted = show_length(stop, board.units);
        format!(
            "{count} too close to a groove. Worst: {name}, {wood} from {kind}; the limit is {wanted}. Increase the spacing \
             or use smaller bores."
        )
    };
    Some(
        Finding::new(severity, Rule::GrooveBores, message)
            .measuring(Measure::mm(wood), Measure::mm(stop))
            .about(near.iter().map(|(_, _, name)| *name).collect()),
    )
}

/// Straight grooves that are hardly longer than they are wide: both ends are half round, so they are mere dents, too short for
/// a fence to guide the router.
fn short(board: &Board, plan: &GroovePlan, width: f64) -> Option<Finding> {
    let is_line = |groove: &&Groove| matches!(groove.kind, GrooveKind::Track | GrooveKind::Home);
    let lines = plan.grooves.iter().filter(is_line);
    let short: Vec<&Groove> = lines
        .filter(|groove| groove.length() < width / 2.0 - HAIR)
        .collect();
    let least = short
        .iter()
        .map(|groove| groove.length() + width)
        .min_by(f64::total_cmp)?;
    let message = format!(
        "{} hardly longer than wide; the shortest is {} long. End them closer to the holes, increase the spacing, or leave the lines out.",
        counted(short.len(), "groove is", "grooves are"),
        Measure::mm(least).shown(board.units)
    );
    let holes = short
        .iter()
        .flat_map(|groove| groove.holes.clone())
        .collect();
    Some(
        Finding::new(Severity::Caution, Rule::GrooveBores, message)
            .measuring(Measure::mm(least), Measure::mm(1.5 * width))
            .about(holes),
    )
}

/// The planned grooves that are left out for lack of room.
fn no_room(plan: &GroovePlan) -> Option<Finding> {
    let (kind, _) = plan.dropped.first()?;
    let all = plan.dropped.len();
    let (fits, example) = if all == 1 {
        ("it does", ":")
    } else {
        ("they do", ", for example")
    };
    let message = format!(
        "{} left out because {fits} not fit{example} {}. End the grooves closer to the holes, or make them narrower.",
        counted(all, "groove is", "grooves are"),
        with_article(kind.label())
    );
    let holes = plan.dropped.iter().flat_map(|(_, holes)| holes.clone());
    Some(Finding::new(Severity::Caution, Rule::GrooveBores, message).about(holes.collect()))
}

#[cfg(test)]
mod tests {
    use super::*;

    use board::{Grooves, Rings};
    use testkit::assert_near;

    fn checked(wanted: Grooves, change: impl FnOnce(&mut Board)) -> Vec<Finding> {
        let mut board = Board {
            grooves: Some(wanted),
            ..Board::default()
        };
        change(&mut board);
        check(&Workpiece::of(&board).unwrap())
    }

    #[test]
    fn lines_of_track_and_lanes_give_no_finding() {
        assert_eq!(checked(Grooves::default(), |_| ()), []);
    }

    #[test]
    fn a_wide_ring_comes_close_to_neighboring_bores_and_a_wider_one_cuts_them() {
        let with_gap = |gap| {
            let rings = Rings {
                gap,
                track: true,
                ..Rings::default()
            };
            let wanted = Grooves {
                rings: Some(rings),
                ..Grooves::default()
            };
            checked(wanted, |board| board.home = 0)
        };
        // Bores of 12 mm at a pitch of 19 mm have 7 mm between them: the gap, 2 mm of groove, and the rest.
        let near = with_gap(4.0);
        assert_eq!(near[0].severity, Severity::Caution);
        assert_eq!(near[0].holes.len(), 96);
        let Some(Measure { value: wood, .. }) = near[0].measured else {
            panic!("no measure")
        };
        assert_near!(wood, 1.0, 1e-9);
        assert_eq!(with_gap(5.5)[0].severity, Severity::Stop);
        assert_eq!(with_gap(3.4), []);
    }

    /// Three grooves around a bore, in both units, at the limit and below it.
    #[test]
    fn an_outline_keeps_clear_of_the_bores_it_surrounds() {
        type Set = fn(&mut Grooves, f64);
        let ways: [(Set, usize); 3] = [
            (|wanted, gap| wanted.around_start = Some(gap), 18),
            (|wanted, gap| wanted.around_home = Some(gap), 30),
            (
                |wanted, gap| {
                    wanted.rings = Some(Rings {
                        gap,
                        ..Rings::default()
                    });
                },
                1,
            ),
        ];
        for (set, bores) in ways {
            let found = |gap| {
                let mut wanted = Grooves {
                    track: false,
                    home: false,
                    stop: 0.0,
                    ..Grooves::default()
                };
                set(&mut wanted, gap);
                checked(wanted, |_| ())
            };
            assert_eq!(found(1.0), []);
            assert_eq!(found(3.0 / 64.0 * board::INCH), []);
            let near = found(board::INCH / 32.0).remove(0);
            assert_eq!(
                (near.severity, near.holes.len()),
                (Severity::Caution, bores)
            );
            assert_eq!(near.mends, [Mend::WiderOutlines]);
            assert_eq!(found(0.0)[0].severity, Severity::Stop);
        }
    }

    #[test]
    fn lines_hardly_longer_than_wide_are_reported() {
        let wanted = |width, stop| Grooves {
            width,
            stop,
            track: true,
            ..Grooves::default()
        };
        // Bores of 12 mm, 19 mm apart: 7 mm less the stop at each end.
        assert!(checked(wanted(2.0, 2.0), |_| ()).is_empty());
        let short = checked(wanted(2.4, 2.0), |_| ());
        assert!(
            short.iter().any(|found| found
                .message
                .contains("grooves are hardly longer than wide")),
            "{short:?}"
        );
    }

    #[test]
    fn lines_without_room_are_reported_with_their_holes() {
        let wanted = Grooves {
            stop: 3.0,
            ..Grooves::default()
        };
        let found = checked(wanted, |_| ());
        assert_eq!(found.len(), 1);
        assert!(found[0].message.starts_with(
            "126 grooves are left out because they do not fit, for example a line of the track."
        ));
        assert_eq!(found[0].holes.len(), 96 + 30);
    }
}
