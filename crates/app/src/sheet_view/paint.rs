//! The items of a sheet, painted.

use drawing::{Arc, Item, Shape, Sheet, Text, font};
use egui::epaint::TextShape;
use egui::{Color32, FontFamily, FontId, Painter, Pos2, Rect, Stroke, vec2};
use geometry::{Angle, Circle};
use kurbo::{Point, Vec2};

use super::paper_on_screen;
use crate::camera::{Camera, along};
use crate::theme;

/// What is printed is black on white in the dark shop too.
const PAPER: Color32 = Color32::WHITE;
/// What a light gray area is on paper.
const AREA: Color32 = Color32::from_gray(0xD8);
/// Thinnest line that is painted, in points; a thinner one is painted paler instead.
const THINNEST: f32 = 0.8;
/// Smallest type that is painted as letters, in points.
const READABLE: f32 = 3.5;

/// Paints a sheet with its paper.
pub fn paint(painter: &Painter, camera: &Camera, sheet: &Sheet) {
    let paper = paper_on_screen(camera, sheet);
    painter.rect_filled(
        paper.translate(vec2(2.0, 3.0)),
        0.0,
        Color32::from_black_alpha(60),
    );
    painter.rect_filled(paper, 0.0, PAPER);
    let view = &sheet.view;
    let window = Rect::from_two_pos(
        camera.screen(Point::new(view.window.x0, view.window.y0)),
        camera.screen(Point::new(view.window.x1, view.window.y1)),
    );
    let inside = painter.with_clip_rect(window.intersect(painter.clip_rect()));
    let pen = |painter| Pen {
        painter,
        camera,
        moved: Vec2::ZERO,
    };
    let board = Pen {
        moved: view.page_from_board,
        ..pen(&inside)
    };
    view.items.iter().for_each(|item| board.item(item));
    let on_paper = painter.with_clip_rect(paper.intersect(painter.clip_rect()));
    let marks = pen(&on_paper);
    sheet.marks.iter().for_each(|item| marks.item(item));
}

struct Pen<'a> {
    painter: &'a Painter,
    camera: &'a Camera,
    /// From the item's frame to the page.
    moved: Vec2,
}

impl Pen<'_> {
    fn item(&self, item: &Item) {
        let bounds = item.shape.bounds();
        let seen = Rect::from_two_pos(
            self.at(Point::new(bounds.x0, bounds.y0)),
            self.at(Point::new(bounds.x1, bounds.y1)),
        );
        if !self.painter.clip_rect().intersects(seen.expand(2.0)) {
            return;
        }
        let ink = self.ink(item.line.width());
        let dashes = item.line.dashes();
        match &item.shape {
            Shape::Circle(circle) => self.circle(*circle, ink, dashes),
            Shape::Arc(arc) => self.way(&along(arc, self.camera.length(arc.radius)), ink, dashes),
            Shape::Line(line) => self.way(&[line.p0, line.p1], ink, dashes),
            Shape::Cross { center, arm } => {
                for by in [Vec2::new(*arm, 0.0), Vec2::new(0.0, *arm)] {
                    self.way(&[*center - by, *center + by], ink, &[]);
                }
            }
            Shape::Area(corners) => self.area(corners),
            Shape::Text(text) => self.text(text),
        }
    }

    fn at(&self, point: Point) -> Pos2 {
        self.camera.screen(point + self.moved)
    }

    /// A line of a width in mm.
    fn ink(&self, width: f64) -> Stroke {
        let width = self.camera.length(width);
        let strength = (width / THINNEST).clamp(0.45, 1.0);
        Stroke::new(width.max(THINNEST), Color32::BLACK.gamma_multiply(strength))
    }

    fn circle(&self, circle: Circle, ink: Stroke, dashes: &[f64]) {
        let radius = self.camera.length(circle.radius);
        if dashes.is_empty() && radius < 150.0 {
            self.painter
                .circle_stroke(self.at(circle.center), radius, ink);
            return;
        }
        let round = Arc {
            center: circle.center,
            radius: circle.radius,
            start: Angle::ZERO,
            sweep: Angle::TURN,
        };
        self.way(&along(&round, radius), ink, dashes);
    }

    /// A line through points, with dashes where they can be told apart.
    fn way(&self, way: &[Point], ink: Stroke, dashes: &[f64]) {
        let way: Vec<Pos2> = way.iter().map(|point| self.at(*point)).collect();
        let shortest = dashes.iter().copied().fold(f64::INFINITY, f64::min);
        // Far off the dashes are drawn longer than they are, so that a line to cut and a line to guide stay apart.
        let stretch = (1.0 / self.camera.length(shortest)).max(1.0);
        let lengths: Vec<f32> = dashes
            .iter()
            .map(|mm| self.camera.length(*mm) * stretch)
            .collect();
        if lengths.is_empty() {
            self.painter.add(egui::Shape::line(way, ink));
            return;
        }
        let (dashes, gaps): (Vec<f32>, Vec<f32>) = lengths
            .chunks_exact(2)
            .map(|pair| (pair[0], pair[1]))
            .unzip();
        self.painter.extend(egui::Shape::dashed_line_with_offset(
            &way, ink, &dashes, &gaps, 0.0,
        ));
    }

    fn area(&self, corners: &[Point]) {
        let corners = corners.iter().map(|corner| self.at(*corner)).collect();
        let gray = egui::Shape::convex_polygon(corners, AREA, Stroke::NONE);
        self.painter.add(gray);
    }

    /// Words with their baseline where it is on paper; a gray line where they could not be read.
    fn text(&self, text: &Text) {
        let size = self.camera.length(text.size);
        let start = text.start();
        if size < READABLE {
            let width = font::width(&text.words, text.size, text.weight);
            let up = Vec2::new(-text.along().y, text.along().x) * (0.3 * text.size);
            let ends = [start + up, start + up + text.along() * width].map(|end| self.at(end));
            let ink = Stroke::new(0.4 * size, Color32::from_gray(0xB0));
            self.painter.line_segment(ends, ink);
            return;
        }
        let family = match text.weight {
            font::Weight::Regular => FontFamily::Proportional,
            font::Weight::SemiBold => theme::strong(),
        };
        let galley = self.painter.layout_no_wrap(
            text.words.clone(),
            FontId::new(size, family),
            Color32::BLACK,
        );
        let Some(row) = galley.rows.first() else {
            return;
        };
        let baseline = row.pos.y + row.glyphs.first().map_or(0.0, |glyph| glyph.pos.y);
        // Counter-clockwise on paper, clockwise on the screen.
        let turn = -text.turn.as_radians() as f32;
        let down = egui::emath::Rot2::from_angle(turn) * vec2(0.0, baseline);
        let shape = TextShape::new(self.at(start) - down, galley, Color32::BLACK).with_angle(turn);
        self.painter.add(shape);
    }
}
