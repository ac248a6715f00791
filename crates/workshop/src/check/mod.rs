//! Findings: what the maker should know or mend before wood is cut. One rule a file.

mod edits;
mod finding;
pub(crate) mod pairs;
mod players;
mod rim;
mod rule;
mod web;

pub(crate) use finding::names_as_text;
pub use finding::{Finding, Measure, Severity};
pub use rule::Rule;

use board::{Board, Layout};

use crate::grooves::Strokes;
use crate::{
    Budget, GroovePlan, SeamTurns, SectorJigError, SectorPlan, StockPlan, base, blank, bores,
    filling, finish, grooves, hardboard, recess, template, wood,
};

/// What is worked out elsewhere and judged here.
#[derive(Debug, Clone, Copy)]
pub struct Judged<'a> {
    /// How many sheets the tiled template takes, or why it cannot be cut into any.
    pub sheets: Result<u32, &'a str>,
    /// Where the board lies on its blank; none while that is not worked out.
    pub stock: Option<&'a StockPlan>,
    /// How the pattern lies to the seams; none without seams.
    pub turns: Option<&'a SeamTurns>,
    /// Where the grooves run; none where none are planned.
    pub grooves: Option<&'a GroovePlan>,
    /// The sector jig, or why there is none; nothing where none is asked for.
    pub sector: Option<&'a Result<SectorPlan, SectorJigError>>,
    /// What the errors of the work leave of the webs, and the most chance of a thin one; none where that cannot be
    /// worked out.
    pub risk: Option<(&'a Budget, f64)>,
}

/// Every finding about a board, worst first.
pub fn check(board: &Board, layout: &Layout, judged: Judged<'_>) -> Vec<Finding> {
    let mut findings = Vec::new();
    findings.extend(web::check(board, layout));
    findings.extend(rim::check(board, layout));
    findings.extend(bores::check::floor::check(board, layout));
    findings.extend(bores::check::inside::check(board, layout));
    findings.extend(blank::check::seam::check(board, layout, judged.turns));
    findings.extend(blank::check::seam::misplaced(board));
    findings.extend(
        judged
            .grooves
            .into_iter()
            .flat_map(|plan| groove_findings(board, layout, plan)),
    );
    findings.extend(bores::check::pilot::check(board));
    findings.extend(bores::check::pieces::check(board, layout));
    findings.extend(bores::check::seat::check(board, layout));
    findings.extend(hardboard::check::web::check(board, layout));
    findings.extend(hardboard::check::bushing::check(board, layout));
    findings.extend(
        judged
            .sector
            .into_iter()
            .flat_map(|jig| hardboard::check::sector::check(board, jig)),
    );
    findings.extend(
        judged
            .risk
            .and_then(|(budget, chance)| template::check::risk::check(board, budget, chance)),
    );
    findings.extend(
        judged
            .stock
            .into_iter()
            .flat_map(|plan| blank::check::stock::check(board, plan)),
    );
    findings.extend(blank::check::planer::check(board));
    findings.extend(blank::check::joinery::check(board));
    findings.extend(recess::check::storage::check(board));
    findings.extend(recess::check::lid::check(board));
    findings.extend(wood::check::check(board));
    findings.extend(base::check::check(board, layout));
    findings.extend(bores::check::spin::check(board, layout));
    findings.extend(filling::check::check(board, layout));
    findings.extend(finish::check::check(board));
    findings.extend(match judged.sheets {
        Ok(sheets) => template::check::sheets::check(board, sheets),
        Err(reason) => Some(template::check::sheets::uncut(reason)),
    });
    findings.extend(players::check(board));
    findings.extend(edits::check(layout));
    findings.sort_by_key(|finding| finding.severity);
    findings
}

fn groove_findings(board: &Board, layout: &Layout, plan: &GroovePlan) -> Vec<Finding> {
    let strokes = Strokes::new(plan);
    let mut findings = grooves::check::bores::check(board, layout, plan, &strokes);
    findings.extend(grooves::check::sides::check(board, plan, &strokes));
    findings.extend(grooves::check::rim::check(board, plan));
    findings.extend(grooves::check::depth::check(board, plan, &strokes));
    findings
}

/// Whether any finding is a stop.
pub fn stops(findings: &[Finding]) -> bool {
    findings
        .iter()
        .any(|finding| finding.severity == Severity::Stop)
}

/// What rounding may take from a length that is as it should be, mm.
pub(crate) const HAIR: f64 = 1e-9;

/// "1 hole", "2 holes".
pub(crate) fn counted(count: usize, one: &str) -> String {
    if count == 1 {
        format!("1 {one}")
    } else {
        format!("{count} {one}s")
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use board::layout;

    fn sheets(sheets: Result<u32, &str>) -> Judged<'_> {
        Judged {
            sheets,
            stock: None,
            risk: None,
            turns: None,
            grooves: None,
            sector: None,
        }
    }

    #[test]
    fn the_board_one_starts_from_has_no_stop() {
        let board = Board::default();
        let findings = check(&board, &layout(&board).unwrap(), sheets(Ok(12)));
        assert!(!stops(&findings), "{findings:#?}");
    }

    #[test]
    fn a_template_that_cannot_be_cut_is_a_finding() {
        let board = Board::default();
        let findings = check(&board, &layout(&board).unwrap(), sheets(Err("no paper")));
        assert!(
            findings
                .iter()
                .any(|found| found.message.contains("no paper"))
        );
    }

    #[test]
    fn the_worst_comes_first() {
        let board = Board {
            pitch: 12.5,
            ..Board::default()
        };
        let findings = check(&board, &layout(&board).unwrap(), sheets(Ok(400)));
        assert!(findings.len() > 1);
        assert!(findings.is_sorted_by_key(|finding| finding.severity));
    }
}
