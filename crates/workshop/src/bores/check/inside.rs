//! Rule: enough wood is left inside the board between a bore and the cuts from a seam or from below.

use board::{Board, Hole, HoleName, Measure, Recess, counted};
use geometry::{Prism, RoundRect};

use crate::bores::profile::bore_profile;
use crate::check::{Finding, HAIR, Rule, Severity};
use crate::recess::lid_cut::lid_cut_name;
use crate::recess::{prism, recess_outline};
use crate::{Stroke, Workpiece};

pub const STATEMENT: &str = "Between a hole, with its point or spur, and a mortise, screw, storage recess or lid \
     groove at least the set amount of wood is left inside the board, measured in three dimensions. Two holes drilled \
     straight down are closest at the top face, where \"wood between holes\" measures them. The default, {3 mm|1/8\"}, is \
     common practice, no source.";

/// A hole and its distance from a cut inside the board.
struct Near {
    hole: HoleName,
    wood: f64,
    what: &'static str,
}

/// One finding for bores that meet a cut inside, one for wood that is too thin.
pub fn check(workpiece: &Workpiece) -> Vec<Finding> {
    let (board, layout) = (workpiece.board(), workpiece.layout());
    let hidden = workpiece.hidden();
    if hidden.is_empty() {
        return Vec::new();
    }
    let near = layout
        .holes
        .iter()
        .filter_map(|hole| nearest(board, hidden, hole))
        .filter(|near| near.wood < board.limits.inside - HAIR);
    let (meeting, thin): (Vec<Near>, Vec<Near>) = near.partition(|near| near.wood <= 0.0);
    let parts = [(meeting, Severity::Stop), (thin, Severity::Caution)];
    parts
        .into_iter()
        .filter_map(|(near, severity)| found(board, &near, severity))
        .collect()
}

/// The least wood between a bore and a cut inside the board, mm, with that bore; none without cuts.
pub fn least_inside(workpiece: &Workpiece) -> Option<(f64, HoleName)> {
    let (board, hidden) = (workpiece.board(), workpiece.hidden());
    let holes = workpiece.layout().holes.iter();
    let near = holes.filter_map(|hole| nearest(board, hidden, hole));
    let least = near.min_by(|a, b| a.wood.total_cmp(&b.wood))?;
    Some((least.wood, least.hole))
}

/// The cut inside the board that is nearest to a bore.
fn nearest(board: &Board, hidden: &[(&'static str, Prism)], hole: &Hole) -> Option<Near> {
    let bore = bore_profile(hole.bore, board.bores.spur);
    let wood = |(what, hidden): &(&'static str, Prism)| {
        (bore.distance(hidden.seen_from(hole.center)), *what)
    };
    let (wood, what) = hidden.iter().map(wood).min_by(|a, b| a.0.total_cmp(&b.0))?;
    Some(Near {
        hole: hole.name,
        wood,
        what,
    })
}

/// Distance from the center line of a groove to an outline, seen from above, mm; any larger value where it exceeds `enough`.
pub fn away_from_groove(outline: &RoundRect, stroke: &Stroke, enough: f64) -> f64 {
    /// The greatest error allowed, mm.
    const SLACK: f64 = 0.01;
    match outline.as_circle() {
        Some(circle) => (stroke.distance(circle.center) - circle.radius).max(0.0),
        None => stroke.least(|at| outline.away(at), enough, SLACK),
    }
}

/// The cuts into the board from below and from its seams.
pub fn hidden(workpiece: &Workpiece) -> Vec<(&'static str, Prism)> {
    let board = workpiece.board();
    let thickness = board.blank.thickness;
    let size = board.panel.tenons.unwrap_or_default();
    let from_below = |cut: &Recess| prism(recess_outline(cut), cut.depth, thickness);
    let mortises = workpiece.tenons().iter();
    let mortises = mortises.map(|tenon| ("mortise", tenon.mortise(&size)));
    let screws = workpiece.screws().iter();
    let screws = screws.map(|screw| ("screw", screw.prism(thickness)));
    let recess = board.recess.iter();
    let recess = recess.map(|recess| ("storage recess", from_below(recess)));
    let lid = workpiece.lid().cut.iter();
    let lid = lid.map(|cut| (lid_cut_name(cut), from_below(cut)));
    mortises.chain(screws).chain(recess).chain(lid).collect()
}

/// A finding for holes of one severity, with the worst of them; none without holes.
fn found(board: &Board, near: &[Near], severity: Severity) -> Option<Finding> {
    let worst = near.iter().min_by(|a, b| a.wood.total_cmp(&b.wood))?;
    let (name, what) = (worst.hole, worst.what);
    let advice = format!("Move the {what} or drill less deep.");
    let message = if severity == Severity::Stop {
        let count = counted(near.len(), "hole breaks", "holes break");
        format!("{count} into a cut inside the board. First: {name}, into a {what}. {advice}")
    } else {
        let count = counted(near.len(), "hole comes", "holes come");
        let [wood, limit] =
            [worst.wood, board.limits.inside].map(|mm| Measure::mm(mm).shown(board.units));
        format!(
            "{count} too close to a cut inside the board. Worst: {name}, {wood} from a {what}; the limit is {limit}. {advice}"
        )
    };
    Some(
        Finding::new(severity, Rule::Inside, message)
            .measuring(Measure::mm(worst.wood), Measure::mm(board.limits.inside))
            .about(near.iter().map(|near| near.hole).collect())
            .meeting(rule_of(what)),
    )
}

/// The rule about a cut inside the board, by its name, where one is: mortises are typed with the joint, the lid with the recess.
fn rule_of(what: &str) -> Option<Rule> {
    match what {
        "mortise" => Some(Rule::Joinery),
        "screw" => None,
        _ => Some(Rule::Storage),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use board::{Bottom, Build, Panel, RecessShape, ScrewCircle, Tenons, layout};
    use testkit::assert_near;

    fn checked(board: &Board) -> Vec<Finding> {
        check(&Workpiece::of(board).unwrap())
    }

    fn mm(found: &Finding) -> f64 {
        let Some(Measure { value: mm, .. }) = found.measured else {
            panic!("no measure")
        };
        mm
    }

    #[test]
    fn a_board_without_inner_cuts_gives_no_finding() {
        assert_eq!(checked(&Board::default()), []);
    }

    #[test]
    fn a_mortise_under_the_center_hole_is_measured_from_the_spur() {
        let tenons = Tenons {
            count: 1,
            below_top: 9.0,
            ..Tenons::default()
        };
        let panel = Panel {
            build: Build::Halves,
            tenons: Some(tenons),
            ..Panel::default()
        };
        let mut board = Board {
            panel,
            ..Board::default()
        };
        // The center hole is 5 deep, its spur 2.5 more: 1.5 of wood over the mortise.
        let found = checked(&board);
        assert_eq!(found.len(), 1);
        assert_eq!(found[0].severity, Severity::Caution);
        assert_near!(mm(&found[0]), 1.5, 1e-12);
        assert_eq!(found[0].holes.len(), 1);
        board.bores.track.bottom = Bottom::Flat;
        board.panel.tenons = Some(Tenons {
            below_top: 7.0,
            ..tenons
        });
        let found = checked(&board);
        assert_eq!(found[0].severity, Severity::Stop);
        assert_eq!(found[0].meets, Some(Rule::Joinery));
    }

    #[test]
    fn bores_over_a_recess_keep_wood_under_them_and_those_beside_it_need_none() {
        // The center hole, 7.5 deep with its spur, in a board of 20; a recess of 12 leaves 0.5 under it.
        let mut board = Board {
            recess: Some(board::Recess {
                depth: 12.0,
                ..board::Recess::default()
            }),
            ..Board::default()
        };
        let found = checked(&board);
        assert_eq!(found[0].severity, Severity::Caution);
        assert_near!(mm(&found[0]), 0.5, 1e-12);
        assert!(found[0].message.contains("storage recess"));
        let all = found[0].holes.len();
        assert!(all < layout(&board).unwrap().holes.len(), "{all}");
        board.recess = Some(board::Recess::default());
        board.center = board::Center::Nothing;
        assert!(
            checked(&board)
                .iter()
                .all(|found| found.severity != Severity::Stop)
        );
        board.recess = None;
        assert_eq!(checked(&board), []);
    }

    #[test]
    fn bores_over_the_groove_of_a_lid_keep_wood_under_them_out_to_the_edge() {
        let mut board = Board {
            center: board::Center::Nothing,
            recess: Some(board::Recess {
                shape: RecessShape::Round { diameter: 50.0 },
                lid: 10.0,
                depth: 10.5,
                lid_fit: board::LidFit {
                    hold: board::LidHold::Slides {
                        angle: 14.0,
                        toward: board::Toward::Right,
                    },
                    ..board::LidFit::default()
                },
                ..board::Recess::default()
            }),
            ..Board::default()
        };
        // Bores and spurs end 7.5 down, the groove begins 10 down: 2.5 of wood, along the way to the right.
        let found = checked(&board);
        assert_near!(mm(&found[0]), 2.5, 1e-12);
        assert!(found[0].message.contains("groove of the lid"), "{found:?}");
        let layout = layout(&board).unwrap();
        for name in &found[0].holes {
            let at = layout.hole(name.id()).unwrap().center;
            assert!(at.x > 0.0 && at.y.abs() < 25.0 + 2.5 + 6.0 + 3.0, "{name}");
        }
        board.recess.as_mut().unwrap().lid_fit.hold = board::LidHold::LiesIn;
        assert_eq!(checked(&board), []);
    }

    #[test]
    fn screws_from_below_meet_only_bores_that_are_deep_enough() {
        let mut board = Board::default();
        let turn_in = layout(&board).unwrap().turn_in_radius;
        let ring = |depth| ScrewCircle {
            count: 1,
            circle: 2.0 * turn_in,
            bearing: 0.0,
            diameter: 4.0,
            depth,
        };
        board.screws = vec![ring(9.0)];
        // 20 mm thick: the screw ends 11 below the top, the spur 7.5.
        assert_eq!(checked(&board), []);
        board.screws = vec![ring(10.0)];
        assert_near!(mm(&checked(&board)[0]), 2.5, 1e-9);
        board.screws = vec![ring(13.0)];
        assert_eq!(checked(&board)[0].severity, Severity::Stop);
    }
}
