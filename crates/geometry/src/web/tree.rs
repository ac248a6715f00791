//! Discs halved again and again along the longer side of their box: slower than a grid, but for any input.
//!
//! A box knows its widest disc, so how small a web to anything inside can be is known without looking inside.

use kurbo::Rect;

use crate::Point;

use super::{Disc, Web};

/// A balanced tree of boxes over the discs.
pub(super) struct Tree {
    discs: Vec<Disc>,
    nodes: Vec<Node>,
}

/// Discs `start..end`; the halves' nodes follow, the first at once, the second at `second` (0 for a leaf).
struct Node {
    bounds: Rect,
    widest: f64,
    start: usize,
    end: usize,
    second: usize,
}

/// Up to so many discs are not halved.
const LEAF: usize = 6;

impl Tree {
    pub(super) fn new(discs: Vec<Disc>) -> Self {
        let mut tree = Self {
            nodes: Vec::with_capacity(discs.len() / 2 + 1),
            discs,
        };
        if !tree.discs.is_empty() {
            tree.grow(0, tree.discs.len());
        }
        tree
    }

    /// The smallest web of all.
    pub(super) fn smallest(&self) -> Option<Web> {
        let mut best: Option<Web> = None;
        for disc in &self.discs {
            let limit = best.map_or(f64::INFINITY, |web| web.mm);
            best = self.nearest_to(disc, limit).or(best);
        }
        best
    }

    /// All webs under the limit, unsorted.
    pub(super) fn close(&self, limit: f64) -> Vec<Web> {
        let mut webs = Vec::new();
        for disc in &self.discs {
            self.search(0, disc, &mut |other: &Disc, mm| {
                if other.index > disc.index && mm < limit {
                    webs.push(disc.pair(other, mm));
                }
                limit
            });
        }
        webs
    }

    /// For each of `count` circles its smallest web.
    pub(super) fn nearest(&self, count: usize) -> Vec<Option<Web>> {
        let mut webs = vec![None; count];
        for disc in &self.discs {
            if let Some(web) = webs.get_mut(disc.index as usize) {
                *web = self.nearest_to(disc, f64::INFINITY);
            }
        }
        webs
    }

    /// The smallest web of one disc, where it is under the limit.
    fn nearest_to(&self, disc: &Disc, mut limit: f64) -> Option<Web> {
        let mut best = None;
        self.search(0, disc, &mut |other: &Disc, mm| {
            if mm < limit && other.index != disc.index {
                limit = mm;
                best = Some(disc.pair(other, mm));
            }
            limit
        });
        best
    }

    /// Visits discs near to one, the nearer box first, as long as a box may hold a web under the limit that the
    /// visitor last gave. The visitor is asked with an endless web for the limit alone.
    fn search(&self, at: usize, disc: &Disc, visit: &mut impl FnMut(&Disc, f64) -> f64) {
        let Some(node) = self.nodes.get(at) else {
            return;
        };
        if node.least_web(disc) >= visit(disc, f64::INFINITY) {
            return;
        }
        if node.second == 0 {
            for other in self.discs.get(node.start..node.end).unwrap_or_default() {
                visit(other, disc.web_to(other));
            }
            return;
        }
        let halves = [at + 1, node.second];
        let least = halves.map(|half| {
            let node = self.nodes.get(half);
            node.map_or(f64::INFINITY, |node| node.least_web(disc))
        });
        let [near, far] = if least[0] <= least[1] {
            halves
        } else {
            [halves[1], halves[0]]
        };
        self.search(near, disc, visit);
        self.search(far, disc, visit);
    }

    fn grow(&mut self, start: usize, end: usize) -> usize {
        let at = self.nodes.len();
        let discs = self.discs.get_mut(start..end).unwrap_or_default();
        let node = Node::around(discs, start);
        let wide = node.bounds.width() >= node.bounds.height();
        self.nodes.push(node);
        if end - start <= LEAF {
            return at;
        }
        let half = (end - start) / 2;
        if wide {
            discs
                .select_nth_unstable_by(half, |one, other| one.center.x.total_cmp(&other.center.x));
        } else {
            discs
                .select_nth_unstable_by(half, |one, other| one.center.y.total_cmp(&other.center.y));
        }
        self.grow(start, start + half);
        let second = self.grow(start + half, end);
        if let Some(node) = self.nodes.get_mut(at) {
            node.second = second;
        }
        at
    }
}

impl Node {
    fn around(discs: &[Disc], start: usize) -> Self {
        let first = discs.first().map_or(Point::ORIGIN, |disc| disc.center);
        let mut bounds = Rect::from_points(first, first);
        let mut widest = f64::NEG_INFINITY;
        for disc in discs {
            bounds = bounds.union_pt(disc.center);
            widest = widest.max(disc.radius);
        }
        Self {
            bounds,
            widest,
            start,
            end: start + discs.len(),
            second: 0,
        }
    }

    /// No web from the disc to one inside is smaller; rounding can only lessen it.
    fn least_web(&self, disc: &Disc) -> f64 {
        let Point { x, y } = disc.center;
        let across = (self.bounds.x0 - x).max(x - self.bounds.x1).max(0.0);
        let along = (self.bounds.y0 - y).max(y - self.bounds.y1).max(0.0);
        (across * across + along * along).sqrt() - (disc.radius + self.widest)
    }
}
