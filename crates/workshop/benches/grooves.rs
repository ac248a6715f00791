//! Time to lay grooves out and to check them.
//!
//! `cargo bench -p workshop --bench grooves`

use core::hint::black_box;

use board::{Board, Grooves, Rings};
use divan::Bencher;
use workshop::Workpiece;

fn main() {
    divan::main();
}

/// A ring for many players and spaces with every kind of groove, or none.
fn board((players, spaces): (u32, u32), is_grooved: bool) -> Board {
    let rings = Rings {
        gap: 1.0,
        track: true,
        home: true,
        start: true,
        extra: true,
        center: true,
    };
    let wanted = Grooves {
        width: 1.0,
        around_home: Some(4.0),
        around_start: Some(4.0),
        rings: Some(rings),
        sectors_from: Some(40.0),
        rim: Some(5.0),
        ..Grooves::default()
    };
    let mut board = Board {
        players,
        spaces,
        grooves: is_grooved.then_some(wanted),
        ..Board::default()
    };
    let around = f64::from(players * spaces);
    // Thousands of spaces go on the largest board only if they are small.
    let pitch = (4800.0 * core::f64::consts::PI / around).min(19.0);
    board.pitch = pitch;
    board.blank.diameter = (around * pitch / core::f64::consts::PI + 60.0).max(640.0);
    board.bores.track.diameter = 0.6 * pitch;
    board.bores.home = board.bores.track;
    board.bores.start = board.bores.track;
    if let Some(grooves) = &mut board.grooves {
        grooves.width = (pitch / 19.0).max(0.1);
        grooves.stop = pitch / 19.0;
        grooves.rings = Some(Rings {
            gap: pitch / 19.0,
            ..rings
        });
    }
    board
}

const SIZES: [(u32, u32); 3] = [(6, 16), (24, 40), (24, 250)];

fn workpiece(board: &Board) -> Workpiece {
    Workpiece::of(black_box(board)).unwrap_or_else(|error| panic!("{error}"))
}

#[divan::bench(args = SIZES)]
fn laid_out(bencher: Bencher<'_, '_>, size: (u32, u32)) {
    let board = board(size, true);
    bencher.bench(|| workpiece(&board).grooves().cloned());
}

#[divan::bench(args = SIZES)]
fn all_checks_without_grooves(bencher: Bencher<'_, '_>, size: (u32, u32)) {
    let board = board(size, false);
    bencher.bench(|| workpiece(&board).findings().len());
}

#[divan::bench(args = SIZES)]
fn all_checks_with_grooves(bencher: Bencher<'_, '_>, size: (u32, u32)) {
    let board = board(size, true);
    bencher.bench(|| workpiece(&board).findings().len());
}
