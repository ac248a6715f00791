//! Rule: bit, bushing and hardboard of a router template fit each other and the bores.

use board::{Board, Bottom, Hole, INCH, Layout, Measure, Router, several, show_length};

use crate::Workpiece;
use crate::check::{Finding, HAIR, Rule, Severity};
use crate::hardboard::router::routed;

pub const STATEMENT: &str = "The bit goes through its guide bushing and into every hole. The walls of a bushing are \
     {0.8 mm|1/32\"} or more (from memory: measure its bore). A bushing as long as the hardboard is thick rides on \
     the wood, so {0.5 mm|0.02\"} of air is left below it; it reaches {2 mm|5/64\"} or more into its hole to be \
     guided. Both are common practice, no source.";

/// Least clearance below the bushing, mm.
pub const AIR: f64 = 0.5;
/// Least depth that the bushing reaches into the hardboard, mm.
pub const LED: f64 = 2.0;
/// The thinnest wall of usual bushings, mm.
pub const WALL: f64 = INCH / 32.0;

/// Parts that do not fit: bit and bushing, bushing and hardboard, bit and bores.
pub fn check(workpiece: &Workpiece) -> Vec<Finding> {
    let (board, layout) = (workpiece.board(), workpiece.layout());
    let Some(router) = board.router else {
        return Vec::new();
    };
    let found = [
        bit(board, router),
        reach(board, router),
        narrow(board, layout, router),
        shape(layout, router),
    ];
    found.into_iter().flatten().collect()
}

/// A bit too wide for its bushing, or for the thinnest usual wall.
fn bit(board: &Board, router: Router) -> Option<Finding> {
    let length = |mm| show_length(mm, board.units);
    let (is, wanted) = (router.bushing, router.bit + 2.0 * WALL);
    let (severity, message) = if router.wider() <= 0.0 {
        let message = format!(
            "The {} bit does not go through the {} bushing. Use a smaller bit or a larger bushing.",
            length(router.bit),
            length(router.bushing)
        );
        (Severity::Stop, message)
    } else if is < wanted - HAIR {
        let message = format!(
            "The {} bit in the {} bushing leaves {} for each wall. Measure whether the bit goes through.",
            length(router.bit),
            length(router.bushing),
            length(router.wider() / 2.0)
        );
        (Severity::Caution, message)
    } else {
        return None;
    };
    Some(finding(severity, message, is, wanted))
}

/// A bushing that reaches through the hardboard and rides on the wood, or nearly so, or one so short that it may jump out.
fn reach(board: &Board, router: Router) -> Option<Finding> {
    let length = |mm| show_length(mm, board.units);
    let (reach, sheet) = (router.reach, router.hardboard);
    let (severity, wanted, message) = if reach >= sheet {
        let message = format!(
            "The bushing is {} long and the hardboard {} thick: the bushing would ride on the wood. Use a shorter bushing or thicker hardboard.",
            length(reach),
            length(sheet)
        );
        (Severity::Stop, sheet - AIR, message)
    } else if reach > sheet - AIR + HAIR {
        let message = format!(
            "The bushing ends {} above the wood, and chips below it will lift the router. Use a shorter bushing or thicker hardboard.",
            length(sheet - reach)
        );
        (Severity::Caution, sheet - AIR, message)
    } else if reach < LED {
        let message = format!(
            "The bushing reaches only {} into the hardboard and may jump out. Use a longer bushing.",
            length(reach)
        );
        (Severity::Caution, LED, message)
    } else {
        return None;
    };
    Some(finding(severity, message, reach, wanted))
}

/// Bores narrower than the bit.
fn narrow(board: &Board, layout: &Layout, router: Router) -> Option<Finding> {
    let is_narrow = |hole: &&Hole| hole.bore.cutter() < router.bit - HAIR;
    let holes: Vec<&Hole> = routed(layout).filter(is_narrow).collect();
    let narrowest = holes
        .iter()
        .map(|hole| hole.bore.cutter())
        .reduce(f64::min)?;
    let message = format!(
        "The {} bit is wider than {}; the smallest is {}. Use a smaller bit.",
        show_length(router.bit, board.units),
        several(holes.len(), "hole"),
        show_length(narrowest, board.units)
    );
    let names = holes.iter().map(|hole| hole.name).collect();
    Some(finding(Severity::Stop, message, narrowest, router.bit).about(names))
}

/// Bottoms that a router cannot cut: it leaves no point, and a round bottom only with a bit of the same radius.
fn shape(layout: &Layout, router: Router) -> Option<Finding> {
    let is_made = |hole: &Hole| match hole.bore.bottom {
        Bottom::Flat => true,
        Bottom::Ball => (hole.bore.cutter() - router.bit).abs() <= HAIR,
        Bottom::Point118 | Bottom::Point135 | Bottom::Forstner => false,
    };
    let others: Vec<&Hole> = routed(layout).filter(|hole| !is_made(hole)).collect();
    let first = others.first()?;
    let message = format!(
        "A router bit does not leave the bottom planned for {} ({}). Choose the bottom that your bit leaves; the other checks \
         count with the planned one.",
        several(others.len(), "hole"),
        first.bore.bottom.label()
    );
    let names = others.iter().map(|hole| hole.name).collect();
    Some(Finding::new(Severity::Note, Rule::Bushing, message).about(names))
}

/// A finding with a length's actual and required value, mm.
fn finding(severity: Severity, message: String, is: f64, wanted: f64) -> Finding {
    Finding::new(severity, Rule::Bushing, message).measuring(Measure::mm(is), Measure::mm(wanted))
}

#[cfg(test)]
mod tests {
    use super::*;
    use board::{Bore, Bores, Center};

    fn found(router: Router, bore: Bore) -> Vec<Finding> {
        let board = Board {
            router: Some(router),
            bores: Bores::all(bore),
            center: Center::Pivot {
                diameter: 6.0,
                depth: 10.0,
            },
            ..Board::default()
        };
        check(&Workpiece::of(&board).unwrap())
    }

    fn bore(bottom: Bottom) -> Bore {
        Bore {
            diameter: 12.0,
            depth: 6.0,
            bottom,
        }
    }

    fn severities(router: Router) -> Vec<Severity> {
        let found = found(router, bore(Bottom::Flat));
        found.iter().map(|found| found.severity).collect()
    }

    #[test]
    fn a_bushing_is_shorter_than_the_hardboard_and_long_enough_to_guide() {
        let reaching = |reach: f64| {
            severities(Router {
                reach,
                hardboard: 6.0,
                ..Router::default()
            })
        };
        assert_eq!(reaching(5.0), []);
        assert_eq!(reaching(5.5), []);
        assert_eq!(reaching(6.0), [Severity::Stop]);
        assert_eq!(reaching(5.8), [Severity::Caution]);
        assert_eq!(reaching(1.5), [Severity::Caution]);
        let none = Board::default();
        assert_eq!(check(&Workpiece::of(&none).unwrap()), []);
    }

    /// Walls of 1/32 in, as on a bushing of 5/16 in with an inside diameter of 1/4 in; the pivot of 6 mm is not routed.
    #[test]
    fn a_bit_must_fit_its_bushing_and_every_bore() {
        let fitted = |bushing: f64, bit: f64| {
            severities(Router {
                bushing,
                bit,
                ..Router::default()
            })
        };
        assert_eq!(fitted(14.0, 12.0), []);
        assert_eq!(fitted(5.0 / 16.0 * INCH, INCH / 4.0), []);
        assert_eq!(fitted(13.0, 12.0), [Severity::Caution]);
        assert_eq!(fitted(12.0, 12.0), [Severity::Stop]);
        assert_eq!(fitted(18.0, 14.0), [Severity::Stop]);
    }

    #[test]
    fn a_bottom_that_no_router_can_cut_is_reported() {
        let noted = |bottom, bit: f64| {
            let router = Router {
                bit,
                ..Router::default()
            };
            let found = found(router, bore(bottom));
            found.first().map(|found| found.severity)
        };
        assert_eq!(noted(Bottom::Flat, 8.0), None);
        assert_eq!(noted(Bottom::Ball, 12.0), None);
        assert_eq!(noted(Bottom::Ball, 8.0), Some(Severity::Note));
        assert_eq!(noted(Bottom::Forstner, 12.0), Some(Severity::Note));
    }
}
