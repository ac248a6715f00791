//! Everything that the program says of a board, gathered over many made-up boards, and held to the grammar that a reader expects.
//!
//! `WORDS_TABLE=words.tsv cargo test -p tests --test words` writes the table of all of it: where each sentence stands, and the sentence,
//! once each, to be read from top to bottom.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    reason = "a test that cannot go on has failed"
)]

mod grammar;
mod made;

use std::collections::BTreeMap;
use std::fmt::Write as _;

use board::{Board, Fraction, Units};
use tests::samples;
use workshop::{
    Caution, FIRST, PROTECTION, Rule, Workpiece, age_words, care_words, finish_needs, to_mask,
};

/// Boards that are made up, in each unit.
const BOARDS: u64 = 60;

/// Sentences by where they stand: "finding floor", "step Bores".
type Said = BTreeMap<String, String>;

/// Keeps a sentence with the first place where it stands.
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

/// Sentences on a board: findings with their measures, steps, sums with their notes, the words of the card.
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

/// Every sentence about the samples and about made-up boards, in millimeters and in inches.
fn gathered() -> Said {
    let mut said = Said::new();
    fixed(&mut said);
    let sampled = samples().into_iter().map(|(_, board)| board);
    let made = (0..BOARDS).map(made::board);
    for board in sampled.chain(made) {
        for units in [Units::Mm, Units::Inch(Fraction::Sixteenth)] {
            let board = Board {
                units,
                ..board.clone()
            };
            of_board(&mut said, &board);
        }
    }
    said
}

#[test]
fn every_sentence_is_put_as_a_reader_expects() {
    let said = gathered();
    if let Ok(path) = std::env::var("WORDS_TABLE") {
        std::fs::write(&path, table(&said)).unwrap();
    }
    assert!(said.len() > 1000, "{}", said.len());
    let mut faults = String::new();
    for (words, place) in &said {
        for fault in grammar::faults(words) {
            writeln!(faults, "{fault}: [{place}] {words}").unwrap();
        }
    }
    assert!(faults.is_empty(), "\n{faults}");
}

/// Every place with its sentences, a line each.
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
