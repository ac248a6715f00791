//! Everything that the program says about a board, collected over many generated boards, and checked against the grammar that a
//! reader expects: findings, calculations, steps, the help and the errors of the commands, the pages of the guide.
//!
//! `WORDS_TABLE=words.tsv cargo test -p tests --test words` writes a table of it all: each sentence once, with the place where
//! it first appears, to be read from top to bottom. The window has a test of its own, in `crates/app/src/stories/words.rs`.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    reason = "a test that cannot go on has failed"
)]

mod command;
mod made;

use std::collections::BTreeMap;
use std::fmt::Write as _;

use board::{Board, Fraction, Units};
use testkit::grammar_faults;
use tests::samples;
use workshop::{
    Caution, FIRST, PROTECTION, Rule, Workpiece, age_words, care_words, finish_needs, to_mask,
};

/// Number of boards generated in each unit.
const BOARDS: u64 = 60;

/// Sentences by the place where they appear: "finding floor", "step Bores".
type Said = BTreeMap<String, String>;

/// Collects a sentence with the first place where it appears.
fn keep(said: &mut Said, place: &str, words: &str) {
    if !words.is_empty() && !said.contains_key(words) {
        said.insert(words.to_owned(), place.to_owned());
    }
}

/// Sentences that do not depend on a board: cautions, rules.
fn fixed(said: &mut Said) {
    keep(said, "caution", FIRST);
    keep(said, "caution", PROTECTION);
    for caution in Caution::ALL {
        keep(said, "caution", &caution.in_full());
    }
    for rule in Rule::ALL {
        keep(said, "rule", rule.label());
        for units in [Units::Mm, Units::INCH] {
            keep(said, "rule", &rule.statement(units));
        }
    }
}

/// Sentences about a board: findings with their measures, steps, calculations with their notes, the words of the card.
fn of_board(said: &mut Said, board: &Board) {
    let Ok(workpiece) = Workpiece::of(board) else {
        return;
    };
    for finding in workpiece.findings() {
        let place = format!("finding {}", finding.rule.label());
        keep(said, &place, &finding.message);
        let measures = finding.measures(board.units).unwrap_or_default();
        keep(said, &place, &measures);
    }
    for operation in &workpiece.work_plan().operations {
        let place = format!("step {}", operation.task.title());
        keep(said, &place, &operation.tool);
        for words in &operation.work {
            keep(said, &place, words);
        }
        keep(said, &place, operation.wait.map_or("", |wait| wait.reason));
        for need in &operation.needs {
            keep(said, &place, need.why);
        }
    }
    for group in workpiece.sums() {
        let place = format!("sum {}", group.heading);
        for sum in &group.sums {
            keep(said, &place, &sum.titled(board.units));
            let shown = sum.shown(board.units);
            keep(said, &place, &shown);
            keep(said, &place, sum.formula);
            keep(said, &place, sum.source);
        }
        for note in &group.notes {
            keep(said, &place, note);
        }
    }
    for words in age_words(board).into_iter().chain(care_words(board)) {
        keep(said, "card", &words);
    }
    for words in to_mask(&workpiece) {
        keep(said, "masking", &words);
    }
    for need in finish_needs(&workpiece, board.schedule.boards) {
        keep(said, "finish", need.kind.label());
    }
}

/// Every sentence about the samples and about generated boards, in millimeters and in inches.
fn gathered() -> Said {
    let mut said = Said::new();
    fixed(&mut said);
    command::help(&mut said);
    pages(&mut said);
    let sampled: Vec<Board> = samples().into_iter().map(|(_, board)| board).collect();
    let made: Vec<Board> = (0..BOARDS).map(made::board).collect();
    for units in [Units::Mm, Units::Inch(Fraction::Sixteenth)] {
        let shown = |board: &Board| Board {
            units,
            ..board.clone()
        };
        let sampled: Vec<Board> = sampled.iter().map(shown).collect();
        for board in sampled.iter().cloned().chain(made.iter().map(shown)) {
            of_board(&mut said, &board);
        }
        command::exports(&mut said, &shown(&Board::default()));
        command::fields(&mut said, &shown(&Board::default()));
    }
    command::errors(&mut said);
    said
}

/// Collects the lines of the guide, of the pages on formats and of the other documents, without their markup; code is left out.
fn pages(said: &mut Said) {
    let docs = tests::source::repository().join("docs");
    let mut paths = vec![docs.join("changelog.md"), docs.join("install.md")];
    for folder in ["guide", "formats"] {
        let entries = std::fs::read_dir(docs.join(folder)).unwrap();
        paths.extend(entries.map(|entry| entry.unwrap().path()));
    }
    paths.retain(|path| path.extension().is_some_and(|kind| kind == "md"));
    paths.sort();
    for path in paths {
        let place = format!("page {}", path.file_name().unwrap().to_string_lossy());
        let text = std::fs::read_to_string(&path).unwrap();
        // Every second part between fences is code.
        for part in text.split("```").step_by(2) {
            // Lines that begin with four spaces are code, too.
            for line in part.lines().filter(|line| !line.starts_with("    ")) {
                let words: Vec<String> = plain(line).split_whitespace().map(Into::into).collect();
                keep(said, &place, &words.join(" "));
            }
        }
    }
}

/// A line of a page without link targets and markup.
fn plain(line: &str) -> String {
    let mut parts = line.split("](");
    let mut words = parts.next().unwrap_or_default().to_owned();
    for part in parts {
        words.push_str(part.split_once(')').map_or(part, |(_, after)| after));
    }
    let mut plain = String::new();
    for (at, part) in words.split('`').enumerate() {
        // Every second part is code, represented here by its first word.
        let is_code = at % 2 == 1;
        let mut names = part.split(|letter: char| !letter.is_alphanumeric());
        let name = names.find(|name| !name.is_empty()).unwrap_or("code");
        plain += if is_code { name } else { part };
    }
    plain.replace('|', " ").replace(['*', '#', '>', '['], "")
}

#[test]
fn every_sentence_follows_the_rules_of_grammar() {
    let said = gathered();
    if let Ok(path) = std::env::var("WORDS_TABLE") {
        std::fs::write(&path, table(&said)).unwrap();
    }
    assert!(said.len() > 1000, "{}", said.len());
    let mut faults = String::new();
    for (words, place) in &said {
        // Pages on formats contain constants with all of their digits.
        let is_page = place.starts_with("page ");
        let found = grammar_faults(words).into_iter();
        for fault in found.filter(|fault| !(is_page && fault.starts_with("too many decimals"))) {
            writeln!(faults, "{fault}: [{place}] {words}").unwrap();
        }
    }
    assert!(faults.is_empty(), "\n{faults}");
}

/// Every place with its sentences, one per line.
fn table(said: &Said) -> String {
    let mut lines: Vec<(&String, &String)> =
        said.iter().map(|(words, place)| (place, words)).collect();
    lines.sort();
    let mut table = String::new();
    for (place, words) in lines {
        writeln!(table, "{place}\t{words}").unwrap();
    }
    table
}
