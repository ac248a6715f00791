//! Findings: what the maker should know or mend before wood is cut. One rule a file.

mod edits;
mod floor;
mod pieces;
mod pilot;
mod rim;
mod sheets;
mod web;

use board::{Board, HoleName, Layout};
use serde::{Serialize, Serializer};

/// Something the maker should know or mend.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Finding {
    /// How much it matters.
    pub severity: Severity,
    /// The rule it is measured by.
    pub rule: Rule,
    /// What is found, in a sentence, in the maker's units.
    pub message: String,
    /// What was measured, where there is a measure.
    pub measured: Option<Measure>,
    /// What the rule wants.
    pub wanted: Option<Measure>,
    /// The holes it is about.
    #[serde(serialize_with = "names_as_text")]
    pub holes: Vec<HoleName>,
}

/// How much a finding matters.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Severity {
    /// The board cannot be made or used like this.
    Stop,
    /// It can, but the maker should look twice.
    Caution,
    /// Good to know.
    Note,
}

impl Severity {
    /// The word that screens and reports use.
    pub const fn label(self) -> &'static str {
        match self {
            Self::Stop => "stop",
            Self::Caution => "caution",
            Self::Note => "note",
        }
    }
}

/// What was measured or wanted.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Measure {
    /// A length in mm.
    Mm(f64),
    /// A number of things.
    Count(u32),
}

/// The rules.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Rule {
    /// Wood between two bores.
    Web,
    /// Wood between a bore and the roundover.
    Rim,
    /// Wood under a blind bore.
    Floor,
    /// The center pilot against the circle jig's pin.
    Pilot,
    /// Room between pieces that stand side by side.
    Pieces,
    /// Sheets of the template.
    Sheets,
    /// Changes by hand that wait for their hole.
    Edits,
}

impl Rule {
    /// Every rule, in the order they are checked.
    pub const ALL: [Self; 7] = [
        Self::Web,
        Self::Rim,
        Self::Floor,
        Self::Pilot,
        Self::Pieces,
        Self::Sheets,
        Self::Edits,
    ];

    /// What the rule is called, in a word or two.
    pub const fn label(self) -> &'static str {
        match self {
            Self::Web => "web",
            Self::Rim => "rim margin",
            Self::Floor => "floor",
            Self::Pilot => "center pilot",
            Self::Pieces => "room for pieces",
            Self::Sheets => "sheets",
            Self::Edits => "changes by hand",
        }
    }

    /// The rule in a sentence, with where its limit comes from.
    pub const fn statement(self) -> &'static str {
        match self {
            Self::Web => web::STATEMENT,
            Self::Rim => rim::STATEMENT,
            Self::Floor => floor::STATEMENT,
            Self::Pilot => pilot::STATEMENT,
            Self::Pieces => pieces::STATEMENT,
            Self::Sheets => sheets::STATEMENT,
            Self::Edits => edits::STATEMENT,
        }
    }
}

/// Every finding about a board, worst first.
///
/// `sheets` is the number of sheets that the tiled template takes, or why it cannot be cut into any.
pub fn check(board: &Board, layout: &Layout, sheets: Result<u32, &str>) -> Vec<Finding> {
    let mut findings = Vec::new();
    findings.extend(web::check(board, layout));
    findings.extend(rim::check(board, layout));
    findings.extend(floor::check(board, layout));
    findings.extend(pilot::check(board));
    findings.extend(pieces::check(board, layout));
    findings.extend(match sheets {
        Ok(sheets) => sheets::check(board, sheets),
        Err(reason) => Some(sheets::uncut(reason)),
    });
    findings.extend(edits::check(layout));
    findings.sort_by_key(|finding| finding.severity);
    findings
}

/// Whether any finding is a stop.
pub fn stops(findings: &[Finding]) -> bool {
    findings
        .iter()
        .any(|finding| finding.severity == Severity::Stop)
}

fn names_as_text<S: Serializer>(names: &[HoleName], serializer: S) -> Result<S::Ok, S::Error> {
    serializer.collect_seq(names.iter().map(ToString::to_string))
}

/// What rounding may take from a length that is as it should be, mm.
const HAIR: f64 = 1e-9;

/// "1 hole", "2 holes".
fn counted(count: usize, one: &str) -> String {
    if count == 1 {
        format!("1 {one}")
    } else {
        format!("{count} {one}s")
    }
}

/// The names in table order, each once.
fn in_order(mut holes: Vec<HoleName>) -> Vec<HoleName> {
    holes.sort_by_key(|name| name.id());
    holes.dedup();
    holes
}

#[cfg(test)]
mod tests {
    use super::*;
    use board::layout;

    #[test]
    fn the_board_one_starts_from_has_no_stop() {
        let board = Board::default();
        let findings = check(&board, &layout(&board).unwrap(), Ok(12));
        assert!(!stops(&findings), "{findings:#?}");
    }

    #[test]
    fn a_template_that_cannot_be_cut_is_a_finding() {
        let board = Board::default();
        let findings = check(&board, &layout(&board).unwrap(), Err("no paper"));
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
        let findings = check(&board, &layout(&board).unwrap(), Ok(400));
        assert!(findings.len() > 1);
        assert!(findings.is_sorted_by_key(|finding| finding.severity));
    }
}
