//! Speed of finding the largest disc in a blank, which is recomputed whenever a corner is moved.

use divan::{Bencher, black_box};
use geometry::{Angle, Circle, Flaw, Outline, Point, clearance, largest_disc, point_at};

fn main() {
    divan::main();
}

/// A deterministic number from 0 to 1 that looks random.
fn noise(seed: u32) -> f64 {
    let mixed = (seed ^ (seed >> 16)).wrapping_mul(0x045d_9f3b);
    let mixed = (mixed ^ (mixed >> 15)).wrapping_mul(0x2c1b_3c6d);
    f64::from(mixed ^ (mixed >> 16)) / f64::from(u32::MAX)
}

/// A slab with bark on both long sides, and sawn ends.
fn bark(corners: u32) -> Vec<Point> {
    let side = corners / 2;
    let along = |k: u32| 1800.0 * f64::from(k) / f64::from(side - 1);
    let below = (0..side).map(|k| Point::new(along(k), 40.0 * noise(k)));
    let above = (0..side).map(|k| Point::new(1800.0 - along(k), 520.0 - 60.0 * noise(k + side)));
    below.chain(above).collect()
}

/// A round slice across a trunk.
fn trunk(corners: u32) -> Vec<Point> {
    let around = |k: u32| Angle::degrees(360.0 * f64::from(k) / f64::from(corners));
    (0..corners)
        .map(|k| point_at(400.0 + 5.0 * noise(k), around(k)))
        .collect()
}

/// A comb with teeth as long as the blank, and almost no spine.
fn comb(corners: u32) -> Vec<Point> {
    let teeth = (corners - 1) / 4;
    let pitch = 800.0 / f64::from(teeth);
    let mut edge = vec![Point::new(0.0, 0.0), Point::new(1000.0, 0.0)];
    for tooth in (0..teeth).map(f64::from) {
        let next = pitch * (tooth + 0.5);
        edge.extend([Point::new(1000.0, next), Point::new(pitch, next)]);
        let next = pitch * (tooth + 1.0);
        edge.extend([Point::new(pitch, next), Point::new(1000.0, next)]);
    }
    edge.truncate(edge.len() - 2);
    edge.push(Point::new(0.0, 800.0 - pitch / 2.0));
    edge
}

fn rectangle(width: f64, height: f64) -> Vec<Point> {
    [(0.0, 0.0), (width, 0.0), (width, height), (0.0, height)]
        .map(Point::from)
        .to_vec()
}

fn knots(count: u32) -> Vec<Flaw> {
    let knot = |k: u32| {
        let (x, y) = (1800.0 * noise(7 * k + 1), 520.0 * noise(7 * k + 2));
        Flaw::Round(Circle::new((x, y), 5.0 + 20.0 * noise(7 * k + 3)))
    };
    (0..count).map(knot).collect()
}

fn find(bencher: Bencher<'_, '_>, corners: Vec<Point>, flaws: &[Flaw]) {
    let Ok(outline) = Outline::new(corners) else {
        return;
    };
    bencher.bench_local(|| largest_disc(black_box(&outline), black_box(flaws), &|| false));
}

#[divan::bench]
fn four_corners(bencher: Bencher<'_, '_>) {
    let corners = [(0.0, 0.0), (910.0, 35.0), (870.0, 420.0), (-20.0, 380.0)];
    find(bencher, corners.map(Point::from).to_vec(), &[]);
}

#[divan::bench(args = [0, 20])]
fn parallel_edges(bencher: Bencher<'_, '_>, count: u32) {
    find(bencher, rectangle(1800.0, 520.0), &knots(count));
}

#[divan::bench]
fn sixty_corners_and_twenty_knots(bencher: Bencher<'_, '_>) {
    find(bencher, bark(60), &knots(20));
}

#[divan::bench(args = [1_000, 10_000])]
fn bark_on_both_sides(bencher: Bencher<'_, '_>, corners: u32) {
    find(bencher, bark(corners), &knots(20));
}

#[divan::bench(args = [1_000, 10_000])]
fn round_of_a_trunk(bencher: Bencher<'_, '_>, corners: u32) {
    find(bencher, trunk(corners), &[]);
}

#[divan::bench(args = [40, 400, 2_000])]
fn teeth(bencher: Bencher<'_, '_>, corners: u32) {
    find(bencher, comb(corners), &[]);
}

#[divan::bench]
fn no_place_left(bencher: Bencher<'_, '_>) {
    let corners = rectangle(1800.0, 520.0);
    let flaws: Vec<Flaw> = Outline::new(corners.clone())
        .map(Flaw::Area)
        .into_iter()
        .collect();
    find(bencher, corners, &flaws);
}

#[divan::bench(args = [10_000])]
fn outline_of_bark(bencher: Bencher<'_, '_>, corners: u32) {
    let corners = bark(corners);
    bencher
        .with_inputs(|| corners.clone())
        .bench_local_values(Outline::new);
}

#[divan::bench(args = [10_000])]
fn outline_of_a_comb(bencher: Bencher<'_, '_>, corners: u32) {
    let corners = comb(corners);
    bencher
        .with_inputs(|| corners.clone())
        .bench_local_values(Outline::new);
}

#[divan::bench(args = [60, 10_000])]
fn clearance_of_a_point(bencher: Bencher<'_, '_>, corners: u32) {
    let Ok(outline) = Outline::new(bark(corners)) else {
        return;
    };
    let knots = knots(20);
    bencher.bench_local(|| clearance(black_box(&outline), &knots, Point::new(700.0, 260.0)));
}
