//! Files: every file written by any version stays readable forever, and broken ones are refused.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    reason = "a test that cannot go on has failed"
)]

use board::{Board, read_board, write_board};
use tests::samples;

fn fixture(name: &str) -> Vec<u8> {
    let path = format!("{}/fixtures/board/{name}", env!("CARGO_MANIFEST_DIR"));
    std::fs::read(path).unwrap()
}

#[test]
fn a_board_of_format_1_is_readable_forever() {
    let board = read_board(&fixture("format-1.json")).unwrap();
    assert_eq!(board.title, "A board of format 1");
    assert_eq!(board.edits.len(), 4);
    assert_eq!(
        board::layout(&board).unwrap().holes.len(),
        6 * (15 + 5 + 3) + 1 - 1 + 6
    );
}

#[test]
fn every_sample_is_written_back_unchanged() {
    for (name, board) in samples() {
        assert_eq!(
            read_board(write_board(&board).as_bytes()),
            Ok(board),
            "{name}"
        );
    }
}

#[test]
fn broken_files_are_refused_with_the_reason() {
    for (name, words) in [
        ("newer.json", "a newer one wrote it"),
        ("cut-short.json", "ends too early"),
        ("not-json.json", "not JSON"),
        ("another-kind.json", "no board file"),
        ("negative-pitch.json", "Hole spacing: -19 mm"),
        ("unknown-field.json", "colour"),
    ] {
        let error = read_board(&fixture(name)).expect_err(name).to_string();
        assert!(error.contains(words), "{name}: {error}");
    }
}

#[test]
fn the_file_of_a_board_is_small() {
    // Colors, calendar and price are written out even with default values.
    assert!(write_board(&Board::default()).len() < 6144);
}
