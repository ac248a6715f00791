//! The parts of a drawing as entities.

use drawing::{Anchor, Item, Shape, Text, font};
use geometry::{Angle, Arc};
use kurbo::{Circle, Point, Vec2};

use super::DxfOptions;
use super::tables::{self, MODEL_SPACE};
use super::tags::Tags;
use super::words::in_ascii;

/// The entities of a drawing.
pub struct Entities {
    pub tags: Tags,
}

impl Entities {
    /// No entities yet.
    pub fn new(options: DxfOptions) -> Self {
        Self {
            tags: Tags::new(options),
        }
    }

    /// Adds an item, moved into the frame of the board by `shift` (mm).
    pub fn item(&mut self, item: &Item, shift: Vec2) {
        match &item.shape {
            Shape::Circle(circle) => self.circle(item, *circle + shift),
            Shape::Arc(arc) => self.arc(item, arc, shift),
            Shape::Line(line) => self.line(item, line.p0 + shift, line.p1 + shift),
            Shape::Cross { center, arm } => self.cross(item, *center + shift, *arm),
            Shape::Area(corners) => self.area(item, corners, shift),
            Shape::Text(text) => self.text(item, text, shift),
        }
    }

    /// Writes the tags that every entity begins with.
    fn begin(&mut self, kind: &str, item: &Item) {
        let tags = &mut self.tags;
        tags.text(0, kind);
        tags.new_handle();
        tags.since_2000(330, MODEL_SPACE);
        tags.since_2000(100, "AcDbEntity");
        tags.text(8, &tables::layer_of(item).name());
        if let Some(name) = tables::line_type(item.line) {
            tags.text(6, name);
        }
    }

    /// A CIRCLE, which machines use to drill and pocket.
    fn circle(&mut self, item: &Item, circle: Circle) {
        self.begin("CIRCLE", item);
        self.round(circle);
    }

    /// Writes center and radius, as in CIRCLE and ARC.
    fn round(&mut self, circle: Circle) {
        self.tags.since_2000(100, "AcDbCircle");
        self.tags.point(10, circle.center);
        self.tags.length(40, circle.radius);
    }

    /// An ARC, which runs counterclockwise from its first angle to its second, both measured from 3 o'clock.
    ///
    /// An arc of a full turn has equal ends, so a reader cannot tell a full circle from nothing.
    fn arc(&mut self, item: &Item, arc: &Arc, shift: Vec2) {
        let arc = arc.clockwise() + shift;
        let open = Angle::TURN.as_degrees() - arc.sweep.as_degrees();
        if open < LEAST_ANGLE {
            return self.circle(item, arc.circle());
        }
        if arc.sweep.as_degrees() < LEAST_ANGLE {
            return;
        }
        let from_right = |bearing: Angle| (Angle::degrees(90.0) - bearing).wrapped().as_degrees();
        self.begin("ARC", item);
        self.round(arc.circle());
        self.tags.since_2000(100, "AcDbArc");
        self.tags.plain(50, from_right(arc.end()));
        self.tags.plain(51, from_right(arc.start));
    }

    /// A LINE between two points.
    fn line(&mut self, item: &Item, from: Point, to: Point) {
        self.begin("LINE", item);
        self.tags.since_2000(100, "AcDbLine");
        self.tags.point(10, from);
        self.tags.point(11, to);
    }

    /// A cross as two lines; the format's own POINT is drawn differently by every reader.
    fn cross(&mut self, item: &Item, center: Point, arm: f64) {
        for way in [Vec2::new(arm, 0.0), Vec2::new(0.0, arm)] {
            self.line(item, center - way, center + way);
        }
    }

    /// The outline of an area, since some machines would cut out a filled one.
    fn area(&mut self, item: &Item, corners: &[Point], shift: Vec2) {
        let next = corners.iter().cycle().skip(1);
        for (from, to) in corners.iter().zip(next) {
            self.line(item, *from + shift, *to + shift);
        }
    }

    /// Words, with the position of their start for readers that ignore alignment, and with their anchor.
    fn text(&mut self, item: &Item, text: &Text, shift: Vec2) {
        let words = in_ascii(&text.words, self.tags.options().release);
        if words.is_empty() {
            return;
        }
        self.begin("TEXT", item);
        let tags = &mut self.tags;
        tags.since_2000(100, "AcDbText");
        tags.point(10, text.start() + shift);
        tags.length(40, font::FIGURE_HEIGHT * text.size);
        tags.text(1, &words);
        tags.plain(50, text.turn.wrapped().as_degrees());
        tags.text(7, tables::STYLE);
        let held = match text.anchor {
            Anchor::Start => None,
            Anchor::Middle => Some("1"),
            Anchor::End => Some("2"),
        };
        if let Some(held) = held {
            tags.text(72, held);
            tags.point(11, text.at + shift);
        }
        tags.since_2000(100, "AcDbText");
    }
}

/// Angles closer than this are written as equal, degrees.
const LEAST_ANGLE: f64 = 1e-8;
