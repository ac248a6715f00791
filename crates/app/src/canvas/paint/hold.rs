//! Paints the thing that a drag would take along, and the guides that it lies on.

use drawing::{Shape, Thing};
use egui::Stroke;

use super::Scene;
use crate::guides;
use crate::painter::Pen;

/// Paints the guides of the thing in hand, and its place beside the pointer.
pub fn paint(pen: &mut Pen<'_>, scene: &Scene<'_>) {
    let Some((words, lies_on)) = scene.told else {
        return;
    };
    let Some(at) = scene.pointer else { return };
    let words: Vec<&str> = words.split("; ").collect();
    let reach = 1.05 * scene.view.board().blank.radius();
    guides::paint(pen, &words, lies_on, at, reach);
}

/// The lines of the thing under the pointer or in hand, below the bores; a hole has a ring above them.
pub fn mark(pen: &mut Pen<'_>, scene: &Scene<'_>) {
    let Some(thing) = scene.thing else { return };
    let view = scene.view;
    let beside = match thing {
        Thing::Hole(_) => return,
        Thing::Lane(_) => 2.0 * pen.camera.length(view.board().bores.home.radius()),
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
