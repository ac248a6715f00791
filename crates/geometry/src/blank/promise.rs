//! Parts of the search space, ordered by an upper bound on the best place in each.

use std::cmp::Ordering;

/// A part of the search space, in a heap that returns the most promising one first.
pub(super) struct Promising<T> {
    /// No place in it has a larger clearance than this, mm.
    pub bound: f64,
    /// Among equally promising parts, the one with the least value comes first, so that a search is deterministic.
    pub turn: f64,
    /// The part.
    pub part: T,
}

impl<T> Ord for Promising<T> {
    fn cmp(&self, other: &Self) -> Ordering {
        let by_bound = self.bound.total_cmp(&other.bound);
        by_bound.then(other.turn.total_cmp(&self.turn))
    }
}

impl<T> PartialOrd for Promising<T> {
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

impl<T> PartialEq for Promising<T> {
    fn eq(&self, other: &Self) -> bool {
        self.cmp(other).is_eq()
    }
}

impl<T> Eq for Promising<T> {}
