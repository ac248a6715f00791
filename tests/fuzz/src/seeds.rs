//! Boards that cases begin with: the sample boards, boards that have everything, and the small cases that were found before.

use std::fs;
use std::path::{Path, PathBuf};

use board::{Board, read_board};

/// A folder of the repository.
fn folder(path: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR"))
        .join("../..")
        .join(path)
}

/// The files of a folder, in the order of their names.
fn files(path: &str) -> Vec<(String, Vec<u8>)> {
    let entries = fs::read_dir(folder(path)).into_iter().flatten().flatten();
    let mut files: Vec<_> = entries
        .filter_map(|entry| {
            let name = entry.file_name().to_string_lossy().into_owned();
            Some((name, fs::read(entry.path()).ok()?))
        })
        .collect();
    files.sort();
    files
}

/// Boards to begin with, by the names of their files: samples, boards that have everything, and those found before.
pub fn seeds() -> Vec<(String, Board)> {
    let folders = [
        "assets/boards",
        "tests/fixtures/rich",
        "tests/fuzz/corpus/boards",
    ];
    let all = folders.into_iter().flat_map(files);
    all.filter_map(|(name, bytes)| Some((name, read_board(&bytes).ok()?)))
        .collect()
}

/// Bytes that a reader of board files was tried with before, by the names of their files.
pub fn corpus_bytes() -> Vec<(String, Vec<u8>)> {
    [
        "tests/fixtures/board",
        "tests/fuzz/corpus/bytes",
        "tests/fixtures/rich",
    ]
    .into_iter()
    .flat_map(files)
    .collect()
}

/// Lines that were typed before.
pub fn corpus_typed() -> Vec<String> {
    let text = fs::read_to_string(folder("tests/fuzz/corpus/typed.txt")).unwrap_or_default();
    text.lines().map(Into::into).collect()
}
