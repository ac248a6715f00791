//! The closed chains of legs in which two routes differ.
//!
//! At each place as many legs of one route are missing from the other as the other way around. So all those legs form
//! closed chains that go by turns along a leg of the one and a leg of the other, and a route can take over each such
//! chain without the rest (AB-cycles of Nagata and Kobayashi, 2013).

use super::draw::Draw;
use super::links::Links;
use super::swaps::Swaps;

/// The memory in which closed chains are found.
pub(super) struct Chains {
    /// The places at which the routes differ.
    forks: Vec<u32>,
    /// By route and place, the legs that are in no chain yet.
    open: [Vec<Open>; 2],
    /// The places gone through since the start, along an own leg and another's by turns.
    path: Vec<u32>,
    /// By place, where on the path it was come to along another's leg and along an own leg.
    met: Vec<[usize; 2]>,
}

/// The legs of one route at a place that the other route has not.
#[derive(Clone, Copy, Default)]
struct Open {
    count: u32,
    to: [u32; 2],
}

const NOT_MET: usize = usize::MAX;

impl Chains {
    pub(super) fn new(places: u32) -> Self {
        let count = places as usize;
        Self {
            forks: Vec::new(),
            open: [vec![Open::default(); count], vec![Open::default(); count]],
            path: Vec::new(),
            met: vec![[NOT_MET; 2]; count],
        }
    }

    /// Parts all legs in which two routes differ into chains, by chance where there is a choice. Legs of the own route go.
    pub(super) fn find(&mut self, own: &Links, other: &Links, draw: &mut Draw, swaps: &mut Swaps) {
        swaps.clear();
        self.open_forks(own, other);
        let count = self.forks.len();
        let start = draw.below(count as u32) as usize;
        for at in (start..count).chain(0..start) {
            let Some(fork) = self.forks.get(at).copied() else {
                continue;
            };
            while self.open(0, fork).count > 0 {
                self.follow(fork, draw, swaps);
            }
        }
    }

    fn open_forks(&mut self, own: &Links, other: &Links) {
        self.forks.clear();
        let [own_legs, others] = &mut self.open;
        let open = own_legs.iter_mut().zip(others);
        for ((place, (mine, theirs)), (open, other)) in (0..).zip(own.beside(other)).zip(open) {
            let [one, two] = theirs;
            if mine == theirs || mine == [two, one] {
                continue;
            }
            *open = Open::only(mine, theirs);
            *other = Open::only(theirs, mine);
            self.forks.push(place);
        }
    }

    /// Follows open legs from a place, by turns of the own route and the other, until it is back there and all legs gone
    /// along are in chains.
    fn follow(&mut self, from: u32, draw: &mut Draw, swaps: &mut Swaps) {
        self.path.clear();
        self.path.push(from);
        self.meet(from, 0, 0);
        while let Some(here) = self.path.last().copied() {
            let whose = (self.path.len() + 1) % 2;
            let Some(next) = self.open(whose, here).pick(draw) else {
                // Open legs run out only where the path began.
                self.meet(here, whose, NOT_MET);
                return;
            };
            self.close(whose, here, next);
            self.close(whose, next, here);
            let turn = self.path.len() % 2;
            let met = self.met.get(next as usize).map_or(NOT_MET, |met| met[turn]);
            if met == NOT_MET {
                self.meet(next, turn, self.path.len());
                self.path.push(next);
            } else {
                self.take_chain(met, swaps);
            }
        }
    }

    /// The path's places from a spot on have become a chain.
    fn take_chain(&mut self, met: usize, swaps: &mut Swaps) {
        let chain = self.path.get(met..).unwrap_or_default();
        let (odd, rest) = chain.split_at(met % 2);
        swaps.push(rest.iter().chain(odd).copied());
        while self.path.len() > met + 1 {
            let turn = (self.path.len() - 1) % 2;
            if let Some(place) = self.path.pop() {
                self.meet(place, turn, NOT_MET);
            }
        }
    }

    fn open(&self, whose: usize, place: u32) -> Open {
        let open = self.open.get(whose);
        open.and_then(|open| open.get(place as usize))
            .copied()
            .unwrap_or_default()
    }

    fn close(&mut self, whose: usize, place: u32, to: u32) {
        let open = self.open.get_mut(whose);
        if let Some(open) = open.and_then(|open| open.get_mut(place as usize)) {
            open.remove(to);
        }
    }

    fn meet(&mut self, place: u32, turn: usize, spot: usize) {
        let met = self.met.get_mut(place as usize);
        if let Some(met) = met.and_then(|met| met.get_mut(turn)) {
            *met = spot;
        }
    }
}

impl Open {
    fn only(these: [u32; 2], those: [u32; 2]) -> Self {
        let [one, two] = these;
        let to = match (those.contains(&one), those.contains(&two)) {
            (false, false) => {
                return Self {
                    count: 2,
                    to: these,
                };
            }
            (false, true) => one,
            (true, false) => two,
            (true, true) => return Self::default(),
        };
        Self {
            count: 1,
            to: [to; 2],
        }
    }

    fn pick(&self, draw: &mut Draw) -> Option<u32> {
        let [one, two] = self.to;
        match self.count {
            0 => None,
            2 if draw.below(2) == 1 => Some(two),
            _ => Some(one),
        }
    }

    fn remove(&mut self, to: u32) {
        let [one, two] = self.to;
        let left = if one == to { two } else { one };
        (self.count, self.to) = (self.count - 1, [left; 2]);
    }
}

#[cfg(test)]
mod tests {
    use super::super::swaps::Leg;
    use super::*;

    /// A route by chance through as many places.
    fn route(count: u32, draw: &mut Draw) -> Links {
        let mut order: Vec<u32> = (0..count).collect();
        draw.shuffle(&mut order);
        Links::new(&order)
    }

    fn sorted<'a>(legs: impl Iterator<Item = &'a Leg>) -> Vec<Leg> {
        let mut legs: Vec<Leg> = legs
            .map(|(one, other)| (*one.min(other), *one.max(other)))
            .collect();
        legs.sort_unstable();
        legs
    }

    #[test]
    fn chains_hold_each_leg_in_which_two_routes_differ_once() {
        let draw = &mut Draw::new();
        let (mut chains, mut swaps) = (Chains::new(40), Swaps::new(40));
        for _ in 0..200 {
            let (own, other) = (route(40, draw), route(40, draw));
            chains.find(&own, &other, draw, &mut swaps);
            let all = (0..40).flat_map(|one| (one + 1..40).map(move |other| (one, other)));
            let differ = |these: &Links, those: &Links| {
                let only = |leg: &Leg| these.joins(leg.0, leg.1) && !those.joins(leg.0, leg.1);
                all.clone().filter(only).collect::<Vec<Leg>>()
            };
            let found = (0..swaps.count()).map(|chain| swaps.get(chain));
            let go = sorted(found.clone().flat_map(|swap| swap.go));
            assert_eq!(go, differ(&own, &other));
            let come = sorted(found.flat_map(|swap| swap.come));
            assert_eq!(come, differ(&other, &own));
        }
    }

    #[test]
    fn routes_that_are_alike_have_no_chains() {
        let [one, other] = [[0, 1, 2, 3, 4], [4, 3, 2, 1, 0]].map(|order| Links::new(&order));
        let mut swaps = Swaps::new(5);
        Chains::new(5).find(&one, &other, &mut Draw::new(), &mut swaps);
        assert_eq!(swaps.count(), 0);
    }
}
