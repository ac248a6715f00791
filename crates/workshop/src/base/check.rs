//! Rule: the base carries the board, and the board stands on it firmly.

use board::{Board, Footing, LidHold, Measure};
use geometry::Point;

use crate::Workpiece;
use crate::base::Standing;
use crate::check::{Finding, HAIR, Rule, Severity};
use crate::recess::recess_outline;

pub const STATEMENT: &str = "A turntable carries no more than it is rated for: board, pieces and the load typed. The \
     rating is for a load in the middle, and yours to read off the turntable. A push down on the rim tips the board \
     when it is over W a / (ρ - a), by moments about the edge of the footing; the least push that may do so is the \
     maker's to set, {10 N} by default: about {1 kg|2 lb}, a hand that rests on the rim; our own estimate, no source. The base \
     leaves the storage recess open.";

/// Every finding about the base.
pub fn check(workpiece: &Workpiece) -> Vec<Finding> {
    let (board, _layout) = (workpiece.board(), workpiece.layout());
    let Some(standing) = workpiece.standing() else {
        return Vec::new();
    };
    let of_weight = match standing {
        Ok(standing) => vec![rated(board, standing), tips(board, standing)],
        Err(error) => {
            let message = format!("what the base carries is not known: {error}");
            vec![Some(Finding::new(Severity::Note, Rule::Base, message))]
        }
    };
    of_weight
        .into_iter()
        .chain([covers(workpiece), beyond(board)])
        .flatten()
        .collect()
}

/// A turntable that carries more than it is rated for: a stop, since a bearing that is overloaded fails under a hand.
fn rated(board: &Board, standing: &Standing) -> Option<Finding> {
    let rating = board.base?.rating?;
    let carried = standing.carried();
    (carried > rating + HAIR).then(|| {
        let [carried, rating] = [carried, rating].map(Measure::kilograms);
        let message = format!(
            "the turntable carries {}, over the {} it is rated for",
            carried.shown(board.units),
            rating.shown(board.units)
        );
        Finding::new(Severity::Stop, Rule::Base, message).measuring(carried, rating)
    })
}

/// A push on the rim, smaller than the maker allows for, that tips the board.
fn tips(board: &Board, standing: &Standing) -> Option<Finding> {
    let push = standing.tips?;
    (push < board.limits.tip - HAIR).then(|| {
        let [push, wanted] = [push, board.limits.tip].map(Measure::newtons);
        let message = format!(
            "a push of {} on the rim tips the board, {} wanted; a wider base stands better",
            push.shown(board.units),
            wanted.shown(board.units)
        );
        Finding::new(Severity::Caution, Rule::Base, message).measuring(push, wanted)
    })
}

/// A base that stands out beyond the board.
fn beyond(board: &Board) -> Option<Finding> {
    let wide = match board.base?.footing {
        Footing::Round { diameter } => diameter,
        Footing::Feet { circle, .. } => circle,
    };
    let most = board.blank.diameter;
    (wide > most + HAIR).then(|| {
        let length = |mm| Measure::mm(mm).shown(board.units);
        let message = format!(
            "the base, {} across, stands out beyond the board of {}; use a smaller base",
            length(wide),
            length(most)
        );
        Finding::new(Severity::Caution, Rule::Base, message)
            .measuring(Measure::mm(wide), Measure::mm(most))
    })
}

/// A round base that lies over the opening of the recess.
fn covers(workpiece: &Workpiece) -> Option<Finding> {
    let board = workpiece.board();
    let (base, recess) = (board.base?, board.recess?);
    let Footing::Round { diameter } = base.footing else {
        return None;
    };
    // A lid that is lifted out wants its ledge free too.
    let opening = workpiece
        .lid()
        .cut
        .filter(|cut| cut.lid_fit.hold == LidHold::LiesIn);
    let from = recess_outline(&opening.unwrap_or(recess)).away(Point::ORIGIN);
    let wanted = diameter / 2.0;
    (from < wanted - HAIR).then(|| {
        let message = "the base lies over the recess, which cannot be opened below it".into();
        Finding::new(Severity::Caution, Rule::Base, message)
            .measuring(Measure::mm(from), Measure::mm(wanted))
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use board::{Base, Recess};

    fn found(base: Base, recess: Option<Recess>) -> Vec<(Severity, String)> {
        let board = Board {
            base: Some(base),
            recess,
            ..Board::default()
        };
        check(&Workpiece::of(&board).unwrap())
            .into_iter()
            .map(|found| (found.severity, found.message))
            .collect()
    }

    /// A base of 200 under a board of 560.
    fn of(kilograms: f64) -> Base {
        Base {
            footing: Footing::Round { diameter: 200.0 },
            board: Some(kilograms),
            ..Base::default()
        }
    }

    #[test]
    fn a_turntable_is_not_overloaded() {
        let rated = |rating| {
            let base = Base {
                rating: Some(rating),
                load: 5.0,
                ..of(4.0)
            };
            found(base, None)
        };
        // 4 + 5 and 24 marbles of 5.36 g.
        assert_eq!(rated(9.2), []);
        assert_eq!(rated(9.1)[0].0, Severity::Stop);
    }

    #[test]
    fn a_base_is_no_wider_than_the_board() {
        let wide = |diameter| Base {
            footing: Footing::Round { diameter },
            ..of(4.0)
        };
        assert_eq!(found(wide(560.0), None), []);
        let (severity, message) = found(wide(561.0), None).remove(0);
        assert_eq!(severity, Severity::Caution);
        assert!(message.contains("stands out beyond the board"), "{message}");
    }

    #[test]
    fn a_light_board_on_a_small_base_tips() {
        // 10 N tip W · 100 / 180, where W is 18 N: 1.8355 kg.
        assert_eq!(found(of(1.84), None), []);
        let tips = found(of(1.83), None);
        assert_eq!(tips[0].0, Severity::Caution);
        assert!(tips[0].1.contains("tips the board"), "{tips:?}");
    }

    #[test]
    fn a_base_leaves_the_recess_open_and_wants_a_weight() {
        let at = |x| {
            Some(Recess {
                at: [x, 0.0],
                ..Recess::default()
            })
        };
        assert_eq!(found(of(4.0), at(160.0)), []);
        assert!(
            found(of(4.0), at(159.0))[0]
                .1
                .contains("lies over the recess")
        );
        let unweighed = Base {
            board: None,
            ..of(4.0)
        };
        let unknown = found(unweighed, None);
        assert_eq!(unknown[0].0, Severity::Note);
        assert!(
            unknown[0].1.contains("the wood is not chosen"),
            "{unknown:?}"
        );
    }
}
