//! Rule: the base can carry the board, and the board is stable on it.

use board::{BaseHold, Board, Footing, LidHold, Measure, show_most};
use geometry::Point;

use crate::base::Standing;
use crate::check::{Finding, HAIR, Rule, Severity};
use crate::recess::recess_outline;
use crate::{Mend, Workpiece};

pub const STATEMENT: &str = "A turntable carries no more than it is rated for: board, pieces and the extra load \
     entered. The rating is for a load in the middle; read it off the turntable. A push down on the rim tips the \
     board when it is over W a / (R - a), by moments about the edge of the footing. The least push that may tip it is \
     yours to set; the default, {10 N|2 lbf}, is about {1 kg|2 lb}, a hand resting on the rim: our own estimate, no source. \
     The base leaves the storage recess open. A base glued on across the grain is no wider than {100 mm}; common \
     practice, no source.";

/// Every finding about the base.
pub fn check(workpiece: &Workpiece) -> Vec<Finding> {
    let (board, _layout) = (workpiece.board(), workpiece.layout());
    let Some(standing) = workpiece.standing() else {
        return Vec::new();
    };
    let of_weight = match standing {
        Ok(standing) => vec![rated(board, standing), tips(board, standing)],
        Err(error) => {
            let message = format!("The load on the base is not known: {error}.");
            vec![Some(Finding::new(Severity::Note, Rule::Base, message))]
        }
    };
    of_weight
        .into_iter()
        .chain([covers(workpiece), beyond(board), glued(workpiece)])
        .flatten()
        .collect()
}

/// A turntable that carries more than its rating. It is a stop, since an overloaded bearing fails in use.
fn rated(board: &Board, standing: &Standing) -> Option<Finding> {
    let rating = board.base?.rating?;
    let carried = standing.carried();
    (carried > rating + HAIR).then(|| {
        let [carried, rating] = [carried, rating].map(Measure::kilograms);
        let message = format!(
            "The turntable carries {} and is rated for {}. Use a larger one.",
            carried.shown(board.units),
            rating.shown(board.units)
        );
        Finding::new(Severity::Stop, Rule::Base, message).measuring(carried, rating)
    })
}

/// A push on the rim that tips the board although it is smaller than the maker allows for.
fn tips(board: &Board, standing: &Standing) -> Option<Finding> {
    let push = standing.tips?;
    (push < board.limits.tip - HAIR).then(|| {
        let [push, wanted] = [push, board.limits.tip].map(Measure::newtons);
        let message = format!(
            "A push of {} on the rim tips the board; the limit is {}. Use a wider base.",
            push.shown(board.units),
            wanted.shown(board.units)
        );
        Finding::new(Severity::Caution, Rule::Base, message).measuring(push, wanted)
    })
}

/// Width across the grain from which a glued joint and the movement of the wood damage each other, mm.
pub const GLUED: f64 = 100.0;

/// A round base, of solid wood laid across the grain or of plywood, that is glued on and so does not move with the board.
///
/// Feet are left out: their glued faces are too small to matter. With a chosen wood the finding gives its movement over a year,
/// since whether the glue or the wood fails depends on species and rooms.
fn glued(workpiece: &Workpiece) -> Option<Finding> {
    let board = workpiece.board();
    let base = board.base?;
    let what = match base.hold {
        BaseHold::GluedAcrossGrain => "solid wood glued on across the grain",
        BaseHold::GluedPlywood => "plywood glued on",
        BaseHold::Loose | BaseHold::GluedWithGrain => return None,
    };
    let Footing::Round { diameter } = base.footing else {
        return None;
    };
    (diameter > GLUED + HAIR).then(|| {
        let length = |mm| Measure::mm(mm).shown(board.units);
        let moves = workpiece.moves().ok();
        let moves = moves.map(|moves| {
            let by = length(moves.over_the_year(diameter).abs());
            format!(", which moves by {by} over that width in a year")
        });
        let message = format!(
            "A base of {what}, {} wide, holds the board{}. Board or glue will crack: fix the base with screws in slots, or \
             glue it with its grain along the board's.",
            length(diameter),
            moves.unwrap_or_default()
        );
        Finding::new(Severity::Caution, Rule::Base, message)
            .measuring(Measure::mm(diameter), Measure::mm(GLUED))
            .mended_by(&[Mend::ScrewBase])
    })
}

/// A base that extends beyond the board.
fn beyond(board: &Board) -> Option<Finding> {
    let wide = match board.base?.footing {
        Footing::Round { diameter } => diameter,
        Footing::Feet { circle, .. } => circle,
    };
    let most = board.blank.diameter;
    (wide > most + HAIR).then(|| {
        let length = |mm| Measure::mm(mm).shown(board.units);
        let message = format!(
            "The base is {} across and stands out beyond the board, which is {}. Use a smaller base.",
            length(wide),
            length(most)
        );
        Finding::new(Severity::Caution, Rule::Base, message)
            .measuring(Measure::mm(wide), Measure::mm(most))
    })
}

/// A round base that covers the opening of the recess.
fn covers(workpiece: &Workpiece) -> Option<Finding> {
    let board = workpiece.board();
    let (base, recess) = (board.base?, board.recess?);
    let Footing::Round { diameter } = base.footing else {
        return None;
    };
    // A lid that lifts out needs its ledge free too.
    let opening = workpiece
        .lid()
        .cut
        .filter(|cut| cut.lid_fit.hold == LidHold::LiesIn);
    let from = recess_outline(&opening.unwrap_or(recess)).away(Point::ORIGIN);
    let wanted = diameter / 2.0;
    (from < wanted - HAIR).then(|| {
        let length = |mm| Measure::mm(mm).shown(board.units);
        let covered = format!(
            "The base, {} across, covers the recess, which cannot be opened then.",
            length(diameter)
        );
        // A recess over the center pin is under every base that is one piece.
        if from <= HAIR {
            let message = format!("{covered} Use feet, or move the recess away from the center.");
            return Finding::new(Severity::Caution, Rule::Base, message);
        }
        let most = show_most(2.0 * from, board.units);
        let message = format!("{covered} Use feet, or a base of at most {most}.");
        Finding::new(Severity::Caution, Rule::Base, message)
            .measuring(Measure::mm(diameter), Measure::mm(2.0 * from))
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

    /// A base of 200 mm under a board of 640 mm that weighs this much.
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
        // 4 + 5 and 30 marbles of 5.36 g.
        assert_eq!(rated(9.2), []);
        assert_eq!(rated(9.1)[0].0, Severity::Stop);
    }

    #[test]
    fn a_base_is_no_wider_than_the_board() {
        let wide = |diameter| Base {
            footing: Footing::Round { diameter },
            ..of(4.0)
        };
        assert_eq!(found(wide(640.0), None), []);
        let (severity, message) = found(wide(641.0), None).remove(0);
        assert_eq!(severity, Severity::Caution);
        assert!(message.contains("stands out beyond the board"), "{message}");
    }

    #[test]
    fn a_light_board_on_a_small_base_tips() {
        // 10 N tip W · 100 / 220, where W is 22 N: 2.2434 kg.
        assert_eq!(found(of(2.25), None), []);
        let tips = found(of(2.24), None);
        assert_eq!(tips[0].0, Severity::Caution);
        assert!(tips[0].1.contains("tips the board"), "{tips:?}");
    }

    #[test]
    fn a_base_leaves_the_recess_open_and_needs_a_known_weight() {
        let at = |x| {
            Some(Recess {
                at: [x, 0.0],
                ..Recess::default()
            })
        };
        assert_eq!(found(of(4.0), at(160.0)), []);
        let covered = &found(of(4.0), at(159.0))[0].1;
        assert!(covered.ends_with("covers the recess, which cannot be opened then. Use feet, or a base of at most 198 mm."), "{covered}");
        let under = &found(of(4.0), at(0.0))[0].1;
        assert!(
            under.ends_with("Use feet, or move the recess away from the center."),
            "{under}"
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

    #[test]
    fn a_wide_base_is_not_glued_across_the_grain() {
        let glued = |hold, diameter| {
            let base = Base {
                hold,
                footing: Footing::Round { diameter },
                ..of(40.0)
            };
            found(base, None)
        };
        for hold in [BaseHold::GluedAcrossGrain, BaseHold::GluedPlywood] {
            assert_eq!(glued(hold, 100.0), []);
            assert_eq!(glued(hold, 3.9 * board::INCH), []);
            let wide = glued(hold, 4.0 * board::INCH);
            assert_eq!(wide[0].0, Severity::Caution);
            assert!(wide[0].1.contains("will crack"), "{wide:?}");
        }
        assert_eq!(glued(BaseHold::GluedWithGrain, 300.0), []);
        assert_eq!(glued(BaseHold::Loose, 300.0), []);
        let feet = Base {
            hold: BaseHold::GluedAcrossGrain,
            footing: Footing::Feet {
                count: 4,
                circle: 300.0,
            },
            ..of(40.0)
        };
        assert_eq!(found(feet, None), []);
    }
}
