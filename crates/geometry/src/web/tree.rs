//! A tree of bounding boxes over the discs, each box halved along its longer side: slower than a grid, but suitable for any
//! input.
//!
//! Each box stores the radius of its largest disc. That gives a lower bound of the webs to all discs inside, so that whole
//! boxes can be skipped.

use kurbo::Rect;

use crate::Point;

use super::{Disc, Web};

/// The discs, and a balanced tree of boxes over them.
pub(super) struct Tree {
    discs: Vec<Disc>,
    nodes: Vec<Node>,
}

/// The box of discs `start..end`. The node of its first half is the next one; that of its second half has the index `second`,
/// which is 0 for a leaf.
struct Node {
    /// The smallest box around the discs' centers.
    bounds: Rect,
    /// The largest radius of the discs, mm.
    widest: f64,
    start: usize,
    end: usize,
    second: usize,
}

/// A box of this many discs or fewer is not halved.
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

    /// The smallest web between any two discs; `None` for fewer than two.
    pub(super) fn smallest(&self) -> Option<Web> {
        let mut best: Option<Web> = None;
        for disc in &self.discs {
            let limit = best.map_or(f64::INFINITY, |web| web.mm);
            best = self.nearest_to(disc, limit).or(best);
        }
        best
    }

    /// All webs under `limit` mm, unsorted.
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

    /// The smallest web of each of `count` circles, by the circle's index.
    pub(super) fn nearest(&self, count: usize) -> Vec<Option<Web>> {
        let mut webs = vec![None; count];
        for disc in &self.discs {
            if let Some(web) = webs.get_mut(disc.index as usize) {
                *web = self.nearest_to(disc, f64::INFINITY);
            }
        }
        webs
    }

    /// The smallest web of one disc; `None` if none is under `limit` mm.
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

    /// Calls `visit` with the discs near `disc` and the web to each, mm, the nearer box first. `visit` returns the limit, and
    /// boxes that cannot contain a web under it are skipped; a call with an infinite web only reads the limit.
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

    /// Adds the node of discs `start..end` and all nodes below it; returns its index.
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
    /// The leaf for `discs`, the first of which has the index `start`.
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

    /// A lower bound of the webs from `disc` to the discs inside, mm; rounding never raises it above one of them.
    fn least_web(&self, disc: &Disc) -> f64 {
        let Point { x, y } = disc.center;
        let across = (self.bounds.x0 - x).max(x - self.bounds.x1).max(0.0);
        let along = (self.bounds.y0 - y).max(y - self.bounds.y1).max(0.0);
        (across * across + along * along).sqrt() - (disc.radius + self.widest)
    }
}
