use super::*;
use core::f64::consts::PI;
use kurbo::Point;
use proptest::prelude::*;
use testkit::assert_near;

fn cone(wide: f64, top: f64, bottom: f64) -> Profile {
    Piece::straight((top, wide), (bottom, 0.0)).into()
}

/// Machinery's Handbook 31st ed., p. 91: a ball of diameter 6.5 has a volume of 143.79; a segment of height 50 and chord 125
/// one of 372,247 (exactly 372,246.0).
#[test]
fn volumes_of_balls_and_caps_match_published_values() {
    assert_near!(Profile::ball(3.0, 3.25).volume(), 143.79, 0.01);
    for farthest in [57.0, -43.0] {
        let cap = Profile::from(Piece::cap(62.5, 7.0, farthest));
        assert_near!(cap.volume(), 372_247.0, 2.0);
    }
    let ball = Profile::ball(0.0, 10.0);
    assert_near!(ball.volume_between(8.0, f64::INFINITY), 117.286, 5e-4);
    assert_near!(ball.volume_between(f64::NEG_INFINITY, -8.0), 117.286, 5e-4);
    assert_near!(ball.volume_between(11.0, 12.0), 0.0, 0.0);
    assert_near!(ball.volume_between(3.0, 2.0), 0.0, 0.0);
}

/// A crown of height h over a mouth of radius a has the volume π h (3 a² + h²) / 6.
#[test]
fn the_volume_of_a_crown_matches_the_formula_even_if_nearly_flat() {
    let crown = Profile::from(Piece::cap(6.0, 2.0, 0.8));
    let whole = PI * 1.2 * (3.0 * 36.0 + 1.2 * 1.2) / 6.0;
    assert_near!(crown.volume(), whole, 1e-9);
    // In one that is nearly flat, the upper half of the height contains a quarter of the volume.
    let flat = Profile::from(Piece::cap(600.0, 0.0, -0.2));
    let upper = flat.volume_between(-0.2, -0.1);
    assert_near!(upper / flat.volume(), 0.25, 1e-6);
    assert_near!(Profile::from(Piece::cap(6.0, 1.0, 1.0)).volume(), 0.0, 0.0);
}

/// The ball of a cap of almost no height has a radius too large for a number; the cap itself has a rim and a volume.
#[test]
fn a_cap_of_almost_no_height_has_finite_numbers() {
    for height in [
        f64::MIN_POSITIVE,
        1e-300,
        1e-15,
        1e-9,
        1e-6,
        5.9e-5,
        6.1e-5,
        1e-3,
    ] {
        for farthest in [2.0 + height, 2.0 - height, height] {
            let cap = Profile::from(Piece::cap(6.0, 0.0, farthest));
            assert!(cap.volume().is_finite() && cap.volume() >= 0.0, "{height}");
            assert!(
                cap.radius_at(farthest / 2.0)
                    .is_some_and(|radius| radius <= 6.0 + 1e-9)
            );
            assert!(cap.rest(3.0).lowest.is_finite(), "{height}");
        }
    }
}

/// A frustum of radii 6 and 2 and height 3 has the volume π · 3 · (36 + 12 + 4) / 3; a cone is a third of its cylinder.
#[test]
fn volumes_of_cones_match_the_formula() {
    let frustum = Profile::from(Piece::straight((1.0, 6.0), (4.0, 2.0)));
    assert_near!(frustum.volume(), 52.0 * PI, 1e-9);
    assert_near!(frustum.volume_between(2.5, 9.0), 14.0 * PI, 1e-9);
    assert_near!(cone(6.0, 0.0, 5.0).volume(), 60.0 * PI, 1e-9);
}

/// A roundover removes this from the edge of a disc: the corner outside a quarter circle, (1 - π/4) r², revolved around the
/// axis at its centroid, which is (10 - 3π) / (12 - 3π) r inside the edge (Pappus's theorem).
#[test]
fn a_roundover_removes_the_revolved_corner() {
    let (edge, round, thick) = (250.0, 6.0, 20.0);
    let circle = Circle::new((edge - round, round), round);
    let blank =
        Profile::from(Piece::round(circle, 0.0, round)).with(Piece::cylinder(edge, round, thick));
    let area = (1.0 - PI / 4.0) * round * round;
    let inside = (10.0 - 3.0 * PI) / (12.0 - 3.0 * PI) * round;
    let taken = area * 2.0 * PI * (edge - inside);
    assert_near!(blank.volume(), PI * edge * edge * thick - taken, 1e-6);
    assert_near!(blank.mouth(), 244.0, 1e-12);
    assert_near!(blank.radius_at(round).unwrap(), edge, 1e-12);
}

#[test]
fn widths_and_depths_are_those_of_the_pieces() {
    let spur =
        Profile::from(Piece::cylinder(6.0, 0.0, 5.0)).with(Piece::straight((5.0, 1.0), (7.0, 0.0)));
    assert_eq!((spur.top(), spur.bottom(), spur.mouth()), (0.0, 7.0, 6.0));
    assert_eq!(spur.radius_at(5.0), Some(6.0));
    assert_eq!(spur.radius_at(6.0), Some(0.5));
    assert_eq!((spur.radius_at(-0.1), spur.radius_at(7.1)), (None, None));
    assert_eq!(spur.depth_at(1.5), Some(5.0));
    assert_eq!(spur.depth_at(0.5), Some(6.0));
    assert_eq!(spur.depth_at(6.1), None);
    assert_eq!(
        Profile::from(Piece::cylinder(6.0, 0.0, 0.0)).depth_at(1.0),
        None
    );
    let ball = Profile::ball(2.0, 5.0);
    assert_near!(ball.depth_at(3.0).unwrap(), 6.0, 1e-12);
    assert_eq!(ball.as_ball(), Some(Circle::new((0.0, 2.0), 5.0)));
    assert_eq!(spur.as_ball(), None);
    assert_eq!(Profile::from(Piece::cap(3.0, 0.0, 1.0)).as_ball(), None);
}

/// Exact by r - √(r² - a²): 25 mm on 20 mm sinks 5 mm; 16 on 12 sinks 2.708497; 9/16 in on 1/2 in 3.871035 mm. A ball of radius
/// r in a cone of included angle A has its center r / sin(A/2) above the apex: for r 8, 16 at 60°, 11.313708 at 90° and
/// 9.333068 at 118°.
#[test]
fn resting_balls_match_the_formulas() {
    for (ball, mouth, sinks) in [
        (25.0, 20.0, 5.0),
        (16.0, 12.0, 2.708_497),
        (14.2875, 12.7, 3.871_035),
    ] {
        let rest = Profile::from(Piece::cylinder(mouth / 2.0, 0.0, 9.0)).rest(ball / 2.0);
        assert_eq!(rest.on, RestsOn::Rim);
        assert_near!(rest.lowest, sinks, 1e-6);
    }
    for (angle, over) in [(60.0, 16.0), (90.0, 11.313_708), (118.0, 9.333_068)] {
        let length = 20.0 / crate::Angle::degrees(angle / 2.0).tan();
        let rest = cone(20.0, 1.0, 1.0 + length).rest(8.0);
        assert_eq!(rest.on, RestsOn::Wall);
        assert_near!(rest.lowest, 1.0 + length - over + 8.0, 1e-6);
    }
    let floor = Profile::from(Piece::cylinder(10.0, 0.0, 3.0)).rest(12.5);
    assert_eq!((floor.on, floor.lowest), (RestsOn::Floor, 3.0));
    let rounder = Profile::from(Piece::cap(6.0, 0.0, 6.0));
    assert_eq!(rounder.rest(5.0).on, RestsOn::Floor);
    assert_eq!(rounder.rest(7.0).on, RestsOn::Rim);
    assert_near!(rounder.floor(7.0), 6.0, 0.0);
}

/// Profiles like those of tools and pieces, including ones with steps and bulges.
fn profiles() -> impl Strategy<Value = Profile> {
    let piece = (
        0_usize..3,
        0.0..20.0_f64,
        0.0..20.0_f64,
        0.1..15.0_f64,
        0.0..1.0_f64,
    );
    (-5.0..5.0_f64, prop::collection::vec(piece, 1..4)).prop_map(|(start, pieces)| {
        let mut top = start;
        let mut made = pieces
            .into_iter()
            .map(|(kind, above, below, height, share)| {
                let bottom = top + height;
                let piece = match kind {
                    0 => Piece::straight((top, above), (bottom, below)),
                    1 => Piece::cap(above, top, bottom),
                    _ => {
                        let middle = top + share * height;
                        let radius = height * share.max(1.0 - share);
                        Piece::round(Circle::new((below, middle), radius), top, bottom)
                    }
                };
                top = bottom;
                piece
            });
        let first = made.next().unwrap();
        made.fold(first.into(), Profile::with)
    })
}

/// Depth and radius in steps from its upper end down.
fn slices(profile: &Profile, steps: u32) -> impl Iterator<Item = (f64, f64)> {
    let height = (profile.bottom() - profile.top()) / f64::from(steps);
    (0..steps).map(move |step| {
        let depth = profile.top() + (f64::from(step) + 0.5) * height;
        (depth, profile.radius_at(depth).unwrap())
    })
}

proptest! {
    #[test]
    fn the_volume_is_the_sum_of_thin_slices(profile in profiles(), part in (0.0..1.0_f64, 0.0..1.0_f64)) {
        let height = profile.bottom() - profile.top();
        let [upper, lower] = [part.0, part.1].map(|share| profile.top() + share * height);
        let steps = 20_000;
        let slice = height / f64::from(steps);
        let summed: f64 = slices(&profile, steps)
            .filter(|(depth, _)| (upper..lower).contains(depth))
            .map(|(_, radius)| PI * radius * radius * slice)
            .sum();
        let volume = profile.volume_between(upper, lower);
        // Slices at both ends and at steps are counted completely or not at all.
        let off = 4.0 * PI * 35.0 * 35.0 * slice;
        prop_assert!((volume - summed).abs() <= 1e-3 * summed + off, "{volume} against {summed}");
        let above = profile.volume_between(f64::NEG_INFINITY, lower);
        let below = profile.volume_between(lower, f64::INFINITY);
        prop_assert!((above + below - profile.volume()).abs() < 1e-6);
    }

    #[test]
    fn the_distance_matches_a_search_through_all_depths(
        profile in profiles(),
        place in (0.0..60.0_f64, -10.0..40.0_f64, 0.0..20.0_f64),
    ) {
        let other = Upright { away: place.0, top: place.1, bottom: place.1 + place.2 };
        let nearest = slices(&profile, 40_000).map(|(depth, radius)| {
            let along = (other.top - depth).max(depth - other.bottom).max(0.0);
            libm::hypot((other.away - radius).max(0.0), along)
        });
        let searched = nearest.fold(f64::INFINITY, f64::min);
        let found = profile.distance(other);
        // Near a pole the radius changes faster than the depth.
        prop_assert!((found - searched).abs() < 0.2 && found <= searched + 1e-9, "{found} against {searched}");
    }

    /// The ball clears everything around the profile, and would not if it were a hair lower.
    #[test]
    fn a_ball_rests_as_deep_as_it_can_go(profile in profiles(), ball in 0.5..25.0_f64) {
        let rest = profile.rest(ball);
        let middle = rest.lowest - ball;
        let edges = profile.pieces().flat_map(|piece| [(piece.top, piece.above), (piece.bottom, piece.below)]);
        let room = slices(&profile, 20_000).chain(edges).map(|(depth, radius)| {
            // At each depth the ball is as wide as its chord there.
            let down = depth - middle;
            let square = (ball * ball - down * down).max(0.0);
            if down < 0.0 { f64::INFINITY } else { radius - square.sqrt() }
        });
        let room = room.fold(f64::INFINITY, f64::min);
        prop_assert!(rest.lowest <= profile.bottom());
        prop_assert!(room >= -0.2, "{rest:?} overlaps by {room}");
        let is_held = room < 0.2 || profile.bottom() - rest.lowest < 1e-9;
        prop_assert!(is_held, "{rest:?} has {room} to go");
    }

    /// Midway between two corners of a cut, its true side deviates by no more than the tolerance, plus rounding.
    #[test]
    fn cuts_are_within_the_tolerance(profile in profiles(), share in 0.0..1.0_f64, tolerance in 0.003..0.1_f64) {
        let off = share * profile.mouth();
        let cut = profile.cut(off, tolerance);
        for ends in cut.windows(2) {
            let [from, to] = [ends[0], ends[1]];
            let way: kurbo::Vec2 = to - from;
            let middle: Point = from.midpoint(to);
            let radius = profile.radius_at(middle.y).unwrap();
            if way.y.abs() < 1e-9 || radius < off {
                continue;
            }
            let half = (radius * radius - off * off).max(0.0).sqrt();
            let miss = (half - middle.x) * way.y.abs() / way.length();
            prop_assert!(miss.abs() < 2.0 * tolerance, "{miss} between {from:?} and {to:?}");
        }
        prop_assert!(cut.iter().all(|at| at.x >= 0.0 && profile.radius_at(at.y).is_some()));
        if let Some(depth) = profile.depth_at(off) {
            let lowest = cut.last().map(|at| at.y).unwrap();
            prop_assert!((lowest - depth).abs() < 1e-9);
        }
    }
}
