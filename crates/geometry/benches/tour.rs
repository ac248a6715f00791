//! Speed of the drilling order.

use divan::{Bencher, black_box};
use geometry::{
    Angle, Pattern, Point, Sector, TourBudget, home_lane, shortest_path, shortest_tour, track,
    turn_in,
};

fn main() {
    divan::main();
}

/// 145 holes: tracks and lanes of six players, pockets of three, the center hole.
fn board() -> Vec<Point> {
    let places = track(Pattern::Arms { across: 3 }, 6, 16, 19.0).unwrap_or_default();
    let turn_in = places
        .get(turn_in(16) as usize - 1)
        .map_or(0.0, |place| place.y);
    let lane = home_lane(turn_in, 5, 19.0).unwrap_or_default();
    let pocket = (0..3).map(|hole| Point::new(70.0 + 19.0 * f64::from(hole), 200.0));
    let locals: Vec<Point> = places.into_iter().chain(lane).chain(pocket).collect();
    let mut holes = vec![Point::ORIGIN];
    for index in 0..6 {
        let sector = Sector::new(index, 6, Angle::ZERO);
        holes.extend(locals.iter().map(|local| sector.place(*local)));
    }
    holes
}

/// Points by chance in a square of 500 mm.
fn scattered(count: usize) -> Vec<Point> {
    let mut state = 1_u64;
    let mut part = || {
        state = state
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        (state >> 33) as f64 / f64::from(1_u32 << 31)
    };
    (0..count)
        .map(|_| Point::new(500.0 * part(), 500.0 * part()))
        .collect()
}

#[divan::bench]
fn board_of_145(bencher: Bencher<'_, '_>) {
    let holes = board();
    bencher.bench_local(|| shortest_tour(black_box(&holes), TourBudget::BOARD, &|| false));
}

#[divan::bench]
fn path_on_a_board_of_145(bencher: Bencher<'_, '_>) {
    let holes = board();
    let from = Point::new(-300.0, -300.0);
    bencher.bench_local(|| shortest_path(black_box(&holes), from, TourBudget::BOARD, &|| false));
}

#[divan::bench(args = [200, 442, 1_000, 10_000], sample_count = 20)]
fn by_chance(bencher: Bencher<'_, '_>, count: usize) {
    let points = scattered(count);
    bencher.bench_local(|| shortest_tour(black_box(&points), TourBudget::BOARD, &|| false));
}

#[divan::bench(args = [200, 442, 1_000, 10_000], sample_count = 5)]
fn by_chance_thoroughly(bencher: Bencher<'_, '_>, count: usize) {
    let points = scattered(count);
    bencher.bench_local(|| shortest_tour(black_box(&points), TourBudget::THOROUGH, &|| false));
}

/// The tour without its jolts.
#[divan::bench(args = [200, 1_000, 10_000], sample_count = 20)]
fn no_jolts(bencher: Bencher<'_, '_>, count: usize) {
    let points = scattered(count);
    bencher.bench_local(|| shortest_tour(black_box(&points), TourBudget { jolts: 0 }, &|| false));
}
