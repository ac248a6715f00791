//! Several routes that take over legs from each other, until none gets shorter by it.

use super::Cancel;
use super::anneal::Found;
use super::chains::Chains;
use super::cross::Cross;
use super::draw::Draw;
use super::legs::Legs;
use super::links::Links;
use super::shorten::Shorten;
use super::swaps::Swaps;
use super::variety::Variety;

/// Makes all routes shorter with legs of each other.
pub(super) fn share<L: Legs>(
    shorten: &Shorten<'_, L>,
    draw: &mut Draw,
    found: &mut [Found],
    cancel: &Cancel<'_>,
) {
    let mut pool = Pool::new(shorten, found);
    while pool.generation(draw, cancel) {}
    let shorter = pool.routes.iter().zip(pool.lengths);
    for (found, (route, length)) in found.iter_mut().zip(shorter) {
        route.walk(&mut found.order);
        found.length = length;
    }
}

struct Pool<'a, L> {
    shorten: &'a Shorten<'a, L>,
    routes: Vec<Links>,
    lengths: Vec<f64>,
    variety: Variety,
    chains: Chains,
    swaps: Swaps,
    cross: Cross,
    /// Swaps that make a route shorter, with what each gains for the variety that it costs.
    ranked: Vec<(f64, usize)>,
}

/// The most swaps that a route takes over from another at once: two, or one for so many places. More take less time, but soon
/// all routes are alike.
const AT_ONCE: u32 = 2;
const PLACES_A_SWAP: u32 = 600;

/// A loss of variety as small as this counts as none.
const LEAST_LOSS: f64 = 1e-6;

impl<'a, L: Legs> Pool<'a, L> {
    fn new(shorten: &'a Shorten<'a, L>, found: &[Found]) -> Self {
        let places = shorten.route.count();
        let routes: Vec<Links> = found.iter().map(|found| Links::new(&found.order)).collect();
        Self {
            shorten,
            lengths: found.iter().map(|found| found.length).collect(),
            variety: Variety::new(places, &routes),
            routes,
            chains: Chains::new(places),
            swaps: Swaps::new(places),
            cross: Cross::new(places),
            ranked: Vec::new(),
        }
    }

    /// Lets each route take over legs of one other, by chance; false where none got shorter.
    fn generation(&mut self, draw: &mut Draw, cancel: &Cancel<'_>) -> bool {
        let mut turns: Vec<usize> = (0..self.routes.len()).collect();
        draw.shuffle(&mut turns);
        let others = turns.iter().cycle().skip(1);
        let mut shorter = false;
        for (own, other) in turns.iter().zip(others) {
            if cancel.ask() {
                return false;
            }
            shorter |= self.shorten(*own, *other, draw);
        }
        shorter
    }

    /// Lets a route take over the best of another; false where nothing makes it shorter.
    fn shorten(&mut self, own: usize, other: usize, draw: &mut Draw) -> bool {
        let Some(route) = self.routes.get_mut(own) else {
            return false;
        };
        self.cross.route = core::mem::take(route);
        self.cross.lay_out();
        if let Some(other) = self.routes.get(other) {
            self.chains
                .find(&self.cross.route, other, draw, &mut self.swaps);
            self.swaps.knot();
        }
        self.rank_swaps();
        let gain = self.take_best();
        if let Some(length) = self.lengths.get_mut(own) {
            *length -= gain;
        }
        if let Some(route) = self.routes.get_mut(own) {
            *route = core::mem::take(&mut self.cross.route);
        }
        gain > 0.0
    }

    /// Finds the swaps that make the route shorter; the first gains most for the variety that it costs.
    fn rank_swaps(&mut self) {
        self.ranked.clear();
        for at in 0..self.swaps.count() {
            let swap = self.swaps.get(at);
            let gain = Cross::gain(self.shorten, swap);
            if gain <= self.shorten.least {
                continue;
            }
            if let Some(gain) = self.cross.take(self.shorten, swap, gain) {
                let loss = self.variety.loss(self.cross.changes());
                self.ranked.push((gain / loss.max(LEAST_LOSS), at));
                self.cross.take_back();
            }
        }
        self.ranked
            .sort_by(|one, other| other.0.total_cmp(&one.0).then(one.1.cmp(&other.1)));
    }

    /// Makes the best swaps; returns by how much the route got shorter.
    fn take_best(&mut self) -> f64 {
        let most = AT_ONCE.max(self.shorten.route.count() / PLACES_A_SWAP);
        let (mut taken, mut total) = (0, 0.0);
        for (_, at) in &self.ranked {
            let swap = self.swaps.get(*at);
            if taken == most {
                break;
            }
            if !self.cross.fits(swap) {
                continue;
            }
            let gain = Cross::gain(self.shorten, swap);
            if let Some(gain) = self.cross.take(self.shorten, swap, gain) {
                self.variety.update(self.cross.changes());
                self.cross.lay_out();
                total += gain;
                taken += 1;
            }
        }
        total
    }
}

#[cfg(test)]
mod tests {
    use super::super::legs::{Round, length};
    use super::super::near::Near;
    use super::*;
    use crate::Point;
    use testkit::assert_near;

    /// Routes by chance through the same points.
    fn found(legs: &Round, number: usize, draw: &mut Draw) -> Vec<Found> {
        let route = |draw: &mut Draw| {
            let mut order: Vec<u32> = (0..legs.count()).collect();
            draw.shuffle(&mut order);
            let length = length(legs, &order);
            Found { length, order }
        };
        (0..number).map(|_| route(draw)).collect()
    }

    #[test]
    fn routes_that_share_are_closed_and_shorter_and_of_the_length_that_they_say() {
        let mut draw = Draw::new();
        let points = (0..80).map(|_| Point::new(draw.part(), draw.part()));
        let legs = Round(points.collect());
        let shorten = Shorten::new(&legs, Near::new(&legs, 6), 1e-9);
        for number in [1, 2, 9] {
            let mut found = found(&legs, number, &mut draw);
            let before: Vec<f64> = found.iter().map(|found| found.length).collect();
            share(&shorten, &mut draw, &mut found, &Cancel::new(&|| false));
            for (found, before) in found.iter().zip(before) {
                assert!(found.length <= before);
                assert!((found.length < before) == (number > 1));
                assert_near!(found.length, length(&legs, &found.order), 1e-9);
                let mut order = found.order.clone();
                order.sort_unstable();
                assert!(order.into_iter().eq(0..80));
            }
        }
    }

    #[test]
    fn routes_are_left_as_they_are_when_canceled() {
        let mut draw = Draw::new();
        let points = (0..30).map(|_| Point::new(draw.part(), draw.part()));
        let legs = Round(points.collect());
        let shorten = Shorten::new(&legs, Near::new(&legs, 6), 1e-9);
        let mut found = found(&legs, 5, &mut draw);
        let before: Vec<f64> = found.iter().map(|found| found.length).collect();
        share(&shorten, &mut draw, &mut found, &Cancel::new(&|| true));
        assert!(found.iter().map(|found| found.length).eq(before));
    }
}
