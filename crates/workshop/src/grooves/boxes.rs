//! A tree of boxes that finds nearby items without visiting all of them.

use kurbo::Rect;

/// Boxes arranged by position.
#[derive(Debug)]
pub struct Boxes {
    nodes: Vec<Node>,
    items: Vec<(Rect, usize)>,
}

#[derive(Debug)]
/// The box around everything below a node of the tree.
struct Node {
    around: Rect,
    /// The items below it.
    items: core::ops::Range<usize>,
    /// Index of the second child; the first child follows the node itself. None for a leaf.
    second: Option<usize>,
}

/// Items in a leaf.
const FEW: usize = 8;

impl Boxes {
    /// A tree over boxes, which are identified by their index in the list.
    pub fn new(boxes: impl Iterator<Item = Rect>) -> Self {
        let mut tree = Self {
            nodes: Vec::new(),
            items: boxes.zip(0..).collect(),
        };
        let all = 0..tree.items.len();
        if !all.is_empty() {
            tree.split(all);
        }
        tree
    }

    /// Splits the items at the middle of the longer side of the box around them.
    fn split(&mut self, range: core::ops::Range<usize>) -> usize {
        let items = self.items.get_mut(range.clone()).unwrap_or_default();
        let boxes = items.iter().map(|(item, _)| *item);
        let around = boxes
            .reduce(|all, item| all.union(item))
            .unwrap_or_default();
        let here = self.nodes.len();
        let middle = range.start + range.len() / 2;
        let is_leaf = range.len() <= FEW;
        if !is_leaf {
            let upright = around.height() > around.width();
            let key = |item: &Rect| {
                let center = item.center();
                if upright { center.y } else { center.x }
            };
            items.select_nth_unstable_by(range.len() / 2, |(a, one), (b, other)| {
                key(a).total_cmp(&key(b)).then(one.cmp(other))
            });
        }
        self.nodes.push(Node {
            around,
            items: range.clone(),
            second: None,
        });
        if !is_leaf {
            self.split(range.start..middle);
            let second = self.split(middle..range.end);
            if let Some(node) = self.nodes.get_mut(here) {
                node.second = Some(second);
            }
        }
        here
    }

    /// Calls a function for every item whose box intersects an area.
    pub fn meeting(&self, area: Rect, mut visit: impl FnMut(usize)) {
        let mut open = vec![0];
        while let Some(at) = open.pop() {
            let Some(node) = self.nodes.get(at).filter(|node| meet(node.around, area)) else {
                continue;
            };
            if let Some(second) = node.second {
                open.extend([second, at + 1]);
                continue;
            }
            let items = self.items.get(node.items.clone()).unwrap_or_default();
            for (item, index) in items {
                if meet(*item, area) {
                    visit(*index);
                }
            }
        }
    }
}

/// Whether two boxes intersect; the boxes of horizontal or vertical lines have no area.
fn meet(one: Rect, other: Rect) -> bool {
    one.x0 <= other.x1 && other.x0 <= one.x1 && one.y0 <= other.y1 && other.y0 <= one.y1
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        #[test]
        fn the_tree_finds_the_same_items_as_a_full_scan(
            boxes in prop::collection::vec((-50.0..50.0_f64, -50.0..50.0_f64, 0.0..20.0_f64, 0.0..9.0_f64), 0..80),
            area in (-50.0..50.0_f64, -50.0..50.0_f64, 0.0..30.0_f64),
        ) {
            let boxes: Vec<Rect> = boxes.iter().map(|&(x, y, w, h)| Rect::new(x, y, x + w, y + h)).collect();
            let area = Rect::new(area.0, area.1, area.0 + area.2, area.1 + area.2);
            let mut found = Vec::new();
            Boxes::new(boxes.iter().copied()).meeting(area, |at| found.push(at));
            found.sort_unstable();
            let wanted: Vec<usize> = (0..boxes.len()).filter(|&at| meet(boxes[at], area)).collect();
            prop_assert_eq!(found, wanted);
        }
    }
}
