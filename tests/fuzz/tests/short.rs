//! A fixed number of cases of each kind; `cargo run --release -p fuzz -- documents --minutes 600` runs for hours.
#![allow(
    clippy::unwrap_used,
    clippy::panic,
    reason = "a test that cannot go on has failed"
)]

use app::exports::Kind;
use board::{Board, read_board, write_board};
use fuzz::{
    Cost, Draw, bytes_case, corpus_bytes, corpus_typed, document, document_case, extremes, follow,
    mends_offered, seeds, typed_case,
};

fn boards() -> Vec<Board> {
    seeds().into_iter().map(|(_, board)| board).collect()
}

#[test]
fn any_bytes_are_a_valid_board_or_are_refused_with_a_sentence() {
    let from = corpus_bytes();
    for seed in 0..1_500 {
        bytes_case(seed, &from).unwrap_or_else(|fault| panic!("seed {seed}: {fault}"));
    }
}

#[test]
fn any_typed_text_is_a_finite_number_or_is_refused_with_a_sentence() {
    let (from, typed) = (boards(), corpus_typed());
    for seed in 0..20 {
        typed_case(seed, &from, &typed).unwrap_or_else(|fault| panic!("seed {seed}: {fault}"));
    }
}

/// Each with one kind of export in turn, since all kinds for each would take minutes in a debug build.
#[test]
fn documents_in_their_ranges_have_finite_numbers_in_every_file() {
    let from = boards();
    for (seed, kind) in (0..).zip(Kind::ALL) {
        if let Err((board, fault)) = document_case(seed, &from, &[kind], &mut Cost::new()) {
            panic!("seed {seed}: {fault}\n{}", write_board(&board));
        }
    }
}

/// Cases found earlier; each file is named after the failure it once caused.
#[test]
fn earlier_failures_stay_fixed() {
    let kinds = [
        Kind::Section,
        Kind::Sums,
        Kind::Csv,
        Kind::Dxf,
        Kind::Gcode,
        Kind::Lists,
        Kind::Jig,
        Kind::Proof,
    ];
    for (name, board) in seeds()
        .iter()
        .filter(|(name, _)| name.starts_with("found-"))
    {
        follow(board, &kinds, &[], &mut Cost::new())
            .unwrap_or_else(|fault| panic!("{name}: {fault}"));
    }
}

/// By the table of fields, on random documents: every fix that a finding offers.
#[test]
fn every_offered_fix_sets_numbers_within_their_ranges() {
    let from = boards();
    let mut made = 0;
    for seed in 0..60 {
        let board = document(&mut Draw::new(seed), &from);
        made += mends_offered(&board).unwrap_or_else(|fault| panic!("seed {seed}: {fault}"));
    }
    assert!(made > 60, "only {made} mends were made");
}

/// None of the documents at the limits of their ranges is more than a file may hold; the time and memory they take are measured
/// by `cargo run --release -p fuzz -- measure`.
#[test]
fn the_documents_at_the_limits_of_their_ranges_are_valid() {
    for (name, board) in extremes(&seeds()) {
        let read = read_board(write_board(&board).as_bytes());
        assert_eq!(read.as_ref(), Ok(&board), "{name}");
        assert!(board::layout(&board).is_ok(), "{name}");
    }
    assert!(!extremes(&seeds()).is_empty());
}

/// A seed is enough to reproduce a case, and different seeds give different cases.
#[test]
fn a_seed_gives_the_same_document_each_time() {
    let from = boards();
    let of = |seed| document(&mut Draw::new(seed), &from);
    assert!((0..20).all(|seed| of(seed) == of(seed)));
    assert!((1..20).filter(|seed| of(*seed) != of(0)).count() > 15);
}
