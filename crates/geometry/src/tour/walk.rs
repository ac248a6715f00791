//! Walks along a tree, from place to place: routes to begin with.
//!
//! At a fork a walk goes along the smaller branches first, and so jumps back short ways only. It begins at any place, and
//! at some forks takes the branches in any order: no two walks are alike, and their faults lie in different places.

use core::cmp::Reverse;

use super::draw::Draw;

/// The places joined to each by a tree.
pub(super) struct Branches(Vec<Vec<u32>>);

/// The part of the forks at which branches are taken in any order. More of them make worse routes, fewer of them routes
/// too much alike.
const ANY_ORDER: f64 = 0.3;

impl Branches {
    /// The legs are those of a tree through all places.
    pub(super) fn new(places: u32, legs: &[[u32; 2]]) -> Self {
        let mut branches = vec![Vec::new(); places as usize];
        for [one, other] in legs {
            for (place, to) in [(one, other), (other, one)] {
                if let Some(branches) = branches.get_mut(*place as usize) {
                    branches.push(*to);
                }
            }
        }
        Self(branches)
    }

    /// All places in the order of a walk.
    pub(super) fn walk(&self, draw: &mut Draw) -> Vec<u32> {
        let root = draw.below(self.0.len() as u32);
        let sizes = self.sizes(root);
        let size = |(place, _): &(u32, u32)| sizes.get(*place as usize).copied();
        let mut route = Vec::with_capacity(self.0.len());
        // Places still to go to, the next one last, with the place before each.
        let mut ahead = vec![(root, root)];
        while let Some((place, before)) = ahead.pop() {
            route.push(place);
            let fork = ahead.len();
            ahead.extend(self.beyond(place, before));
            let branches = ahead.get_mut(fork..).unwrap_or_default();
            if branches.len() > 1 && draw.part() < ANY_ORDER {
                draw.shuffle(branches);
            } else {
                branches.sort_by_key(|branch| Reverse(size(branch)));
            }
        }
        route
    }

    /// By place, the number of places that are come to by way of it from a root, itself included.
    fn sizes(&self, root: u32) -> Vec<u32> {
        let mut order = vec![(root, root)];
        let mut at = 0;
        while let Some((place, before)) = order.get(at).copied() {
            order.extend(self.beyond(place, before));
            at += 1;
        }
        let mut sizes = vec![1; self.0.len()];
        for (place, before) in order.into_iter().skip(1).rev() {
            let size = sizes.get(place as usize).copied().unwrap_or_default();
            if let Some(sum) = sizes.get_mut(before as usize) {
                *sum += size;
            }
        }
        sizes
    }

    /// The places after one that was come to from another, each with that one.
    fn beyond(&self, place: u32, before: u32) -> impl Iterator<Item = (u32, u32)> {
        let branches = self.0.get(place as usize).into_iter().flatten();
        let ahead = branches.copied().filter(move |to| *to != before);
        ahead.map(move |to| (to, place))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_walk_goes_to_each_place_once_and_differs_from_another() {
        let legs: Vec<[u32; 2]> = (1..200)
            .map(|place| [place, place * place % 97 % place])
            .collect();
        let branches = Branches::new(200, &legs);
        let mut draw = Draw::new();
        let walks = [(); 2].map(|()| branches.walk(&mut draw));
        assert_ne!(walks[0], walks[1]);
        for mut walk in walks {
            walk.sort_unstable();
            assert!(walk.into_iter().eq(0..200));
        }
    }

    #[test]
    fn a_walk_along_a_row_goes_straight_on() {
        let branches = Branches::new(5, &[[0, 1], [1, 2], [2, 3], [3, 4]]);
        let mut draw = Draw::new();
        for _ in 0..20 {
            let walk = branches.walk(&mut draw);
            let jumps = walk
                .windows(2)
                .filter(|pair| pair[0].abs_diff(pair[1]) != 1);
            assert!(jumps.count() <= 1);
        }
    }
}
