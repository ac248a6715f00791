//! Rule: the guide bushing reaches into the hardboard, and not through it.

use board::{Board, show_length};

use super::{Finding, Measure, Rule, Severity};

pub const STATEMENT: &str = "A guide bushing that is longer than the hardboard is thick rides on the wood instead of the \
     template's hole; 0.5 mm of air is left below it, and it reaches at least 2 mm into the hole to be led. Both are common \
     practice, no source.";

/// Air that is left below the bushing, mm.
const AIR: f64 = 0.5;
/// How far it reaches in at least, mm.
const LED: f64 = 2.0;

/// A finding where the bushing is too long for the hardboard, or too short to be led by it.
pub fn check(board: &Board) -> Option<Finding> {
    let router = board.router?;
    let length = |mm| show_length(mm, board.units);
    let (reach, sheet) = (router.reach, router.hardboard);
    let (severity, wanted, message) = if reach >= sheet {
        let message = format!(
            "the bushing reaches {} and the hardboard is {}: it would ride on the wood",
            length(reach),
            length(sheet)
        );
        (Severity::Stop, sheet - AIR, message)
    } else if reach > sheet - AIR {
        let message = format!(
            "the bushing ends {} above the wood: chips will lift the router",
            length(sheet - reach)
        );
        (Severity::Caution, sheet - AIR, message)
    } else if reach < LED {
        let message = format!(
            "the bushing reaches only {} into the hardboard and may jump out",
            length(reach)
        );
        (Severity::Caution, LED, message)
    } else {
        return None;
    };
    Some(
        Finding::new(severity, Rule::Bushing, message)
            .measuring(Measure::Mm(reach), Measure::Mm(wanted)),
    )
}

#[cfg(test)]
mod tests {
    use super::*;
    use board::Router;

    #[test]
    fn a_bushing_is_shorter_than_the_hardboard_and_long_enough_to_lead() {
        let severity = |reach: f64| {
            let router = Router {
                reach,
                hardboard: 6.0,
                ..Router::default()
            };
            let board = Board {
                router: Some(router),
                ..Board::default()
            };
            check(&board).map(|found| found.severity)
        };
        assert_eq!(severity(5.0), None);
        assert_eq!(severity(6.0), Some(Severity::Stop));
        assert_eq!(severity(5.8), Some(Severity::Caution));
        assert_eq!(severity(1.5), Some(Severity::Caution));
        assert_eq!(check(&Board::default()), None);
    }
}
