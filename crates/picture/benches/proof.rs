//! Speed of the proof: the whole page, the live picture that the window shows while the view is turned, the picture on the job
//! sheet, and the wood of a blank. Goals: a page of 2,000 pixels in less than 500 ms, a live picture in less than 8 ms; the
//! rest is made in the background.

use board::{Board, Grooves, Rgb, StockOutline, Wood};
use divan::{Bencher, black_box};
use picture::{BlankWood, PAPER, View, Words, glimpse, proof, thumbnail};
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

/// The picture of the job sheet, 66 mm at 300 dots per inch.
#[divan::bench(sample_count = 10)]
fn thumbnail_of_780_pixels(bencher: Bencher<'_, '_>) {
    let Some(workpiece) = workpiece() else { return };
    bencher.bench(|| thumbnail(black_box(&workpiece), 780, 0.08, &|| false));
}

/// The inputs of a blank's wood figure, which every frame of its view computes, and the figure itself, which is painted on
/// another thread.
#[divan::bench(args = [false, true], sample_count = 10)]
fn wood_of_a_blank(bencher: Bencher<'_, '_>, is_painted: bool) {
    let mut board = Board {
        wood: Some(Wood::default()),
        ..Board::default()
    };
    board.stock.outline = StockOutline::Slab {
        length: 1800.0,
        width: 700.0,
        lower: vec![5.0, 20.0, 10.0],
        upper: vec![30.0, 0.0, 15.0],
    };
    let Ok(workpiece) = Workpiece::of(&board) else {
        return;
    };
    let _ = workpiece.stock();
    bencher.bench(|| {
        let wood = BlankWood::of(black_box(&workpiece))?;
        is_painted.then(|| wood.picture(Rgb::new(0xea, 0xd0, 0xa3)))
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
