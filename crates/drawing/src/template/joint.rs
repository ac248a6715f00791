//! The marks where two sheets meet: the joint line and the crosses that both sheets carry.
//!
//! Sheets overlap; both show a joint's crosses at the same points of the board, so that they are joined by laying cross on cross
//! against the light. A cross near each end of a joint leaves no way to turn.

use kurbo::{Circle, Line as Segment, Point, Rect, Vec2};

use crate::quiet::Taken;
use workshop::{Tile, Tiling};

use crate::{Anchor, Item, Layer, Line, Shape, Text};

/// Half the length of a matching cross, mm.
const ARM: f64 = 4.0;
/// Radius of the ring around a matching cross, mm; it tells the cross from a bore's.
const RING: f64 = 2.0;

/// Every joint between two sheets, with its marks in the board frame.
pub struct Joint {
    /// The two tiles it joins, as indices into [`Tiling::tiles`].
    pub tiles: [usize; 2],
    /// Joint line and crosses.
    pub marks: Vec<Item>,
}

/// The joints of a tiling, each between a tile and the one to its right or below it; the crosses keep clear of the bores.
pub fn joints(tiling: &Tiling, taken: &Taken) -> Vec<Joint> {
    let mut found = Vec::new();
    for (index, tile) in tiling.tiles.iter().enumerate() {
        for (column, row) in [(tile.column + 1, tile.row), (tile.column, tile.row + 1)] {
            let Some(other) = tiling
                .tiles
                .iter()
                .position(|other| other.column == column && other.row == row)
            else {
                continue;
            };
            let Some(neighbor) = tiling.tiles.get(other) else {
                continue;
            };
            let name = found.len() + 1;
            found.push(Joint {
                tiles: [index, other],
                marks: marks(tile, neighbor, name, taken),
            });
        }
    }
    found
}

/// Joint line through the middle of what both tiles show, and a cross near each end of it.
fn marks(a: &Tile, b: &Tile, name: usize, taken: &Taken) -> Vec<Item> {
    let shared = a.window.intersect(b.window);
    let line = middle_line(shared);
    let mut items = vec![Item {
        layer: Layer::Marks,
        line: Line::Guide,
        shape: Shape::Line(line),
    }];
    let half = (line.p1 - line.p0) / 2.0;
    for (letter, toward) in [('a', -1.0), ('b', 1.0)] {
        let at = clear_spot(line.midpoint(), half * toward, taken);
        items.extend(cross(at, shared, format!("{name}{letter}")));
    }
    items
}

/// The line along the longer way of what two sheets share, in its middle: cut or folded there, they meet edge to edge.
fn middle_line(shared: Rect) -> Segment {
    let center = shared.center();
    if shared.width() < shared.height() {
        Segment::new((center.x, shared.y0), (center.x, shared.y1))
    } else {
        Segment::new((shared.x0, center.y), (shared.x1, center.y))
    }
}

/// The spot nearest to two thirds out along a joint that is clear of bores; two thirds out if none is.
fn clear_spot(middle: Point, half: Vec2, taken: &Taken) -> Point {
    let nearer_and_farther = (0..=46).flat_map(|step| [66 - step, 66 + step]);
    let shares = nearer_and_farther.filter(|share| (20..=94).contains(share));
    let spots = shares.map(|percent| middle + half * (f64::from(percent) / 100.0));
    let clear = |spot: &Point| taken.is_free(Rect::from_center_size(*spot, (2.0 * ARM, 2.0 * ARM)));
    spots
        .into_iter()
        .find(clear)
        .unwrap_or(middle + half * 0.66)
}

/// A cross in a ring, with its name: number of the joint, and `a` or `b` for its end. Both sheets carry the same, so that the
/// crosses are laid on each other by name.
fn cross(at: Point, shared: Rect, name: String) -> [Item; 3] {
    let level = shared.width() > shared.height();
    let aside = if level {
        Vec2::new(ARM + 0.8, 0.8)
    } else {
        Vec2::new(RING + 0.4, RING)
    };
    let text = Text::level(at + aside, 2.2, Anchor::Start, name);
    let mark = |line, shape| Item {
        layer: Layer::Marks,
        line,
        shape,
    };
    [
        mark(
            Line::Drill,
            Shape::Cross {
                center: at,
                arm: ARM,
            },
        ),
        mark(Line::Drill, Shape::Circle(Circle::new(at, RING))),
        mark(Line::Dimension, Shape::Text(text)),
    ]
}
