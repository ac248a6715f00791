//! Puts drawings on the screen: board coordinates through a camera, screen coordinates as they are.
//!
//! The board, the blank and the sheets are all painted with this one pen. Discs without an outline come from a prepared
//! picture and cost almost nothing, outlines are built line by line: so bores are stacks of discs, and only marks, which
//! are few, are outlined.

mod fill;
mod lines;
mod shapes;
mod words;

use egui::{Color32, Painter, Pos2, Rect, Shape, Stroke, StrokeKind};
use geometry::Circle;
use kurbo::Vec2;

use crate::camera::Camera;
use crate::palette::Palette;
pub use fill::Fill;
pub use lines::directions;

/// Radius on the screen up to which egui's own circles look round.
const ROUND: f32 = 200.0;

/// Paints a picture; its parts appear on the screen, in order, when the pen is dropped.
pub struct Pen<'p> {
    painter: Painter,
    /// The view of the drawing.
    pub camera: Camera,
    /// The colors to paint with.
    pub palette: &'p Palette,
    shapes: Vec<Shape>,
}

impl<'p> Pen<'p> {
    /// A pen for the area of a painter.
    pub const fn new(painter: Painter, camera: Camera, palette: &'p Palette) -> Self {
        Self {
            painter,
            camera,
            palette,
            shapes: Vec::new(),
        }
    }

    /// The part of the screen that is painted on.
    pub const fn frame(&self) -> Rect {
        self.camera.frame
    }

    /// Paints on a part of the screen alone.
    pub fn within(&mut self, part: Rect, paint: impl FnOnce(&mut Self)) {
        self.put_down();
        let whole = self.painter.clone();
        self.painter = whole.with_clip_rect(part.intersect(whole.clip_rect()));
        paint(self);
        self.put_down();
        self.painter = whole;
    }

    /// Paints a drawing that lies moved on this one.
    pub fn moved(&mut self, by: Vec2, paint: impl FnOnce(&mut Self)) {
        let camera = self.camera;
        self.camera = camera.moved(by);
        paint(self);
        self.camera = camera;
    }

    /// A circle's middle and radius on the screen, unless it lies wholly outside, with `border` around it.
    pub fn seen(&self, circle: Circle, border: f32) -> Option<(Pos2, f32)> {
        let at = self.camera.screen(circle.center);
        let radius = self.camera.length(circle.radius);
        let near = self.painter.clip_rect().expand(radius + border);
        near.contains(at).then_some((at, radius))
    }

    /// Adds any shape given on the screen.
    pub fn add(&mut self, shape: impl Into<Shape>) {
        self.shapes.push(shape.into());
    }

    /// A disc without an outline.
    pub fn disc(&mut self, at: Pos2, radius: f32, color: Color32) {
        self.add(if radius < ROUND {
            Shape::circle_filled(at, radius, color)
        } else {
            let corners = directions(radius).map(|toward| at + toward * radius);
            Shape::convex_polygon(corners.collect(), color, Stroke::NONE)
        });
    }

    /// A disc given on the drawing, never smaller than can be seen.
    pub fn round(&mut self, circle: Circle, color: Color32) {
        if let Some((at, radius)) = self.seen(circle, 1.0) {
            self.disc(at, radius.max(0.7), color);
        }
    }

    /// A circle's outline.
    pub fn ring(&mut self, at: Pos2, radius: f32, stroke: impl Into<Stroke>) {
        self.add(if radius < ROUND {
            Shape::circle_stroke(at, radius, stroke)
        } else {
            let corners = directions(radius).map(|toward| at + toward * radius);
            Shape::closed_line(corners.collect(), stroke.into())
        });
    }

    /// A straight line.
    pub fn line(&mut self, ends: [Pos2; 2], stroke: impl Into<Stroke>) {
        self.add(Shape::line_segment(ends, stroke));
    }

    /// Two lines that cross at a point.
    pub fn cross(&mut self, at: Pos2, arm: f32, stroke: impl Into<Stroke>) {
        let stroke = stroke.into();
        for by in [egui::vec2(arm, 0.0), egui::vec2(0.0, arm)] {
            self.line([at - by, at + by], stroke);
        }
    }

    /// A frame around the picture that shows keyboard focus.
    pub fn focus(&mut self) {
        let (frame, stroke) = (self.frame(), Stroke::new(2.0, self.palette.selected));
        self.add(Shape::rect_stroke(frame, 3.0, stroke, StrokeKind::Inside));
    }

    fn put_down(&mut self) {
        self.painter.extend(self.shapes.drain(..));
    }
}

impl Drop for Pen<'_> {
    fn drop(&mut self) {
        self.put_down();
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::camera::Zoom;
    use egui::Visuals;
    use egui::{pos2, vec2};

    /// The result of a pen on a picture of 600 by 400 points, one point a millimeter.
    pub fn with_pen<T>(paint: impl FnOnce(&mut Pen<'_>) -> T) -> T {
        let frame = Rect::from_min_size(pos2(0.0, 0.0), vec2(600.0, 400.0));
        let camera = Camera::new(
            Zoom::Free(kurbo::Point::ORIGIN, 1.0),
            frame,
            kurbo::Rect::ZERO,
        );
        let palette = Palette::of(&Visuals::light());
        let painter = Painter::new(egui::Context::default(), egui::LayerId::background(), frame);
        paint(&mut Pen::new(painter, camera, &palette))
    }
}
