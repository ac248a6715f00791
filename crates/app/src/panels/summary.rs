//! A folded section in a few words: its main numbers, or how many of its fields are not as on a new board.

use board::{Board, Field, Value, counted, field, several};
use workshop::{Finding, Severity};

use crate::current::Current;
use crate::section::Section;
use crate::widgets::Header;

/// A field of a summary, and its words, in which `{}` is its value.
type Part = (&'static Field, &'static str);

/// The main fields of sections, for those that have any.
const PARTS: &[(Section, &[Part])] = &[
    (
        Section::Board,
        &[
            (&field::BOARD_DIAMETER, "{}"),
            (&field::BOARD_THICKNESS, "{} thick"),
        ],
    ),
    (
        Section::Pattern,
        &[
            (&field::PLAYERS, "{} players"),
            (&field::PATTERN, "{}"),
            (&field::SPACES, "{} spaces"),
        ],
    ),
    (
        Section::Lanes,
        &[(&field::HOME, "{} home"), (&field::START, "{} start")],
    ),
    (
        Section::Pieces,
        &[(&field::PIECE_KIND, "{}"), (&field::PIECE_DIAMETER, "{}")],
    ),
    (Section::Center, &[(&field::CENTER, "{}")]),
    (Section::Weight, &[(&field::PIECE_MASS, "{} each")]),
    (Section::Holes, &[(&field::EDITS, "change")]),
    (Section::Species, &[(&field::SPECIES, "{}")]),
    (
        Section::Blank,
        &[
            (&field::STOCK_OUTLINE, "{}"),
            (&field::STOCK_THICKNESS, "{} thick"),
        ],
    ),
    (
        Section::Joining,
        &[(&field::BUILD, "{}"), (&field::TENONS, "tenons")],
    ),
    (Section::Screws, &[(&field::SCREWS, "circle")]),
    (
        Section::Base,
        &[
            (&field::FOOTING, "{}"),
            (&field::BASE_HEIGHT, "{} high"),
            (&field::PASSAGE, "an opening"),
        ],
    ),
    (
        Section::Template,
        &[(&field::PAPER, "{}"), (&field::MARKING, "{}")],
    ),
    (
        Section::Hardboard,
        &[
            (&field::ROUTER, "router template"),
            (&field::SECTOR_JIG, "one-player jig"),
        ],
    ),
    (
        Section::Bores,
        &[
            (&field::TRACK_DIAMETER, "{}"),
            (&field::TRACK_DEPTH, "{} deep"),
        ],
    ),
    (Section::Jig, &[(&field::METHOD, "{}")]),
    (Section::Machine, &[(&field::MACHINE, "by machine")]),
    (
        Section::Repair,
        &[
            (&field::DISTANCES, "distance"),
            (&field::WRONG_HOLES, "wrong hole"),
        ],
    ),
    (Section::Grooves, &[(&field::GROOVE_WIDTH, "{} wide")]),
    (
        Section::Storage,
        &[
            (&field::RECESS_SHAPE, "{}"),
            (&field::RECESS_DEPTH, "{} deep"),
        ],
    ),
    (Section::Filling, &[(&field::FILLING, "resin")]),
    (Section::Coats, &[(&field::COATS, "coat")]),
    (
        Section::Calendar,
        &[(&field::ORDERED, "boards: {}"), (&field::PROMISED, "by {}")],
    ),
    (Section::Times, &[(&field::TIMED, "time")]),
    (Section::Done, &[(&field::DONE, "operation")]),
    (Section::Price, &[(&field::HOURLY, "{} an hour")]),
    (Section::Quote, &[(&field::CUSTOMER, "for {}")]),
];

/// The words and the mark on the header of a section.
pub fn header_of(section: Section, board: &Board, current: &Current) -> Header {
    let good = current.good();
    let findings = good.map_or(&[][..], |workpiece| workpiece.findings());
    let changed = current.changed(section);
    let told = told(section, board);
    Header {
        summary: if told.is_empty() && !changed.is_empty() {
            format!("{} changed", changed.len())
        } else {
            told
        },
        held: held_words(findings, |finding| {
            Section::of_rule(finding.rule) == section
        }),
        changed: changed.join(", "),
    }
}

/// The worst of some findings, and how many stops and cautions there are among them; none where all is well.
pub fn held_words(
    findings: &[Finding],
    is_meant: impl Fn(&Finding) -> bool,
) -> Option<(Severity, String)> {
    let count = |severity| {
        let is_it = |finding: &&Finding| finding.severity == severity && is_meant(finding);
        findings.iter().filter(is_it).count()
    };
    let told = [Severity::Stop, Severity::Caution].map(|severity| (severity, count(severity)));
    let (worst, _) = *told.iter().find(|(_, count)| *count > 0)?;
    let words = told.iter().filter(|(_, count)| *count > 0);
    let words = words.map(|(severity, count)| several(*count, severity.label()));
    Some((worst, words.collect::<Vec<_>>().join(", ")))
}

/// The main numbers of a section; empty where it has none now.
fn told(section: Section, board: &Board) -> String {
    let parts = PARTS.iter().filter(|(its, _)| *its == section);
    let parts = parts.flat_map(|(_, parts)| *parts);
    let said: Vec<String> = parts
        .filter_map(|(field, words)| said(board, field, words))
        .collect();
    said.join(", ")
}

/// A field's value in words; `None` where the board does not have the field, or its value is left open.
fn said(board: &Board, field: &Field, words: &str) -> Option<String> {
    let value = field.value(board, 0)?;
    match value {
        Value::Open | Value::Tick(false) | Value::Entries(0) => None,
        Value::Text(ref text) if text.is_empty() => None,
        Value::Tick(true) => Some(words.into()),
        Value::Entries(count) => Some(counted(count, words, &format!("{words}s"))),
        value => Some(words.replace("{}", &field.shown(&value, board.units))),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use board::{Recess, Units};

    #[test]
    fn a_section_says_its_main_numbers_or_what_was_changed() {
        let mut board = Board::default();
        let summary = |section, board: &Board| {
            let current = Current::of(board);
            header_of(section, board, &current).summary
        };
        assert_eq!(summary(Section::Lanes, &board), "5 home, 3 start");
        assert_eq!(summary(Section::Storage, &board), "");
        assert_eq!(summary(Section::Limits, &board), "");
        board.recess = Some(Recess::default());
        board.limits.web = 2.5;
        board.units = Units::INCH;
        assert!(summary(Section::Storage, &board).starts_with("round, "));
        assert!(summary(Section::Limits, &board).ends_with(" changed"));
        let current = Current::of(&board);
        let changed = header_of(Section::Limits, &board, &current).changed;
        assert!(changed.contains("Least wood between holes"), "{changed}");
    }

    #[test]
    fn a_stop_is_marked_on_the_section_in_which_it_is_mended() {
        let board = Board {
            pitch: 12.0,
            ..Board::default()
        };
        let current = Current::of(&board);
        let held = |section| header_of(section, &board, &current).held;
        assert_eq!(held(Section::Pattern).unwrap().0, Severity::Stop);
        assert_eq!(held(Section::Calendar), None);
    }
}
