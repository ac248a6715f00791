//! A route that takes over legs from another.
//!
//! The route may fall into several rings by it. The smallest ring is then joined to another where that adds least: a leg
//! of each goes, and two come between near places (Nagata and Kobayashi, 2013).

use super::legs::Legs;
use super::links::Links;
use super::pieces::Pieces;
use super::shorten::Shorten;
use super::swaps::{Leg, Swap};
use super::variety::Change;

/// A route and what was changed of it last.
pub(super) struct Cross {
    pub(super) route: Links,
    /// The route when it was last laid out, and where in it each place is.
    order: Vec<u32>,
    spots: Vec<u32>,
    pieces: Pieces,
    /// Places whose links were changed, in order, and the links before.
    log: Vec<(u32, [u32; 2])>,
    /// By place, the last call of [`Self::changes`] that met it.
    met: Vec<u32>,
    calls: u32,
    changes: Vec<Change>,
}

/// Stands for a link that is gone until another comes.
const NONE: u32 = u32::MAX;

/// Two legs v-x and w-y for which v-w and x-y come.
type Joint = [u32; 4];

impl Cross {
    pub(super) fn new(places: u32) -> Self {
        let count = places as usize;
        Self {
            route: Links::default(),
            order: vec![0; count],
            spots: vec![0; count],
            pieces: Pieces::default(),
            log: Vec::new(),
            met: vec![0; count],
            calls: 0,
            changes: Vec::new(),
        }
    }

    /// Lays the route out as it is now.
    pub(super) fn lay_out(&mut self) {
        self.log.clear();
        self.route.walk(&mut self.order);
        for (spot, place) in (0..).zip(&self.order) {
            if let Some(at) = self.spots.get_mut(*place as usize) {
                *at = spot;
            }
        }
    }

    /// By how much a route gets shorter with a swap, before its rings are joined.
    pub(super) fn gain<L: Legs>(shorten: &Shorten<'_, L>, swap: Swap<'_>) -> f64 {
        let length = |legs: &[Leg]| -> f64 {
            legs.iter()
                .map(|(one, other)| shorten.legs.leg(*one, *other))
                .sum()
        };
        length(swap.go) - length(swap.come)
    }

    /// Whether the route still has all legs of a swap that go, and none of those that come.
    pub(super) fn fits(&self, swap: Swap<'_>) -> bool {
        let joined = |(one, other): &Leg| self.route.joins(*one, *other);
        swap.go.iter().all(joined) && !swap.come.iter().any(joined)
    }

    /// Makes a swap in the route as it is laid out; returns by how much it got shorter.
    ///
    /// A route that would not get shorter is left as it was: none. `gain` is the swap's.
    pub(super) fn take<L: Legs>(
        &mut self,
        shorten: &Shorten<'_, L>,
        swap: Swap<'_>,
        mut gain: f64,
    ) -> Option<f64> {
        self.relink(swap);
        let mut rings = self.cut(swap);
        while rings > 1 && gain > shorten.least {
            let (joint, longer) = self.joint(shorten, gain).unwrap_or(([0; 4], gain));
            gain -= longer;
            if gain > shorten.least {
                self.join(joint);
            }
            rings -= 1;
        }
        if gain > shorten.least {
            return Some(gain);
        }
        self.take_back();
        None
    }

    /// Takes the last swap back.
    pub(super) fn take_back(&mut self) {
        while let Some((place, links)) = self.log.pop() {
            self.route.set(place, links);
        }
    }

    /// The legs that came and went since the route was laid out, at both of their ends.
    pub(super) fn changes(&mut self) -> &[Change] {
        self.changes.clear();
        self.calls = self.calls.wrapping_add(1);
        for (place, before) in &self.log {
            let Some(met) = self.met.get_mut(*place as usize) else {
                continue;
            };
            // A place's first entry has the links that it had at first.
            if core::mem::replace(met, self.calls) == self.calls {
                continue;
            }
            let after = self.route.of(*place);
            let change = |to: u32, came: bool| Change {
                place: *place,
                to,
                came,
            };
            let went = before.iter().filter(|to| !after.contains(to));
            self.changes.extend(went.map(|to| change(*to, false)));
            let came = after.iter().filter(|to| !before.contains(to));
            self.changes.extend(came.map(|to| change(*to, true)));
        }
        &self.changes
    }

    /// Exchanges legs, whatever becomes of the route.
    fn relink(&mut self, swap: Swap<'_>) {
        // All go first, as a place may lose both legs.
        for &(one, other) in swap.go {
            self.replace(one, other, NONE);
            self.replace(other, one, NONE);
        }
        for &(one, other) in swap.come {
            self.replace(one, NONE, other);
            self.replace(other, NONE, one);
        }
    }

    /// Cuts and joins the route as it is laid out; returns the number of rings.
    fn cut(&mut self, swap: Swap<'_>) -> usize {
        let spots = &self.spots;
        let spot = |place: u32| spots.get(place as usize).copied().unwrap_or_default();
        let at = |&(one, other): &Leg| (spot(one), spot(other));
        self.pieces.cut(spots.len() as u32, swap.go.iter().map(at));
        for (one, other) in swap.come.iter().map(at) {
            self.pieces.join(one, other);
        }
        self.pieces.close()
    }

    /// The exchange of two legs that joins the smallest ring to another and adds least, and how much it adds: less than
    /// `limit`.
    fn joint<L: Legs>(&self, shorten: &Shorten<'_, L>, limit: f64) -> Option<(Joint, f64)> {
        let leg = |one, other| shorten.legs.leg(one, other);
        let (ring, size, spot) = self.pieces.smallest()?;
        let mut v = self.order.get(spot as usize).copied()?;
        let mut before = self.route.of(v)[0];
        let mut leg_before = leg(before, v);
        let (mut best, mut least) = (None, limit);
        for _ in 0..size {
            let after = self.route.next(before, v);
            let leg_after = leg(v, after);
            for &(w, came) in shorten.near.of(v) {
                // The other two legs are as a rule about as long as each other.
                if came - leg_before.max(leg_after) >= least {
                    break;
                }
                if self.pieces.ring(self.spot(w)) == ring {
                    continue;
                }
                for (x, went) in [(before, leg_before), (after, leg_after)] {
                    if came - went >= least {
                        continue;
                    }
                    for y in self.route.of(w) {
                        let longer = came - went + leg(x, y) - leg(w, y);
                        if longer < least {
                            (best, least) = (Some([v, x, w, y]), longer);
                        }
                    }
                }
            }
            (before, v, leg_before) = (v, after, leg_after);
        }
        best.map(|joint| (joint, least))
    }

    /// Joins the smallest ring to another.
    fn join(&mut self, [v, x, w, y]: Joint) {
        for (place, old, new) in [(v, x, w), (x, v, y), (w, y, v), (y, w, x)] {
            self.replace(place, old, new);
        }
        let [ring, into] = [v, w].map(|place| self.pieces.ring(self.spot(place)));
        self.pieces.merge(ring, into);
    }

    fn replace(&mut self, place: u32, old: u32, new: u32) {
        let links = self.route.of(place);
        self.log.push((place, links));
        let [one, two] = links;
        let links = if one == old { [new, two] } else { [one, new] };
        self.route.set(place, links);
    }

    fn spot(&self, place: u32) -> u32 {
        self.spots.get(place as usize).copied().unwrap_or_default()
    }
}

#[cfg(test)]
mod tests {
    use super::super::chains::Chains;
    use super::super::draw::Draw;
    use super::super::legs::{Round, length};
    use super::super::near::Near;
    use super::super::swaps::Swaps;
    use super::*;
    use crate::Point;
    use testkit::assert_near;

    const COUNT: u32 = 60;

    fn order(route: &Links) -> Vec<u32> {
        let mut order = vec![0; COUNT as usize];
        route.walk(&mut order);
        order
    }

    fn is_each_once(order: &[u32]) -> bool {
        let mut order = order.to_vec();
        order.sort_unstable();
        order.into_iter().eq(0..COUNT)
    }

    /// Whether the changes are those that make one route another.
    fn lead(changes: &[Change], before: &Links, after: &Links) -> bool {
        let mut count = 0;
        for place in 0..COUNT {
            for to in after.of(place) {
                let came = !before.joins(place, to);
                count += u32::from(came);
                let change = Change { place, to, came };
                if came != changes.contains(&change) {
                    return false;
                }
            }
        }
        // As many went as came.
        changes.len() as u32 == 2 * count
    }

    #[test]
    fn a_swap_leaves_one_closed_route_that_is_shorter_by_its_gain_or_all_as_it_was() {
        let mut draw = Draw::new();
        let points = (0..COUNT).map(|_| Point::new(draw.part(), draw.part()));
        let legs = Round(points.collect());
        let shorten = Shorten::new(&legs, Near::new(&legs, 6), 1e-9);
        let (mut chains, mut swaps) = (Chains::new(COUNT), Swaps::new(COUNT));
        let mut cross = Cross::new(COUNT);
        let [mut taken, mut left] = [0; 2];
        for _ in 0..60 {
            let [own, other] = [(); 2].map(|()| {
                let mut order: Vec<u32> = (0..COUNT).collect();
                draw.shuffle(&mut order);
                order
            });
            cross.route = Links::new(&own);
            cross.lay_out();
            chains.find(&cross.route, &Links::new(&other), &mut draw, &mut swaps);
            swaps.knot();
            let at_first = order(&cross.route);
            for swap in (0..swaps.count()).map(|at| swaps.get(at)) {
                assert!(cross.fits(swap));
                let gain = Cross::gain(&shorten, swap);
                if let Some(gain) = cross.take(&shorten, swap, gain) {
                    let after = order(&cross.route);
                    assert!(is_each_once(&after) && gain > 0.0);
                    assert_near!(length(&legs, &own) - gain, length(&legs, &after), 1e-9);
                    let changes = cross.changes().to_vec();
                    assert!(lead(&changes, &Links::new(&own), &cross.route));
                    cross.take_back();
                    taken += 1;
                } else {
                    left += 1;
                }
                assert_eq!(order(&cross.route), at_first);
            }
        }
        assert!(taken > 100 && left > 100, "{taken} {left}");
    }

    #[test]
    fn a_swap_that_was_made_fits_no_more() {
        let legs = Round((0..8).map(|at| Point::new(f64::from(at), 0.0)).collect());
        let shorten = Shorten::new(&legs, Near::new(&legs, 6), 1e-9);
        let mut cross = Cross::new(8);
        cross.route = Links::new(&[0, 1, 5, 4, 3, 2, 6, 7]);
        cross.lay_out();
        let (go, come) = ([(1, 5), (2, 6)], [(1, 2), (5, 6)]);
        let swap = Swap {
            go: &go,
            come: &come,
        };
        assert!(cross.fits(swap));
        assert_eq!(cross.take(&shorten, swap, 6.0), Some(6.0));
        assert!(!cross.fits(swap));
    }
}
