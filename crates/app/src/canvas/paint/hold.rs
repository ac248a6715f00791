//! Paints the thing that a drag would take along, and the guides that it lies on.

use drawing::{Guide, Shape, Thing, Way};
use egui::{Align2, Stroke, vec2};
use geometry::{Circle, Point, Vec2};

use super::Scene;
use crate::canvas::BoardView;
use crate::painter::Pen;

/// Paints the guides of the thing in hand, and its place beside the pointer.
pub fn told(pen: &mut Pen<'_>, scene: &Scene<'_>) {
    let Some((words, guides)) = scene.told else {
        return;
    };
    for guide in guides {
        way(pen, scene.view, guide);
    }
    let Some(at) = scene.pointer else { return };
    let said = guides.iter().map(|guide| guide.words.as_str());
    let said: Vec<&str> = words.split("; ").chain(said).collect();
    let beside = pen.camera.screen(at) + vec2(16.0, 16.0);
    let ink = pen.palette.ink;
    pen.plate(beside, Align2::LEFT_TOP, &said.join("\n"), ink);
}

/// The lines of the thing under the pointer or in hand, below the bores; a hole has a ring above them.
pub fn mark(pen: &mut Pen<'_>, scene: &Scene<'_>) {
    let Some(thing) = scene.thing else { return };
    let view = scene.view;
    let beside = match thing {
        Thing::Hole(_) => return,
        Thing::Pocket(_) => 2.0 * pen.camera.length(view.board().bores.start.radius()),
        _ => 0.0,
    };
    let (hover, casing) = (pen.palette.hover, pen.palette.casing);
    let strokes = [(beside + 5.5, casing), (beside + 2.8, hover)];
    for (width, color) in strokes {
        for shape in thing.shapes(view.workpiece) {
            let stroke = Stroke::new(width, color);
            pen.shape(&shape, stroke);
            // Thick lines would else end square across the last bore.
            if let (Shape::Line(line), true) = (&shape, beside > 0.0) {
                for end in [line.p0, line.p1] {
                    pen.disc(pen.camera.screen(end), width / 2.0, color);
                }
            }
        }
    }
}

/// A guide, dashed across the board.
fn way(pen: &mut Pen<'_>, view: &BoardView<'_>, guide: &Guide) {
    let stroke = Stroke::new(1.4, pen.palette.selected);
    let reach = 1.05 * view.board().blank.radius();
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
