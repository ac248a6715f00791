//! Paints the V-grooves as wide as they are cut, with a line along the bottom where there is room for it.

use drawing::{Layer, Shape};
use egui::Stroke;

use super::BoardView;
use crate::painter::Pen;

/// Least width of a groove on the screen, in points.
const LEAST: f32 = 1.2;
/// Least width of a groove at which the line along its bottom is painted, in points.
const LEAST_WITH_BOTTOM: f32 = 4.5;

/// Paints the grooves of the plan, if the board has any.
pub fn paint(pen: &mut Pen<'_>, view: &BoardView<'_>) {
    let Some(grooves) = view.board().grooves else {
        return;
    };
    let width = pen.camera.length(grooves.width);
    let side = Stroke::new(width.max(LEAST), pen.palette.groove);
    let bottom = Stroke::new(0.22 * width, pen.palette.valley);
    middles(pen, view, side);
    if width >= LEAST_WITH_BOTTOM {
        middles(pen, view, bottom);
    }
}

/// Strokes every groove along its center line.
fn middles(pen: &mut Pen<'_>, view: &BoardView<'_>, stroke: Stroke) {
    for item in view.plan.iter().filter(|item| item.layer == Layer::Grooves) {
        pen.shape(&item.shape, stroke);
        // A V bit cuts round ends.
        if let Shape::Line(line) = &item.shape {
            for end in [line.p0, line.p1] {
                pen.disc(pen.camera.screen(end), stroke.width / 2.0, stroke.color);
            }
        }
    }
}
