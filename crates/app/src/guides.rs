//! Paints the guides that something snaps to while it is dragged, and its place beside the pointer.

use drawing::{Guide, Way};
use egui::{Align2, Stroke, vec2};
use geometry::{Circle, Point, Vec2};

use crate::painter::Pen;

/// Paints guides, dashed and so far to either side, and words with their names beside a place; nothing without guides.
pub fn paint(pen: &mut Pen<'_>, words: &[&str], guides: &[Guide], at: Point, reach: f64) {
    for guide in guides {
        way(pen, guide, reach);
    }
    let said = guides.iter().map(|guide| guide.words.as_str());
    let said: Vec<&str> = words.iter().copied().chain(said).collect();
    if said.is_empty() {
        return;
    }
    let beside = pen.camera.screen(at) + vec2(16.0, 16.0);
    let ink = pen.palette.ink;
    pen.plate(beside, Align2::LEFT_TOP, &said.join("\n"), ink);
}

fn way(pen: &mut Pen<'_>, guide: &Guide, reach: f64) {
    let stroke = Stroke::new(1.4, pen.palette.selected);
    match guide.way {
        Way::Place(at) => {
            let at = pen.camera.screen(at);
            pen.cross(at, 9.0, stroke);
        }
        Way::Circle(circle) => ring(pen, circle, stroke),
        Way::Line(through, along) => line(pen, through, along * reach, stroke),
    }
}

fn ring(pen: &mut Pen<'_>, circle: Circle, stroke: Stroke) {
    let at = pen.camera.screen(circle.center);
    let radius = pen.camera.length(circle.radius);
    pen.dashed_ring(at, radius, stroke);
}

/// A dashed line through a place, so far to either side.
fn line(pen: &mut Pen<'_>, through: Point, half: Vec2, stroke: Stroke) {
    pen.dashed(&[through - half, through + half], stroke, &[4.0, 3.0]);
}
