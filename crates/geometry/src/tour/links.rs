//! The two places next to each on a closed route.
//!
//! Legs can be exchanged one by one here, in no order; for a while the route may even fall into several rings.

/// The places before and after each, by place; which of them comes first does not matter.
#[derive(Default)]
pub(super) struct Links(Vec<[u32; 2]>);

impl Links {
    pub(super) fn new(order: &[u32]) -> Self {
        let mut links = Self(vec![[0; 2]; order.len()]);
        let befores = order.iter().cycle().skip(order.len().saturating_sub(1));
        let afters = order.iter().cycle().skip(1);
        for ((here, before), after) in order.iter().zip(befores).zip(afters) {
            links.set(*here, [*before, *after]);
        }
        links
    }

    pub(super) fn of(&self, place: u32) -> [u32; 2] {
        self.0.get(place as usize).copied().unwrap_or_default()
    }

    pub(super) fn set(&mut self, place: u32, links: [u32; 2]) {
        if let Some(at) = self.0.get_mut(place as usize) {
            *at = links;
        }
    }

    /// Whether a leg joins two places.
    pub(super) fn joins(&self, one: u32, other: u32) -> bool {
        self.of(one).contains(&other)
    }

    /// The place after one that is come to from another.
    pub(super) fn next(&self, before: u32, place: u32) -> u32 {
        let [one, two] = self.of(place);
        if one == before { two } else { one }
    }

    /// The links of this route and another's, place by place.
    pub(super) fn beside(&self, other: &Self) -> impl Iterator<Item = ([u32; 2], [u32; 2])> {
        self.0.iter().copied().zip(other.0.iter().copied())
    }

    /// Writes down the places in the order of the route.
    pub(super) fn walk(&self, order: &mut [u32]) {
        let (mut before, mut here) = (self.of(0)[0], 0);
        for at in order {
            *at = here;
            (before, here) = (here, self.next(before, here));
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_route_is_walked_in_the_order_that_it_was_made_from() {
        let links = Links::new(&[0, 3, 1, 4, 2]);
        assert_eq!(links.of(4), [1, 2]);
        assert!(links.joins(2, 0) && links.joins(0, 2) && !links.joins(0, 1));
        let mut order = [0; 5];
        links.walk(&mut order);
        assert_eq!(order, [0, 3, 1, 4, 2]);
    }
}
