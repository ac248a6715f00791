//! The parts of the picture, and the brush they are painted with.
//!
//! Discs without an outline come from a prepared picture and cost almost nothing, outlines are built line by
//! line: so bores are stacks of discs, and only marks, which are few, are outlined.

pub mod grooves;
pub mod holes;
pub mod marks;
pub mod overlay;
pub mod wood;

use egui::epaint::Mesh;
use egui::{Align2, Color32, FontId, Pos2, Rect, Shape, Stroke, Ui, Vec2, pos2};
use egui_plot::{PlotPoint, PlotTransform};
use geometry::{Circle, Point};

use super::palette::Palette;

/// How far from a true circle a large one may be painted, in points of the screen.
const FLATNESS: f32 = 0.08;

/// Paints shapes given on the board or on the screen.
pub struct Brush<'p> {
    ui: &'p Ui,
    transform: &'p PlotTransform,
    /// The colors to paint with.
    pub palette: Palette,
    shapes: &'p mut Vec<Shape>,
    scale: f64,
}

impl<'p> Brush<'p> {
    /// A brush that adds to `shapes`.
    pub fn new(
        ui: &'p Ui,
        transform: &'p PlotTransform,
        palette: Palette,
        shapes: &'p mut Vec<Shape>,
    ) -> Self {
        let scale = transform.dpos_dvalue_x();
        Self {
            ui,
            transform,
            palette,
            shapes,
            scale,
        }
    }

    /// The part of the screen that is painted on.
    pub fn frame(&self) -> Rect {
        *self.transform.frame()
    }

    /// The screen point of a board point.
    pub fn at(&self, point: Point) -> Pos2 {
        let point = PlotPoint::new(point.x, point.y);
        self.transform.position_from_point(&point)
    }

    /// A length on the board as a length on the screen.
    pub fn length(&self, mm: f64) -> f32 {
        (mm * self.scale) as f32
    }

    /// A length on the screen as a length on the board.
    pub fn mm(&self, length: f32) -> f64 {
        f64::from(length) / self.scale
    }

    /// A circle's middle and radius on the screen, unless it lies wholly outside, with `border` around it.
    pub fn seen(&self, circle: Circle, border: f32) -> Option<(Pos2, f32)> {
        let (at, radius) = (self.at(circle.center), self.length(circle.radius));
        let near = self.frame().expand(radius + border);
        near.contains(at).then_some((at, radius))
    }

    /// Adds any shape.
    pub fn add(&mut self, shape: impl Into<Shape>) {
        self.shapes.push(shape.into());
    }

    /// A disc without an outline.
    pub fn disc(&mut self, at: Pos2, radius: f32, color: Color32) {
        self.add(Shape::circle_filled(at, radius, color));
    }

    /// A circle's outline; a large one with as many corners as it takes to look round.
    pub fn ring(&mut self, at: Pos2, radius: f32, width: f32, color: Color32) {
        let stroke = Stroke::new(width, color);
        if radius < 200.0 {
            self.add(Shape::circle_stroke(at, radius, stroke));
        } else {
            let corners = directions(radius).map(|toward| at + toward * radius);
            self.add(Shape::closed_line(corners.collect(), stroke));
        }
    }

    /// A straight line.
    pub fn line(&mut self, ends: [Pos2; 2], width: f32, color: Color32) {
        self.add(Shape::line_segment(ends, Stroke::new(width, color)));
    }

    /// Words; the place they cover.
    pub fn words(
        &mut self,
        at: Pos2,
        anchor: Align2,
        text: &str,
        size: f32,
        color: Color32,
    ) -> Rect {
        let font = FontId::proportional(size);
        let shape = self
            .ui
            .fonts_mut(|fonts| Shape::text(fonts, at, anchor, text, font, color));
        let place = shape.visual_bounding_rect();
        self.add(shape);
        place
    }

    /// Words on a small plate that sets them off from what lies below; moved into the picture where they would be
    /// cut off.
    pub fn plate(&mut self, at: Pos2, anchor: Align2, text: &str, size: f32, color: Color32) {
        let font = FontId::proportional(size);
        let galley = self
            .ui
            .fonts_mut(|fonts| fonts.layout_no_wrap(text.to_owned(), font, color));
        let padding = Vec2::new(6.0, 3.0);
        let place = anchor.anchor_size(at, galley.size() + 2.0 * padding);
        let place = within(place, self.frame().shrink(4.0));
        let chip = self.palette.chip.gamma_multiply(0.94);
        self.add(Shape::rect_filled(place, 4.0, chip));
        self.add(Shape::galley(place.min + padding, galley, color));
    }
}

/// Directions around a circle, enough for it to look round at a radius on the screen; the first is right.
fn directions(radius: f32) -> impl Iterator<Item = Vec2> {
    let corners = (core::f32::consts::PI * (radius / (2.0 * FLATNESS)).sqrt()).ceil();
    let count = corners.clamp(24.0, 2400.0) as u16;
    let step = core::f32::consts::TAU / f32::from(count);
    (0..count).map(move |corner| Vec2::angled(step * f32::from(corner)))
}

/// Joins every two neighbors of a row of corner pairs by two triangles.
fn strip(pairs: impl Iterator<Item = [(Pos2, Color32); 2]>) -> Mesh {
    let mut mesh = Mesh::default();
    for (pair, ends) in pairs.enumerate() {
        for (at, color) in ends {
            mesh.colored_vertex(at, color);
        }
        if pair > 0 {
            let first = 2 * (pair as u32 - 1);
            mesh.add_triangle(first, first + 1, first + 2);
            mesh.add_triangle(first + 1, first + 2, first + 3);
        }
    }
    mesh
}

/// A place moved as little as it takes to lie in a frame; if it is too large, it begins where the frame does.
fn within(place: Rect, frame: Rect) -> Rect {
    let start = place.min.min(frame.max - place.size()).max(frame.min);
    Rect::from_min_size(start, place.size())
}

/// A screen point moved up and left, toward the light, for a positive share of `by`.
fn toward_light(at: Pos2, by: f32) -> Pos2 {
    pos2(at.x - 0.62 * by, at.y - 0.78 * by)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_place_moves_into_its_frame_and_no_further() {
        let frame = Rect::from_min_max(pos2(10.0, 10.0), pos2(110.0, 60.0));
        let size = Vec2::new(30.0, 20.0);
        for (start, expected) in [
            (pos2(-5.0, 30.0), pos2(10.0, 30.0)),
            (pos2(100.0, 55.0), pos2(80.0, 40.0)),
            (pos2(40.0, 12.0), pos2(40.0, 12.0)),
        ] {
            let moved = within(Rect::from_min_size(start, size), frame);
            assert_eq!(moved, Rect::from_min_size(expected, size));
        }
    }

    #[test]
    fn circles_look_round_at_every_size() {
        for radius in [1.0, 30.0, 300.0, 17_000.0] {
            let corners: Vec<Vec2> = directions(radius).collect();
            let sagitta = radius * (1.0 - ((corners[0] + corners[1]) / 2.0).length());
            assert!(sagitta <= 1.1 * FLATNESS, "{sagitta} at {radius}");
        }
    }
}
