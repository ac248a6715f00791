//! A few cases of each kind, counted and not timed; `cargo run --release -p fuzz -- documents --minutes 600` runs for hours.
#![allow(
    clippy::unwrap_used,
    clippy::panic,
    reason = "a test that cannot go on has failed"
)]

use app::exports::Kind;
use board::{Board, write_board};
use fuzz::{
    Cost, Draw, bytes_case, corpus_bytes, corpus_typed, document, document_case, follow, seeds,
    typed_case,
};

fn boards() -> Vec<Board> {
    seeds().into_iter().map(|(_, board)| board).collect()
}

#[test]
fn any_bytes_are_a_board_in_its_ranges_or_are_refused_in_a_sentence() {
    let from = corpus_bytes();
    for seed in 0..1_500 {
        bytes_case(seed, &from).unwrap_or_else(|fault| panic!("seed {seed}: {fault}"));
    }
}

#[test]
fn whatever_is_typed_is_a_finite_number_or_is_refused_in_a_sentence() {
    let (from, typed) = (boards(), corpus_typed());
    for seed in 0..20 {
        typed_case(seed, &from, &typed).unwrap_or_else(|fault| panic!("seed {seed}: {fault}"));
    }
}

/// Each with one kind of export in turn, as all kinds of each take a build without optimization minutes.
#[test]
fn documents_in_their_ranges_have_finite_numbers_in_every_file() {
    let from = boards();
    for (seed, kind) in (0..).zip(Kind::ALL) {
        if let Err((board, fault)) = document_case(seed, &from, &[kind], &mut Cost::new()) {
            panic!("seed {seed}: {fault}\n{}", write_board(&board));
        }
    }
}

/// Cases found before; each file is named for the fault it once showed.
#[test]
fn what_went_wrong_once_goes_right_now() {
    let kinds = [
        Kind::Section,
        Kind::Sums,
        Kind::Csv,
        Kind::Dxf,
        Kind::Gcode,
        Kind::Lists,
    ];
    for (name, board) in seeds()
        .iter()
        .filter(|(name, _)| name.starts_with("found-"))
    {
        follow(board, &kinds, &[], &mut Cost::new())
            .unwrap_or_else(|fault| panic!("{name}: {fault}"));
    }
}

/// A seed is enough to see a case again, and seeds differ.
#[test]
fn a_seed_gives_the_same_document_each_time() {
    let from = boards();
    let of = |seed| document(&mut Draw::new(seed), &from);
    assert!((0..20).all(|seed| of(seed) == of(seed)));
    assert!((1..20).filter(|seed| of(*seed) != of(0)).count() > 15);
}
