//! The best position of a start pocket compared with dense scans of all positions.

#![allow(clippy::unwrap_used, reason = "helpers of tests fail by panicking")]

use geometry::{
    Angle, Circle, Pattern, PocketSearch, PocketShape, Point, Sector, best_pocket, home_lane,
    pocket, ring_radius, track, turn_in,
};
use proptest::prelude::*;
use testkit::assert_near;

/// The most that two equally good webs may differ, in mm.
const TIE: f64 = 1e-6;

const SHAPES: [PocketShape; 4] = [
    PocketShape::Row,
    PocketShape::Arc,
    PocketShape::Block,
    PocketShape::Ring,
];

/// Every bore of a board except those of its pockets.
fn bores(pattern: Pattern, players: u32, spaces: u32, home: u32) -> Vec<Circle> {
    let places = track(pattern, players, spaces, 19.0).unwrap();
    let lane = home_lane(places[turn_in(spaces) as usize - 1].y, home, 19.0).unwrap();
    let mut all = vec![Circle::new(Point::ORIGIN, 6.0)];
    for sector in (0..players).map(|index| Sector::new(index, players, Angle::ZERO)) {
        let locals = places.iter().chain(&lane);
        all.extend(locals.map(|local| Circle::new(sector.place(*local), 6.0)));
    }
    all
}

fn search(shape: PocketShape, obstacles: &[Circle], players: u32) -> PocketSearch<'_> {
    let reach = obstacles
        .iter()
        .map(|bore| bore.center.to_vec2().length())
        .fold(0.0, f64::max);
    PocketSearch {
        shape,
        holes: 4,
        pitch: 19.0,
        hole_radius: 6.0,
        players,
        bearing: None,
        radius: None,
        obstacles,
        edge_radius: reach + 25.0,
    }
}

/// The smallest web of a pocket at a position, measured hole by hole in the simplest way.
fn web_at(search: &PocketSearch<'_>, bearing: Angle, radius: f64) -> f64 {
    let holes = pocket(search.shape, search.holes, search.pitch, bearing, radius).unwrap();
    let sectors = (1..search.players).map(|index| Sector::new(index, search.players, Angle::ZERO));
    let others: Vec<Point> = sectors
        .flat_map(|sector| holes.iter().map(move |hole| sector.place(*hole)))
        .collect();
    let mut web = f64::INFINITY;
    for hole in &holes {
        web = web.min(search.edge_radius - hole.to_vec2().length() - search.hole_radius);
        for bore in search.obstacles {
            web = web.min(hole.distance(bore.center) - bore.radius - search.hole_radius);
        }
        for other in &others {
            web = web.min(hole.distance(*other) - 2.0 * search.hole_radius);
        }
    }
    web
}

/// A bearing as a fraction of half a sector, and a radius as a fraction of the way from the least to the edge.
type Place = (f64, f64);

/// The web at a position; none outside the board's range.
fn web_of(search: &PocketSearch<'_>, (around, out): Place) -> f64 {
    if !(-1.0..=1.0).contains(&around) || !(0.0..=1.0).contains(&out) {
        return f64::NEG_INFINITY;
    }
    let least = match search.shape {
        PocketShape::Arc => ring_radius(search.pitch, search.holes) * 1.000_001,
        _ => 0.0,
    };
    let half = 180.0 / f64::from(search.players);
    let radius = least + (search.edge_radius - least) * out;
    web_at(search, Angle::degrees(half * around), radius)
}

/// The best of a square of positions around one, with this many steps to each side.
fn best_around(search: &PocketSearch<'_>, about: Place, step: f64, steps: i32) -> (Place, f64) {
    let mut best = (about, web_of(search, about));
    for (row, column) in (-steps..=steps).flat_map(|row| (-steps..=steps).map(move |at| (row, at)))
    {
        let place = (
            about.0 + step * f64::from(row),
            about.1 + step * f64::from(column),
        );
        let web = web_of(search, place);
        if web > best.1 {
            best = (place, web);
        }
    }
    best
}

/// The best web of a scan of all positions, and of ever finer ones around the best position of each.
fn scanned_best(search: &PocketSearch<'_>, steps: i32) -> f64 {
    let mut step = 1.0 / f64::from(steps);
    let (mut place, mut web) = best_around(search, (0.0, 0.0), step, steps);
    while step > 1e-9 {
        step /= 2.0;
        (place, web) = best_around(search, place, step, 3);
    }
    web
}

fn assert_best(search: &PocketSearch<'_>, steps: i32) {
    let best = best_pocket(search).unwrap();
    assert_near!(web_at(search, best.bearing, best.radius), best.web, 1e-9);
    let scanned = scanned_best(search, steps);
    assert!(
        best.web >= scanned - TIE,
        "{search:?}: {best:?}, scanned {scanned}"
    );
}

#[test]
fn no_position_of_a_dense_scan_is_better() {
    let cases = [
        (Pattern::Ring, 6, 14),
        (Pattern::Ring, 2, 20),
        (Pattern::Arms { across: 3 }, 4, 14),
        (Pattern::Polygon, 3, 16),
        (Pattern::Lobes { depth: 0.2 }, 5, 13),
    ];
    for (pattern, players, spaces) in cases {
        let obstacles = bores(pattern, players, spaces, 3);
        for shape in SHAPES {
            assert_best(&search(shape, &obstacles, players), 60);
        }
    }
}

/// Pockets of this many holes are examined in parts.
#[test]
fn no_position_of_a_scan_is_better_for_a_pocket_of_many_holes() {
    let obstacles = bores(Pattern::Ring, 4, 60, 8);
    for shape in SHAPES {
        let search = PocketSearch {
            holes: 30,
            ..search(shape, &obstacles, 4)
        };
        assert_best(&search, 20);
    }
}

/// Found by chance: the pockets overlap at every position, and the search once ended before it had examined all positions.
#[test]
fn no_position_of_a_scan_is_better_if_pockets_overlap() {
    let bore = |x, y, radius| Circle {
        center: Point::new(x, y),
        radius,
    };
    let bores = [
        bore(
            -59.310_247_616_228_71,
            79.243_638_626_746_39,
            17.311_384_939_628_248,
        ),
        bore(0.0, 0.0, 0.0),
    ];
    let search = PocketSearch {
        holes: 44,
        pitch: 7.0,
        hole_radius: 2.0,
        edge_radius: 170.0,
        ..search(PocketShape::Arc, &bores, 7)
    };
    assert_best(&search, 15);
}

#[test]
fn no_position_along_a_given_bearing_or_radius_is_better() {
    let obstacles = bores(Pattern::Ring, 6, 14, 4);
    for shape in SHAPES {
        let free = search(shape, &obstacles, 6);
        let on_ray = PocketSearch {
            bearing: Some(Angle::degrees(30.0)),
            ..free
        };
        let best = best_pocket(&on_ray).unwrap();
        assert_eq!(best.bearing, Angle::degrees(30.0));
        for step in 0..=3000 {
            let radius = 14.0 + (free.edge_radius - 14.0) * f64::from(step) / 3000.0;
            assert!(web_at(&free, best.bearing, radius) <= best.web + TIE);
        }
        let on_circle = PocketSearch {
            radius: Some(120.0),
            ..free
        };
        let best = best_pocket(&on_circle).unwrap();
        assert_eq!(best.radius, 120.0);
        for step in -3000..=3000 {
            let bearing = Angle::degrees(30.0 * f64::from(step) / 3000.0);
            assert!(web_at(&free, bearing, 120.0) <= best.web + TIE);
        }
    }
}

#[test]
fn a_given_bearing_and_radius_are_only_measured() {
    let obstacles = bores(Pattern::Ring, 6, 14, 4);
    let fixed = PocketSearch {
        bearing: Some(Angle::degrees(40.0)),
        radius: Some(100.0),
        ..search(PocketShape::Row, &obstacles, 6)
    };
    let best = best_pocket(&fixed).unwrap();
    assert_eq!((best.bearing, best.radius), (Angle::degrees(40.0), 100.0));
    assert_near!(best.web, web_at(&fixed, best.bearing, 100.0), 1e-12);
}

#[test]
fn the_clockwise_mirror_image_is_chosen() {
    for pattern in [
        Pattern::Ring,
        Pattern::Lobes { depth: 0.15 },
        Pattern::Polygon,
    ] {
        let obstacles = bores(pattern, 6, 14, 4);
        for shape in SHAPES {
            let best = best_pocket(&search(shape, &obstacles, 6)).unwrap();
            assert!(best.bearing.as_degrees() >= 0.0, "{pattern:?}: {best:?}");
        }
    }
}

#[test]
fn the_other_side_is_chosen_if_it_is_better() {
    let mut obstacles = bores(Pattern::Ring, 2, 20, 4);
    // Crowd the clockwise side of both sectors.
    for side in [1.0, -1.0] {
        obstacles.extend(
            (0..9).map(|row| Circle::new((side * 40.0, side * 12.0 * f64::from(row)), 6.0)),
        );
    }
    let search = search(PocketShape::Ring, &obstacles, 2);
    let best = best_pocket(&search).unwrap();
    assert!(best.bearing.as_degrees() < 0.0, "{best:?}");
    assert_best(&search, 100);
}

/// Between the rim at 100 and a bore at the pin, a hole without width belongs midway.
#[test]
fn known_best_positions_are_found() {
    let pin = [Circle::new(Point::ORIGIN, 10.0)];
    let alone = PocketSearch {
        holes: 1,
        hole_radius: 0.0,
        edge_radius: 100.0,
        ..search(PocketShape::Row, &pin, 1)
    };
    let best = best_pocket(&alone).unwrap();
    assert_near!(best.radius, 55.0, 2e-6);
    assert_near!(best.web, 45.0, 1e-6);
    // A row of two around the pin is nearest to the rim at its ends.
    let pair = PocketSearch {
        holes: 2,
        obstacles: &[],
        ..alone
    };
    let best = best_pocket(&pair).unwrap();
    assert_near!(best.radius, 0.0, 2e-2);
    assert_near!(best.web, 90.5, 1e-6);
}

#[test]
fn invalid_searches_are_refused() {
    let sound = search(PocketShape::Arc, &[], 6);
    let refused = [
        PocketSearch { holes: 0, ..sound },
        PocketSearch { holes: 61, ..sound },
        PocketSearch {
            players: 0,
            ..sound
        },
        PocketSearch {
            pitch: f64::NAN,
            ..sound
        },
        PocketSearch {
            edge_radius: 10.0,
            ..sound
        },
        PocketSearch {
            edge_radius: -10.0,
            ..sound
        },
        PocketSearch {
            radius: Some(-1.0),
            ..sound
        },
        PocketSearch {
            radius: Some(f64::NAN),
            ..sound
        },
        PocketSearch {
            bearing: Some(Angle::degrees(f64::INFINITY)),
            ..sound
        },
        PocketSearch {
            hole_radius: f64::NAN,
            ..sound
        },
    ];
    for search in refused {
        assert!(best_pocket(&search).is_err(), "{search:?}");
    }
}

fn any_bores() -> impl Strategy<Value = Vec<Circle>> {
    let bore = (-150.0..150.0, -150.0..150.0, 0.0..20.0)
        .prop_map(|(x, y, radius)| Circle::new((x, y), radius));
    proptest::collection::vec(bore, 0..12)
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(60))]

    /// Bores anywhere, including ones without any board's symmetry.
    #[test]
    fn among_any_bores_no_position_of_a_scan_is_better(
        bores in any_bores(),
        shape in prop::sample::select(&SHAPES[..]),
        players in 1_u32..9,
        holes in 1_u32..8,
        hole_radius in 0.0..9.0,
    ) {
        let search = PocketSearch {
            holes,
            hole_radius,
            edge_radius: 170.0,
            ..search(shape, &bores, players)
        };
        assert_best(&search, 40);
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(8))]

    /// The same for pockets that are examined in parts.
    #[test]
    fn among_any_bores_no_position_of_a_scan_is_better_for_many_holes(
        bores in any_bores(),
        shape in prop::sample::select(&SHAPES[..]),
        players in 6_u32..9,
        holes in 35_u32..45,
    ) {
        let search = PocketSearch {
            holes,
            pitch: 7.0,
            hole_radius: 2.0,
            edge_radius: 170.0,
            ..search(shape, &bores, players)
        };
        assert_best(&search, 15);
    }
}
