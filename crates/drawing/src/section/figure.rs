//! One figure of the sheet: a part of a section at the largest scale that its room allows, with its heading and sizes.
//!
//! Scales are the standard ones, so that a rule can be laid on the paper; the first at which figure and sizes fit is chosen.
//! Names and sizes have one size of type at every scale, and are placed around the figure once the scale is known.

use geometry::Angle;
use kurbo::{Line as Segment, Point, Rect, Vec2};
use workshop::Section;

use super::around;
use super::frame::Frame;
use super::measures::{Size, room, sizes_around};
use super::scene::{Scene, Shown};
use crate::font::{self, Weight};
use crate::{Anchor, Item, Layer, Line, Shape, Text};

/// Room that names and the lines of broken wood may take beyond a figure, for both sides together, mm on paper.
const BEYOND: f64 = 2.5;
/// The possible scales, the largest first, as they are written.
const SCALES: [(&str, f64); 13] = [
    ("10 : 1", 10.0),
    ("5 : 1", 5.0),
    ("2 : 1", 2.0),
    ("1 : 1", 1.0),
    ("1 : 2", 0.5),
    ("1 : 2.5", 0.4),
    ("1 : 3", 1.0 / 3.0),
    ("1 : 4", 0.25),
    ("1 : 5", 0.2),
    ("1 : 10", 0.1),
    ("1 : 20", 0.05),
    ("1 : 50", 0.02),
    ("1 : 100", 0.01),
];
/// Size of a heading.
pub const HEADING: f64 = 4.0;
/// Gap between the foot of a heading and the part below.
const UNDER_HEADING: f64 = 3.0;
/// Length of an axis beyond its part, above and below, mm on paper.
const AXIS: [f64; 2] = [1.0, 2.5];
/// Length of a break line beyond the wood, and the size of its zigzag, mm on paper.
const BREAK: f64 = 1.5;
/// Size of a name.
const NAME: f64 = 2.4;
/// Gap between a part and its name above it.
const UNDER_NAME: f64 = 1.8;
/// Least distance between the centers of two names.
const BESIDE_NAME: f64 = 1.3 * NAME;

/// The parts that a figure is made from.
pub struct Figure<'a> {
    /// The subject.
    pub heading: String,
    /// The words after the scale in the heading.
    pub remark: &'static str,
    /// The section that it shows.
    pub section: &'a Section,
    /// The part that is drawn, in the frame of the section.
    pub window: Rect,
    /// The bodies that are drawn.
    pub shown: Shown,
    /// Positions of axes, and the upper end of the part on each.
    pub axes: Vec<(f64, f64)>,
    /// Edges in addition to those of the wood: those seen behind the cut, or where the cut leaves the wood.
    pub more: Vec<(Line, [Point; 2])>,
    /// The sizes written around it.
    pub sizes: Vec<Size>,
    /// Names above it, with their positions.
    pub names: Vec<Name>,
    /// Greatest height without the sizes, mm on paper.
    pub tallest: f64,
}

/// The name of a hole over a figure.
pub struct Name {
    /// The axis of the hole.
    pub at: f64,
    /// Height of the upper end of what stands there.
    pub over: f64,
    /// Extent of that to either side.
    pub wide: f64,
    /// The name.
    pub words: String,
    /// The weight of its letters.
    pub weight: Weight,
}

/// A figure on paper, with an origin of its own.
pub struct Drawn {
    /// The drawing and its heading.
    pub items: Vec<Item>,
    /// The box around everything.
    pub bounds: Rect,
}

impl Figure<'_> {
    /// The largest scale at which it fits a width, and how the scale is written.
    ///
    /// Scales are those of ISO 5455 and a few between them that makers use (from memory). Where none fits, the smallest is
    /// used, and the figure is larger than its room.
    pub fn scale(&self, width: f64) -> (&'static str, f64) {
        let beside: f64 = room(&self.sizes).iter().sum();
        let ends = self.sizes.iter().flat_map(|size| size.ends);
        let all = ends.fold(self.window, |all, end| all.union_pt(end));
        let fits = |scale: f64| {
            all.width() * scale + beside + BEYOND <= width
                && self.window.height() * scale <= self.tallest
        };
        let [all @ .., smallest] = SCALES;
        let mut fitting = all.into_iter().filter(|(_, scale)| fits(*scale));
        fitting.next().unwrap_or(smallest)
    }

    /// The figure in a room of this width, mm.
    pub fn drawn(&self, width: f64) -> Drawn {
        let (scale_words, scale) = self.scale(width);
        let frame = Frame {
            scale,
            at: Point::new(self.window.center().x, 0.0),
        };
        let area = frame.place_box(self.window);
        let scene = Scene::new(self.section, &frame, self.window, self.shown);
        let mut items = scene.items();
        for (line, ends) in &self.more {
            let [from, to] = ends.map(|end| frame.place(end));
            items.extend(scene.beside_standing(*line, from, to));
        }
        items.extend(self.broken_off(&frame));
        let axes = self.axes.iter();
        items.extend(axes.map(|(at, over)| axis(frame.place(Point::new(*at, *over)), area)));
        items.extend(self.names(&frame));
        let named = bounds(&items).unwrap_or(area).union(area);
        items.extend(sizes_around(&self.sizes, &frame, named));
        let around = bounds(&items).unwrap_or(area);
        let remark = if self.remark.is_empty() {
            String::new()
        } else {
            format!(", {}", self.remark)
        };
        let words = format!("{}, scale {scale_words}{remark}", self.heading);
        let at = Point::new(around.x0, around.y1 + UNDER_HEADING);
        let heading = Text::level(
            at,
            HEADING,
            Anchor::Start,
            font::cut(&words, HEADING, Weight::SemiBold, width),
        )
        .weighing(Weight::SemiBold);
        items.push(Item::of_title(Line::Dimension, Shape::Text(heading)));
        let bounds = bounds(&items).unwrap_or(area);
        Drawn { items, bounds }
    }

    /// Break lines where the window cuts off wood that continues.
    fn broken_off(&self, frame: &Frame) -> Vec<Item> {
        let wood = around(&self.section.outline);
        let ends = [
            (self.window.x0, wood.x0 < self.window.x0),
            (self.window.x1, wood.x1 > self.window.x1),
        ];
        let broken = ends.into_iter().filter(|(_, goes_on)| *goes_on);
        broken
            .flat_map(|(at, _)| {
                let [low, high] = [wood.y0, wood.y1].map(|z| frame.place(Point::new(at, z)));
                zigzag(low, high)
            })
            .collect()
    }

    /// The names that have room: the heaviest first, then from left to right.
    ///
    /// The chosen hole's name is the heaviest, so that it is never left out.
    fn names(&self, frame: &Frame) -> Vec<Item> {
        let mut wanted: Vec<&Name> = self.names.iter().collect();
        wanted.sort_by(|a, b| {
            let weight = b.weight.cmp(&a.weight);
            weight.then(a.at.total_cmp(&b.at))
        });
        let mut placed: Vec<&Name> = Vec::new();
        for name in wanted {
            let is_seen = (self.window.x0..=self.window.x1).contains(&name.at);
            let is_free = placed.iter().all(|other| {
                let apart = (name.at - other.at).abs() * frame.scale;
                apart >= BESIDE_NAME.max(other.wide * frame.scale + BESIDE_NAME / 2.0)
            });
            if is_seen && is_free {
                placed.push(name);
            }
        }
        placed.iter().map(|name| upright(name, frame)).collect()
    }
}

/// A name that runs upward from its part.
fn upright(name: &Name, frame: &Frame) -> Item {
    let foot = frame.place(Point::new(name.at, name.over));
    let at = foot + Vec2::new(font::FIGURE_HEIGHT * NAME / 2.0, UNDER_NAME);
    let text = Text {
        turn: Angle::degrees(90.0),
        weight: name.weight,
        ..Text::level(at, NAME, Anchor::Start, &name.words)
    };
    Item {
        layer: Layer::Names,
        line: Line::Dimension,
        shape: Shape::Text(text),
    }
}

/// An axis through the parts on it.
fn axis(over: Point, area: Rect) -> Item {
    let [above, below] = AXIS;
    let high = Point::new(over.x, over.y + above);
    let low = Point::new(over.x, area.y0 - below);
    Item {
        layer: Layer::Guides,
        line: Line::Guide,
        shape: Shape::Line(Segment::new(low, high)),
    }
}

/// A break line.
fn zigzag(low: Point, high: Point) -> Vec<Item> {
    let middle = low.midpoint(high);
    let up = |by: f64| Vec2::new(0.0, by);
    let aside = Vec2::new(0.8 * BREAK, 0.0);
    let (start, end) = (low - up(BREAK), high + up(BREAK));
    let ways = if high.y - low.y > 4.0 * BREAK {
        vec![
            start,
            middle - up(BREAK),
            middle - up(BREAK / 3.0) + aside,
            middle + up(BREAK / 3.0) - aside,
            middle + up(BREAK),
            end,
        ]
    } else {
        vec![start, end]
    };
    let edges = ways.iter().zip(ways.iter().skip(1));
    edges
        .map(|(from, to)| Item {
            layer: Layer::Marks,
            line: Line::Dimension,
            shape: Shape::Line(Segment::new(*from, *to)),
        })
        .collect()
}

/// The box around items.
pub fn bounds(items: &[Item]) -> Option<Rect> {
    let boxes = items.iter().map(|item| item.shape.bounds());
    boxes.reduce(|all, bounds| all.union(bounds))
}
