//! The order in which holes are drilled with the least travel.
//!
//! Up to twelve places are solved exactly. For more, many routes are found apart, and then each takes over from the others
//! what makes it shorter and leaves it a closed route, until none gets shorter.
//!
//! Each of them begins as a walk along the shortest tree through the places, under weights by which that tree is nearly a
//! route. The route is shortened by every exchange of two or three legs that helps, between places between which the tree
//! could go at little cost; then it is jolted in one place after another, shortened again around there, and the result kept
//! or taken back. At first a slightly longer route is kept too, less and less until three quarters of the jolts are gone:
//! that gets out of dead ends.
//!
//! The search counts jolts, never time, and draws from a fixed seed by arithmetic that is the same everywhere
//! (nothing but sums, products, roots and [`libm`]): the same points give the same order on every machine.

mod anneal;
mod cancel;
mod chains;
mod cross;
mod draw;
mod few;
mod legs;
mod links;
mod near;
mod pieces;
mod pool;
mod route;
mod search;
mod shorten;
mod stops;
mod swaps;
mod tree;
mod variety;
mod walk;
mod weigh;

use crate::Point;
use cancel::Cancel;
use legs::{Legs, OneWay, Round, distance};
use stops::{Stop, stops};

/// An order of drilling, and how far it is.
#[derive(Debug, Clone, PartialEq)]
pub struct Tour {
    /// The points' indices in the order in which to go to them.
    pub order: Vec<usize>,
    /// The way all along, in mm.
    pub length: f64,
}

/// The effort of looking for a shorter way: a number of jolts, so that the result does not hang on the machine's speed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct TourBudget {
    /// Number of times that routes are jolted and shortened again. A part of them stands for the time in which routes are found
    /// at first and take over legs from each other. None is a route that no exchange of three legs between near places
    /// shortens.
    pub jolts: u32,
}

impl TourBudget {
    /// For a board of up to 200 holes.
    ///
    /// Measured on fifteen boards of 113 to 193 holes, each turned by 24 angles: 7 to 11 ms on one core of a busy
    /// server, 0.001 % over the best way known on the average, 0.04 % at the worst.
    pub const BOARD: Self = Self { jolts: 1_600 };

    /// For up to a thousand points.
    ///
    /// Measured on three published drilling problems of 280 to 493 holes, each turned by 6 angles: 50 to 120 ms on a
    /// busy machine, 0.003 % over the best known on the average, 0.015 % at the worst. 200 to 1,200 points by chance take 50 to
    /// 160 ms, and are 0.045 % over it on the average, 0.17 % at the worst. 10,000 points take 0.5 s.
    pub const THOROUGH: Self = Self { jolts: 9_000 };
}

impl Default for TourBudget {
    fn default() -> Self {
        Self::BOARD
    }
}

/// A short way through all points and back to the first.
///
/// It begins at the point of the lowest index, and of the two directions takes the one whose second place has the lower index.
/// Points in the very same place follow one another. Points whose coordinates are not finite, or over 1e100 mm, are skipped: they
/// are not in the order. When `cancel` says yes, the shortest way so far is returned; it is called every few hundred
/// microseconds.
///
/// ```
/// use geometry::{Point, TourBudget, shortest_tour};
/// let square = [(0.0, 0.0), (9.0, 9.0), (9.0, 0.0), (0.0, 9.0)].map(Point::from);
/// let tour = shortest_tour(&square, TourBudget::BOARD, &|| false);
/// assert_eq!((tour.order, tour.length), (vec![0, 2, 1, 3], 36.0));
/// ```
pub fn shortest_tour(points: &[Point], budget: TourBudget, cancel: &dyn Fn() -> bool) -> Tour {
    let stops = stops(points);
    let legs = Round(stops.iter().map(|stop| stop.at).collect());
    let mut route = solve(&legs, budget, cancel);
    begin_lowest(&mut route, &stops);
    let order = expand(&route, &stops);
    let back = match (order.first(), order.last()) {
        (Some(first), Some(last)) => between(points, *last, *first),
        _ => 0.0,
    };
    Tour {
        length: way(points, &order) + back,
        order,
    }
}

/// A short way from a place (a machine's rest, as a rule) through all points, ending at any of them.
///
/// The length counts the way from the place to the first point. [`shortest_tour`]'s guarantees hold but for where the order
/// begins. A place that is not finite, or over 1e100 mm off, is taken for the center.
///
/// ```
/// use geometry::{Point, TourBudget, shortest_path};
/// let row = [(8.0, 0.0), (2.0, 0.0), (5.0, 0.0)].map(Point::from);
/// let path = shortest_path(&row, Point::ORIGIN, TourBudget::BOARD, &|| false);
/// assert_eq!((path.order, path.length), (vec![1, 2, 0], 8.0));
/// ```
pub fn shortest_path(
    points: &[Point],
    from: Point,
    budget: TourBudget,
    cancel: &dyn Fn() -> bool,
) -> Tour {
    let from = if stops::is_placed(from) {
        from
    } else {
        Point::ORIGIN
    };
    let stops = stops(points);
    let legs = OneWay::new(from, stops.iter().map(|stop| stop.at));
    let mut route = solve(&legs, budget, cancel);
    legs.unroll(&mut route);
    let order = expand(&route, &stops);
    let there = order
        .first()
        .and_then(|first| points.get(*first))
        .map_or(0.0, |first| distance(from, *first));
    Tour {
        length: there + way(points, &order),
        order,
    }
}

/// A short closed route through the places 0, 1, ... of `legs`.
fn solve(legs: &impl Legs, budget: TourBudget, cancel: &dyn Fn() -> bool) -> Vec<u32> {
    if legs.count() <= few::MOST {
        few::best(legs)
    } else {
        search::search(legs, budget.jolts, &Cancel::new(cancel))
    }
}

/// Turns and rotates a closed route so that it begins with the lowest index.
fn begin_lowest(route: &mut [u32], stops: &[Stop]) {
    let index = |place: Option<&u32>| {
        place
            .and_then(|place| stops.get(*place as usize))
            .and_then(|stop| stop.indices.first())
            .copied()
    };
    let lowest = (0..route.len()).min_by_key(|at| index(route.get(*at)));
    route.rotate_left(lowest.unwrap_or_default());
    if index(route.last()) < index(route.get(1))
        && let Some(rest) = route.get_mut(1..)
    {
        rest.reverse();
    }
}

/// The points' indices at the stops of a route.
fn expand(route: &[u32], stops: &[Stop]) -> Vec<usize> {
    route
        .iter()
        .filter_map(|place| stops.get(*place as usize))
        .flat_map(|stop| stop.indices.iter().copied())
        .collect()
}

/// The way from the first to the last of an order.
fn way(points: &[Point], order: &[usize]) -> f64 {
    order
        .iter()
        .zip(order.iter().skip(1))
        .map(|(one, other)| between(points, *one, *other))
        .sum()
}

fn between(points: &[Point], one: usize, other: usize) -> f64 {
    match (points.get(one), points.get(other)) {
        (Some(one), Some(other)) => distance(*one, *other),
        _ => 0.0,
    }
}
