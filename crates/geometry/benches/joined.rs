//! Speed of finding what can be joined from a blank.

use divan::{Bencher, black_box};
use geometry::{Circle, Flaw, Outline, Point, best_half, most_from_strips};

fn main() {
    divan::main();
}

/// A slab of 1,500 by 640 mm with eight knots, whose live edges have this many corners in total.
fn slab(corners: u32) -> Option<(Outline, Vec<Flaw>)> {
    let side = corners / 2;
    let x = |at: u32| 1500.0 * f64::from(at) / f64::from(side - 1);
    let wane = |at: u32, step: u32| f64::from(at * step % 23);
    let lower = (0..side).map(|at| Point::new(x(at), wane(at, 7)));
    let upper = (0..side).rev();
    let upper = upper.map(|at| Point::new(x(at), 640.0 - wane(at, 11)));
    let knot = |at: u32| {
        let center = (180.0 * f64::from(at) + 60.0, f64::from(at * 211 % 640));
        Flaw::Round(Circle::new(center, 12.0))
    };
    let outline = Outline::new(lower.chain(upper).collect()).ok()?;
    Some((outline, (0..8).map(knot).collect()))
}

#[divan::bench(args = [4, 60, 10_000])]
fn bookmatched_halves(bencher: Bencher<'_, '_>, corners: u32) {
    let Some((outline, flaws)) = slab(corners) else {
        return;
    };
    bencher.bench_local(|| best_half(black_box(&outline), &flaws, 1.5, &|| false));
}

#[divan::bench(args = [4, 60, 10_000])]
fn five_strips(bencher: Bencher<'_, '_>, corners: u32) {
    let Some((outline, flaws)) = slab(corners) else {
        return;
    };
    bencher.bench_local(|| most_from_strips(black_box(&outline), &flaws, 5, 1.5, 3.0, &|| false));
}
