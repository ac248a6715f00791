//! Legs that one route may exchange for legs of another.

/// Legs of a route, and as many others at the same places.
#[derive(Debug, Clone, Copy)]
pub(super) struct Swap<'a> {
    pub(super) go: &'a [Leg],
    pub(super) come: &'a [Leg],
}

/// The two places at the ends of a leg.
pub(super) type Leg = (u32, u32);

/// Several swaps, one after another.
#[derive(Default)]
pub(super) struct Swaps {
    go: Vec<Leg>,
    come: Vec<Leg>,
    /// Where each swap ends, in both lists.
    ends: Vec<usize>,
    /// By place, the first swap that has it; or none.
    owners: Vec<u32>,
    /// By swap, an earlier one that meets it, or itself.
    meets: Vec<u32>,
}

const NONE: u32 = u32::MAX;

impl Swaps {
    pub(super) fn new(places: u32) -> Self {
        Self {
            owners: vec![NONE; places as usize],
            ..Self::default()
        }
    }

    pub(super) fn clear(&mut self) {
        self.go.clear();
        self.come.clear();
        self.ends.clear();
    }

    pub(super) fn count(&self) -> usize {
        self.ends.len()
    }

    pub(super) fn get(&self, swap: usize) -> Swap<'_> {
        let legs = self.legs(swap);
        Swap {
            go: self.go.get(legs.clone()).unwrap_or_default(),
            come: self.come.get(legs).unwrap_or_default(),
        }
    }

    /// Adds the swap of a closed chain, which goes by turns along legs that go and come. The first of them goes.
    pub(super) fn push(&mut self, chain: impl Iterator<Item = u32> + Clone) {
        let next = chain.clone().skip(1).chain(chain.clone().take(1));
        for (at, leg) in chain.zip(next).enumerate() {
            let legs = if at % 2 == 0 {
                &mut self.go
            } else {
                &mut self.come
            };
            legs.push(leg);
        }
        self.ends.push(self.go.len());
    }

    /// Adds for all swaps that meet at places, one with another, the swap of all their legs.
    ///
    /// Of several swaps none alone may make a route shorter, but all at once.
    pub(super) fn knot(&mut self) {
        let count = self.count() as u32;
        self.meets.clear();
        self.meets.extend(0..count);
        for swap in 0..count {
            for at in self.legs(swap as usize) {
                let Some((one, other)) = self.go.get(at).copied() else {
                    continue;
                };
                self.meet(one, swap);
                self.meet(other, swap);
            }
        }
        for (one, other) in &self.go {
            for place in [one, other] {
                if let Some(owner) = self.owners.get_mut(*place as usize) {
                    *owner = NONE;
                }
            }
        }
        for swap in 0..count {
            self.push_knot(swap, count);
        }
    }

    /// Notes that a swap has a place.
    fn meet(&mut self, place: u32, swap: u32) {
        let Some(owner) = self.owners.get_mut(place as usize) else {
            return;
        };
        if *owner == NONE {
            *owner = swap;
            return;
        }
        let owner = *owner;
        let (one, other) = (self.first(owner), self.first(swap));
        if let Some(meets) = self.meets.get_mut(one.max(other) as usize) {
            *meets = one.min(other);
        }
    }

    /// Adds the knot whose first swap this is, if it has others.
    fn push_knot(&mut self, first: u32, count: u32) {
        if self.first(first) != first {
            return;
        }
        let start = self.go.len();
        for swap in first + 1..count {
            if self.first(swap) == first {
                self.copy(swap);
            }
        }
        if self.go.len() > start {
            self.copy(first);
            self.ends.push(self.go.len());
        }
    }

    fn copy(&mut self, swap: u32) {
        let legs = self.legs(swap as usize);
        self.go.extend_from_within(legs.clone());
        self.come.extend_from_within(legs);
    }

    /// The first of all swaps that meet one.
    fn first(&self, mut swap: u32) -> u32 {
        while let Some(meets) = self.meets.get(swap as usize).copied()
            && meets != swap
        {
            swap = meets;
        }
        swap
    }

    fn legs(&self, swap: usize) -> core::ops::Range<usize> {
        let start = swap.checked_sub(1).and_then(|last| self.ends.get(last));
        let end = self.ends.get(swap).copied().unwrap_or_default();
        start.copied().unwrap_or_default()..end
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn swaps_that_meet_are_tied_in_a_knot() {
        let mut swaps = Swaps::new(20);
        for chain in [
            [0, 1, 2, 3],
            [10, 11, 12, 13],
            [3, 4, 5, 6],
            [14, 15, 6, 17],
        ] {
            swaps.push(chain.into_iter());
        }
        swaps.knot();
        assert_eq!(swaps.count(), 5);
        assert_eq!(swaps.get(1).go, [(10, 11), (12, 13)]);
        assert_eq!(swaps.get(1).come, [(11, 12), (13, 10)]);
        let mut knot = swaps.get(4).go.to_vec();
        knot.sort_unstable();
        assert_eq!(knot, [(0, 1), (2, 3), (3, 4), (5, 6), (6, 17), (14, 15)]);
        // Nothing is left over for the next swaps.
        swaps.clear();
        swaps.push([0, 1, 2, 3].into_iter());
        swaps.push([10, 4, 5, 6].into_iter());
        swaps.knot();
        assert_eq!(swaps.count(), 2);
    }
}
