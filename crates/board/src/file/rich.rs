//! The rich boards used by the whole program's tests.

use serde_json::Value;

use crate::{Board, read_board};

/// The rich boards used by the whole program's tests: together they have every member of the document.
pub fn rich_boards() -> Vec<Board> {
    let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/../../tests/fixtures/rich");
    let mut paths: Vec<_> = std::fs::read_dir(folder)
        .unwrap()
        .map(|entry| entry.unwrap().path())
        .collect();
    paths.sort();
    let read = |path| read_board(&std::fs::read(path).unwrap()).unwrap();
    paths.into_iter().map(read).collect()
}

pub fn value_of(board: &Board) -> Value {
    serde_json::to_value(board).unwrap()
}
