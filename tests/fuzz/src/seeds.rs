//! Boards that cases start from: the sample boards, boards with every part, and small cases found earlier.

use std::fs;
use std::path::{Path, PathBuf};

use board::{Board, read_board};

/// A folder of the repository.
fn folder(path: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR"))
        .join("../..")
        .join(path)
}

/// The files of a folder, sorted by name.
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

/// Boards to start from, by the names of their files: samples, boards with every part, and those found earlier.
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

/// Bytes that a reader of board files failed on earlier, by the names of their files.
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

/// Lines that failed earlier when typed.
pub fn corpus_typed() -> Vec<String> {
    let text = fs::read_to_string(folder("tests/fuzz/corpus/typed.txt")).unwrap_or_default();
    text.lines().map(Into::into).collect()
}
