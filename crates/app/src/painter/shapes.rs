//! The shapes of a drawing, painted: as a writer prints them, or with a stroke of the screen's own.

use drawing::{Item, Shape};
use egui::{Rect, Stroke};
use geometry::{Arc, Circle, Point};

use super::Pen;

/// Thinnest line that is printed, in points; a thinner one is painted paler instead.
const THINNEST: f32 = 0.8;

impl Pen<'_> {
    /// An item as it is on paper.
    pub fn item(&mut self, item: &Item) {
        let width = self.camera.length(item.line.width());
        let strength = (width / THINNEST).clamp(0.45, 1.0);
        let color = self.palette.print.gamma_multiply(strength);
        let stroke = Stroke::new(width.max(THINNEST), color);
        self.stroked(&item.shape, stroke, item.line.dashes());
    }

    /// A shape in full lines. A straight one lies on whole pixels where it can: it is crisp, but would not meet the
    /// lines beside it as those of a figure on paper must.
    pub fn shape(&mut self, shape: &Shape, stroke: impl Into<Stroke>) {
        match shape {
            Shape::Line(line) => self.line(
                [line.p0, line.p1].map(|end| self.camera.screen(end)),
                stroke,
            ),
            _ => self.stroked(shape, stroke.into(), &[]),
        }
    }

    /// The outline of a shape, dashed as its line is on paper, so that parts in the underside differ from those in the face.
    ///
    /// Words that are too small to read are left out: the line that stands for them on a sheet would look like a cut.
    pub fn outlined(&mut self, item: &Item, stroke: impl Into<Stroke>) {
        if matches!(&item.shape, Shape::Text(text) if !self.is_readable(text)) {
            return;
        }
        self.stroked(&item.shape, stroke.into(), item.line.dashes());
    }

    /// A circle's outline.
    pub fn circle(&mut self, circle: Circle, stroke: impl Into<Stroke>) {
        self.shape(&Shape::Circle(circle), stroke);
    }

    /// Part of a circle's outline.
    pub fn arc(&mut self, arc: Arc, stroke: impl Into<Stroke>) {
        self.shape(&Shape::Arc(arc), stroke);
    }

    /// A straight line from place to place.
    pub fn segment(&mut self, [from, to]: [Point; 2], stroke: impl Into<Stroke>) {
        self.shape(&Shape::Line(kurbo::Line::new(from, to)), stroke);
    }

    fn stroked(&mut self, shape: &Shape, stroke: Stroke, dashes: &[f64]) {
        if !self.is_seen(shape, stroke.width) {
            return;
        }
        match shape {
            Shape::Circle(circle) if dashes.is_empty() => {
                let at = self.camera.screen(circle.center);
                self.ring(at, self.camera.length(circle.radius), stroke);
            }
            Shape::Circle(circle) => self.dashed(&self.along(&Arc::from(*circle)), stroke, dashes),
            Shape::Arc(arc) => self.dashed(&self.along(arc), stroke, dashes),
            Shape::Line(line) => self.dashed(&[line.p0, line.p1], stroke, dashes),
            Shape::Cross { center, arm } => {
                let at = self.camera.screen(*center);
                self.cross(at, self.camera.length(*arm), stroke);
            }
            Shape::Area(corners) => self.polygon(corners, self.palette.print_area),
            Shape::Text(text) => self.text(text),
        }
    }

    fn is_seen(&self, shape: &Shape, width: f32) -> bool {
        let place = self.rect(shape.bounds()).expand(2.0 + width);
        self.painter.clip_rect().intersects(place)
    }

    /// Where a box on the drawing lies on the screen.
    pub fn rect(&self, part: kurbo::Rect) -> Rect {
        let corners = [(part.x0, part.y0), (part.x1, part.y1)];
        let [one, other] = corners.map(|corner| self.camera.screen(corner.into()));
        Rect::from_two_pos(one, other)
    }
}
