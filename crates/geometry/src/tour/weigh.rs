//! Weights of places, under which the legs of short routes are among the shortest at each place.
//!
//! A weight is added to both legs of its place, so that all closed routes get longer by the same. A place at which
//! the shortest tree has one leg alone gets a lower weight, one with three or more a higher one, until the tree is
//! nearly a route (Held and Karp, 1971). The few legs worth trying at a place are then those that a tree could take at
//! the least extra length (Helsgaun, 2000): they miss fewer good routes than as many of the nearest places.

use super::Cancel;
use super::legs::{Legs, around, length};
use super::near::Near;
use super::tree::{Tree, Twig};
use super::walk::Branches;
use crate::Point;

/// Legs with the weights of both ends added.
pub(super) struct Weighted<'a, L> {
    legs: &'a L,
    places: Vec<Place>,
}

#[derive(Clone, Copy)]
struct Place {
    x: f64,
    y: f64,
    weight: f64,
}

impl<L: Legs> Legs for Weighted<'_, L> {
    fn count(&self) -> u32 {
        self.legs.count()
    }

    fn leg(&self, one: u32, other: u32) -> f64 {
        let place = |place: u32| self.places.get(place as usize);
        match (place(one), place(other)) {
            (Some(one), Some(other)) => {
                let (x, y) = (one.x - other.x, one.y - other.y);
                (x * x + y * y).sqrt() + (one.weight + other.weight)
            }
            (Some(Place { weight, .. }), None) | (None, Some(Place { weight, .. })) => {
                self.legs.leg(one, other) + weight
            }
            (None, None) => 0.0,
        }
    }

    fn points(&self) -> &[Point] {
        self.legs.points()
    }
}

/// The most times that the weights are changed, and the most for each jolt that a place has: changing them once takes
/// as long as a jolt does for about twenty places, and more than a tenth of all time does not pay.
const MOST_ROUNDS: u32 = 25;
const ROUNDS_A_JOLT: f64 = 10.0;

/// So many of the nearest places are looked at, and the most promising of those are tried.
const WIDE: usize = 16;
const TRIED: usize = 6;

/// The legs of a route's places with weights, the places worth trying next to each, and the shortest tree under the
/// weights; `near` are the nearest.
pub(super) fn weigh<'a, L: Legs>(
    legs: &'a L,
    near: &Near,
    route: &[u32],
    jolts: u32,
    cancel: &Cancel<'_>,
) -> (Weighted<'a, L>, Near, Branches) {
    let twigs = twigs(legs, near, route);
    let mut tree = Tree::new(legs.count(), twigs.len() as u32);
    let rounds = ROUNDS_A_JOLT * f64::from(jolts) / f64::from(legs.count());
    let rounds = (rounds as u32).min(MOST_ROUNDS);
    let mut ascent = Ascent::new(legs.points().len(), length(legs, route));
    for round in 0..rounds {
        if cancel.ask() || !ascent.step(&twigs, &mut tree, f64::from(round) / f64::from(rounds)) {
            break;
        }
    }
    let weights = ascent.best;
    tree.grow(&twigs, |twig| under(twig, &weights));
    let place = |(at, weight): (&Point, &f64)| Place {
        x: at.x,
        y: at.y,
        weight: *weight,
    };
    let places = legs.points().iter().zip(&weights).map(place).collect();
    let weighted = Weighted { legs, places };
    let extra = |one, other| weighted.leg(one, other) - tree.longest_between(one, other);
    let near = Near::new(legs, WIDE).least(TRIED, extra, &weighted);
    let branches = Branches::new(legs.count(), &tree.joints);
    (weighted, near, branches)
}

/// All legs between near places, and those of a route: they join all places.
fn twigs(legs: &impl Legs, near: &Near, route: &[u32]) -> Vec<Twig> {
    let is_near = |one, other| near.of(one).iter().any(|(place, _)| *place == other);
    let mut twigs = Vec::new();
    for place in 0..legs.count() {
        for &(other, bare) in near.of(place) {
            if place < other || !is_near(other, place) {
                let ends = [place, other];
                twigs.push(Twig { ends, bare });
            }
        }
    }
    for (one, other) in around(route) {
        if !is_near(one, other) && !is_near(other, one) {
            let (ends, bare) = ([one, other], legs.leg(one, other));
            twigs.push(Twig { ends, bare });
        }
    }
    twigs
}

fn under(twig: &Twig, weights: &[f64]) -> f64 {
    let weight = |place: u32| weights.get(place as usize).copied().unwrap_or_default();
    let [one, other] = twig.ends;
    twig.bare + (weight(one) + weight(other))
}

/// A search for the weights under which the shortest tree is longest.
struct Ascent {
    weights: Vec<f64>,
    /// Of the step before, how many legs more or fewer than two each place had.
    before: Vec<f64>,
    best: Vec<f64>,
    longest: f64,
    /// Length of a route: no tree is longer.
    route: f64,
}

/// The first step, as a part of the one that would close the gap to the route if all went well, and the last.
const FIRST: f64 = 1.0;
const LAST: f64 = 0.05;

/// The part of a step that goes by the tree of now; the rest goes by the one before, so that it does not swing.
const NOW: f64 = 0.7;

impl Ascent {
    fn new(places: usize, route: f64) -> Self {
        Self {
            weights: vec![0.0; places],
            before: vec![0.0; places],
            best: vec![0.0; places],
            longest: f64::NEG_INFINITY,
            route,
        }
    }

    /// Changes the weights, the less the later; false where there is nothing to gain any more.
    ///
    /// A last place that lies nowhere has no weight.
    fn step(&mut self, twigs: &[Twig], tree: &mut Tree, time: f64) -> bool {
        tree.grow(twigs, |twig| under(twig, &self.weights));
        let length = tree.length - 2.0 * self.weights.iter().sum::<f64>();
        if length > self.longest {
            self.longest = length;
            self.best.copy_from_slice(&self.weights);
        }
        let off = |legs: &u32| f64::from(*legs) - 2.0;
        let square: f64 = tree.legs.iter().map(|legs| off(legs) * off(legs)).sum();
        let gap = self.route - length;
        if square == 0.0 || gap <= 0.0 {
            return false;
        }
        let step = FIRST * libm::pow(LAST / FIRST, time) * gap / square;
        let places = self.weights.iter_mut().zip(&mut self.before);
        for ((weight, before), legs) in places.zip(&tree.legs) {
            *weight += step * (NOW * off(legs) + (1.0 - NOW) * *before);
            *before = off(legs);
        }
        true
    }
}

#[cfg(test)]
mod tests {
    use super::super::draw::Draw;
    use super::super::legs::{OneWay, Round};
    use super::super::shorten::Shorten;
    use super::*;
    use testkit::assert_near;

    /// Points by chance in a square of 500 mm.
    fn scattered(count: u32) -> Vec<Point> {
        let mut draw = Draw::new();
        (0..count)
            .map(|_| Point::new(500.0 * draw.part(), 500.0 * draw.part()))
            .collect()
    }

    fn weighed<L: Legs>(legs: &L, route: &[u32]) -> Vec<f64> {
        let cancel = Cancel::new(&|| false);
        let (weighted, ..) = weigh(legs, &Near::new(legs, 6), route, 17_000, &cancel);
        weighted.places.iter().map(|place| place.weight).collect()
    }

    #[test]
    fn all_closed_routes_get_longer_by_the_same() {
        let points = scattered(61);
        let rest: Vec<Point> = points.iter().skip(1).copied().collect();
        let legs = OneWay::new(Point::ORIGIN, rest.into_iter());
        let one: Vec<u32> = (0..legs.count()).collect();
        let other: Vec<u32> = one.iter().map(|at| at * 7 % legs.count()).collect();
        let cancel = Cancel::new(&|| false);
        let (weighted, ..) = weigh(&legs, &Near::new(&legs, 6), &one, 17_000, &cancel);
        let longer = |route: &[u32]| length(&weighted, route) - length(&legs, route);
        assert!(longer(&one).abs() > 1.0);
        assert_near!(longer(&one), longer(&other), 1e-6);
    }

    #[test]
    fn under_the_weights_the_tree_is_nearly_a_route() {
        let legs = Round(scattered(300));
        let near = Near::new(&legs, 6);
        let mut shorten = Shorten::new(&legs, Near::new(&legs, 6), 1e-9);
        for place in 0..300 {
            shorten.wake(place);
            shorten.settle();
        }
        let route = shorten.route.order();
        let twigs = twigs(&legs, &near, route);
        let mut tree = Tree::new(300, twigs.len() as u32);
        tree.grow(&twigs, |twig| twig.bare);
        let plain = tree.length;
        let weights = weighed(&legs, route);
        tree.grow(&twigs, |twig| under(twig, &weights));
        let longest = tree.length - 2.0 * weights.iter().sum::<f64>();
        // Over many points a tree is a tenth shorter than the shortest route; under good weights, one in 140.
        assert!(longest > 1.08 * plain, "{}", longest / plain);
        let even = tree.legs.iter().filter(|legs| **legs == 2).count();
        assert!(even > 200, "{even}");
    }
}
