//! Lengths of the legs from place to place, for a way that comes back and one that does not.

use crate::Point;

/// Places 0, 1, ... to be joined by a closed route.
pub(super) trait Legs {
    fn count(&self) -> u32;

    /// The length of the leg between two places.
    fn leg(&self, one: u32, other: u32) -> f64;

    /// The places that lie somewhere: all, or all but the last.
    fn points(&self) -> &[Point];
}

/// The legs of a closed route, once round.
pub(super) fn around(route: &[u32]) -> impl Iterator<Item = (u32, u32)> {
    let next = route.iter().cycle().skip(1);
    route.iter().copied().zip(next.copied())
}

/// The length of a closed route.
pub(super) fn length(legs: &impl Legs, route: &[u32]) -> f64 {
    around(route).map(|(one, other)| legs.leg(one, other)).sum()
}

/// A route that comes back.
pub(super) struct Round(pub(super) Vec<Point>);

impl Legs for Round {
    fn count(&self) -> u32 {
        self.0.len() as u32
    }

    fn leg(&self, one: u32, other: u32) -> f64 {
        distance(at(&self.0, one), at(&self.0, other))
    }

    fn points(&self) -> &[Point] {
        &self.0
    }
}

/// A route from a start, ending anywhere.
///
/// Place 0 is the start. A last place lies nowhere: it is no distance from any other, and so much the best next to
/// the start that the two are never parted. The closed route through all goes home by way of it at no cost.
pub(super) struct OneWay {
    points: Vec<Point>,
    /// The worth of coming home by way of the last place.
    bond: f64,
}

impl OneWay {
    pub(super) fn new(from: Point, stops: impl Iterator<Item = Point>) -> Self {
        let points: Vec<Point> = core::iter::once(from).chain(stops).collect();
        let far = points.iter().map(|point| distance(from, *point));
        let bond = -1e3 * far.fold(0.0, f64::max).max(f64::MIN_POSITIVE);
        Self { points, bond }
    }

    /// Makes a closed route one through the stops alone, from the start; the first stop is 0 then.
    pub(super) fn unroll(&self, route: &mut Vec<u32>) {
        let start = route.iter().position(|place| *place == 0);
        route.rotate_left(start.unwrap_or_default());
        let nowhere = self.nowhere();
        if route.get(1) == Some(&nowhere) {
            route.reverse();
        }
        route.retain(|place| *place != 0 && *place != nowhere);
        for place in route {
            *place -= 1;
        }
    }

    fn nowhere(&self) -> u32 {
        self.points.len() as u32
    }
}

impl Legs for OneWay {
    fn count(&self) -> u32 {
        self.nowhere() + 1
    }

    fn leg(&self, one: u32, other: u32) -> f64 {
        if one.max(other) < self.nowhere() {
            distance(at(&self.points, one), at(&self.points, other))
        } else if one.min(other) == 0 {
            self.bond
        } else {
            0.0
        }
    }

    fn points(&self) -> &[Point] {
        &self.points
    }
}

/// Far from overflow, as places are on boards; a root alone is the same on every machine.
pub(super) fn distance(one: Point, other: Point) -> f64 {
    let (x, y) = (one.x - other.x, one.y - other.y);
    (x * x + y * y).sqrt()
}

fn at(points: &[Point], place: u32) -> Point {
    points.get(place as usize).copied().unwrap_or_default()
}
