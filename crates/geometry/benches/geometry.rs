//! Speed of the geometry that runs on every edit.

use divan::{Bencher, black_box};
use geometry::{
    Angle, Circle, Pattern, PocketSearch, PocketShape, Point, Sector, best_joints, best_pocket,
    close_webs, home_lane, nearest_webs, point_at, smallest_web, track, turn_in,
};

fn main() {
    divan::main();
}

/// Bores on rings of a board, about as close together as on a real one.
fn bores(count: usize) -> Vec<Circle> {
    let rings = 1.0 + (count as f64 / core::f64::consts::PI).sqrt();
    let bore = |index: usize| {
        let radius = 16.0 * (index as f64 / count as f64).sqrt() * rings;
        Circle::new(
            point_at(radius, Angle::radians(2.399_963 * index as f64)),
            5.0,
        )
    };
    (0..count).map(bore).collect()
}

#[divan::bench(args = [145, 1_000, 10_000, 100_000])]
fn thinnest_web(bencher: Bencher<'_, '_>, count: usize) {
    let bores = bores(count);
    bencher.bench_local(|| smallest_web(black_box(&bores)));
}

#[divan::bench(args = [145, 1_000, 10_000, 100_000])]
fn webs_under_a_limit(bencher: Bencher<'_, '_>, count: usize) {
    let bores = bores(count);
    bencher.bench_local(|| close_webs(black_box(&bores), 3.0));
}

#[divan::bench(args = [145, 1_000, 10_000, 100_000])]
fn nearest_web_of_each(bencher: Bencher<'_, '_>, count: usize) {
    let bores = bores(count);
    bencher.bench_local(|| nearest_webs(black_box(&bores)));
}

#[divan::bench(args = [145, 10_000])]
fn sheet_joints(bencher: Bencher<'_, '_>, count: usize) {
    let across: Vec<f64> = bores(count).iter().map(|bore| bore.center.x).collect();
    let reach = across.iter().fold(0.0, |reach: f64, x| reach.max(x.abs())) + 20.0;
    bencher.bench_local(|| best_joints(black_box(&across), -reach, reach, 190.0, 10.0));
}

#[divan::bench(args = [16, 160])]
fn lobes(spaces: u32) -> usize {
    track(Pattern::Lobes { depth: 0.2 }, 6, black_box(spaces), 19.0)
        .map_or(0, |places| places.len())
}

const PATTERNS: [(&str, Pattern); 3] = [
    ("ring", Pattern::Ring),
    ("lobes", Pattern::Lobes { depth: 0.2 }),
    ("arms", Pattern::Arms { across: 3 }),
];

#[divan::bench(args = [0, 1, 2])]
fn pocket_left_to_the_program(bencher: Bencher<'_, '_>, pattern: usize) {
    let Some(&(_, pattern)) = PATTERNS.get(pattern) else {
        return;
    };
    let Ok(places) = track(pattern, 6, 16, 19.0) else {
        return;
    };
    let turn_in = places
        .get(turn_in(16) as usize - 1)
        .map_or(0.0, |place| place.y);
    let Ok(lane) = home_lane(turn_in, 5, 19.0) else {
        return;
    };
    let sectors = (0..6).map(|index| Sector::new(index, 6, Angle::ZERO));
    let all = sectors.flat_map(|sector| {
        places
            .iter()
            .chain(&lane)
            .map(move |local| Circle::new(sector.place(*local), 6.0))
    });
    let obstacles: Vec<Circle> = all.chain([Circle::new(Point::ORIGIN, 6.0)]).collect();
    let search = PocketSearch {
        shape: PocketShape::Row,
        holes: 3,
        pitch: 19.0,
        hole_radius: 6.0,
        players: 6,
        bearing: None,
        radius: None,
        obstacles: &obstacles,
        edge_radius: 315.0,
    };
    bencher.bench_local(|| best_pocket(black_box(&search)));
}
