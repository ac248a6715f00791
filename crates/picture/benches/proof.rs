//! Speed of the proof: the whole page, and the glimpse that the window shows while it is turned.

use board::{Board, Grooves, Wood};
use divan::{Bencher, black_box};
use picture::{PAPER, View, Words, glimpse, proof};
use workshop::Workpiece;

fn main() {
    divan::main();
}

fn workpiece() -> Option<Workpiece> {
    let board = Board {
        wood: Some(Wood::default()),
        grooves: Some(Grooves::default()),
        ..Board::default()
    };
    let workpiece = Workpiece::of(&board).ok()?;
    let _ = workpiece.grooves();
    Some(workpiece)
}

const fn of(view: usize) -> View {
    if view == 0 {
        View::Above
    } else {
        View::PERSPECTIVE
    }
}

#[divan::bench(args = [0, 1], sample_count = 10)]
fn proof_of_2000_pixels(bencher: Bencher<'_, '_>, view: usize) {
    let Some(workpiece) = workpiece() else { return };
    bencher.bench(|| {
        proof(black_box(&workpiece), of(view), 2000, Words::Drawn, &|| {
            false
        })
    });
}

#[divan::bench(args = [0, 1], sample_count = 30)]
fn glimpse_of_240_pixels(bencher: Bencher<'_, '_>, view: usize) {
    let Some(workpiece) = workpiece() else { return };
    bencher.bench(|| {
        glimpse(black_box(&workpiece), of(view), (240, 180), PAPER, &|| {
            false
        })
    });
}
