//! The search for a short route: by way of many that take over legs from each other.
//!
//! A route that was jolted twice as long is hardly shorter, but the faults of routes found apart lie in different
//! places. So many are found apart, none of them with much care, and then they take over legs from each other.

use super::Cancel;
use super::anneal::{Effort, Found, anneal, heat};
use super::draw::Draw;
use super::legs::{Legs, length};
use super::near::Near;
use super::pool::share;
use super::shorten::Shorten;
use super::walk::Branches;
use super::weigh::weigh;

/// A short closed route through more than a dozen places.
pub(super) fn search(legs: &impl Legs, jolts: u32, cancel: &Cancel<'_>) -> Vec<u32> {
    let least = TOO_LITTLE * extent(legs);
    let mut first = Shorten::new(legs, Near::new(legs, NEAR), least);
    if !settle_all(&mut first, cancel) || jolts == 0 {
        return first.route.order().to_vec();
    }
    let heat = heat(legs, &first.route);
    let (weighted, near, branches) = weigh(legs, &first.near, first.route.order(), jolts, cancel);
    let mut shorten = Shorten::new(&weighted, near, least);
    let order = first.route.order().to_vec();
    let first = Found {
        length: length(&weighted, &order),
        order,
    };
    let mut draw = Draw::new();
    let mut found = find_apart(&mut shorten, &branches, &mut draw, (jolts, heat), cancel);
    found.push(first);
    share(&shorten, &mut draw, &mut found, cancel);
    found
        .into_iter()
        .min_by(|one, other| one.length.total_cmp(&other.length))
        .map(|found| found.order)
        .unwrap_or_default()
}

/// Routes that begin as different walks along a tree, each jolted for a while.
fn find_apart<L: Legs>(
    shorten: &mut Shorten<'_, L>,
    branches: &Branches,
    draw: &mut Draw,
    (jolts, heat): (u32, f64),
    cancel: &Cancel<'_>,
) -> Vec<Found> {
    let places = shorten.legs.count();
    let (number, each) = shares(places, jolts);
    let effort = Effort {
        jolts: each,
        heat,
        piece: piece(places, jolts),
    };
    let mut found = Vec::with_capacity(number as usize + 1);
    while found.len() < number as usize && !cancel.said() {
        shorten.route.set(&start(shorten.legs, branches, draw));
        settle_all(shorten, cancel);
        found.push(anneal(shorten, draw, effort, cancel));
    }
    found
}

/// A walk along a tree. A last place that lies nowhere is put next to the first, as the two are never parted.
fn start(legs: &impl Legs, branches: &Branches, draw: &mut Draw) -> Vec<u32> {
    let mut route = branches.walk(draw);
    let nowhere = legs.points().len() as u32;
    if nowhere < legs.count() {
        route.retain(|place| *place != nowhere);
        let first = route.iter().position(|place| *place == 0);
        route.insert(first.unwrap_or_default(), nowhere);
    }
    route
}

/// Nearest places tried for the first route: fewer miss good routes, more take longer to try.
const NEAR: usize = 6;

/// The most routes found apart, and the fewest jolts for each.
///
/// With more routes that are worse the best of all comes out shorter, until they are too bad.
const MOST_ROUTES: u32 = 200;
const LEAST_JOLTS: u32 = 60;

/// A jolt takes as long as so many places of a route do while it is made short at first and shares its legs.
const PLACES_A_JOLT: u32 = 8;

/// The most places in each piece that a jolt moves: the part of all places with a budget of one jolt, and the limits.
///
/// Larger pieces take longer, and make the routes differ more. That is worth more with a larger budget.
const PIECE: f64 = 4.1e-4;
const SHORT_PIECE: f64 = 12.0;
const LONG_PIECE: f64 = 100.0;

/// Gains below this share of the places' extent may be rounding alone.
const TOO_LITTLE: f64 = 1e-12;

/// Places between two questions whether to go on.
const ASK_EVERY: u32 = 64;

/// The number of routes to find apart, and the jolts for each.
fn shares(places: u32, jolts: u32) -> (u32, u32) {
    let walk = places / PLACES_A_JOLT;
    let number = (jolts / (LEAST_JOLTS + walk)).clamp(1, MOST_ROUTES);
    (number, (jolts / number).saturating_sub(walk))
}

/// The most places in each piece that a jolt moves.
fn piece(places: u32, jolts: u32) -> u32 {
    let piece = PIECE * f64::from(places) * f64::from(jolts).sqrt();
    piece.clamp(SHORT_PIECE, LONG_PIECE) as u32
}

fn extent(legs: &impl Legs) -> f64 {
    let size = |point: &crate::Point| point.x.abs() + point.y.abs();
    legs.points().iter().map(size).fold(0.0, f64::max)
}

/// Makes the first route short everywhere; false when canceled.
fn settle_all<L: Legs>(shorten: &mut Shorten<'_, L>, cancel: &Cancel<'_>) -> bool {
    for place in 0..shorten.route.count() {
        if place % ASK_EVERY == 0 && cancel.ask() {
            return false;
        }
        shorten.wake(place);
        shorten.settle();
        shorten.route.keep();
    }
    true
}

#[cfg(test)]
mod tests {
    use super::super::legs::{OneWay, Round, distance};
    use super::super::links::Links;
    use super::*;
    use crate::Point;
    use testkit::assert_near;

    /// Points by chance in a square of 500 mm, and the length of a closed route through them.
    fn scattered(count: u32) -> (Round, impl Fn(&[u32]) -> f64) {
        let mut draw = Draw::new();
        let points: Vec<Point> = (0..count)
            .map(|_| Point::new(500.0 * draw.part(), 500.0 * draw.part()))
            .collect();
        let at = points.clone();
        let length = move |route: &[u32]| {
            let next = route.iter().cycle().skip(1);
            let legs = route.iter().zip(next);
            legs.map(|(one, next)| distance(at[*one as usize], at[*next as usize]))
                .sum()
        };
        (Round(points), length)
    }

    #[test]
    fn routes_that_share_legs_come_out_shorter_than_one_jolted_all_along() {
        let (legs, length) = scattered(600);
        let cancel = Cancel::new(&|| false);
        let mut alone = Shorten::new(&legs, Near::new(&legs, NEAR), 1e-9);
        settle_all(&mut alone, &cancel);
        let effort = Effort {
            jolts: 9_000,
            heat: heat(&legs, &alone.route),
            piece: 12,
        };
        let alone = anneal(&mut alone, &mut Draw::new(), effort, &cancel);
        assert_near!(alone.length, length(&alone.order), 1e-6);
        let together = search(&legs, 9_000, &cancel);
        assert!(length(&together) < length(&alone.order));
    }

    #[test]
    fn the_more_jolts_the_more_routes_are_found_apart() {
        assert_eq!(shares(160, 79), (1, 59));
        assert_eq!(shares(160, 1_600), (20, 60));
        assert_eq!(shares(1_000, 9_000), (48, 62));
        assert_eq!(shares(10_000, 9_000), (6, 250));
        assert_eq!(shares(400, 50_000), (MOST_ROUTES, 200));
        assert_eq!(shares(10_000, 1_000), (1, 0));
    }

    #[test]
    fn a_place_that_lies_nowhere_stays_next_to_the_start() {
        let (Round(points), _) = scattered(30);
        let legs = OneWay::new(Point::ORIGIN, points.into_iter());
        let tree: Vec<[u32; 2]> = (1..legs.count()).map(|place| [place / 3, place]).collect();
        let branches = Branches::new(legs.count(), &tree);
        let mut draw = Draw::new();
        for _ in 0..20 {
            let mut route = start(&legs, &branches, &mut draw);
            assert!(Links::new(&route).joins(0, legs.count() - 1));
            route.sort_unstable();
            assert!(route.into_iter().eq(0..legs.count()));
        }
    }

    #[test]
    fn pieces_are_larger_with_more_places_and_more_jolts() {
        assert_eq!(piece(145, 1_600), 12);
        assert_eq!(piece(1_000, 9_000), 38);
        assert_eq!(piece(1_000, 40_000), 82);
        assert_eq!(piece(5_000, u32::MAX), 100);
    }
}
