//! The largest disc of a blank compared with algebra, with plain scans of all places, and with another program.

#![allow(clippy::unwrap_used, reason = "helpers of tests fail by panicking")]

use core::cell::Cell;

use geometry::{
    Angle, Circle, Disc, Feature, Flaw, Outline, Point, Stopped, Vec2, clearance, largest_disc,
    point_at,
};
use proptest::prelude::*;
use testkit::assert_near;

fn points(corners: &[(f64, f64)]) -> Vec<Point> {
    corners.iter().copied().map(Point::from).collect()
}

fn outline(corners: &[(f64, f64)]) -> Outline {
    Outline::new(points(corners)).unwrap()
}

fn rectangle(width: f64, height: f64) -> Outline {
    outline(&[(0.0, 0.0), (width, 0.0), (width, height), (0.0, height)])
}

fn round(x: f64, y: f64, radius: f64) -> Flaw {
    Flaw::Round(Circle::new((x, y), radius))
}

fn best(outline: &Outline, flaws: &[Flaw]) -> Disc {
    largest_disc(outline, flaws, &|| false).unwrap().unwrap()
}

/// A corner of a star-shaped outline: at a radius and a fraction of a turn.
fn around(radius: f64, turns: f64) -> Point {
    point_at(radius, Angle::degrees(360.0 * turns))
}

#[test]
fn in_a_square_it_touches_all_four_edges() {
    for side in [1e-3, 1.0, 300.0, 20_000.0] {
        let disc = best(&rectangle(side, side), &[]);
        assert_near!(disc.circle.radius, side / 2.0, 1e-9);
        assert_near!(disc.circle.center, Point::new(side / 2.0, side / 2.0), 1e-9);
    }
    let all: Vec<Feature> = (0..4).map(Feature::Edge).collect();
    assert_eq!(best(&rectangle(300.0, 300.0), &[]).touches, all);
}

#[test]
fn in_a_triangle_it_is_the_inscribed_circle() {
    let [a, b, c] = [(3.0, -7.0), (911.0, 40.0), (200.0, 377.0)].map(Point::from);
    let disc = best(&Outline::new(vec![a, b, c]).unwrap(), &[]);
    // Radius: area divided by half the perimeter. Center: the corners weighted by the sides opposite them.
    let (to_a, to_b, to_c) = ((b - c).length(), (c - a).length(), (a - b).length());
    let whole = to_a + to_b + to_c;
    assert_near!(disc.circle.radius, (b - a).cross(c - a) / whole, 1e-9);
    let center = (a.to_vec2() * to_a + b.to_vec2() * to_b + c.to_vec2() * to_c) / whole;
    assert_near!(disc.circle.center, center.to_point(), 1e-9);
}

#[test]
fn between_parallel_edges_it_lies_in_the_middle_of_the_free_length() {
    let disc = best(&rectangle(2000.0, 400.0), &[]);
    assert_near!(disc.circle.radius, 200.0, 1e-9);
    assert_near!(disc.circle.center, Point::new(1000.0, 200.0), 1e-6);
    assert_eq!(disc.touches, [Feature::Edge(0), Feature::Edge(2)]);
    let disc = best(&rectangle(2000.0, 400.0), &[round(900.0, 150.0, 20.0)]);
    assert_near!(disc.circle.radius, 200.0, 1e-9);
    // From the knot, sqrt((x - 900)² + 50²) - 20, as far as from the right end, 2000 - x.
    let x: f64 = (2020.0 * 2020.0 - 900.0 * 900.0 - 50.0 * 50.0) / (2.0 * (2020.0 - 900.0));
    assert_near!(disc.circle.center, Point::new(x, 200.0), 1e-6);
}

#[test]
fn edges_in_many_parts_give_the_same_result_as_whole_ones() {
    let below = (0..20).map(|k| Point::new(100.0 * f64::from(k), 0.0));
    let above = (0..=20).map(|k| Point::new(2000.0 - 100.0 * f64::from(k), 400.0));
    let corners: Vec<Point> = below
        .chain([Point::new(2000.0, 0.0)])
        .chain(above)
        .collect();
    let disc = best(&Outline::new(corners).unwrap(), &[]);
    assert_near!(disc.circle.radius, 200.0, 1e-9);
    assert_near!(disc.circle.center, Point::new(1000.0, 200.0), 1e-6);
}

#[test]
fn a_knot_in_the_center_moves_it_into_a_corner() {
    let knot = 37.5;
    let disc = best(&rectangle(500.0, 500.0), &[round(250.0, 250.0, knot)]);
    // On a diagonal: sqrt(2) (250 - r) = r + knot.
    let radius = (2.0_f64.sqrt() * 250.0 - knot) / (1.0 + 2.0_f64.sqrt());
    assert_near!(disc.circle.radius, radius, 1e-9);
    assert_eq!(disc.touches.len(), 3);
    assert_eq!(disc.touches[2], Feature::Round(0));
}

#[test]
fn a_nail_counts_as_a_knot_without_size() {
    let disc = best(&rectangle(500.0, 500.0), &[round(250.0, 250.0, 0.0)]);
    let radius = 2.0_f64.sqrt() * 250.0 / (1.0 + 2.0_f64.sqrt());
    assert_near!(disc.circle.radius, radius, 1e-9);
}

#[test]
fn in_an_l_shape_it_touches_the_inner_corner() {
    let ell = [
        (0.0, 0.0),
        (900.0, 0.0),
        (900.0, 200.0),
        (200.0, 200.0),
        (200.0, 900.0),
        (0.0, 900.0),
    ];
    let disc = best(&outline(&ell), &[]);
    // On the diagonal: sqrt(2) (200 - r) = r.
    let radius = 200.0 * (2.0 - 2.0_f64.sqrt());
    assert_near!(disc.circle.radius, radius, 1e-9);
    assert_near!(disc.circle.center, Point::new(radius, radius), 1e-9);
    assert_eq!(
        disc.touches,
        [Feature::Edge(0), Feature::Edge(5), Feature::Corner(3)]
    );
}

#[test]
fn in_a_regular_polygon_it_is_the_inscribed_circle() {
    for sides in [3, 5, 6, 97, 1000, 10_000] {
        let corners = (0..sides).map(|k| around(400.0, f64::from(k) / f64::from(sides)));
        let disc = best(&Outline::new(corners.collect()).unwrap(), &[]);
        let inradius = 400.0 * Angle::degrees(180.0 / f64::from(sides)).cos();
        assert_near!(disc.circle.radius, inradius, 1e-9);
        assert_near!(disc.circle.center, Point::ORIGIN, 1e-6);
        assert!(disc.touches.len() >= 3);
    }
}

#[test]
fn it_stays_clear_of_a_flaw_with_an_outline() {
    let crack = outline(&[
        (480.0, -50.0),
        (520.0, -50.0),
        (520.0, 450.0),
        (480.0, 450.0),
    ]);
    let disc = best(&rectangle(1000.0, 400.0), &[Flaw::Area(crack)]);
    assert_near!(disc.circle.radius, 200.0, 1e-9);
    let hole = outline(&[
        (200.0, 200.0),
        (300.0, 200.0),
        (300.0, 300.0),
        (200.0, 300.0),
    ]);
    let disc = best(&rectangle(500.0, 500.0), &[Flaw::Area(hole)]);
    // On a diagonal: sqrt(2) (200 - r) = r.
    assert_near!(disc.circle.radius, 200.0 * (2.0 - 2.0_f64.sqrt()), 1e-9);
    assert_eq!(disc.touches.len(), 3);
    assert!(matches!(
        disc.touches[2],
        Feature::FlawCorner { flaw: 0, .. }
    ));
}

#[test]
fn flaws_outside_and_invalid_circles_change_nothing() {
    let slab = rectangle(700.0, 500.0);
    let plain = best(&slab, &[]);
    let far = outline(&[(2000.0, 0.0), (2100.0, 0.0), (2100.0, 100.0)]);
    let flaws = [
        Flaw::Area(far),
        round(-500.0, 0.0, 30.0),
        round(f64::NAN, 0.0, 30.0),
        round(350.0, 250.0, -1.0),
        round(350.0, 250.0, f64::INFINITY),
    ];
    assert_eq!(best(&slab, &flaws), plain);
}

#[test]
fn a_blank_covered_by_flaws_has_no_disc() {
    let slab = rectangle(600.0, 400.0);
    let none = |flaws: &[Flaw]| assert_eq!(largest_disc(&slab, flaws, &|| false), Ok(None));
    none(&[round(300.0, 200.0, 400.0)]);
    let wider = outline(&[(-9.0, -9.0), (700.0, -9.0), (700.0, 500.0), (-9.0, 500.0)]);
    none(&[Flaw::Area(wider)]);
}

#[test]
fn a_flaw_equal_to_the_whole_blank_leaves_no_disc() {
    let sliver = outline(&[(0.0, 0.0), (600.0, 10.0), (500.0, 40.0)]);
    let flaws = [Flaw::Area(sliver.clone())];
    assert_eq!(largest_disc(&sliver, &flaws, &|| false), Ok(None));
}

/// The number of steps of the search, which calls `cancel` at each.
fn steps(outline: &Outline, flaws: &[Flaw]) -> (u32, Option<Disc>) {
    let asked = Cell::new(0);
    let count = || {
        asked.set(asked.get() + 1);
        false
    };
    let found = largest_disc(outline, flaws, &count).unwrap();
    (asked.get(), found)
}

/// A slab with a wavy edge of 1,000 corners and bark along all of it: half of a million boxes lie along the edge.
#[test]
fn edges_shared_by_a_flaw_and_the_blank_are_not_searched_box_by_box() {
    let wavy = |at: u32, wide: f64| {
        let turns = f64::from(at) / 1_000.0;
        around(
            wide + 20.0 * Angle::degrees(360.0 * 31.0 * turns).sin(),
            turns,
        )
    };
    let edge: Vec<Point> = (0..1_000).map(|at| wavy(at, 500.0)).collect();
    let slab = Outline::new(edge.clone()).unwrap();
    let (asked, found) = steps(&slab, &[Flaw::Area(slab.clone())]);
    assert!(found.is_none() && asked < 12_000, "{asked} boxes");
    // Bark that leaves a disc inside it: the same edge outward, and another edge 100 mm farther in.
    let half = |from: u32| (from..=from + 500).map(|at| wavy(at % 1_000, 500.0));
    let inner = |from: u32| (from..=from + 500).rev().map(|at| wavy(at % 1_000, 400.0));
    let bark = [0, 500].map(|from| {
        let corners = half(from).chain(inner(from)).collect();
        Flaw::Area(Outline::new(corners).unwrap())
    });
    let sound = Outline::new((0..1_000).map(|at| wavy(at, 400.0)).collect()).unwrap();
    let (asked, found) = steps(&slab, &bark);
    assert!(asked < 12_000, "{asked} boxes");
    assert_near!(
        found.unwrap().circle.radius,
        best(&sound, &[]).circle.radius,
        1e-9
    );
}

/// The largest inscribed circles that GEOS 3.14.1 found, by shapely 2.2.0's `maximum_inscribed_circle`, tolerance 1e-6: at most
/// 1e-5 mm short here.
#[test]
fn another_program_finds_the_same_discs() {
    let zigzag = outline(&[
        (0.0, 0.0),
        (820.0, -30.0),
        (1110.0, 160.0),
        (905.0, 330.0),
        (960.0, 515.0),
        (610.0, 440.0),
        (250.0, 580.0),
        (120.0, 420.0),
        (-60.0, 365.0),
        (75.0, 190.0),
    ]);
    let crack = outline(&[
        (430.0, 60.0),
        (520.0, 130.0),
        (455.0, 300.0),
        (400.0, 210.0),
    ]);
    let four = outline(&[(0.0, 0.0), (910.0, 35.0), (870.0, 420.0), (-20.0, 380.0)]);
    let disc = best(&four, &[]);
    assert_near!(disc.circle.radius, 192.540_974_482_093_02, 1e-9);
    assert_near!(
        disc.circle.center,
        Point::new(697.253_719_950_284, 219.500_784_584_558_8),
        1e-9
    );
    let disc = best(&zigzag, &[]);
    assert_near!(disc.circle.radius, 269.511_916_799_524_84, 1e-5);
    assert_near!(
        disc.circle.center,
        Point::new(335.947_729_4, 257.401_456_1),
        1e-3
    );
    let disc = best(&zigzag, &[Flaw::Area(crack)]);
    assert_near!(disc.circle.radius, 220.671_047_833_510_78, 1e-5);
    assert_near!(
        disc.circle.center,
        Point::new(731.165_599_4, 194.068_720_7),
        1e-3
    );
}

#[test]
fn a_canceled_search_reports_it() {
    let asked = Cell::new(0);
    let at_the_third = || {
        asked.set(asked.get() + 1);
        asked.get() == 3
    };
    let flaws = [
        round(250.0, 200.0, 9.0),
        round(400.0, 270.0, 9.0),
        round(200.0, 310.0, 9.0),
    ];
    let stopped = largest_disc(&rectangle(600.0, 500.0), &flaws, &at_the_third);
    assert_eq!((stopped, asked.get()), (Err(Stopped), 3));
}

#[test]
fn clearance_is_signed() {
    let notch = outline(&[(40.0, 10.0), (60.0, 10.0), (60.0, 120.0), (40.0, 120.0)]);
    let flaws = [Flaw::Area(notch), round(10.0, 90.0, 5.0)];
    let slab = rectangle(100.0, 100.0);
    let at = |x, y| clearance(&slab, &flaws, Point::new(x, y));
    assert_near!(at(30.0, 50.0), 10.0, 1e-12);
    assert_near!(at(48.0, 50.0), -8.0, 1e-12);
    assert_near!(at(50.0, 4.0), 4.0, 1e-12);
    assert_near!(at(50.0, 103.0), -10.0, 1e-12);
    assert_near!(at(103.0, 104.0), -5.0, 1e-12);
    assert_near!(at(13.0, 94.0), 0.0, 1e-12);
    assert_near!(at(10.0, 90.0), -5.0, 1e-12);
}

/// Distance of a point from edges and flaws, measured in the simplest way and with a different inside test.
fn plain_clearance(outline: &[Point], areas: &[Vec<Point>], knots: &[Circle], point: Point) -> f64 {
    let signed = |corners: &[Point]| {
        let count = corners.len();
        let mut nearest = f64::INFINITY;
        let mut turn = 0.0;
        for k in 0..count {
            let (from, to) = (corners[k] - point, corners[(k + 1) % count] - point);
            let edge = to - from;
            let share = (-from.dot(edge) / edge.hypot2()).clamp(0.0, 1.0);
            nearest = nearest.min((from + edge * share).length());
            // The angle that the edge subtends at the point; they add up to a full turn inside, to zero outside.
            turn += Angle::atan2(from.cross(to), from.dot(to)).as_degrees();
        }
        if turn.abs() > 180.0 {
            nearest
        } else {
            -nearest
        }
    };
    let mut clear = signed(outline);
    for area in areas {
        clear = clear.min(-signed(area));
    }
    let to_knots = knots
        .iter()
        .map(|knot| (knot.center - point).length() - knot.radius);
    to_knots.fold(clear, f64::min)
}

/// A blank as generated by the random tests.
#[derive(Debug, Clone)]
struct Slab {
    corners: Vec<Point>,
    areas: Vec<Vec<Point>>,
    knots: Vec<Circle>,
}

impl Slab {
    fn best(&self) -> Option<Disc> {
        let outline = Outline::new(self.corners.clone()).unwrap();
        let areas = self.areas.iter().cloned();
        let areas = areas.map(|corners| Flaw::Area(Outline::new(corners).unwrap()));
        let flaws: Vec<Flaw> = areas
            .chain(self.knots.iter().copied().map(Flaw::Round))
            .collect();
        largest_disc(&outline, &flaws, &|| false).unwrap()
    }

    fn clearance(&self, point: Point) -> f64 {
        plain_clearance(&self.corners, &self.areas, &self.knots, point)
    }

    /// The clearances of a grid of places, and the largest distance of any place of the blank from the nearest of them.
    fn scan(&self, steps: u32) -> (Vec<(f64, Point)>, f64) {
        let reach = |axis: fn(&Point) -> f64| {
            let values = self.corners.iter().map(axis);
            values.fold((f64::INFINITY, -f64::INFINITY), |(low, high), value| {
                (low.min(value), high.max(value))
            })
        };
        let ((left, right), (low, high)) = (reach(|corner| corner.x), reach(|corner| corner.y));
        let step = (right - left).max(high - low) / f64::from(steps);
        let mut places = Vec::new();
        for (row, column) in
            (0..=steps).flat_map(|row| (0..=steps).map(move |column| (row, column)))
        {
            let place = Point::new(left + step * f64::from(column), low + step * f64::from(row));
            places.push((self.clearance(place), place));
        }
        places.sort_by(|one, other| other.0.total_cmp(&one.0));
        (places, step * 0.5_f64.sqrt())
    }

    /// The best of ever finer grids around a place.
    fn refined(&self, mut best: (f64, Point), mut width: f64) -> f64 {
        while width > 1e-11 {
            let middle = best.1;
            for (x, y) in (-4..=4).flat_map(|x| (-4..=4).map(move |y| (x, y))) {
                let step = Vec2::new(f64::from(x), f64::from(y)) * (width / 4.0);
                let clear = self.clearance(middle + step);
                if clear > best.0 {
                    best = (clear, middle + step);
                }
            }
            // Halved only if nothing better lies at the rim, so that it can move as far as needed.
            if (best.1 - middle).length() < width * 0.7 {
                width /= 2.0;
            }
        }
        best.0
    }

    /// Fails unless the disc is correct, no place of a scan is better, and none between them can be.
    fn check(&self) -> Result<(), TestCaseError> {
        let (places, off) = self.scan(50);
        let (radius, center) = self.best().map_or((0.0, None), |disc| {
            (disc.circle.radius, Some(disc.circle.center))
        });
        if let Some(center) = center {
            let there = self.clearance(center);
            prop_assert!(
                (there - radius).abs() <= 1e-9,
                "{radius} is told where {there} is"
            );
        }
        prop_assert!(
            radius <= places[0].0.max(0.0) + off + 1e-9,
            "{radius} of {:?}",
            places[0]
        );
        for place in places.iter().take(3) {
            let scanned = self.refined(*place, off);
            // Smaller than 1/100,000 of the blank does not count.
            prop_assert!(
                radius >= scanned - 1e-9 || (center.is_none() && scanned < 0.02),
                "{radius} at {center:?}, but {scanned} near {place:?}"
            );
        }
        Ok(())
    }
}

/// Star-shaped outlines: 3 to 60 corners at random radii, in order around.
fn stars() -> impl Strategy<Value = Vec<Point>> {
    proptest::collection::vec((0.2..1.0, 0.05..0.95), 3..60).prop_map(|corners| {
        let count = corners.len() as f64;
        let corners = corners.into_iter().zip(0..);
        corners
            .map(|((share, off), k)| around(500.0 * share, (f64::from(k) + off) / count))
            .collect()
    })
}

/// Outlines of edges alternately to the right and up, rotated by some angle: full of parallel edges.
fn stairs() -> impl Strategy<Value = Vec<Point>> {
    (
        proptest::collection::vec((1u32..5, 1u32..8), 2..20),
        0.0..90.0,
    )
        .prop_map(|(columns, turn)| {
            let mut corners = Vec::new();
            let mut x = 0.0;
            for (width, height) in columns {
                let y = 50.0 * f64::from(height);
                corners.push(Point::new(x, y));
                x += 50.0 * f64::from(width);
                corners.push(Point::new(x, y));
            }
            corners.extend([Point::new(x, 0.0), Point::new(0.0, 0.0)]);
            let (sin, cos) = Angle::degrees(turn).sin_cos();
            let turned = |corner: Point| {
                Point::new(
                    corner.x * cos - corner.y * sin,
                    corner.x * sin + corner.y * cos,
                )
            };
            corners.into_iter().map(turned).collect()
        })
}

fn slabs(corners: impl Strategy<Value = Vec<Point>>) -> impl Strategy<Value = Slab> {
    let knot = (-500.0..500.0, -500.0..500.0, 0.0..60.0)
        .prop_map(|(x, y, radius)| Circle::new((x, y), radius));
    let crack =
        (stars(), -400.0..400.0, -400.0..400.0, 0.02..0.3).prop_map(|(star, x, y, share)| {
            let shrunk = star
                .into_iter()
                .map(|corner| Point::new(x, y) + corner.to_vec2() * share);
            shrunk.collect::<Vec<Point>>()
        });
    let flaws = (
        proptest::collection::vec(crack, 0..4),
        proptest::collection::vec(knot, 0..20),
    );
    (corners, flaws).prop_filter_map(
        "an outline must not meet itself",
        |(corners, (areas, knots))| {
            let sound = |corners: &Vec<Point>| Outline::new(corners.clone()).is_ok();
            let slab = Slab {
                corners,
                areas,
                knots,
            };
            (sound(&slab.corners) && slab.areas.iter().all(sound)).then_some(slab)
        },
    )
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(40))]

    #[test]
    fn no_scan_of_a_star_finds_a_better_place(slab in slabs(stars())) {
        slab.check()?;
    }

    #[test]
    fn no_scan_of_stairs_finds_a_better_place(slab in slabs(stairs())) {
        slab.check()?;
    }

    #[test]
    fn clearance_matches_plain_measurement(slab in slabs(stars()), x in -600.0..600.0, y in -600.0..600.0) {
        let outline = Outline::new(slab.corners.clone()).unwrap();
        let areas = slab.areas.iter().cloned();
        let areas = areas.map(|corners| Flaw::Area(Outline::new(corners).unwrap()));
        let flaws: Vec<Flaw> = areas.chain(slab.knots.iter().copied().map(Flaw::Round)).collect();
        let point = Point::new(x, y);
        assert_near!(clearance(&outline, &flaws, point), slab.clearance(point), 1e-9);
    }
}
