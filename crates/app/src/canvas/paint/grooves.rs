//! The V-grooves, as wide as they are cut, with the line at their bottom where there is room for it.

use drawing::{Layer, Shape};
use egui::Stroke;

use super::BoardView;
use crate::painter::Pen;

/// Thinnest line a groove is shown as, and the least width on the screen from which its bottom is.
const LEAST: (f32, f32) = (1.2, 4.5);

/// The grooves of the plan.
pub fn paint(pen: &mut Pen<'_>, view: &BoardView<'_>) {
    let Some(grooves) = view.board().grooves else {
        return;
    };
    let width = pen.camera.length(grooves.width);
    let side = Stroke::new(width.max(LEAST.0), pen.palette.groove);
    let bottom = Stroke::new(0.22 * width, pen.palette.valley);
    middles(pen, view, side);
    if width >= LEAST.1 {
        middles(pen, view, bottom);
    }
}

fn middles(pen: &mut Pen<'_>, view: &BoardView<'_>, stroke: Stroke) {
    for item in view.plan.iter().filter(|item| item.layer == Layer::Grooves) {
        pen.shape(&item.shape, stroke);
        // The bit leaves round ends.
        if let Shape::Line(line) = &item.shape {
            for end in [line.p0, line.p1] {
                pen.disc(pen.camera.screen(end), stroke.width / 2.0, stroke.color);
            }
        }
    }
}
