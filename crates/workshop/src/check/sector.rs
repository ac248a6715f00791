//! Rule: what pin play adds up to leaves wood where a sector jig comes round to the first sector.

use board::{Board, Layout, show_length};

use super::{Finding, Measure, Rule, Severity, counted};
use crate::sector_jig;

pub const STATEMENT: &str = "A jig that is turned from sector to sector adds up the play of its pins, and the last sector \
     still leaves the least web to the first. The error is added up as the sector jig's page says.";

/// A finding where the last web may come out too thin, or where holes differ from sector to sector.
pub fn check(board: &Board, layout: &Layout) -> Vec<Finding> {
    match sector_jig(board, layout) {
        None => Vec::new(),
        Some(Err(error)) => {
            vec![Finding::new(
                Severity::Stop,
                Rule::SectorJig,
                error.to_string(),
            )]
        }
        Some(Ok(plan)) => {
            let thin = plan.closing.and_then(|(a, b, _)| {
                let (worst, likely) = plan.left;
                let length = |mm| show_length(mm, board.units);
                let (severity, message) = if worst <= 0.0 {
                    let message = format!("after the last turn {a} and {b} may run into each other: at worst they overlap by {}", length(-worst));
                    (Severity::Stop, message)
                } else if likely < board.limits.web {
                    let message = format!("after the last turn {a} and {b} are likely to keep only {}", length(likely));
                    (Severity::Caution, message)
                } else {
                    return None;
                };
                let is = Measure::Mm(if worst <= 0.0 { worst } else { likely });
                let found = Finding::new(severity, Rule::SectorJig, message);
                Some(found.measuring(is, Measure::Mm(board.limits.web)).about(vec![a, b]))
            });
            let apart = (!plan.apart.is_empty()).then(|| {
                let message = format!(
                    "{} changed by hand in one sector only: the jig does not drill them so",
                    counted(plan.apart.len(), "hole")
                );
                Finding::new(Severity::Note, Rule::SectorJig, message).about(plan.apart.clone())
            });
            thin.into_iter().chain(apart).collect()
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use board::{SectorJig, layout};

    fn severity(play: f64) -> Option<Severity> {
        let board = Board {
            sector_jig: Some(SectorJig { pins: 1, play }),
            ..Board::default()
        };
        let found = check(&board, &layout(&board).unwrap());
        found.first().map(|found| found.severity)
    }

    /// 7 mm of wood between spaces, 3 mm wanted.
    #[test]
    fn play_that_eats_the_last_web_is_found() {
        assert_eq!(severity(0.0), None);
        assert_eq!(severity(0.1), None);
        assert_eq!(severity(5.0), Some(Severity::Stop));
    }
}
