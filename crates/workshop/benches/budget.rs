//! Speed of the tolerance budget, as worked out for each frame of the window and in a background job.

use board::{Board, Errors, layout};
use divan::{Bencher, black_box};
use geometry::Circle;
use workshop::{TapedJoints, Work, budget, chance};

fn main() {
    divan::main();
}

fn mouths() -> Vec<Circle> {
    layout(&Board::default()).map_or_else(|_| Vec::new(), |layout| layout.mouths())
}

fn joints() -> TapedJoints {
    TapedJoints {
        upright: vec![-90.0, 90.0],
        level: vec![0.0],
    }
}

#[divan::bench]
fn sums_of_145_holes(bencher: Bencher<'_, '_>) {
    let (mouths, joints) = (mouths(), joints());
    let errors = Errors {
        index: 0.1,
        ..Errors::default()
    };
    let work = Work {
        mouths: &mouths,
        errors: &errors,
        joints: &joints,
    };
    bencher.bench_local(|| budget(black_box(&work)));
}

/// Limits in mm below webs of 7 mm, from one that nearly always holds to one that seldom does.
#[divan::bench(args = [4.0, 5.8, 6.2, 6.5])]
fn chance_of_145_holes(bencher: Bencher<'_, '_>, limit: f64) {
    let (mouths, joints) = (mouths(), joints());
    let errors = Errors {
        index: 0.1,
        ..Errors::default()
    };
    let work = Work {
        mouths: &mouths,
        errors: &errors,
        joints: &joints,
    };
    bencher.bench_local(|| chance(black_box(&work), limit, &|| false));
}
