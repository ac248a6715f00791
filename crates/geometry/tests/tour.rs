//! Drilling orders against trying all orders, closed forms, plain heuristics and lengths found by another program.

#![allow(clippy::unwrap_used, reason = "helpers of tests fail by panicking")]

use std::cell::Cell;

use geometry::{
    Angle, Pattern, Point, Sector, Tour, TourBudget, chord, home_lane, point_at, shortest_path,
    shortest_tour, track, turn_in,
};
use proptest::prelude::*;
use testkit::assert_near;

const NO_JOLTS: TourBudget = TourBudget { jolts: 0 };
const FEW_JOLTS: TourBudget = TourBudget { jolts: 300 };

fn tour(points: &[Point]) -> Tour {
    shortest_tour(points, TourBudget::BOARD, &|| false)
}

fn path(points: &[Point], from: Point) -> Tour {
    shortest_path(points, from, TourBudget::BOARD, &|| false)
}

/// A center hole, and for each player track, home lane and a pocket of as many holes outside.
fn board(pattern: Pattern, players: u32, spaces: u32, lane_holes: u32) -> Vec<Point> {
    let places = track(pattern, players, spaces, 19.0).unwrap();
    let turn_in = places[turn_in(spaces) as usize - 1].y;
    let lane = home_lane(turn_in, lane_holes, 19.0).unwrap();
    let reach = places
        .iter()
        .map(|place| place.to_vec2().length())
        .fold(25.0, f64::max);
    let pocket = (0..lane_holes).map(|hole| {
        let (row, column) = (f64::from(hole / 3), f64::from(hole % 3));
        Point::new(19.0 * (column - 1.0), reach + 25.0 + 19.0 * row)
    });
    let locals: Vec<Point> = places.into_iter().chain(lane).chain(pocket).collect();
    let mut holes = vec![Point::ORIGIN];
    for index in 0..players {
        let sector = Sector::new(index, players, Angle::ZERO);
        holes.extend(locals.iter().map(|local| sector.place(*local)));
    }
    holes
}

/// Points by chance in a square of 500 mm, the same every time (a linear congruential generator).
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

fn is_each_once(order: &[usize], count: usize) -> bool {
    let mut sorted = order.to_vec();
    sorted.sort_unstable();
    sorted.into_iter().eq(0..count)
}

/// The way along an order, and back where it is closed.
fn way(points: &[Point], order: &[usize], closed: bool) -> f64 {
    let open: f64 = order
        .windows(2)
        .map(|pair| points[pair[0]].distance(points[pair[1]]))
        .sum();
    match (closed, order) {
        (true, [first, .., last]) => open + points[*last].distance(points[*first]),
        _ => open,
    }
}

/// The shortest length of all orders, by trying every one; `home` is where it must end, if anywhere.
fn shortest_of_all(from: Point, left: &mut Vec<Point>, home: Option<Point>) -> f64 {
    if left.is_empty() {
        return home.map_or(0.0, |home| from.distance(home));
    }
    let mut best = f64::INFINITY;
    for at in 0..left.len() {
        let next = left.swap_remove(at);
        best = best.min(from.distance(next) + shortest_of_all(next, left, home));
        left.push(next);
        let last = left.len() - 1;
        left.swap(at, last);
    }
    best
}

/// Always on to the nearest point left.
fn nearest_neighbor(points: &[Point]) -> f64 {
    let mut left: Vec<usize> = (1..points.len()).collect();
    let mut order = vec![0];
    while !left.is_empty() {
        let here = points[*order.last().unwrap()];
        let nearest = (0..left.len())
            .min_by(|one, other| {
                let off = |at: usize| here.distance(points[left[at]]);
                off(*one).total_cmp(&off(*other))
            })
            .unwrap();
        order.push(left.swap_remove(nearest));
    }
    way(points, &order, true)
}

/// The shortest legs first, as long as they form no fork and no ring but the last.
fn greedy(points: &[Point]) -> f64 {
    let count = points.len();
    let mut legs: Vec<(f64, usize, usize)> = (0..count)
        .flat_map(|one| (0..one).map(move |other| (one, other)))
        .map(|(one, other)| (points[one].distance(points[other]), one, other))
        .collect();
    legs.sort_by(|one, other| one.0.total_cmp(&other.0));
    let (mut group, mut ends) = ((0..count).collect::<Vec<_>>(), vec![0; count]);
    let (mut length, mut taken) = (0.0, 0);
    for (leg, one, other) in legs {
        let closes = group[one] == group[other];
        if ends[one] < 2 && ends[other] < 2 && (!closes || taken + 1 == count) {
            let (old, new) = (group[one], group[other]);
            for of in group.iter_mut().filter(|of| **of == old) {
                *of = new;
            }
            ends[one] += 1;
            ends[other] += 1;
            length += leg;
            taken += 1;
        }
    }
    length
}

#[test]
fn few_points_have_the_only_way_there_is() {
    let points = [(3.0, 0.0), (0.0, 4.0), (0.0, 0.0)].map(Point::from);
    assert_eq!(
        tour(&[]),
        Tour {
            order: vec![],
            length: 0.0
        }
    );
    assert_eq!(
        tour(&points[..1]),
        Tour {
            order: vec![0],
            length: 0.0
        }
    );
    assert_eq!(
        tour(&points[..2]),
        Tour {
            order: vec![0, 1],
            length: 10.0
        }
    );
    assert_eq!(
        tour(&points),
        Tour {
            order: vec![0, 1, 2],
            length: 12.0
        }
    );
    let from = Point::new(0.0, -1.0);
    assert_eq!(
        path(&[], from),
        Tour {
            order: vec![],
            length: 0.0
        }
    );
    assert_eq!(
        path(&points[2..], from),
        Tour {
            order: vec![0],
            length: 1.0
        }
    );
    assert_eq!(
        path(&points, from),
        Tour {
            order: vec![2, 0, 1],
            length: 9.0
        }
    );
}

#[test]
fn a_ring_is_drilled_around() {
    for count in [13_u32, 96, 301] {
        // Listed in steps of five holes, so that neighbors on the ring are none in the list.
        let bearing = |index: u32| f64::from(5 * index % count) * 360.0 / f64::from(count);
        let ring: Vec<Point> = (0..count)
            .map(|index| point_at(260.0, Angle::degrees(bearing(index))))
            .collect();
        let around = f64::from(count) * chord(520.0, count, 1);
        assert_near!(tour(&ring).length, around, 1e-6);
    }
}

#[test]
fn boards_come_out_as_short_as_any_way_known() {
    // Lengths of LKH by way of elkai 2.0.1, ten runs on coordinates in 0.1 µm; the ring of eight is 0.06 % shorter here
    // than there, and that shorter length stands.
    let boards = [
        (Pattern::Ring, 8, 14, 4_882.303_233, 4_581.465_602),
        (
            Pattern::Lobes { depth: 0.2 },
            8,
            14,
            4_684.108_667,
            4_533.821_758,
        ),
        (
            Pattern::Arms { across: 3 },
            6,
            22,
            3_803.976_331,
            3_949.745_388,
        ),
        (Pattern::Polygon, 4, 18, 3_176.323_570, 3_145.427_518),
        (
            Pattern::Arms { across: 3 },
            4,
            18,
            2_234.773_890,
            2_500.240_870,
        ),
    ];
    for (pattern, players, spaces, around, there) in boards {
        let holes = board(pattern, players, spaces, 5);
        assert_near!(tour(&holes).length / around, 1.0, 2e-4);
        let path = path(&holes, Point::new(-300.0, -300.0));
        assert_near!(path.length / there, 1.0, 2e-4);
        assert!(is_each_once(&path.order, holes.len()));
    }
}

#[test]
fn points_by_chance_come_out_nearly_as_short_as_known() {
    // LKH by way of elkai 2.0.1, ten runs on coordinates in 0.1 µm.
    let points = scattered(200);
    let known = 5_237.859_573;
    let soon = tour(&points).length;
    let late = shortest_tour(&points, TourBudget::THOROUGH, &|| false).length;
    assert!((1.0 - 1e-9..1.006).contains(&(soon / known)), "{soon}");
    assert!((1.0 - 1e-9..1.0008).contains(&(late / known)), "{late}");
}

#[test]
fn points_in_one_place_are_drilled_one_after_another() {
    let mut points = scattered(40);
    let once = tour(&points);
    points.extend(points.clone());
    points.push(points[3]);
    let twice = tour(&points);
    assert_eq!(twice.length, once.length);
    let expected: Vec<usize> = once
        .order
        .iter()
        .flat_map(|at| [*at, at + 40].into_iter().chain((*at == 3).then_some(80)))
        .collect();
    assert_eq!(twice.order, expected);
    let same = vec![Point::new(5.0, 5.0); 3000];
    assert_eq!(
        tour(&same),
        Tour {
            order: (0..3000).collect(),
            length: 0.0
        }
    );
}

#[test]
fn points_in_a_row_are_drilled_there_and_back() {
    let row: Vec<Point> = (0..500_u32)
        .map(|index| Point::new(0.0, f64::from(index * 37 % 500)))
        .collect();
    assert_near!(tour(&row).length, 998.0, 1e-9);
    let path = path(&row, Point::new(0.0, -2.0));
    assert_near!(path.length, 501.0, 1e-9);
    let along: Vec<f64> = path.order.iter().map(|at| row[*at].y).collect();
    assert!(along.is_sorted());
}

#[test]
fn points_without_a_place_are_passed_over() {
    let mut points = scattered(60);
    points[7].x = f64::NAN;
    points[20].y = f64::NEG_INFINITY;
    points[33].x = 1e101;
    let tour = tour(&points);
    let placed: Vec<usize> = (0..60).filter(|at| ![7, 20, 33].contains(at)).collect();
    let mut order = tour.order.clone();
    order.sort_unstable();
    assert_eq!(order, placed);
    assert!(tour.length.is_finite());
    let from = Point::new(f64::NAN, 0.0);
    assert_eq!(path(&points, from), path(&points, Point::ORIGIN));
    assert_eq!(path(&points[7..8], from).order, Vec::<usize>::new());
}

#[test]
fn one_point_far_off_is_no_trouble() {
    let mut points = scattered(300);
    points.push(Point::new(1e9, 1e9));
    assert!(is_each_once(&tour(&points).order, 301));
    points.push(Point::new(-1e99, 1e99));
    assert!(tour(&points).length.is_finite());
}

#[test]
fn a_canceled_search_returns_what_it_has() {
    let points = scattered(400);
    let at_once = shortest_tour(&points, TourBudget::THOROUGH, &|| true);
    assert!(is_each_once(&at_once.order, 400));
    let asked = Cell::new(0);
    let late = shortest_tour(&points, TourBudget { jolts: u32::MAX }, &|| {
        asked.set(asked.get() + 1);
        asked.get() > 50
    });
    assert_eq!(asked.get(), 51);
    assert!(is_each_once(&late.order, 400));
    assert!(late.length < at_once.length);
}

#[test]
fn ten_thousand_points_are_drilled_once_each() {
    let points = scattered(10_000);
    let tour = shortest_tour(&points, NO_JOLTS, &|| false);
    assert!(is_each_once(&tour.order, 10_000));
    // Points by chance in a square need about 0.7124 sqrt(n area), asymptotically (Johnson and McGeoch, 1997; from memory).
    let expected = 0.7124 * (1e4 * 500.0 * 500.0_f64).sqrt();
    assert!(tour.length < 1.12 * expected, "{}", tour.length / expected);
}

#[test]
fn the_same_points_give_the_same_bytes() {
    let holes = board(Pattern::Arms { across: 3 }, 6, 14, 4);
    let (one, other) = (tour(&holes), tour(&holes));
    assert_eq!(one.order, other.order);
    assert_eq!(one.length.to_bits(), other.length.to_bits());
    assert_eq!(path(&holes, Point::ORIGIN), path(&holes, Point::ORIGIN));
}

#[test]
fn more_jolts_are_worth_it() {
    let points = scattered(300);
    let at_first = shortest_tour(&points, NO_JOLTS, &|| false).length;
    assert!(tour(&points).length < 0.98 * at_first);
}

/// Points on a coarse grid, so that many are in one place or in a row.
fn gridded(count: core::ops::Range<usize>) -> impl Strategy<Value = Vec<Point>> {
    let point = (0..8_i32, 0..8_i32).prop_map(|(x, y)| Point::new(f64::from(x), f64::from(y)));
    prop::collection::vec(point, count)
}

fn spread(count: core::ops::Range<usize>) -> impl Strategy<Value = Vec<Point>> {
    let point = (-300.0..300.0, -300.0..300.0).prop_map(Point::from);
    prop::collection::vec(point, count)
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(48))]

    #[test]
    fn few_points_are_solved_as_by_trying_all_orders(points in prop_oneof![gridded(1..9), spread(1..9)]) {
        let mut rest = points[1..].to_vec();
        let best = shortest_of_all(points[0], &mut rest, Some(points[0]));
        prop_assert!((tour(&points).length - best).abs() < 1e-9 * (1.0 + best));
        let from = Point::new(-1.0, 2.5);
        let best = shortest_of_all(from, &mut points.clone(), None);
        prop_assert!((path(&points, from).length - best).abs() < 1e-9 * (1.0 + best));
    }

    #[test]
    fn every_point_is_met_once_and_the_length_is_the_way(points in prop_oneof![gridded(1..90), spread(1..90)]) {
        let from = Point::new(10.0, -5.0);

        let tour = shortest_tour(&points, FEW_JOLTS, &|| false);
        prop_assert!(is_each_once(&tour.order, points.len()));
        prop_assert!((tour.length - way(&points, &tour.order, true)).abs() < 1e-9 * (1.0 + tour.length));
        prop_assert_eq!(tour.order[0], 0);
        let turned = tour.order.get(1).is_none_or(|second| {
            points[*second] == points[0] || *second <= *tour.order.last().unwrap()
        });
        prop_assert!(turned);
        let path = shortest_path(&points, from, FEW_JOLTS, &|| false);
        prop_assert!(is_each_once(&path.order, points.len()));
        let length = from.distance(points[path.order[0]]) + way(&points, &path.order, false);
        prop_assert!((path.length - length).abs() < 1e-9 * (1.0 + length));
    }

    #[test]
    fn a_path_is_the_round_trip_without_the_way_home_or_shorter(points in spread(14..60)) {
        let from = Point::new(-310.0, -310.0);
        let all: Vec<Point> = [from].into_iter().chain(points.iter().copied()).collect();
        let round = shortest_tour(&all, FEW_JOLTS, &|| false);
        let home = [round.order[1], *round.order.last().unwrap()].map(|at| from.distance(all[at]));
        let path = shortest_path(&points, from, FEW_JOLTS, &|| false);
        prop_assert!(path.length <= 1.02 * (round.length - home[0].max(home[1])));
    }

    #[test]
    fn no_plain_heuristic_is_shorter(points in prop_oneof![gridded(2..80), spread(2..80)]) {
        let length = shortest_tour(&points, FEW_JOLTS, &|| false).length;
        prop_assert!(length <= nearest_neighbor(&points) + 1e-9);
        prop_assert!(points.len() < 3 || length <= greedy(&points) + 1e-9);
    }
}
