//! Rule: the board fits on its blank.

use board::{Board, Build, Measure, StockOutline, show_most};
use geometry::{Flaw, Point, Vec2};

use crate::blank::stock::{Slab, StockPlan, strips_of};
use crate::blank::thickness::{Thicknesses, planed_off};
use crate::check::{Finding, HAIR, Rule, Severity};
use crate::{Mend, Workpiece};

pub const STATEMENT: &str = "The board and its trim lie on sound wood, and the blank, or each leaf of it, is at least \
     {1.6 mm|1/16\"} thicker than the board for flattening both faces. That and the default trim, {5 mm|1/4\"}, are common \
     practice, no source.";

/// Every finding about the board on its blank.
pub fn check(workpiece: &Workpiece) -> Vec<Finding> {
    let board = workpiece.board();
    let Some(plan) = workpiece.stock() else {
        // A blank of unknown outline still has a known thickness.
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

/// Greatest error of the search for halves, mm.
const CLOSE: f64 = 0.1;

/// The flaws whose distance from a place passes a test, each as its number, kind and position.
fn flaws_where(
    board: &Board,
    slab: &Slab,
    place: Point,
    is_such: impl Fn(f64) -> bool,
) -> Vec<String> {
    let typed = board.stock.flaws.iter().zip(&slab.flaws).zip(1..);
    let such = typed.filter(|((_, flaw), _)| is_such(away(flaw, place)));
    such.map(|((typed, flaw), number)| {
        let at = middle(flaw);
        let length = |mm| Measure::mm(mm).shown(board.units);
        let (kind, along, across) = (typed.kind.label(), length(at.x), length(at.y));
        format!("flaw {number} ({kind}, {along} along and {across} across)")
    })
    .collect()
}

/// Distance from a place to the nearest wood of a flaw, mm; negative inside it.
fn away(flaw: &Flaw, place: Point) -> f64 {
    match flaw {
        Flaw::Round(circle) => place.distance(circle.center) - circle.radius,
        Flaw::Area(outline) => -geometry::clearance(outline, &[], place),
    }
}

/// The position shown for a flaw: its center, or the mean of its corners.
fn middle(flaw: &Flaw) -> Point {
    match flaw {
        Flaw::Round(circle) => circle.center,
        Flaw::Area(outline) => {
            let corners = outline.corners();
            let sum: Vec2 = corners.iter().map(|corner| corner.to_vec2()).sum();
            (sum / corners.len() as f64).to_point()
        }
    }
}

/// The flaws in the way as a phrase that names the first few; empty if there are none.
fn held_by(flaws: &[String]) -> String {
    /// Number of flaws named in one finding; the rest are counted.
    const TOLD: usize = 3;
    let told = flaws.iter().take(TOLD).map(String::as_str);
    let told: Vec<&str> = told.collect();
    match flaws.len().saturating_sub(TOLD) {
        0 if told.is_empty() => String::new(),
        0 => format!(" In the way: {}.", told.join(", ")),
        more => format!(" In the way: {} and {more} more.", told.join(", ")),
    }
}

/// Most corners of an outline that is checked here; the background study of the blank handles larger ones.
const MOST_CORNERS: usize = 300;

/// The blank, if it is simple enough to be checked here.
fn simple(plan: &StockPlan) -> Option<&Slab> {
    let slab = plan.slab.as_ref().ok()?;
    (slab.outline.corners().len() <= MOST_CORNERS).then_some(slab)
}

/// A blank that does not yield two bookmatched halves of the board. It runs the same search that places the halves.
fn halves(board: &Board, plan: &StockPlan) -> Option<Finding> {
    let slab = simple(plan)?;
    let joint = board.panel.joint;
    let half = geometry::best_half(&slab.outline, &slab.flaws, joint, &|| false).ok()?;
    let radius = half.map_or(0.0, |half| half.radius);
    let wanted = board.blank.radius() + board.stock.trim;
    // The search comes within a twenty-thousandth of the blank's longer side.
    (radius < wanted - CLOSE).then(|| {
        let most = (2.0 * (radius - board.stock.trim)).max(0.0);
        let held = half.map_or(Vec::new(), |half| {
            let touching = |away: f64| (away - radius).abs() < 2.0 * CLOSE;
            flaws_where(board, slab, half.center, touching)
        });
        let message = format!(
            "Two bookmatched halves of the blank give a board of at most {}.{}",
            show_most(most, board.units),
            held_by(&held)
        );
        Finding::new(Severity::Stop, Rule::Stock, message)
            .measuring(Measure::mm(most), Measure::mm(board.blank.diameter))
    })
}

/// A blank in which the search finds no strips. The search may miss a way, so this is a caution and not a stop.
fn strips(board: &Board, plan: &StockPlan) -> Option<Finding> {
    simple(plan)?;
    let slab = plan.slab.as_ref().ok()?;
    strips_of(board, slab).is_none().then(|| {
        let message = "No way was found to saw the strips of this board from the blank. Try another number of strips, or \
             lay them out on the wood yourself.";
        Finding::new(Severity::Caution, Rule::Stock, message.into())
    })
}

/// A board that does not lie on sound wood: it may fit elsewhere, or the blank is too small for it in one piece.
///
/// Sizes are given as diameters of boards. The flaws that reach into the board are named with their positions, so that the
/// maker need not look for them among all that were entered.
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
    let held = || {
        let (slab, center) = (plan.slab.as_ref().ok()?, plan.center(board)?);
        let is_near = |away: f64| away < wanted - HAIR;
        Some(flaws_where(board, slab, center, is_near))
    };
    let held = held_by(&held().unwrap_or_default());
    let (message, mends): (_, &[Mend]) = if elsewhere {
        (
            format!(
                "The board does not fit where it lies on the blank: {} is missing at its edge. It fits elsewhere.{held}",
                length(wanted - room)
            ),
            &[Mend::BestPlace],
        )
    } else {
        (
            format!(
                "The blank gives a board of at most {}, {} smaller than this one. Gluing up pieces of it may give a larger one.{held}",
                show_most(largest, board.units),
                length(board.blank.diameter - largest)
            ),
            &[],
        )
    };
    let here = (2.0 * (room - board.stock.trim)).max(0.0);
    Some(
        Finding::new(Severity::Stop, Rule::Stock, message)
            .measuring(Measure::mm(here), Measure::mm(board.blank.diameter))
            .mended_by(mends),
    )
}

/// A blank, or parts of one, thinner than the board or with too little wood to plane off.
fn thickness(board: &Board) -> Option<Finding> {
    let at = Thicknesses::of(board);
    let (is, wanted) = (at.sawn, at.finished);
    if at.is_enough(&board.panel.build) {
        return None;
    }
    let (what, planing) = match board.panel.build {
        Build::Halves => (
            "Each of the two leaves is",
            "to flatten before and after glue-up for a board",
        ),
        Build::Strips { .. } => (
            "The blank is",
            "to flatten its strips before and after glue-up for a board",
        ),
        Build::Whole | Build::Seams { .. } => ("The blank is", "to flatten both faces of a board"),
    };
    let length = |mm| Measure::mm(mm).shown(board.units);
    let (severity, short) = if is < wanted - HAIR {
        (Severity::Stop, "thinner than the board".to_owned())
    } else {
        (Severity::Caution, format!("too thin {planing}"))
    };
    let message = format!(
        "{what} {} thick, {short} of {}. Use a thicker blank or a thinner board.",
        length(is),
        length(wanted)
    );
    let finding = Finding::new(severity, Rule::Stock, message);
    Some(finding.measuring(
        Measure::mm(is),
        Measure::mm(wanted + planed_off(&board.panel.build)),
    ))
}

#[cfg(test)]
mod tests {
    use super::*;
    use board::INCH;

    /// A board of 560 mm from a slab of 1200 mm.
    fn on_slab(width: f64) -> Board {
        let mut board = Board::default();
        board.blank.diameter = 560.0;
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
        assert!(narrow[0].message.contains("1 mm smaller"), "{narrow:?}");
    }

    #[test]
    fn a_blank_without_an_outline_still_has_a_thickness() {
        let mut board = Board::default();
        assert_eq!(found(&board), []);
        board.blank.thickness = 26.0;
        assert_eq!(found(&board)[0].measured, Some(Measure::mm(25.0)));
        assert_eq!(found(&board)[0].severity, Severity::Stop);
    }

    #[test]
    fn a_blank_is_thick_enough_to_be_flattened() {
        let severity = |board: f64, blank: f64| {
            let mut thick = Board::default();
            (thick.blank.thickness, thick.stock.thickness) = (board, blank);
            found(&thick).first().map(|found| found.severity)
        };
        let sixteenth = INCH / 16.0;
        assert_eq!(severity(20.0, 20.0 + sixteenth), None);
        assert_eq!(severity(20.0, 21.5), Some(Severity::Caution));
        assert_eq!(severity(20.0, 20.0), Some(Severity::Caution));
        assert_eq!(severity(20.0, 19.9), Some(Severity::Stop));
        assert_eq!(severity(15.0 / 16.0 * INCH, INCH), None);
    }

    #[test]
    fn a_flaw_in_the_way_is_named_with_its_place() {
        let mut board = on_slab(600.0);
        let knot = |x, y| board::StockFlaw {
            kind: board::FlawKind::Knot,
            shape: board::FlawShape::Round {
                x,
                y,
                diameter: 20.0,
            },
        };
        board.stock.flaws = vec![knot(760.0, 300.0), knot(450.0, 300.0)];
        let stopped = found(&board).remove(0);
        let said = "In the way: flaw 2 (knot, 450 mm along and 300 mm across).";
        assert!(stopped.message.ends_with(said), "{}", stopped.message);
        // Between the left end and that knot, given as a diameter less the trim, as in the message.
        let Some(Measure { value, .. }) = stopped.measured else {
            panic!("no measure")
        };
        assert!(value > 430.0 && value < board.blank.diameter, "{value}");
        assert_eq!(stopped.wanted, Some(Measure::mm(board.blank.diameter)));
        board.stock.flaws = vec![knot(50.0, 50.0), knot(600.0, 30.0)];
        board.stock.place = Some([600.0, 300.0]);
        let moved = found(&board).remove(0);
        assert!(moved.message.contains("In the way: flaw 2"), "{moved:?}");
        assert_eq!(moved.mends, [Mend::BestPlace]);
        board.stock.flaws.clear();
        board.stock.place = Some([100.0, 300.0]);
        assert!(!found(&board)[0].message.contains("in the way"));
    }

    #[test]
    fn a_bad_place_is_fixed_by_moving_to_the_best_one() {
        let mut board = on_slab(600.0);
        board.stock.place = Some([100.0, 300.0]);
        assert_eq!(found(&board)[0].mends, [Mend::BestPlace]);
    }

    #[test]
    fn leaves_are_half_as_thick_as_the_blank() {
        let mut board = on_slab(400.0);
        board.panel.build = Build::Halves;
        assert_eq!(found(&board)[0].measured, Some(Measure::mm(11.0)));
        // A kerf of 3 mm; each leaf loses 1/16 in to flattening before glue-up and 1/16 in after it.
        board.stock.thickness = 2.0 * (20.0 + INCH / 8.0) + 3.0;
        assert_eq!(found(&board), []);
        board.stock.thickness -= 0.1;
        let thin = found(&board).remove(0);
        assert_eq!(thin.severity, Severity::Caution);
        assert!(
            thin.message.contains("before and after glue-up"),
            "{thin:?}"
        );
    }

    #[test]
    fn missing_wood_for_halves_and_strips_is_reported() {
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
    fn a_blank_that_crosses_itself_is_reported() {
        let mut board = on_slab(600.0);
        board.stock.outline = StockOutline::Corners {
            corners: vec![[0.0, 0.0], [9.0, 9.0], [9.0, 0.0], [0.0, 9.0]],
        };
        let found = found(&board);
        assert_eq!(found.len(), 1);
        assert!(found[0].message.contains("edge 1"), "{}", found[0].message);
    }
}
