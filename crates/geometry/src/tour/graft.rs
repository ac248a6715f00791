//! A piece of one route taken over by another.

use super::draw::Draw;
use super::legs::Legs;
use super::shorten::Shorten;

/// Takes over a piece of `other` by chance, and makes the route short again around it; returns by how much it got
/// longer. The piece begins at a leg that the route does not have.
pub(super) fn graft<L: Legs>(shorten: &mut Shorten<'_, L>, draw: &mut Draw, other: &[u32]) -> f64 {
    let from = draw.below(other.len() as u32) as usize;
    let legs = 1 + draw.below(LONGEST) as usize;
    let Some(skip) = around(other, from).position(|(one, next)| !shorten.route.joins(one, next))
    else {
        return 0.0;
    };
    impose(shorten, around(other, from + skip).take(legs)) - shorten.settle()
}

/// The most legs of a piece. Of shorter ones more fit, longer ones get the route over higher humps.
const LONGEST: u32 = 100;

/// The legs of a closed route once round, from a spot on.
fn around(route: &[u32], from: usize) -> impl Iterator<Item = (u32, u32)> {
    let places = route
        .iter()
        .copied()
        .cycle()
        .skip(from % route.len().max(1));
    places.clone().zip(places.skip(1)).take(route.len())
}

/// Makes the route go along legs that follow one another, and has their ends looked at; returns by how much it got
/// longer.
fn impose<L: Legs>(shorten: &mut Shorten<'_, L>, piece: impl Iterator<Item = (u32, u32)>) -> f64 {
    let mut longer = 0.0;
    let mut before = None;
    for (one, next) in piece {
        if !shorten.route.joins(one, next) {
            // The leg that led to `one` must stay: the other one at `one` goes.
            if before == Some(shorten.route.next(one)) {
                shorten.route.mirror();
            }
            longer += join(shorten, one, next);
        }
        before = Some(one);
    }
    longer
}

/// Turns around the way from the place after `one` to `next`, so that `next` comes after `one`; returns by how much
/// the route got longer.
fn join<L: Legs>(shorten: &mut Shorten<'_, L>, one: u32, next: u32) -> f64 {
    let (first, after) = (shorten.route.next(one), shorten.route.next(next));
    shorten.route.reverse(first, next);
    for place in [one, first, next, after] {
        shorten.wake(place);
    }
    let leg = |one, other| shorten.legs.leg(one, other);
    leg(one, next) + leg(first, after) - leg(one, first) - leg(next, after)
}

#[cfg(test)]
mod tests {
    use super::super::legs::Round;
    use super::super::near::Near;
    use super::*;
    use crate::Point;
    use testkit::assert_near;

    fn length(legs: &Round, route: &[u32]) -> f64 {
        around(route, 0)
            .map(|(one, next)| legs.leg(one, next))
            .sum()
    }

    /// Routes that step through 31 places by 1 and by 7.
    fn two() -> (Round, Vec<u32>) {
        let place =
            |index: u32| Point::new(f64::from(index * index % 29), f64::from(index * 5 % 31));
        let other = (0..31).map(|index| index * 7 % 31).collect();
        (Round((0..31).map(place).collect()), other)
    }

    #[test]
    fn a_piece_taken_over_is_there_and_every_place_still_once() {
        let (legs, other) = two();
        for (from, count) in [(0, 1), (3, 5), (20, 17), (30, 31)] {
            let mut shorten = Shorten::new(&legs, Near::new(&legs, 6), 1e-9);
            let before = length(&legs, shorten.route.order());
            let longer = impose(&mut shorten, around(&other, from).take(count));
            for (one, next) in around(&other, from).take(count) {
                assert!(shorten.route.joins(one, next));
            }
            let mut places = shorten.route.order().to_vec();
            assert_near!(length(&legs, &places), before + longer, 1e-9);
            places.sort_unstable();
            assert!(places.into_iter().eq(0..31));
        }
    }

    #[test]
    fn a_route_has_nothing_to_take_over_from_itself() {
        let (legs, other) = two();
        let mut shorten = Shorten::new(&legs, Near::new(&legs, 6), 1e-9);
        shorten.route.set(&other);
        let reversed: Vec<u32> = other.iter().rev().copied().collect();
        assert_eq!(graft(&mut shorten, &mut Draw::new(), &reversed), 0.0);
        assert_eq!(shorten.route.order(), other);
    }
}
