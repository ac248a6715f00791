//! The search for a short route: one jolted for long, or several that learn from each other.
//!
//! A route that was jolted twice as long is hardly shorter, but the faults of routes found apart lie in different
//! places. With a large budget, several are found apart, and then each takes over pieces of the others.

use super::Cancel;
use super::anneal::{Found, anneal, heat};
use super::draw::Draw;
use super::graft::graft;
use super::legs::Legs;
use super::near::Near;
use super::shorten::Shorten;
use super::weigh::weigh;

/// A short closed route through more than a dozen places.
pub(super) fn search(legs: &impl Legs, jolts: u32, cancel: &Cancel<'_>) -> Vec<u32> {
    let least = TOO_LITTLE * extent(legs);
    let mut first = Shorten::new(legs, Near::new(legs, NEAR), least);
    if !settle_all(&mut first, cancel) || jolts == 0 {
        return first.route.order().to_vec();
    }
    let heat = heat(legs, &first.route);
    let (weighted, near) = weigh(legs, &first.near, first.route.order(), jolts, cancel);
    let mut shorten = Shorten::new(&weighted, near, least);
    shorten.route.set(first.route.order());
    if !settle_all(&mut shorten, cancel) {
        return shorten.route.order().to_vec();
    }
    jolted(&mut shorten, (jolts, heat), cancel)
}

/// The route jolted for long, or the best of several that learn from each other.
fn jolted<L: Legs>(
    shorten: &mut Shorten<'_, L>,
    (jolts, heat): (u32, f64),
    cancel: &Cancel<'_>,
) -> Vec<u32> {
    let mut draw = Draw::new();
    let number = number(shorten.legs.count(), jolts);
    if number == 1 {
        return anneal(shorten, &mut draw, (jolts, heat), cancel).order;
    }
    let first = shorten.route.order().to_vec();
    let each = (f64::from(jolts) * APART) as u32 / number;
    let mut found = Vec::with_capacity(number as usize);
    while found.len() < number as usize && !cancel.said() {
        shorten.route.set(&first);
        found.push(anneal(shorten, &mut draw, (each, heat), cancel));
    }
    let tries = (jolts - each * number) / (ROUNDS * number);
    learn(shorten, &mut draw, &mut found, tries, cancel);
    let shortest = found
        .into_iter()
        .min_by(|one, other| one.length.total_cmp(&other.length));
    shortest.map_or(first, |found| found.order)
}

/// Nearest places tried for the first route: fewer miss good routes, more take longer to try.
const NEAR: usize = 6;

/// The part of the jolts in which routes are found apart; in the rest they learn from each other.
const APART: f64 = 0.8;

/// Number of times that every route learns from the others.
const ROUNDS: u32 = 3;

/// The most routes, and the fewest jolts that each has: with fewer, a single route comes out shorter.
const MOST_ROUTES: u32 = 16;
const LEAST_JOLTS: u32 = 2_000;

/// Gains below this share of the places' extent may be rounding alone.
const TOO_LITTLE: f64 = 1e-12;

/// Places, or pieces taken over, between two questions whether to go on.
const ASK_EVERY: u32 = 64;

/// The number of routes to find apart, each with at least one jolt per place.
fn number(places: u32, jolts: u32) -> u32 {
    (jolts / LEAST_JOLTS.max(places)).clamp(1, MOST_ROUTES)
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

/// Has every route try pieces of the others, the longest route first.
fn learn<L: Legs>(
    shorten: &mut Shorten<'_, L>,
    draw: &mut Draw,
    found: &mut [Found],
    tries: u32,
    cancel: &Cancel<'_>,
) {
    for _ in 0..ROUNDS {
        found.sort_by(|one, other| other.length.total_cmp(&one.length));
        for learner in 0..found.len() {
            if cancel.said() {
                return;
            }
            let learned = learned(shorten, draw, found, learner, tries, cancel);
            if let (Some(learned), Some(own)) = (learned, found.get_mut(learner)) {
                *own = learned;
            }
        }
    }
}

/// One of several routes with what makes it no longer taken over from the others; none where there are no others.
fn learned<L: Legs>(
    shorten: &mut Shorten<'_, L>,
    draw: &mut Draw,
    found: &[Found],
    learner: usize,
    tries: u32,
    cancel: &Cancel<'_>,
) -> Option<Found> {
    let own = found.get(learner)?;
    shorten.route.set(&own.order);
    let mut length = own.length;
    for attempt in 0..tries {
        if attempt % ASK_EVERY == 0 && cancel.ask() {
            break;
        }
        let other = draw.below(found.len() as u32 - 1) as usize;
        let teacher = found.get(other + usize::from(other >= learner))?;
        let change = graft(shorten, draw, &teacher.order);
        if change <= shorten.least {
            shorten.route.keep();
            length += change;
        } else {
            shorten.route.take_back();
        }
    }
    let order = shorten.route.order().to_vec();
    Some(Found { length, order })
}

#[cfg(test)]
mod tests {
    use super::super::legs::{Round, distance};
    use super::*;
    use crate::Point;

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
    fn routes_that_learn_come_out_shorter_than_one_jolted_all_along() {
        let (legs, length) = scattered(400);
        let cancel = Cancel::new(&|| false);
        let mut alone = Shorten::new(&legs, Near::new(&legs, NEAR), 1e-9);
        settle_all(&mut alone, &cancel);
        let before = length(alone.route.order());
        let budget = (12_000, heat(&legs, &alone.route));
        let alone = anneal(&mut alone, &mut Draw::new(), budget, &cancel);
        assert!((before + alone.length - length(&alone.order)).abs() < 1e-6);
        let together = search(&legs, 12_000, &cancel);
        assert!(length(&together) < length(&alone.order));
    }

    #[test]
    fn routes_are_found_apart_only_where_jolts_are_many() {
        assert_eq!(number(145, 1_800), 1);
        assert_eq!(number(145, 17_000), 8);
        assert_eq!(number(1_000, 17_000), 8);
        assert_eq!(number(5_000, 17_000), 3);
        assert_eq!(number(10_000, 17_000), 1);
        assert_eq!(number(500, u32::MAX), MOST_ROUTES);
    }
}
