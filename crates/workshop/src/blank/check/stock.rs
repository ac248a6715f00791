//! Rule: the board fits on its blank.

use board::{Board, Build, Measure, StockOutline};

use crate::blank::stock::{Slab, StockPlan, leaf_thickness, strips_of};
use crate::check::{Finding, HAIR, Rule, Severity};
use crate::{Mend, Workpiece};

pub const STATEMENT: &str = "The board and its trim lie on sound wood, and the blank is as thick as the board or thicker. \
     The default trim of 5 mm is common practice, no source.";

/// Every finding about the board on its blank.
pub fn check(workpiece: &Workpiece) -> Vec<Finding> {
    let board = workpiece.board();
    let Some(plan) = workpiece.stock() else {
        // Of a blank whose outline is not known its thickness is.
        let is_unknown = board.stock.outline == StockOutline::Unknown;
        let thin = is_unknown.then(|| thickness(board)).flatten();
        return thin.into_iter().collect();
    };
    if let Err(error) = &plan.slab {
        let message = workpiece.units().say(error);
        return vec![Finding::new(Severity::Caution, Rule::Stock, message)];
    }
    let room = match board.panel.build {
        Build::Whole | Build::Seams { .. } => room(board, plan),
        Build::Halves => halves(board, plan),
        Build::Strips { .. } => strips(board, plan),
    };
    room.into_iter().chain(thickness(board)).collect()
}

/// Outlines of more corners are left to the study of the blank, which has the time.
const MOST_CORNERS: usize = 300;

/// The blank, if it is simple enough to be looked at here.
fn simple(plan: &StockPlan) -> Option<&Slab> {
    let slab = plan.slab.as_ref().ok()?;
    (slab.outline.corners().len() <= MOST_CORNERS).then_some(slab)
}

/// A blank that does not give two bookmatched halves of the board. It asks the same search that finds the halves.
fn halves(board: &Board, plan: &StockPlan) -> Option<Finding> {
    let slab = simple(plan)?;
    let joint = board.panel.joint;
    let half = geometry::best_half(&slab.outline, &slab.flaws, joint, &|| false).ok()?;
    let radius = half.map_or(0.0, |half| half.radius);
    let wanted = board.blank.radius() + board.stock.trim;
    // The search comes within a twenty-thousandth of the blank's longer side.
    (radius < wanted - 0.1).then(|| {
        let most = Measure::mm((2.0 * (radius - board.stock.trim)).max(0.0)).shown(board.units);
        let message = format!("two bookmatched halves of the blank give a board of {most} at most");
        Finding::new(Severity::Stop, Rule::Stock, message)
            .measuring(Measure::mm(radius), Measure::mm(wanted))
    })
}

/// A blank from which this way of laying finds no strips. It may miss one, so it is a caution and no stop.
fn strips(board: &Board, plan: &StockPlan) -> Option<Finding> {
    simple(plan)?;
    let slab = plan.slab.as_ref().ok()?;
    strips_of(board, slab).is_none().then(|| {
        let message = "no way was found to saw the strips of this board from the blank; another number of strips, or \
             a sharper eye, may find one";
        Finding::new(Severity::Caution, Rule::Stock, message.into())
    })
}

/// A board that does not lie on sound wood: elsewhere it may, or the blank is too small for it in one piece.
fn room(board: &Board, plan: &StockPlan) -> Option<Finding> {
    let wanted = board.blank.radius() + board.stock.trim;
    let length = |mm| Measure::mm(mm).shown(board.units);
    let room = plan.room(board).unwrap_or(0.0);
    if room >= wanted - HAIR {
        return None;
    }
    let largest = plan.largest_board(board);
    let best = plan.best.as_ref().map_or(0.0, |disc| disc.circle.radius);
    let elsewhere = board.stock.place.is_some() && best >= wanted - HAIR;
    let (message, mends): (_, &[Mend]) = if elsewhere {
        (
            format!(
                "the board does not fit where it lies on the blank, by {}; elsewhere it does",
                length(wanted - room)
            ),
            &[Mend::BestPlace],
        )
    } else {
        (
            format!(
                "the blank gives a board of {} at most, {} less than this one; joining may give more",
                length((largest * 100.0).floor() / 100.0),
                length(board.blank.diameter - largest)
            ),
            &[],
        )
    };
    Some(
        Finding::new(Severity::Stop, Rule::Stock, message)
            .measuring(Measure::mm(room), Measure::mm(wanted))
            .mended_by(mends),
    )
}

/// A blank that is thinner than the board, or gives leaves that are.
fn thickness(board: &Board) -> Option<Finding> {
    let wanted = board.blank.thickness;
    let halves = board.panel.build == Build::Halves;
    let (is, what) = if halves {
        (leaf_thickness(board), "each of the two leaves is")
    } else {
        (board.stock.thickness, "the blank is")
    };
    (is < wanted - HAIR).then(|| {
        let length = |mm| Measure::mm(mm).shown(board.units);
        let message = format!(
            "{what} {} thick, and the board {}",
            length(is),
            length(wanted)
        );
        Finding::new(Severity::Stop, Rule::Stock, message)
            .measuring(Measure::mm(is), Measure::mm(wanted))
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn on_slab(width: f64) -> Board {
        let mut board = Board::default();
        board.stock.outline = StockOutline::Slab {
            length: 1200.0,
            width,
            lower: vec![],
            upper: vec![],
        };
        board
    }

    fn found(board: &Board) -> Vec<Finding> {
        check(&Workpiece::of(board).unwrap())
    }

    #[test]
    fn a_blank_as_wide_as_board_and_trim_is_enough() {
        assert_eq!(found(&on_slab(570.0)), []);
        let narrow = found(&on_slab(569.0));
        assert_eq!(narrow[0].severity, Severity::Stop);
        assert!(narrow[0].message.contains("1 mm less"), "{narrow:?}");
    }

    #[test]
    fn a_blank_of_no_outline_still_has_its_thickness() {
        let mut board = Board::default();
        assert_eq!(found(&board), []);
        board.blank.thickness = 26.0;
        assert_eq!(found(&board)[0].measured, Some(Measure::mm(25.0)));
    }

    #[test]
    fn a_place_that_does_not_do_is_mended_by_the_best() {
        let mut board = on_slab(600.0);
        board.stock.place = Some([100.0, 300.0]);
        assert_eq!(found(&board)[0].mends, [Mend::BestPlace]);
    }

    #[test]
    fn leaves_are_half_as_thick_as_the_blank() {
        let mut board = on_slab(400.0);
        board.panel.build = Build::Halves;
        assert_eq!(found(&board)[0].measured, Some(Measure::mm(11.0)));
        board.stock.thickness = 43.0;
        assert_eq!(found(&board), []);
    }

    #[test]
    fn halves_and_strips_that_the_blank_does_not_give_are_told() {
        let mut board = on_slab(200.0);
        board.stock.thickness = 60.0;
        board.panel.build = Build::Halves;
        assert_eq!(found(&board)[0].severity, Severity::Stop);
        board.panel.build = Build::Strips { count: 2 };
        assert_eq!(found(&board)[0].severity, Severity::Caution);
        let mut wide = on_slab(400.0);
        wide.panel.build = Build::Strips { count: 2 };
        assert_eq!(found(&wide), []);
    }

    #[test]
    fn a_blank_that_crosses_itself_is_told() {
        let mut board = on_slab(600.0);
        board.stock.outline = StockOutline::Corners {
            corners: vec![[0.0, 0.0], [9.0, 9.0], [9.0, 0.0], [0.0, 9.0]],
        };
        let found = found(&board);
        assert_eq!(found.len(), 1);
        assert!(found[0].message.contains("edge 1"), "{}", found[0].message);
    }
}
