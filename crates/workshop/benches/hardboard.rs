//! How long a sector jig and the holes of a router template take to work out.
//!
//! `cargo bench -p workshop --bench hardboard`

use core::hint::black_box;

use board::{Board, Layout, Router, SectorJig, layout};
use divan::Bencher;
use workshop::{router_settings, router_template, sector_jig};

fn main() {
    divan::main();
}

/// A ring for so many players with so many spaces each, and a sector jig of two pins.
fn board((players, spaces): (u32, u32)) -> (Board, Layout) {
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
    let layout = layout(&board).unwrap_or_else(|error| panic!("{error}"));
    (board, layout)
}

const SIZES: [(u32, u32); 3] = [(6, 14), (24, 34), (24, 359)];

#[divan::bench(args = SIZES)]
fn a_sector_jig(bencher: Bencher<'_, '_>, size: (u32, u32)) {
    let (board, layout) = board(size);
    bencher.bench(|| sector_jig(black_box(&board), black_box(&layout)));
}

#[divan::bench(args = SIZES)]
fn a_router_template_and_its_settings(bencher: Bencher<'_, '_>, size: (u32, u32)) {
    let (board, layout) = board(size);
    let router = Router::default();
    bencher.bench(|| {
        let template = router_template(black_box(&board), black_box(&layout), router);
        (template, router_settings(&layout, router))
    });
}
