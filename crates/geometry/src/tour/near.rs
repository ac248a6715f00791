//! The few places nearest to each.
//!
//! They are found in a tree that is halved across and along by turns, so that places crowded together or far off
//! cost hardly more than others.

use super::legs::Legs;
use crate::Point;

/// For each place the nearest others, from the nearest on, with their distances.
pub(super) struct Near {
    /// Where the places of each begin in `all`, and the end of the last.
    starts: Vec<u32>,
    all: Vec<(u32, f64)>,
}

/// Up to so many places are not halved.
const LEAF: usize = 6;

impl Near {
    /// As many for each as asked for, or all others.
    pub(super) fn new(legs: &impl Legs, each: usize) -> Self {
        let points = legs.points();
        let mut tree: Vec<(u32, Point)> = (0..).zip(points.iter().copied()).collect();
        halve(&mut tree, Axis::X);
        let mut near = Self {
            starts: vec![0],
            all: Vec::with_capacity(each * points.len()),
        };
        let mut nearest = Nearest {
            each,
            found: Vec::with_capacity(each + 1),
        };
        for (place, point) in (0..).zip(points) {
            nearest.found.clear();
            nearest.look(&tree, Axis::X, (place, *point));
            for (_, other) in &nearest.found {
                near.all.push((*other, legs.leg(place, *other)));
            }
            near.starts.push(near.all.len() as u32);
        }
        near
    }

    /// The few of each place's neighbors whose worth is least, by legs of other lengths: from the shortest on.
    pub(super) fn least(
        &self,
        each: usize,
        worth: impl Fn(u32, u32) -> f64,
        legs: &impl Legs,
    ) -> Self {
        let mut least = Self {
            starts: vec![0],
            all: Vec::with_capacity(self.all.len()),
        };
        let mut some: Vec<(f64, f64, u32)> = Vec::new();
        for place in 0..self.starts.len() as u32 - 1 {
            let others = self.of(place).iter().map(|(other, _)| *other);
            some.clear();
            some.extend(others.map(|other| (worth(place, other), legs.leg(place, other), other)));
            let by_leg = |one: &(f64, f64, u32), other: &(f64, f64, u32)| {
                one.1.total_cmp(&other.1).then(one.2.cmp(&other.2))
            };
            some.sort_unstable_by(|one, other| one.0.total_cmp(&other.0).then(by_leg(one, other)));
            some.truncate(each);
            some.sort_unstable_by(by_leg);
            least
                .all
                .extend(some.iter().map(|(_, leg, other)| (*other, *leg)));
            least.starts.push(least.all.len() as u32);
        }
        least
    }

    /// The places nearest to one that lies somewhere; none for any other.
    pub(super) fn of(&self, place: u32) -> &[(u32, f64)] {
        let start = |place: u32| self.starts.get(place as usize).copied();
        match (start(place), start(place + 1)) {
            (Some(from), Some(to)) => self.all.get(from as usize..to as usize),
            _ => None,
        }
        .unwrap_or_default()
    }
}

#[derive(Clone, Copy)]
enum Axis {
    X,
    Y,
}

impl Axis {
    fn of(self, point: Point) -> f64 {
        match self {
            Self::X => point.x,
            Self::Y => point.y,
        }
    }

    fn other(self) -> Self {
        match self {
            Self::X => Self::Y,
            Self::Y => Self::X,
        }
    }
}

/// Sorts so that the middle one parts lower coordinates from higher, and the halves likewise by the other axis.
fn halve(places: &mut [(u32, Point)], axis: Axis) {
    if places.len() <= LEAF {
        return;
    }
    let middle = places.len() / 2;
    let (low, _, high) = places.select_nth_unstable_by(middle, |one, other| {
        let by_axis = axis.of(one.1).total_cmp(&axis.of(other.1));
        by_axis.then(one.0.cmp(&other.0))
    });
    halve(low, axis.other());
    halve(high, axis.other());
}

/// The nearest found so far, sorted, by the squares of their distances.
struct Nearest {
    /// The most to find, at least one.
    each: usize,
    found: Vec<(f64, u32)>,
}

impl Nearest {
    fn look(&mut self, tree: &[(u32, Point)], axis: Axis, from: (u32, Point)) {
        if tree.len() <= LEAF {
            for place in tree {
                self.offer(*place, from);
            }
            return;
        }
        let (low, rest) = tree.split_at(tree.len() / 2);
        let Some((middle, high)) = rest.split_first() else {
            return;
        };
        let beyond = axis.of(from.1) - axis.of(middle.1);
        let (here, there) = if beyond < 0.0 {
            (low, high)
        } else {
            (high, low)
        };
        self.look(here, axis.other(), from);
        self.offer(*middle, from);
        if beyond * beyond <= self.limit() {
            self.look(there, axis.other(), from);
        }
    }

    fn offer(&mut self, (place, point): (u32, Point), from: (u32, Point)) {
        let off = (point - from.1).hypot2();
        if place == from.0 || off > self.limit() {
            return;
        }
        let at = self.found.partition_point(|other| *other < (off, place));
        self.found.insert(at, (off, place));
        self.found.truncate(self.each);
    }

    fn limit(&self) -> f64 {
        self.found
            .get(self.each - 1)
            .map_or(f64::INFINITY, |last| last.0)
    }
}

#[cfg(test)]
mod tests {
    use super::super::legs::{Round, distance};
    use super::*;

    #[test]
    fn the_nearest_are_those_that_sorting_all_finds() {
        let points: Vec<Point> = (0..300_u32)
            .map(|index| Point::new(f64::from(index * index % 97), f64::from(index * 31 % 89)))
            .collect();
        let legs = Round(points.clone());
        let near = Near::new(&legs, 6);
        for place in 0..300_u32 {
            let mut all: Vec<(f64, u32)> = (0..300)
                .filter(|other| *other != place)
                .map(|other| {
                    (
                        distance(points[place as usize], points[other as usize]),
                        other,
                    )
                })
                .collect();
            all.sort_by(|one, other| one.0.total_cmp(&other.0).then(one.1.cmp(&other.1)));
            let found: Vec<(f64, u32)> =
                near.of(place).iter().map(|(at, off)| (*off, *at)).collect();
            assert_eq!(found, all[..6]);
        }
        assert!(near.of(300).is_empty());
    }
}
