//! Rule: the bit gives the grooves some depth, and they leave enough wood below.

use board::{Board, Grooves, Measure, show_length};
use geometry::Prism;

use crate::Workpiece;
use crate::bores::check::inside::away_from_groove;
use crate::check::{Finding, HAIR, Rule, Severity};
use crate::grooves::Strokes;
use crate::grooves::depth::groove_profile;

pub const STATEMENT: &str = "A groove is wider than the flat at the tip of the V bit. Its depth follows from its width and the \
     bit's angle: (width − tip) / (2 tan(angle / 2)). Between a groove and the underside at least the set amount of wood is \
     left, and so is the amount set for inside the board between a groove and a storage recess, screw or mortise, measured \
     along the shortest line.";

/// Every finding about the depth of the grooves.
pub fn check(workpiece: &Workpiece) -> Vec<Finding> {
    let board = workpiece.board();
    let (Some(wanted), Some(plan)) = (board.grooves, workpiece.grooves()) else {
        return Vec::new();
    };
    if plan.depth <= HAIR {
        return vec![no_depth(board, &wanted)];
    }
    if plan.grooves.is_empty() {
        return Vec::new();
    }
    let found = [
        underside(board, plan.depth),
        within(workpiece, &wanted, plan.depth),
    ];
    found.into_iter().flatten().collect()
}

/// The finding for a bit whose tip is as wide as the groove.
fn no_depth(board: &Board, wanted: &Grooves) -> Finding {
    let length = |mm| show_length(mm, board.units);
    let (tip, width) = (length(wanted.tip), length(wanted.width));
    let message = format!(
        "A bit with a tip of {tip} cannot cut a V {width} wide. Use a sharper bit or a wider groove."
    );
    Finding::new(Severity::Stop, Rule::GrooveDepth, message)
        .measuring(Measure::mm(wanted.tip), Measure::mm(wanted.width))
}

/// Grooves that break through the underside, or leave less than the least floor.
fn underside(board: &Board, depth: f64) -> Option<Finding> {
    let (wood, wanted) = (board.blank.thickness - depth, board.limits.floor);
    if wood >= wanted - HAIR {
        return None;
    }
    let severity = if wood <= HAIR {
        Severity::Stop
    } else {
        Severity::Caution
    };
    let length = |mm| Measure::mm(mm).shown(board.units);
    let (depth, thickness) = (length(depth), length(board.blank.thickness));
    let message = if severity == Severity::Stop {
        format!("Grooves {depth} deep cut through a board {thickness} thick. Make them narrower.")
    } else {
        let [left, limit] = [wood, wanted].map(length);
        format!(
            "Grooves {depth} deep in a board {thickness} thick leave {left}; the limit is {limit}. Make them narrower."
        )
    };
    Some(
        Finding::new(severity, Rule::GrooveDepth, message)
            .measuring(Measure::mm(wood), Measure::mm(wanted)),
    )
}

/// Grooves that meet or come close to the cuts from below and from the seams.
fn within(workpiece: &Workpiece, wanted: &Grooves, depth: f64) -> Option<Finding> {
    let board = workpiece.board();
    let limit = board.limits.inside;
    let near = workpiece.hidden().iter().filter_map(|(what, hidden)| {
        let wood = wood(hidden, wanted, (depth, limit), workpiece.strokes())?;
        Some((wood, *what))
    });
    let (wood, what) = near.min_by(|a, b| a.0.total_cmp(&b.0))?;
    let deep = Measure::mm(depth).shown(board.units);
    let (severity, message) = if wood <= 0.0 {
        (
            Severity::Stop,
            format!(
                "Grooves {deep} deep break into a {what}. Move the {what} or make the grooves narrower."
            ),
        )
    } else {
        let [wood, limit] = [wood, limit].map(|mm| Measure::mm(mm).shown(board.units));
        (
            Severity::Caution,
            format!(
                "Grooves {deep} deep leave {wood} of wood above a {what}; the limit is {limit}. Move the {what} or make \
                 the grooves narrower."
            ),
        )
    };
    Some(
        Finding::new(severity, Rule::GrooveDepth, message)
            .measuring(Measure::mm(wood), Measure::mm(limit)),
    )
}

/// A finding about the wood between the grooves and one cut inside the board, where that is less than the limit.
fn wood(
    hidden: &Prism,
    wanted: &Grooves,
    (depth, limit): (f64, f64),
    strokes: &Strokes,
) -> Option<f64> {
    if hidden.top >= depth + limit - HAIR {
        return None;
    }
    let reach = limit + wanted.width / 2.0;
    let near = strokes.near(hidden.outline.bounds(), reach).into_iter();
    let away = near.filter_map(|at| {
        let stroke = strokes.get(at)?.stroke;
        Some(away_from_groove(&hidden.outline, &stroke, reach))
    });
    let upright = hidden.at(away.min_by(f64::total_cmp)?);
    let wood = groove_profile(wanted, depth).distance(upright);
    (wood < limit - HAIR).then_some(wood)
}

#[cfg(test)]
mod tests {
    use super::*;

    use board::{Recess, RecessShape, ScrewCircle};
    use testkit::assert_near;

    fn checked(change: impl FnOnce(&mut Board)) -> Vec<Finding> {
        let wanted = Grooves {
            width: 3.0,
            angle: 90.0,
            stop: 0.5,
            ..Grooves::default()
        };
        let mut board = Board {
            grooves: Some(wanted),
            ..Board::default()
        };
        change(&mut board);
        check(&Workpiece::of(&board).unwrap())
    }

    fn mm(found: &Finding) -> f64 {
        let Some(Measure { value: mm, .. }) = found.measured else {
            panic!("no measure")
        };
        mm
    }

    #[test]
    fn a_tip_as_wide_as_the_groove_is_a_stop() {
        let found = checked(|board| {
            if let Some(wanted) = &mut board.grooves {
                wanted.tip = 3.0;
            }
        });
        assert_eq!(found.len(), 1);
        assert_eq!(found[0].severity, Severity::Stop);
    }

    #[test]
    fn the_floor_is_measured_from_the_tip_of_the_bit() {
        assert_eq!(checked(|board| board.blank.thickness = 5.5), []);
        let thin = checked(|board| board.blank.thickness = 4.5);
        assert_eq!(thin[0].severity, Severity::Caution);
        assert_near!(mm(&thin[0]), 3.0, 1e-12);
        let through = checked(|board| board.blank.thickness = 1.5);
        assert_eq!(through[0].severity, Severity::Stop);
    }

    #[test]
    fn wood_between_recess_and_groove_is_the_thickness_less_both_depths() {
        let with = |depth, shape| {
            checked(|board| {
                board.recess = Some(Recess {
                    shape,
                    depth,
                    ..Recess::default()
                });
            })
        };
        let wide = RecessShape::Round { diameter: 440.0 };
        // 20 mm thick, with a recess of 16 mm and a groove of 1.5 mm.
        let found = with(16.0, wide);
        assert_near!(mm(&found[0]), 2.5, 1e-9);
        assert_eq!(found[0].severity, Severity::Caution);
        assert_eq!(with(15.4, wide), []);
        assert_eq!(with(18.5, wide)[0].severity, Severity::Stop);
        let straight = RecessShape::Straight {
            length: 430.0,
            width: 430.0,
            corner: 0.0,
        };
        assert_near!(mm(&with(17.0, straight)[0]), 1.5, 1e-6);
    }

    #[test]
    fn the_slanted_side_of_a_groove_counts_beside_a_recess() {
        // The innermost home-lane line of a ring of 96 spaces at a pitch of 19 mm ends at this radius from the pin.
        let inner = geometry::ring_radius(19.0, 96) - 5.0 * 19.0 + 6.0 + 0.5 + 1.5;
        let recess = |gap: f64| {
            checked(|board| {
                board.recess = Some(Recess {
                    shape: RecessShape::Round {
                        diameter: 2.0 * (inner - gap),
                    },
                    depth: 19.0,
                    ..Recess::default()
                });
            })
        };
        // A recess of 19 mm begins 1 mm below the top face; the groove's side at 45 degrees is 1.5 mm less 1 mm wide there.
        assert_near!(mm(&recess(2.0)[0]), (2.0 - 0.5) / 2.0_f64.sqrt(), 1e-6);
        assert_eq!(recess(0.4)[0].severity, Severity::Stop);
        assert_eq!(recess(5.0), []);
    }

    #[test]
    fn screws_from_below_are_found_too() {
        let found = checked(|board| {
            let turn_in = geometry::ring_radius(19.0, 96);
            board.screws = vec![ScrewCircle {
                count: 1,
                circle: 2.0 * turn_in - 19.0,
                bearing: 0.0,
                diameter: 4.0,
                depth: 17.0,
            }];
        });
        assert_near!(mm(&found[0]), 1.5, 1e-6);
    }
}
