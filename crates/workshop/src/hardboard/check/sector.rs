//! Rule: a sector jig can be made, and pin play leaves wood where the last sector meets the first.

use board::{Board, HoleName, Measure, several, show_length};

use crate::check::{Finding, HAIR, Rule, Severity};
use crate::{Closing, SectorPlan, SectorTurn, Workpiece};

pub const STATEMENT: &str = "A jig that is turned from one player's holes to the next adds up the slop of its pins; \
     even at worst, the last sector leaves the set amount of wood to the first. The sector jig's page shows how the \
     error adds up. Between its index holes and the others the template's limit for hardboard holds. Both defaults \
     are common practice, no source.";

/// The reason why there can be no jig; otherwise, wood or hardboard that may be too thin, and sectors that differ.
pub fn check(workpiece: &Workpiece) -> Vec<Finding> {
    let board = workpiece.board();
    match workpiece.sector_jig() {
        None => Vec::new(),
        Some(Err(error)) => vec![Finding::new(
            Severity::Stop,
            Rule::SectorJig,
            error.to_string(),
        )],
        Some(Ok(plan)) => {
            let last = plan.closing.and_then(|closing| last_web(board, &closing));
            let found = [last, hardboard(board, plan), apart(plan)];
            found.into_iter().flatten().collect()
        }
    }
}

/// Wood that may be too thin where the last sector meets the first, with all play at its worst.
fn last_web(board: &Board, closing: &Closing) -> Option<Finding> {
    let wanted = board.limits.web;
    if closing.worst >= wanted - HAIR {
        return None;
    }
    let length = |mm: f64| Measure::mm(mm).shown(board.units);
    let Closing {
        last,
        first,
        likely,
        worst,
        ..
    } = *closing;
    let left = |wood: f64| {
        if wood < 0.0 {
            format!("an overlap of {}", length(-wood))
        } else {
            format!("{} of wood", length(wood))
        }
    };
    let severity = if worst < 0.0 {
        Severity::Stop
    } else {
        Severity::Caution
    };
    let message = format!(
        "Between {last} and {first}, where the sector jig closes the circle, {} is typical and {} the worst; the limit is \
         {}. Use pins that fit closer, or increase the spacing.",
        left(likely),
        left(worst),
        length(wanted)
    );
    Some(
        Finding::new(severity, Rule::SectorJig, message)
            .measuring(Measure::mm(worst), Measure::mm(wanted))
            .about(vec![last, first]),
    )
}

/// Too little hardboard beside an index hole.
fn hardboard(board: &Board, plan: &SectorPlan) -> Option<Finding> {
    let wanted = board.limits.template_web;
    if plan.web >= wanted - HAIR {
        return None;
    }
    let names: Vec<HoleName> = plan.index.iter().map(|hole| hole.name).collect();
    let (severity, message) = if plan.web <= 0.0 {
        let message = "The index hole of the sector jig overlaps another of its holes; increase the hole spacing.";
        (Severity::Stop, message.to_owned())
    } else {
        let message = format!(
            "The index hole of the sector jig has {} of hardboard beside it; the limit is {}, and no other hole has more. \
             Increase the hole spacing, or lower the limit.",
            show_length(plan.web, board.units),
            show_length(wanted, board.units)
        );
        (Severity::Caution, message)
    };
    Some(
        Finding::new(severity, Rule::SectorJig, message)
            .measuring(Measure::mm(plan.web), Measure::mm(wanted))
            .about(names),
    )
}

/// Holes that the jig does not drill, and holes of the jig that a sector skips: both are named, since a jig is used without
/// checking every hole.
fn apart(plan: &SectorPlan) -> Option<Finding> {
    let all = |part: fn(&SectorTurn) -> &Vec<HoleName>| {
        plan.turns
            .iter()
            .flat_map(part)
            .copied()
            .collect::<Vec<_>>()
    };
    let (apart, skip) = (all(|turn| &turn.apart), all(|turn| &turn.skip));
    if apart.is_empty() && skip.is_empty() {
        return None;
    }
    let message = format!(
        "Edited holes make the sectors differ: the sector jig does not drill {}, and its page says where to skip {}.",
        several(apart.len(), "hole"),
        several(skip.len(), "hole")
    );
    Some(Finding::new(Severity::Note, Rule::SectorJig, message).about(apart))
}

#[cfg(test)]
mod tests {
    use super::*;
    use board::{Center, Change, Edit, SectorJig};

    fn asked(play: f64) -> Board {
        Board {
            sector_jig: Some(SectorJig { pins: 1, play }),
            ..Board::default()
        }
    }

    fn found(board: &Board) -> Vec<Finding> {
        check(&Workpiece::of(board).unwrap())
    }

    fn severity(board: &Board) -> Option<Severity> {
        found(board).first().map(|found| found.severity)
    }

    /// 7 mm of wood between spaces, of which 3 mm are required.
    #[test]
    fn play_that_thins_the_last_web_is_reported() {
        assert_eq!(severity(&asked(0.0)), None);
        assert_eq!(severity(&asked(0.1)), None);
        assert_eq!(severity(&asked(0.5)), Some(Severity::Caution));
        assert_eq!(severity(&asked(5.0)), Some(Severity::Stop));
        assert_eq!(severity(&Board::default()), None);
    }

    #[test]
    fn thin_hardboard_beside_the_index_hole_is_reported() {
        let mut board = Board {
            spaces: 4,
            home: 2,
            ..asked(0.1)
        };
        board.limits.template_web = 190.0;
        assert_eq!(severity(&board), Some(Severity::Caution));
    }

    #[test]
    fn sectors_that_differ_are_noted_with_their_holes() {
        let mut board = asked(0.1);
        board.edits = vec![Edit {
            hole: "T2-3".parse().unwrap(),
            mirrored: false,
            change: Change::Move { u: 0.5, v: 0.0 },
        }];
        let found = found(&board);
        assert_eq!(found[0].severity, Severity::Note);
        assert_eq!(found[0].holes[0].to_string(), "T2-03");
    }

    #[test]
    fn a_jig_without_a_center_pin_is_a_stop() {
        let board = Board {
            center: Center::Nothing,
            ..asked(0.1)
        };
        assert_eq!(severity(&board), Some(Severity::Stop));
    }
}
