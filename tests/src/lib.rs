//! Utilities that the whole-program checks share: the sample boards, and their exports as bytes.

#![allow(
    clippy::expect_used,
    reason = "a check that cannot read its samples has nothing to check"
)]

pub mod crates;
pub mod source;

use app::exports::{Kind, Moment, Source};
use board::{BitRun, Board, Coat, Filling, Machine, Router, SectorJig, read_board};
use workshop::Workpiece;

/// Every sample board, by the name of its file.
///
/// # Panics
///
/// If a sample cannot be read: then no check can run.
pub fn samples() -> Vec<(String, Board)> {
    let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/../assets/boards");
    let entries = std::fs::read_dir(folder).expect("the samples' folder is there");
    let mut samples: Vec<(String, Board)> = entries
        .map(|entry| {
            let path = entry.expect("the folder can be listed").path();
            let bytes = std::fs::read(&path).expect("a sample can be read");
            let name = path
                .file_stem()
                .expect("a sample has a name")
                .to_string_lossy()
                .into_owned();
            let board = read_board(&bytes).unwrap_or_else(|error| panic!("{name}: {error}"));
            (name, board)
        })
        .collect();
    samples.sort_by(|a, b| a.0.cmp(&b.0));
    samples
}

/// A board and everything derived from it.
///
/// # Panics
///
/// If it cannot be laid out.
pub fn worked(board: &Board) -> Workpiece {
    let workpiece = Workpiece::of(board).expect("the board can be laid out");
    workpiece
        .work_out(&|| false)
        .expect("nothing stops what is worked out");
    workpiece
}

/// A board with everything needed for every kind of export: a machine with settings for all bits, and a coat of finish.
///
/// # Panics
///
/// If it cannot be laid out.
pub fn planned(board: &Board) -> Board {
    let workpiece = worked(board);
    let holes = workpiece.hole_table();
    let bit = |(diameter, bottom)| BitRun {
        speed: Some(1500.0),
        feed: Some(200.0),
        ..BitRun::unsettled(diameter, bottom)
    };
    let machine = Machine {
        bits: holes.bits().into_iter().map(bit).collect(),
        ..Machine::default()
    };
    let mut finish = board.finish.clone();
    if finish.is_empty() {
        finish.push(Coat::default());
    }
    Board {
        machine: Some(machine),
        finish,
        filling: Some(Filling::default()),
        router: Some(Router::default()),
        sector_jig: Some(SectorJig::default()),
        ..board.clone()
    }
}

/// The bytes of the first file of one kind of export.
///
/// # Panics
///
/// If it cannot be exported.
pub fn exported(kind: Kind, board: &Board) -> Vec<u8> {
    files(kind, board).remove(0).1
}

/// Size of the proofs that checks examine, in pixels: small, to be fast.
pub const PROOF: u32 = 640;

/// The files of one kind of export: their names and bytes.
///
/// # Panics
///
/// If it cannot be exported.
pub fn files(kind: Kind, board: &Board) -> Vec<(String, Vec<u8>)> {
    let moment = Moment {
        year: 2026,
        month: 11,
        day: 25,
    };
    let source = Source::of(board, moment).expect("the board can be laid out");
    let source = source.with_proof(PROOF);
    source.files(kind).expect("the board can be exported")
}
