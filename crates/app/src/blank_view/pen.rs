//! What the picture is drawn with: shapes given on the blank, words given on the screen.

use egui::epaint::Mesh;
use egui::{Align2, Color32, FontId, Painter, Pos2, Rect, Shape, Stroke, StrokeKind, Vec2};
use geometry::{Circle, Point};

use super::fill::Slice;
use super::palette::Palette;
use crate::camera::Camera;

/// How far from a true circle a large one may be drawn, in points of the screen.
const FLATNESS: f32 = 0.08;
/// Size of words on plates.
const TYPE: f32 = 12.0;

/// Lines of more corners than this are drawn piece by piece.
const MOST_JOINED: usize = 200;
/// Corners of such a line nearer to the last one than this are left out, in points.
const NEAR: f32 = 0.5;

/// Draws on the blank.
pub struct Pen<'p> {
    pub painter: &'p Painter,
    pub camera: Camera,
    pub palette: Palette,
}

impl Pen<'_> {
    /// An inside, cut into slices.
    pub fn fill(&self, slices: &[Slice], color: Color32) {
        let mut mesh = Mesh::default();
        for slice in slices {
            let first = mesh.vertices.len() as u32;
            for corner in slice {
                mesh.colored_vertex(self.camera.screen(*corner), color);
            }
            mesh.add_triangle(first, first + 1, first + 2);
            mesh.add_triangle(first, first + 2, first + 3);
        }
        self.painter.add(mesh);
    }

    /// A line through corners, back to the first or not.
    pub fn path(&self, corners: &[Point], is_closed: bool, width: f32, color: Color32) {
        let stroke = Stroke::new(width, color);
        let back = corners.first().filter(|_| is_closed);
        let way = corners.iter().chain(back);
        let way = way.map(|at| self.camera.screen(*at));
        if corners.len() > MOST_JOINED {
            // Joined lines grow long spikes where they turn back sharply, as a scanned edge does at every point.
            for ends in thinned(way).windows(2) {
                self.painter.line_segment([ends[0], ends[1]], stroke);
            }
        } else if is_closed {
            let way = way.take(corners.len()).collect();
            self.painter.add(Shape::closed_line(way, stroke));
        } else {
            self.painter.add(Shape::line(way.collect(), stroke));
        }
    }

    /// A straight line.
    pub fn line(&self, ends: [Point; 2], width: f32, color: Color32) {
        let ends = ends.map(|end| self.camera.screen(end));
        self.painter.line_segment(ends, Stroke::new(width, color));
    }

    /// A disc without an outline, never smaller than can be seen.
    pub fn disc(&self, circle: Circle, color: Color32) {
        let radius = self.camera.length(circle.radius).max(0.7);
        let at = self.camera.screen(circle.center);
        if self.camera.frame.expand(radius).contains(at) {
            self.painter.circle_filled(at, radius, color);
        }
    }

    /// A circle's outline.
    pub fn ring(&self, circle: Circle, width: f32, color: Color32) {
        self.arc(circle, (0.0, 1.0), width, color);
    }

    /// Part of a circle's outline, given in shares of a turn, counter-clockwise from the right.
    pub fn arc(&self, circle: Circle, (from, to): (f32, f32), width: f32, color: Color32) {
        let (at, radius) = (
            self.camera.screen(circle.center),
            self.camera.length(circle.radius),
        );
        self.painter.add(Shape::line(
            arc(at, radius, from, to),
            Stroke::new(width, color),
        ));
    }

    /// The inside of part of a circle and its chord, of half a turn at most.
    pub fn arc_inside(&self, circle: Circle, (from, to): (f32, f32), color: Color32) {
        let (at, radius) = (
            self.camera.screen(circle.center),
            self.camera.length(circle.radius),
        );
        let corners = arc(at, radius, from, to);
        self.painter
            .add(Shape::convex_polygon(corners, color, Stroke::NONE));
    }

    /// A dashed circle, set off from what lies below.
    pub fn dashed_ring(&self, circle: Circle, color: Color32) {
        // A whole number of dashes, so that the ring has no seam; no more of them in a close view than in a far one.
        let dashes = (self.camera.length(circle.radius) * 0.5)
            .clamp(12.0, 96.0)
            .round();
        for (width, color) in [(4.5, self.palette.casing), (2.2, color)] {
            for dash in 0..dashes as u16 {
                let dash = f32::from(dash);
                self.arc(circle, (dash / dashes, (dash + 0.6) / dashes), width, color);
            }
        }
    }

    /// A ring of a size on the screen.
    pub fn mark(&self, at: Point, radius: f32, width: f32, color: Color32) {
        self.painter
            .circle_stroke(self.camera.screen(at), radius, Stroke::new(width, color));
    }

    /// A small square that can be taken hold of.
    pub fn handle(&self, at: Point) {
        let place = Rect::from_center_size(self.camera.screen(at), Vec2::splat(8.0));
        self.painter.rect_filled(place, 1.0, self.palette.handle);
        let stroke = Stroke::new(1.5, self.palette.line);
        self.painter
            .rect_stroke(place, 1.0, stroke, StrokeKind::Middle);
    }

    /// How much room words on a plate take.
    pub fn plate_size(&self, words: &str) -> Vec2 {
        let galley = self.painter.layout_no_wrap(
            words.to_owned(),
            FontId::proportional(TYPE),
            Color32::BLACK,
        );
        galley.size() + 2.0 * PADDING
    }

    /// Words on a small plate that sets them off from what lies below; moved into the picture where they would be cut
    /// off.
    pub fn plate(&self, at: Pos2, anchor: Align2, words: &str, color: Color32) {
        let galley =
            self.painter
                .layout_no_wrap(words.to_owned(), FontId::proportional(TYPE), color);
        let place = anchor.anchor_size(at, galley.size() + 2.0 * PADDING);
        let frame = self.camera.frame.shrink(4.0);
        let start = place.min.min(frame.max - place.size()).max(frame.min);
        let place = Rect::from_min_size(start, place.size());
        self.painter
            .rect_filled(place, 4.0, self.palette.chip.gamma_multiply(0.94));
        self.painter.galley(place.min + PADDING, galley, color);
    }
}

/// Room around words on a plate.
const PADDING: Vec2 = Vec2::new(5.0, 2.0);

/// A line without the corners that no one could tell apart; its ends stay.
fn thinned(way: impl Iterator<Item = Pos2> + Clone) -> Vec<Pos2> {
    let end = way.clone().last();
    let mut kept: Vec<Pos2> = Vec::new();
    for corner in way {
        if kept.last().is_none_or(|last| last.distance(corner) >= NEAR) {
            kept.push(corner);
        }
    }
    kept.extend(end.filter(|end| kept.last() != Some(end)));
    kept
}

/// Points along part of a circle, enough for it to look round.
fn arc(at: Pos2, radius: f32, from: f32, to: f32) -> Vec<Pos2> {
    let turn = core::f32::consts::PI * (radius.max(1.0) / (2.0 * FLATNESS)).sqrt();
    let steps = (turn.clamp(24.0, 2400.0) * (to - from)).ceil().max(1.0);
    let point = |step: u16| {
        let share = from + (to - from) * f32::from(step) / steps;
        at + radius * Vec2::angled(-core::f32::consts::TAU * share)
    };
    (0..=steps as u16).map(point).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use egui::pos2;

    #[test]
    fn arcs_begin_and_end_where_they_should_and_go_over_the_top() {
        let way = arc(pos2(100.0, 100.0), 50.0, 0.0, 0.5);
        let (first, last) = (way[0], way[way.len() - 1]);
        assert!(first.distance(pos2(150.0, 100.0)) < 1e-3);
        assert!(last.distance(pos2(50.0, 100.0)) < 1e-3);
        assert!(way[way.len() / 2].y < 52.0);
    }

    #[test]
    fn a_line_of_many_corners_is_thinned_and_keeps_its_ends() {
        let way = (0..1001_u16).map(|at| pos2(f32::from(at) * 0.01, 0.0));
        let kept = thinned(way);
        assert!((20..25).contains(&kept.len()), "{}", kept.len());
        assert_eq!(kept.first(), Some(&pos2(0.0, 0.0)));
        assert_eq!(kept.last(), Some(&pos2(10.0, 0.0)));
        assert!(thinned(core::iter::empty()).is_empty());
    }

    #[test]
    fn arcs_look_round_at_every_size() {
        for radius in [3.0_f32, 30.0, 3000.0] {
            let way = arc(Pos2::ZERO, radius, 0.0, 1.0);
            let sagitta = radius - way[0].lerp(way[1], 0.5).to_vec2().length();
            assert!(sagitta <= 1.1 * FLATNESS, "{sagitta} at {radius}");
        }
    }
}
