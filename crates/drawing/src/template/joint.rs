//! The marks where two sheets meet: the joint line and the crosses that both sheets show.
//!
//! Sheets overlap; both show a joint's crosses at the same points of the board, so that they are joined by laying cross on
//! cross against the light. A cross near each end of a joint fixes the rotation. Each sheet has the name of a cross on its own
//! side of the joint, so that no name extends into the overlap and is cut off there.

use kurbo::{Circle, Line as Segment, Point, Rect, Vec2};
use workshop::{Tile, Tiling, cross_arm_of};

use crate::taken::Taken;
use crate::{Anchor, Item, Layer, Line, Shape, Text};

/// Size of the name of a cross, mm.
const NAME: f64 = 2.2;
/// Gap around a cross and its names, mm.
const AIR: f64 = 0.4;

/// A joint between two sheets, with its marks in the board frame.
pub struct Joint {
    /// The two tiles it joins, as indices into [`Tiling::tiles`].
    pub tiles: [usize; 2],
    /// Joint line and crosses, which both sheets show.
    pub marks: Vec<Item>,
    /// The names of the crosses on each of the two.
    pub names: [Vec<Item>; 2],
}

/// The room for crosses on joints.
///
/// A place for a cross is searched from two thirds out along its half of the joint: first clear of everything, then clear only
/// of other crosses, since a name can be left out and an outline crossed.
pub struct Room {
    /// Everything that a cross should keep clear of: bores and their names.
    pub best: Taken,
    /// The marks that it must not overlap: drilling crosses, and other joints' crosses.
    pub least: Taken,
    /// Only the crosses on joints.
    pub marks: Taken,
}

impl Room {
    /// Marks a box as occupied.
    fn take(&mut self, area: Rect) {
        self.best.add(area);
        self.least.add(area);
        self.marks.add(area);
    }
}

/// The joints of a tiling, each between a tile and the one at its right or below it; the crosses keep clear of the bores.
pub fn joints(tiling: &Tiling, mut room: Room) -> Vec<Joint> {
    let mut found = Vec::new();
    for (index, tile) in tiling.tiles.iter().enumerate() {
        for (column, row) in [(tile.column + 1, tile.row), (tile.column, tile.row + 1)] {
            let mut others = tiling.tiles.iter().enumerate();
            let other = others.find(|(_, other)| other.column == column && other.row == row);
            let Some((at, other)) = other else {
                continue;
            };
            let number = found.len() + 1;
            let mut joint = Joint {
                tiles: [index, at],
                marks: Vec::new(),
                names: [Vec::new(), Vec::new()],
            };
            joint.draw(tile, other, number, tiling.overlap, &mut room);
            found.push(joint);
        }
    }
    found
}

impl Joint {
    /// Draws the joint line through the middle of the overlap of both tiles, and a cross near each end of it.
    ///
    /// The room of a cross is reserved: four sheets meet in a corner, where the ends of their joints are close.
    fn draw(&mut self, a: &Tile, b: &Tile, number: usize, overlap: f64, room: &mut Room) {
        let shared = a.window.intersect(b.window);
        let is_level = a.column == b.column;
        let line = middle_line(shared, is_level);
        self.marks.push(mark(Line::Guide, Shape::Line(line)));
        let arm = cross_arm_of(overlap);
        for (letter, toward) in [('a', -1.0), ('b', 1.0)] {
            let name = format!("{number}{letter}");
            let cross = |at| Cross {
                at,
                arm,
                is_level,
                name: &name,
            };
            let half = (line.p1 - line.p0) * (toward / 2.0);
            let spots = spots(line.midpoint(), half, &cross(line.midpoint()));
            let is_free = |taken: &Taken, at: &Point| {
                cross(*at)
                    .boxes()
                    .into_iter()
                    .all(|area| taken.is_free(area))
            };
            let [own, others] = &spots;
            let find = |taken, among: &[Point]| among.iter().find(|at| is_free(taken, at)).copied();
            let at = find(&room.best, own)
                .or_else(|| find(&room.least, own))
                .or_else(|| find(&room.least, others))
                .or_else(|| find(&room.marks, own))
                .unwrap_or(line.midpoint() + half * 0.66);
            let cross = cross(at);
            cross.boxes().into_iter().for_each(|area| room.take(area));
            self.marks.extend(cross.marks());
            let [first, second] = cross.names();
            self.names[0].push(first);
            self.names[1].push(second);
        }
    }
}

/// The line along the middle of what two sheets share: cut or folded there, they meet edge to edge.
fn middle_line(shared: Rect, is_level: bool) -> Segment {
    let center = shared.center();
    if is_level {
        Segment::new((shared.x0, center.y), (shared.x1, center.y))
    } else {
        Segment::new((center.x, shared.y0), (center.x, shared.y1))
    }
}

/// The spots along half of a joint at which a cross and its names are on the sheets, those nearest to two thirds out first; and
/// further spots, nearer to its middle and beyond it, for a crowded joint.
fn spots(middle: Point, half: Vec2, cross: &Cross<'_>) -> [Vec<Point>; 2] {
    let reach = half.hypot();
    let room = if cross.is_level {
        cross.beside() + cross.width()
    } else {
        cross.arm
    };
    let farthest = (1.0 - (room + AIR) / reach).max(0.0);
    let share = |percent: i32| f64::from(percent) / 100.0;
    let nearer_and_farther = (0..=46).flat_map(|step| [66 - step, 66 + step]);
    let own = nearer_and_farther.map(share);
    let own = own.filter(|share| (0.2..=farthest).contains(share));
    let others = (-100..20).rev().map(share);
    let others = others.filter(|share| (-farthest..=farthest).contains(share));
    let at = |share: f64| middle + half * share;
    [own.map(at).collect(), others.map(at).collect()]
}

/// A cross in a ring, with its name on either side of the joint: the number of the joint, and `a` or `b` for its end.
struct Cross<'a> {
    /// Its center, in the board frame.
    at: Point,
    /// Half the length of its lines, mm; the ring has half of that as its radius, which distinguishes it from the cross of a
    /// bore.
    arm: f64,
    /// Whether its joint is level.
    is_level: bool,
    /// Its name, which both sheets show.
    name: &'a str,
}

impl Cross<'_> {
    /// Width of its name, mm.
    fn width(&self) -> f64 {
        crate::font::width(self.name, NAME, crate::font::Weight::Regular)
    }

    /// Distance from its center to the start of a name, mm.
    fn beside(&self) -> f64 {
        self.arm / 2.0 + 0.5
    }

    /// The cross and its ring.
    fn marks(&self) -> [Item; 2] {
        let ring = Circle::new(self.at, self.arm / 2.0);
        let cross = Shape::Cross {
            center: self.at,
            arm: self.arm,
        };
        [cross, Shape::Circle(ring)].map(|shape| mark(Line::Drill, shape))
    }

    /// The names for the first and the second sheet: left and right of a vertical joint, above and below a horizontal one.
    ///
    /// When the sheets are laid on each other, a cross has its name on both sides, and the two must be the same.
    fn names(&self) -> [Item; 2] {
        self.texts()
            .map(|text| mark(Line::Dimension, Shape::Text(text)))
    }

    /// The names as words.
    fn texts(&self) -> [Text; 2] {
        let up = 0.8;
        let down = -up - crate::font::FIGURE_HEIGHT * NAME;
        let aside = self.beside();
        let text = |x: f64, y: f64, anchor| {
            Text::level(self.at + Vec2::new(x, y), NAME, anchor, self.name)
        };
        if self.is_level {
            [up, down].map(|y| text(aside, y, Anchor::Start))
        } else {
            [
                text(-aside, up, Anchor::End),
                text(aside, up, Anchor::Start),
            ]
        }
    }

    /// The room that it takes: its lines and its names.
    fn boxes(&self) -> [Rect; 3] {
        let cross = Rect::from_center_size(self.at, (2.0 * self.arm, 2.0 * self.arm));
        let [first, second] = self.texts().map(|text| text.bounds());
        [cross, first, second].map(|area| area.inflate(AIR, AIR))
    }
}

/// A mark of a joint.
const fn mark(line: Line, shape: Shape) -> Item {
    Item {
        layer: Layer::Marks,
        line,
        shape,
    }
}
