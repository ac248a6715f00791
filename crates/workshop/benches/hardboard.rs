//! Time to work out a sector jig and the holes of a router template.
//!
//! `cargo bench -p workshop --bench hardboard`

use core::hint::black_box;

use board::{Board, Router, SectorJig};
use divan::Bencher;
use workshop::{Workpiece, router_settings};

fn main() {
    divan::main();
}

/// A ring for so many players with so many spaces each, and a sector jig of two pins.
fn board((players, spaces): (u32, u32)) -> Board {
    let mut board = Board {
        players,
        spaces,
        sector_jig: Some(SectorJig { pins: 2, play: 0.1 }),
        ..Board::default()
    };
    let around = f64::from(players * spaces);
    board.blank.diameter = (board.pitch * around / core::f64::consts::PI + 200.0).min(5000.0);
    board.pitch = board
        .pitch
        .min((board.blank.diameter - 200.0) * core::f64::consts::PI / around);
    board
}

const SIZES: [(u32, u32); 3] = [(6, 16), (24, 34), (24, 250)];

fn workpiece(board: &Board) -> Workpiece {
    Workpiece::of(black_box(board)).unwrap_or_else(|error| panic!("{error}"))
}

#[divan::bench(args = SIZES)]
fn a_sector_jig(bencher: Bencher<'_, '_>, size: (u32, u32)) {
    let board = board(size);
    bencher.bench(|| workpiece(&board).sector_jig().map(|jig| jig.is_ok()));
}

#[divan::bench(args = SIZES)]
fn a_router_template_and_its_settings(bencher: Bencher<'_, '_>, size: (u32, u32)) {
    let router = Router::default();
    let board = Board {
        router: Some(router),
        ..board(size)
    };
    bencher.bench(|| {
        let workpiece = workpiece(&board);
        let holes = workpiece
            .router()
            .map(|(_, template)| template.layout().holes.len());
        (holes, router_settings(workpiece.layout(), router))
    });
}
