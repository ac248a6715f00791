//! The best rotation of a pattern compared with a dense scan, and cases solved by hand.

#![allow(clippy::unwrap_used, reason = "helpers of tests fail by panicking")]

use geometry::{
    Angle, Circle, Measure, Pattern, Point, Seam, Sector, best_turn, home_lane, point_at, seam_gap,
    track, turn_curve, turn_in,
};
use proptest::prelude::*;
use testkit::assert_near;

const BOTH: [Measure; 2] = [Measure::Center, Measure::Edge];

fn seam(normal: f64, offset: f64) -> Seam {
    Seam {
        normal: Angle::degrees(normal),
        offset,
    }
}

/// The gap in the simplest way: rotate every hole, and drop a perpendicular to every seam.
fn plain_gap(holes: &[Circle], seams: &[Seam], turn: f64, measure: Measure) -> f64 {
    let mut least = f64::INFINITY;
    for hole in holes {
        let radius = hole.center.to_vec2().length();
        let bearing = geometry::bearing_of(hole.center) + Angle::degrees(turn);
        for seam in seams {
            let along = point_at(radius, bearing)
                .to_vec2()
                .dot(point_at(1.0, seam.normal).to_vec2());
            let bore = if measure == Measure::Edge {
                hole.radius
            } else {
                0.0
            };
            least = least.min((along - seam.offset).abs() - bore);
        }
    }
    least
}

/// The largest gap that a scan in steps finds, with every maximum refined by ternary search.
fn scanned(
    holes: &[Circle],
    seams: &[Seam],
    sectors: u32,
    measure: Measure,
    samples: usize,
) -> f64 {
    let curve = turn_curve(holes, seams, sectors, measure, samples);
    let step = 360.0 / f64::from(sectors) / (samples - 1) as f64;
    let best = curve.iter().map(|(_, gap)| *gap).fold(f64::MIN, f64::max);
    let rise = holes
        .iter()
        .map(|hole| hole.center.to_vec2().length())
        .fold(0.0, f64::max)
        * step.to_radians();
    curve
        .iter()
        .filter(|(_, gap)| *gap >= best - rise)
        .map(|(turn, _)| {
            let (mut lo, mut hi) = (turn.as_degrees() - step, turn.as_degrees() + step);
            for _ in 0..80 {
                let (one, two) = (lo + (hi - lo) / 3.0, hi - (hi - lo) / 3.0);
                if plain_gap(holes, seams, one, measure) < plain_gap(holes, seams, two, measure) {
                    lo = one;
                } else {
                    hi = two;
                }
            }
            plain_gap(holes, seams, lo, measure)
        })
        .fold(best, f64::max)
}

/// Track and home lanes of six players, and the center hole.
fn board(pattern: Pattern) -> Vec<Circle> {
    let places = track(pattern, 6, 14, 19.0).unwrap();
    let lane = home_lane(places[turn_in(14) as usize - 1].y, 4, 19.0).unwrap();
    let sectors = (0..6).map(|index| Sector::new(index, 6, Angle::ZERO));
    let all = sectors.flat_map(|sector| {
        places
            .iter()
            .chain(&lane)
            .map(move |local| Circle::new(sector.place(*local), 6.0))
    });
    all.collect()
}

#[test]
fn one_hole_can_be_its_ring_radius_away_from_a_center_seam() {
    let hole = [Circle::new(point_at(80.0, Angle::degrees(20.0)), 5.0)];
    let best = best_turn(&hole, &[seam(0.0, 0.0)], 1, Measure::Center).unwrap();
    assert_near!(best.gap.mm, 80.0, 1e-12);
    assert_near!(best.turn.as_degrees(), 160.0, 1e-7);
    let edge = best_turn(&hole, &[seam(0.0, 0.0)], 1, Measure::Edge).unwrap();
    assert_near!(edge.gap.mm, 75.0, 1e-12);
}

#[test]
fn two_holes_a_quarter_turn_apart_share_the_seam() {
    let holes = [0.0, 90.0].map(|b| Circle::new(point_at(100.0, Angle::degrees(b)), 5.0));
    for normal in [0.0, 17.0, 90.0] {
        let best = best_turn(&holes, &[seam(normal, 0.0)], 1, Measure::Center).unwrap();
        assert_near!(best.gap.mm, 100.0 * Angle::degrees(45.0).sin(), 1e-10);
        // The smallest of four equally good rotations.
        let wanted = (normal + 45.0) % 90.0;
        assert_near!(best.turn.as_degrees(), wanted, 1e-9);
    }
}

/// Holes on a ring of 96 can be at best half a step, 180/96 degrees, off a seam through the center.
#[test]
fn a_ring_can_be_half_a_step_off_a_center_seam() {
    let radius = geometry::ring_radius(19.0, 96);
    let ring: Vec<Circle> = (0..96)
        .map(|hole| Circle::new(point_at(radius, Angle::turn_part(hole, 96)), 6.0))
        .collect();
    for sectors in [1, 6, 96] {
        let best = best_turn(&ring, &[seam(90.0, 0.0)], sectors, Measure::Edge).unwrap();
        // Half the pitch of 19 mm minus the bore's radius: the seam crosses a chord at its midpoint.
        assert_near!(best.gap.mm, 9.5 - 6.0, 1e-9);
        assert_near!(best.turn.as_degrees(), 180.0 / 96.0, 1e-9);
    }
}

#[test]
fn rotation_does_not_help_a_hole_at_the_center_pin() {
    let mut holes = vec![Circle::new((0.0, 0.0), 5.0); 200];
    holes.push(Circle::new((0.0, 90.0), 5.0));
    let best = best_turn(&holes, &[seam(0.0, 0.0)], 1, Measure::Edge).unwrap();
    assert_near!(best.gap.mm, -5.0, 1e-12);
    assert_eq!((best.turn, best.gap.hole), (Angle::ZERO, 0));
}

#[test]
fn the_smallest_of_a_range_of_equally_good_rotations_is_returned() {
    // The center hole stays 30 mm away; the other is nearer for rotations under 60 degrees: 60 cos 60 = 30.
    let holes = [(0.0, 0.0), (0.0, 60.0)].map(|center| Circle::new(center, 5.0));
    let best = best_turn(&holes, &[seam(0.0, 30.0)], 1, Measure::Center).unwrap();
    assert_near!(best.gap.mm, 30.0, 1e-9);
    assert_near!(best.turn.as_degrees(), 0.0, 1e-9);
    let best = best_turn(&holes, &[seam(40.0, 30.0)], 1, Measure::Center).unwrap();
    assert_near!(best.gap.mm, 30.0, 1e-9);
    assert_near!(best.turn.as_degrees(), 40.0, 1e-9);
}

#[test]
fn the_bores_stay_clear_of_all_parallel_seams() {
    // Strips 60 wide: at best, a hole is midway between two seams.
    let seams = [-60.0, 0.0, 60.0].map(|offset| seam(0.0, offset));
    let hole = [Circle::new((0.0, 55.0), 4.0)];
    let best = best_turn(&hole, &seams, 1, Measure::Center).unwrap();
    assert_near!(best.gap.mm, 30.0, 1e-10);
    assert_near!(best.turn.cos(), 30.0 / 55.0, 1e-12);
}

#[test]
fn without_holes_or_seams_there_is_no_gap() {
    let hole = [Circle::new((0.0, 55.0), 4.0)];
    for measure in BOTH {
        assert_eq!(best_turn(&[], &[seam(0.0, 0.0)], 1, measure), None);
        assert_eq!(best_turn(&hole, &[], 6, measure), None);
        assert_eq!(seam_gap(&hole, &[], Angle::ZERO, measure), None);
        assert!(turn_curve(&hole, &[], 1, measure, 10).is_empty());
        assert!(turn_curve(&hole, &[seam(0.0, 0.0)], 1, measure, 0).is_empty());
    }
}

#[test]
fn holes_and_seams_without_a_position_are_ignored() {
    let good = Circle::new((0.0, 55.0), 4.0);
    let holes = [
        Circle::new((f64::NAN, 0.0), 4.0),
        Circle::new((1e300, 0.0), 4.0),
        Circle::new((9.0, 0.0), f64::NAN),
        good,
    ];
    let seams = [
        seam(f64::NAN, 0.0),
        seam(0.0, f64::INFINITY),
        seam(0.0, 10.0),
    ];
    let best = best_turn(&holes, &seams, 0, Measure::Edge).unwrap();
    let alone = best_turn(&[good], &seams[2..], 1, Measure::Edge).unwrap();
    assert_eq!((best.gap.hole, best.gap.seam), (3, 2));
    assert_eq!((best.turn, best.gap.mm), (alone.turn, alone.gap.mm));
    assert_eq!(best_turn(&holes[..3], &seams, 1, Measure::Edge), None);
    let turn = Angle::degrees(f64::NAN);
    assert!(
        seam_gap(&holes, &seams, turn, Measure::Edge)
            .unwrap()
            .mm
            .is_nan()
    );
}

#[test]
fn no_rotation_in_steps_of_a_thousandth_of_a_degree_is_better_on_a_whole_board() {
    let panel = [-110.0, 5.0, 120.0].map(|offset| seam(90.0, offset));
    for pattern in [
        Pattern::Ring,
        Pattern::Lobes { depth: 0.15 },
        Pattern::Arms { across: 3 },
    ] {
        let holes = board(pattern);
        for measure in BOTH {
            let best = best_turn(&holes, &panel, 6, measure).unwrap();
            let scan = scanned(&holes, &panel, 6, measure, 60_001);
            assert_near!(best.gap.mm, scan, 1e-9);
            let whole = best_turn(&holes, &panel, 1, measure).unwrap();
            assert_near!(whole.gap.mm, best.gap.mm, 1e-9);
            assert_near!(whole.turn.as_degrees(), best.turn.as_degrees(), 1e-9);
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(48))]

    #[test]
    fn no_scanned_rotation_keeps_the_bores_farther_away(
        places in proptest::collection::vec((-200.0..200.0, -200.0..200.0, 1.0..9.0), 1..9),
        seams in proptest::collection::vec((0.0..360.0, -120.0..120.0), 1..4),
        edge in any::<bool>(),
    ) {
        let holes: Vec<Circle> = places
            .iter()
            .map(|&(x, y, radius)| Circle::new(Point::new(x, y), radius))
            .collect();
        let seams: Vec<Seam> = seams.iter().map(|&(normal, offset)| seam(normal, offset)).collect();
        let measure = if edge { Measure::Edge } else { Measure::Center };
        let best = best_turn(&holes, &seams, 1, measure).unwrap();
        prop_assert!((0.0..360.0).contains(&best.turn.as_degrees()));
        assert_near!(plain_gap(&holes, &seams, best.turn.as_degrees(), measure), best.gap.mm, 1e-9);
        assert_near!(scanned(&holes, &seams, 1, measure, 36_001), best.gap.mm, 1e-9);
    }
}
