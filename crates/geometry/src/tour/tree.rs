//! The shortest tree of legs between places.
//!
//! Legs are taken from the shortest on unless they would close a ring (Kruskal, 1956). Groups of joined places are
//! hung one to another, the smaller to the larger, so that the way up from a place has few steps; and because legs
//! come in order of length, the longest on the way between two places is the last of those ways up.

/// A leg that a tree may have.
#[derive(Clone, Copy)]
pub(super) struct Twig {
    pub(super) ends: [u32; 2],
    /// Without any weights.
    pub(super) bare: f64,
}

/// A tree through all places that its legs join, and one leg more.
pub(super) struct Tree {
    /// Length of all legs.
    pub(super) length: f64,
    /// Number of legs at each place.
    pub(super) legs: Vec<u32>,
    /// The tree's legs, without the one more.
    pub(super) joints: Vec<[u32; 2]>,
    /// The legs by length, as numbers of twigs.
    order: Vec<(f64, u32)>,
    /// The groups of joined places, by place.
    hung: Vec<Hung>,
    /// At each place the shortest leg that the tree has not.
    spare: Vec<Option<(f64, u32)>>,
}

/// A place's link to another of its group.
#[derive(Clone, Copy)]
struct Hung {
    /// Itself, for one place of each group.
    to: u32,
    /// Length of the leg that joined the groups; no limit for the place on top.
    by: f64,
    /// Number of places hung below, this one included.
    below: u32,
}

impl Tree {
    pub(super) fn new(places: u32, twigs: u32) -> Self {
        Self {
            length: 0.0,
            legs: Vec::with_capacity(places as usize),
            joints: Vec::with_capacity(places as usize),
            order: (0..twigs).map(|twig| (0.0, twig)).collect(),
            hung: Vec::with_capacity(places as usize),
            spare: vec![None; places as usize],
        }
    }

    /// Grows anew, from legs whose lengths have changed.
    pub(super) fn grow(&mut self, twigs: &[Twig], length: impl Fn(&Twig) -> f64) {
        self.clear();
        for (by, twig) in &mut self.order {
            *by = twigs.get(*twig as usize).map_or(f64::INFINITY, &length);
        }
        self.order
            .sort_unstable_by(|one, other| one.0.total_cmp(&other.0).then(one.1.cmp(&other.1)));
        for at in 0..self.order.len() {
            let Some((by, twig)) = self.order.get(at).copied() else {
                continue;
            };
            if let Some(twig) = twigs.get(twig as usize) {
                self.offer(twig.ends, by);
            }
        }
        self.add_spare();
    }

    fn clear(&mut self) {
        let places = self.spare.len();
        self.length = 0.0;
        self.joints.clear();
        self.legs.clear();
        self.legs.resize(places, 0);
        self.spare.fill(None);
        self.hung.clear();
        self.hung.extend((0..places as u32).map(|to| Hung {
            to,
            by: f64::INFINITY,
            below: 1,
        }));
    }

    /// Takes a leg unless it closes a ring.
    fn offer(&mut self, [one, other]: [u32; 2], by: f64) {
        let (top, other_top) = (self.top(one), self.top(other));
        if top.0 == other_top.0 {
            for (end, far) in [(one, other), (other, one)] {
                if let Some(spare) = self.spare.get_mut(end as usize) {
                    spare.get_or_insert((by, far));
                }
            }
            return;
        }
        let (low, high) = if top.1 < other_top.1 {
            (top, other_top)
        } else {
            (other_top, top)
        };
        if let Some(hung) = self.hung.get_mut(low.0 as usize) {
            (hung.to, hung.by) = (high.0, by);
        }
        if let Some(hung) = self.hung.get_mut(high.0 as usize) {
            hung.below += low.1;
        }
        self.joints.push([one, other]);
        self.add([one, other], by);
    }

    fn add(&mut self, ends: [u32; 2], by: f64) {
        self.length += by;
        for end in ends {
            if let Some(legs) = self.legs.get_mut(end as usize) {
                *legs += 1;
            }
        }
    }

    /// Adds a second leg at one of the places that have a single one: where the shortest such leg is longest.
    ///
    /// With it the tree is no longer than any closed route still (Held and Karp, 1970), and at that place it gets
    /// nearest to one.
    fn add_spare(&mut self) {
        let single = self.spare.iter().zip(&self.legs).zip(0..);
        let farthest = single
            .filter(|((_, legs), _)| **legs == 1)
            .filter_map(|((spare, _), place)| spare.map(|(by, far)| (by, far, place)))
            .max_by(|one, other| one.0.total_cmp(&other.0));
        if let Some((by, far, place)) = farthest {
            self.add([place, far], by);
        }
    }

    /// The place on top of another's group, and the group's number of places.
    fn top(&self, mut place: u32) -> (u32, u32) {
        while let Some(hung) = self.hung.get(place as usize) {
            if hung.to == place {
                return (place, hung.below);
            }
            place = hung.to;
        }
        (place, 0)
    }

    /// The longest leg on the tree's way between two places.
    pub(super) fn longest_between(&self, mut one: u32, mut other: u32) -> f64 {
        let mut longest = f64::NEG_INFINITY;
        while one != other {
            let (Some(up), Some(other_up)) =
                (self.hung.get(one as usize), self.hung.get(other as usize))
            else {
                break;
            };
            let (lower, up) = if up.by <= other_up.by {
                (&mut one, up)
            } else {
                (&mut other, other_up)
            };
            // On top of two groups: no way joins them.
            if *lower == up.to {
                return f64::INFINITY;
            }
            longest = up.by;
            *lower = up.to;
        }
        longest
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const TWIGS: [([u32; 2], f64); 7] = [
        ([0, 1], 1.0),
        ([1, 2], 2.0),
        ([0, 2], 3.0),
        ([2, 3], 5.0),
        ([3, 4], 4.0),
        ([1, 4], 7.0),
        ([0, 4], 9.0),
    ];

    fn grown() -> Tree {
        let twigs = TWIGS.map(|(ends, bare)| Twig { ends, bare });
        let mut tree = Tree::new(5, 7);
        tree.grow(&twigs, |twig| twig.bare);
        tree
    }

    #[test]
    fn a_tree_takes_the_shortest_legs_that_close_no_ring_and_one_that_does() {
        let tree = grown();
        // 0-1, 1-2, 3-4, 2-3; then 4 has one leg, and its next is 1-4.
        assert_eq!(tree.length, 1.0 + 2.0 + 4.0 + 5.0 + 7.0);
        assert_eq!(tree.legs, [1, 3, 2, 2, 2]);
        assert_eq!(tree.joints, [[0, 1], [1, 2], [3, 4], [2, 3]]);
    }

    #[test]
    fn the_longest_leg_between_two_places_is_on_the_way_along_the_tree() {
        let tree = grown();
        let expected = [
            ([0, 1], 1.0),
            ([0, 2], 2.0),
            ([1, 4], 5.0),
            ([3, 4], 4.0),
            ([4, 0], 5.0),
        ];
        for ([one, other], longest) in expected {
            assert_eq!(tree.longest_between(one, other), longest);
        }
    }
}
