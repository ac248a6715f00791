//! The shortest route of all through few places.

use super::legs::Legs;

/// Up to so many places are solved exactly: it takes a millisecond, and four times as long for two more.
pub(super) const MOST: u32 = 12;

/// The shortest closed route, from place 0, by way of the shortest ways through all sets of the other places
/// (Held and Karp, 1962).
pub(super) fn best(legs: &impl Legs) -> Vec<u32> {
    let others = legs.count().saturating_sub(1);
    if others < 2 {
        return (0..legs.count()).collect();
    }
    let ways = Ways::through(legs, others);
    let mut set = (1 << others) - 1;
    let mut next = 0;
    let mut route = vec![0];
    while set != 0 {
        next = ways.last(legs, set, next);
        set &= !(1 << (next - 1));
        route.push(next);
    }
    route
}

/// The shortest way from place 0 through each set of the other places, for each of them that may be the last.
struct Ways {
    others: u32,
    /// By set (place p is bit p - 1), then by last place.
    lengths: Vec<f64>,
}

impl Ways {
    fn through(legs: &impl Legs, others: u32) -> Self {
        let mut ways = Self {
            others,
            lengths: Vec::with_capacity((others as usize) << others),
        };
        for set in 0..1_u32 << others {
            for last in 1..=others {
                let before = set & !(1 << (last - 1));
                let length = if before == set {
                    f64::INFINITY
                } else if before == 0 {
                    legs.leg(0, last)
                } else {
                    let place = ways.last(legs, before, last);
                    ways.length(before, place) + legs.leg(place, last)
                };
                ways.lengths.push(length);
            }
        }
        ways
    }

    fn length(&self, set: u32, last: u32) -> f64 {
        let at = set * self.others + last - 1;
        self.lengths
            .get(at as usize)
            .copied()
            .unwrap_or(f64::INFINITY)
    }

    /// The last place of the shortest way through a set and on to `next`.
    fn last(&self, legs: &impl Legs, set: u32, next: u32) -> u32 {
        let (mut best, mut shortest) = (1, f64::INFINITY);
        for last in (1..=self.others).filter(|last| set & (1 << (last - 1)) != 0) {
            let length = self.length(set, last) + legs.leg(last, next);
            if length < shortest {
                (best, shortest) = (last, length);
            }
        }
        best
    }
}
