//! Properties of every track, for random players, spaces, pitches and patterns.

#![allow(clippy::unwrap_used, reason = "helpers of tests fail by panicking")]

use geometry::{Angle, Error, Pattern, Point, Sector, home_lane, reach, track, turn_in};
use proptest::prelude::*;
use testkit::assert_near;

/// A pattern with valid numbers of players and spaces.
fn boards() -> impl Strategy<Value = (Pattern, u32, u32)> {
    let ring =
        (1_u32..=24, 1_u32..=60).prop_map(|(players, spaces)| (Pattern::Ring, players, spaces));
    let lobes = (0.0..=0.35, 2_u32..=24, 1_u32..=60)
        .prop_map(|(depth, players, spaces)| (Pattern::Lobes { depth }, players, spaces));
    let polygon =
        (3_u32..=24, 1_u32..=30).prop_map(|(players, half)| (Pattern::Polygon, players, 2 * half));
    let arms = (1_u32..=6, 1_u32..=20, 2_u32..=24).prop_map(|(half, out, players)| {
        let across = 2 * half + 1;
        (Pattern::Arms { across }, players, 2 * out + 2 * half)
    });
    prop_oneof![ring, lobes, polygon, arms].prop_filter("a track closes", |(_, players, spaces)| {
        players * spaces >= 3
    })
}

/// The error that a chord may have: 1e-9 mm on any board that fits in a room, and rounding error on a larger one.
fn tolerance(places: &[Point]) -> f64 {
    let size = places
        .iter()
        .map(|place| place.to_vec2().hypot())
        .fold(0.0, f64::max);
    1e-9_f64.max(4e-15 * size)
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(400))]

    #[test]
    fn neighbors_are_one_pitch_apart_also_across_sectors(
        (pattern, players, spaces) in boards(),
        pitch in 5.0..60.0,
        rotation in -400.0..400.0,
    ) {
        let places = track(pattern, players, spaces, pitch).unwrap();
        prop_assert_eq!(places.len(), spaces as usize);
        let sectors = (0..players).map(|index| Sector::new(index, players, Angle::degrees(rotation)));
        let all: Vec<Point> = sectors
            .flat_map(|sector| places.iter().map(move |place| sector.place(*place)))
            .collect();
        for (at, place) in all.iter().enumerate() {
            let next = all[(at + 1) % all.len()];
            assert_near!(place.distance(next), pitch, tolerance(&places));
        }
    }

    #[test]
    fn spaces_go_clockwise_once_around(
        (pattern, players, spaces) in boards(),
    ) {
        let places = track(pattern, players, spaces, 20.0).unwrap();
        let next = Sector::new(1, players, Angle::ZERO).place(places[0]);
        let mut turned = 0.0;
        for (place, next) in places.iter().zip(places.iter().skip(1).chain([&next])) {
            let (from, to) = (place.to_vec2(), next.to_vec2());
            // Clockwise: y is up, so a right turn has a negative cross product.
            turned += Angle::atan2(to.cross(from), to.dot(from)).as_degrees();
        }
        assert_near!(turned, 360.0 / f64::from(players), 1e-9);
    }

    #[test]
    fn the_turn_in_space_lies_on_the_axis(
        (pattern, players, spaces) in boards(),
        pitch in 5.0..60.0,
    ) {
        let places = track(pattern, players, spaces, pitch).unwrap();
        let place = places[turn_in(spaces) as usize - 1];
        assert_near!(place.x, 0.0, 1e-9);
        prop_assert!(place.y > 0.0);
    }

    #[test]
    fn the_track_is_its_own_mirror_image(
        (pattern, players, spaces) in boards(),
    ) {
        let places = track(pattern, players, spaces, 20.0).unwrap();
        let middle = turn_in(spaces) as usize - 1;
        // Space 1 of an even sector lies on the border, and has its mirror image in the next.
        for off in 1..=(spaces as usize - 1) / 2 {
            let (before, after) = (places[middle - off], places[middle + off]);
            assert_near!(before, Point::new(-after.x, after.y), tolerance(&places));
        }
        if spaces.is_multiple_of(2) {
            let next = Sector::new(1, players, Angle::ZERO).place(places[0]);
            assert_near!(next, Point::new(-places[0].x, places[0].y), tolerance(&places));
        }
    }

    #[test]
    fn the_reach_times_the_pitch_is_the_distance_of_the_farthest_space(
        (pattern, players, spaces) in boards(),
        pitch in 0.1..250.0,
    ) {
        let places = track(pattern, players, spaces, pitch).unwrap();
        let farthest = places.iter().map(|place| place.to_vec2().hypot()).fold(0.0, f64::max);
        let wanted = pitch * reach(pattern, players, spaces).unwrap();
        assert_near!(farthest, wanted, 1e-12 * wanted);
    }

    #[test]
    fn every_request_gives_a_track_or_a_reason(
        kind in 0..4,
        depth in prop::num::f64::ANY,
        across in any::<u32>(),
        players in prop_oneof![0_u32..30, any::<u32>()],
        spaces in prop_oneof![0_u32..420, any::<u32>()],
        pitch in prop_oneof![0.0..2000.0, prop::num::f64::ANY],
    ) {
        let pattern = match kind {
            0 => Pattern::Ring,
            1 => Pattern::Lobes { depth },
            2 => Pattern::Polygon,
            _ => Pattern::Arms { across },
        };
        match track(pattern, players, spaces, pitch) {
            Ok(places) => prop_assert!(places.iter().all(|place| place.is_finite())),
            Err(error) => prop_assert!(error.to_string().contains(", not "), "{}", error),
        }
    }

    #[test]
    fn a_lane_can_be_exactly_as_long_as_fits(
        turn_in_v in -100.0..2000.0,
        holes in 1_u32..=60,
        pitch in 5.0..60.0,
    ) {
        match home_lane(turn_in_v, holes, pitch) {
            Ok(lane) => prop_assert!(lane.iter().all(|hole| hole.x == 0.0 && hole.y > 0.0)),
            Err(Error::LongLane { most, needed, pitch_under, .. }) => {
                prop_assert!(most < holes);
                prop_assert!(home_lane(turn_in_v, most, pitch).is_ok());
                prop_assert!(home_lane(turn_in_v, most + 1, pitch).is_err());
                prop_assert!(home_lane(needed + 1e-6, holes, pitch).is_ok());
                let finer = pitch_under * (1.0 - 1e-6);
                prop_assert!(finer < 0.1 || home_lane(turn_in_v, holes, finer).is_ok());
            }
            Err(error) => prop_assert!(false, "{}", error),
        }
    }
}
