//! Speed of finding the rotation that keeps bores clear of the seams, compared with a scan in thousandths of a degree.

use divan::{Bencher, black_box};
use geometry::{
    Angle, Circle, Measure, Pattern, Point, Seam, Sector, best_turn, home_lane, point_at, track,
    turn_curve, turn_in,
};

fn main() {
    divan::main();
}

/// 145 holes: tracks and lanes of six players, pockets of three holes, and the center hole.
fn board(pattern: Pattern) -> Vec<Circle> {
    let places = track(pattern, 6, 16, 19.0).unwrap_or_default();
    let turn_in = places
        .get(turn_in(16) as usize - 1)
        .map_or(0.0, |place| place.y);
    let lane = home_lane(turn_in, 5, 19.0).unwrap_or_default();
    let pocket = (0..3).map(|hole| Point::new(70.0 + 19.0 * f64::from(hole), 200.0));
    let locals: Vec<Point> = places.into_iter().chain(lane).chain(pocket).collect();
    let mut bores = vec![Circle::new(Point::ORIGIN, 6.0)];
    for index in 0..6 {
        let sector = Sector::new(index, 6, Angle::ZERO);
        bores.extend(
            locals
                .iter()
                .map(|local| Circle::new(sector.place(*local), 6.0)),
        );
    }
    bores
}

fn panel() -> [Seam; 3] {
    [-110.0, 15.0, 120.0].map(|offset| Seam {
        normal: Angle::degrees(90.0),
        offset,
    })
}

const PATTERNS: [Pattern; 3] = [
    Pattern::Ring,
    Pattern::Lobes { depth: 0.15 },
    Pattern::Arms { across: 3 },
];

#[divan::bench(args = [0, 1, 2], consts = [1, 6])]
fn solved<const SECTORS: u32>(bencher: Bencher<'_, '_>, pattern: usize) {
    let Some(&pattern) = PATTERNS.get(pattern) else {
        return;
    };
    let holes = board(pattern);
    bencher.bench_local(|| best_turn(black_box(&holes), &panel(), SECTORS, Measure::Edge));
}

#[divan::bench(consts = [1, 6], sample_count = 10)]
fn scanned<const SECTORS: u32>(bencher: Bencher<'_, '_>) {
    let holes = board(Pattern::Lobes { depth: 0.15 });
    let samples = 360_000 / SECTORS as usize;
    bencher
        .bench_local(|| turn_curve(black_box(&holes), &panel(), SECTORS, Measure::Edge, samples));
}

#[divan::bench(args = [1_000, 10_000])]
fn solved_for_many(bencher: Bencher<'_, '_>, count: usize) {
    let bore = |index: usize| {
        let radius = 9.0 * (index as f64).sqrt();
        Circle::new(
            point_at(radius, Angle::radians(2.399_963 * index as f64)),
            5.0,
        )
    };
    let holes: Vec<Circle> = (0..count).map(bore).collect();
    bencher.bench_local(|| best_turn(black_box(&holes), &panel(), 1, Measure::Edge));
}
