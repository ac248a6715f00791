//! A part of a section as it is drawn: outlines, hatching of cut wood, resin in gray.
//!
//! Everything follows from one question: which parts of a straight line are in wood. A hatch line is drawn there; an edge is
//! drawn where exactly one side of it is wood.

use board::{HoleId, HoleName};
use kurbo::{Line as Segment, Point, Rect, Vec2};
use workshop::{Body, BodyKind, Section};

use super::frame::Frame;
use super::spans::{BESIDE, Contour, Ray, Spans, in_one, within, without};
use super::strips::strips;
use crate::{Item, Layer, Line, Shape, corners_of};

/// Spacing of hatch lines, mm on paper.
const HATCH: f64 = 2.5;
/// Length below which a part of a line is not drawn, mm on paper.
const SHORTEST: f64 = 1e-3;

/// A part of a section on paper.
pub struct Scene {
    /// The visible part.
    window: Contour,
    /// The board, as if nothing were cut into it.
    outline: Contour,
    /// The outlines cut into it.
    cavities: Vec<Contour>,
    /// The bodies in it and below it.
    bodies: Vec<Standing>,
    /// The line where two half-planes meet, if they do; the wood cut there continues beyond it.
    fold: Option<f64>,
}

/// A body that is drawn.
struct Standing {
    /// The kind of body.
    kind: BodyKind,
    /// The hole it is in, if any.
    hole: Option<HoleName>,
    /// Its outline on paper.
    contour: Contour,
}

/// The bodies of a section to draw.
#[derive(Debug, Clone, Copy, Default)]
pub struct Shown {
    /// The hole whose piece is drawn; all others are empty.
    pub piece_of: Option<HoleId>,
    /// Whether the base is drawn.
    pub base: bool,
}

impl Shown {
    /// Whether a body is among them.
    fn has(&self, body: &Body) -> bool {
        match body.kind {
            BodyKind::Piece | BodyKind::Magnet => {
                self.piece_of.is_some() && body.hole.map(HoleName::id) == self.piece_of
            }
            BodyKind::Turntable | BodyKind::Foot => self.base,
            BodyKind::Resin | BodyKind::Insert | BodyKind::Lid => true,
        }
    }
}

impl Scene {
    /// The part of a section in a window, with the bodies to show.
    pub fn new(section: &Section, frame: &Frame, window: Rect, shown: Shown) -> Self {
        let area = frame.place_box(window);
        let meets = |contour: &Contour| contour.bounds().overlaps(area);
        let cavities = section.cavities.iter();
        let bodies = section.bodies.iter().filter(|body| shown.has(body));
        Self {
            window: Contour::new(corners_of(area).into()),
            outline: frame.polygon(&section.outline),
            cavities: cavities
                .map(|cavity| frame.polygon(&cavity.corners))
                .filter(meets)
                .collect(),
            bodies: bodies
                .map(|body| Standing {
                    kind: body.kind,
                    hole: body.hole,
                    contour: frame.contour(&body.face),
                })
                .filter(|body| meets(&body.contour))
                .collect(),
            fold: (!section.plane.is_straight()).then(|| frame.place(Point::ORIGIN).x),
        }
    }

    /// Everything that is drawn: gray first, then hatching, then lines.
    pub fn items(&self) -> Vec<Item> {
        let mut items = self.resin();
        items.extend(self.hatching());
        items.extend(self.board());
        items.extend(self.standing());
        items
    }

    /// The parts of a line that are in wood.
    pub fn wood(&self, ray: &Ray) -> Spans {
        self.wood_beside(ray, &self.cavities)
    }

    /// The parts of a line that are in wood, considering only some cavities.
    fn wood_beside<'c>(&self, ray: &Ray, cavities: impl IntoIterator<Item = &'c Contour>) -> Spans {
        let board = self.inside(&self.outline, ray);
        let cut = cavities.into_iter();
        cut.fold(board, |left, cavity| without(&left, &cavity.spans(ray)))
    }

    /// The parts of a line within an outline and the window.
    fn inside(&self, contour: &Contour, ray: &Ray) -> Spans {
        let spans = contour.spans(ray);
        let window = self.window.spans(ray);
        let inside = window
            .iter()
            .flat_map(|(low, high)| within(&spans, *low, *high));
        inside.collect()
    }

    /// Lines at 45° in cut wood; those in the lid run the other way, as is usual in drawings for parts that meet.
    fn hatching(&self) -> Vec<Item> {
        let mut lines = hatch(self.window.bounds(), Vec2::new(1.0, 1.0), |ray| {
            self.wood(ray)
        });
        for lid in self.of(BodyKind::Lid) {
            let area = lid.bounds().intersect(self.window.bounds());
            lines.extend(hatch(area, Vec2::new(1.0, -1.0), |ray| {
                self.inside(lid, ray)
            }));
        }
        lines
    }

    /// The outlines of bodies of a kind.
    fn of(&self, kind: BodyKind) -> impl Iterator<Item = &Contour> {
        let bodies = self.bodies.iter();
        let of_kind = bodies.filter(move |body| body.kind == kind);
        of_kind.map(|body| &body.contour)
    }

    /// The edges of the wood, and thin lines where the board continues behind the cut.
    fn board(&self) -> Vec<Item> {
        let mut items = Vec::new();
        for (from, to) in self.outline.edges() {
            let Some((ray, length)) = Ray::over(from, to) else {
                continue;
            };
            let edge = self.edge_of_wood(&ray, length);
            let window = within(&self.window_on(&ray), 0.0, length);
            let behind = self.beside_bodies(without(&window, &edge), &ray);
            items.extend(lines(&ray, &edge, Line::Cut));
            items.extend(lines(&ray, &behind, Line::Dimension));
        }
        for (from, to) in self.cavities.iter().flat_map(Contour::edges) {
            if let Some((ray, length)) = Ray::over(from, to) {
                items.extend(lines(&ray, &self.edge_of_wood(&ray, length), Line::Cut));
            }
        }
        items
    }

    /// The parts of an edge with wood on only one side.
    ///
    /// Both sides are tested slightly beside the edge, where no edge runs, so two cavities that share an edge, or one that ends
    /// at the board's face, need no special rule.
    fn edge_of_wood(&self, ray: &Ray, length: f64) -> Spans {
        let around = Rect::from_points(ray.from, ray.at(length)).inflate(BESIDE, BESIDE);
        let near = || {
            let all = self.cavities.iter();
            all.filter(|cavity| cavity.bounds().overlaps(around))
        };
        let [left, right] = [BESIDE, -BESIDE].map(|off| self.wood_beside(&ray.beside(off), near()));
        within(&in_one(&left, &right), 0.0, length)
    }

    /// The part of a line in the window, including a line along its border.
    fn window_on(&self, ray: &Ray) -> Spans {
        let [left, right] = [BESIDE, -BESIDE].map(|off| self.window.spans(&ray.beside(off)));
        if left.is_empty() { right } else { left }
    }

    /// The outlines of the pieces in bores and of the base; a ball seen whole stays a circle.
    fn standing(&self) -> Vec<Item> {
        let window = self.window.bounds();
        let mut items = Vec::new();
        for body in self
            .bodies
            .iter()
            .filter(|body| body.kind != BodyKind::Resin)
        {
            let line = match body.kind {
                BodyKind::Foot => Line::Hidden,
                _ => Line::Cut,
            };
            let (low, high) = (body.contour.bounds().x0, body.contour.bounds().x1);
            if let Contour::Disc(circle) = body.contour
                && low >= window.x0
                && high <= window.x1
            {
                items.push(edge(line, Shape::Circle(circle)));
                continue;
            }
            let edges = body.contour.edges();
            let edges = edges.into_iter().filter(|edge| !self.on_fold(*edge));
            let seen = edges.filter_map(|(from, to)| clip(window, from, to));
            items.extend(seen.map(|segment| edge(line, Shape::Line(segment))));
        }
        items
    }

    /// An edge where no body is in front of it.
    pub fn beside_standing(&self, line: Line, from: Point, to: Point) -> Vec<Item> {
        let Some((ray, length)) = Ray::over(from, to) else {
            return Vec::new();
        };
        let window = within(&self.window_on(&ray), 0.0, length);
        lines(&ray, &self.beside_bodies(window, &ray), line)
    }

    /// Those of the given parts of a line that are in no body.
    fn beside_bodies(&self, spans: Spans, ray: &Ray) -> Spans {
        let bodies = self.bodies.iter();
        let solid = bodies.filter(|body| body.kind != BodyKind::Resin);
        solid.fold(spans, |left, body| without(&left, &body.contour.spans(ray)))
    }

    /// Whether an edge is where two half-planes meet.
    fn on_fold(&self, (from, to): (Point, Point)) -> bool {
        let at = |point: Point| {
            self.fold
                .is_some_and(|fold| (point.x - fold).abs() < BESIDE)
        };
        at(from) && at(to)
    }

    /// Resin in level strips, excluding the ball or disc in it.
    fn resin(&self) -> Vec<Item> {
        let mut items = Vec::new();
        for body in self
            .bodies
            .iter()
            .filter(|body| body.kind == BodyKind::Resin)
        {
            let others = self
                .bodies
                .iter()
                .filter(|other| other.hole == body.hole && other.kind != BodyKind::Resin);
            let others: Vec<&Contour> = others.map(|other| &other.contour).collect();
            let bounds = body.contour.bounds().intersect(self.window.bounds());
            let beside = |ray: &Ray| {
                let all = self.inside(&body.contour, ray);
                let others = others.iter();
                others.fold(all, |left, other| without(&left, &other.spans(ray)))
            };
            let outlines = others.iter().copied().chain([&body.contour]);
            let strips = strips(bounds, outlines, beside);
            items.extend(
                strips
                    .into_iter()
                    .map(|strip| edge(Line::Dimension, Shape::Area(strip))),
            );
        }
        items
    }
}

/// Lines across an area in a direction, each drawn where `drawn` says.
///
/// They are numbered from the origin of the paper, not from the area, so that the hatching continues across two parts of one
/// piece of wood.
fn hatch(area: Rect, direction: Vec2, drawn: impl Fn(&Ray) -> Spans) -> Vec<Item> {
    let along = direction.normalize();
    let across = Vec2::new(-along.y, along.x);
    let middle = area.center().to_vec2().dot(across);
    let reach = f64::midpoint(
        area.width() * across.x.abs(),
        area.height() * across.y.abs(),
    );
    let (first, last) = ((middle - reach) / HATCH, (middle + reach) / HATCH);
    let mut items = Vec::new();
    for number in first.ceil() as i32..=last.floor() as i32 {
        let ray = Ray {
            from: (across * (f64::from(number) * HATCH)).to_point(),
            along,
        };
        items.extend(lines(&ray, &drawn(&ray), Line::Dimension));
    }
    for item in &mut items {
        item.layer = Layer::Marks;
    }
    items
}

/// The parts of a line as strokes of a kind, without those too short to be seen.
fn lines(ray: &Ray, spans: &Spans, line: Line) -> Vec<Item> {
    let long = spans.iter().filter(|(from, to)| to - from > SHORTEST);
    let segments = long.map(|(from, to)| Segment::new(ray.at(*from), ray.at(*to)));
    segments
        .map(|segment| edge(line, Shape::Line(segment)))
        .collect()
}

/// A stroke of the section.
const fn edge(line: Line, shape: Shape) -> Item {
    Item {
        layer: Layer::Edge,
        line,
        shape,
    }
}

/// The part of an edge in a box.
fn clip(window: Rect, from: Point, to: Point) -> Option<Segment> {
    let (ray, length) = Ray::over(from, to)?;
    let part = |at: f64, way: f64, low: f64, high: f64| {
        if way.abs() < 1e-12 {
            let is_in = at >= low - BESIDE && at <= high + BESIDE;
            return is_in.then_some((0.0, length));
        }
        let (a, b) = ((low - at) / way, (high - at) / way);
        Some((a.min(b), a.max(b)))
    };
    let across = part(from.x, ray.along.x, window.x0, window.x1)?;
    let up = part(from.y, ray.along.y, window.y0, window.y1)?;
    let (low, high) = (across.0.max(up.0).max(0.0), across.1.min(up.1).min(length));
    (low < high).then(|| Segment::new(ray.at(low), ray.at(high)))
}
