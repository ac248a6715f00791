//! The colors of the board: on the flat below the bores, in the bores over them.

use board::Rgb;
use drawing::{Shape, Tinted};
use egui::{Align2, Color32, Stroke};
use geometry::Point;

use super::BoardView;
use crate::color::screen;
use crate::painter::{Fill, Pen};

/// The part of a color that is left where the picture is dimmed.
const DIMMED: f32 = 0.35;

/// Paints the colors that lie on the flat top, or those within the bores.
pub fn paint(pen: &mut Pen<'_>, view: &BoardView<'_>, in_bore: bool) {
    for tint in view.tints.iter().filter(|tint| tint.in_bore == in_bore) {
        let color = ink(view, tint.color);
        one(pen, tint, color);
    }
}

/// A color as the picture has it.
fn ink(view: &BoardView<'_>, color: Rgb) -> Color32 {
    let color = screen(color);
    if view.dimmed {
        color.gamma_multiply(DIMMED)
    } else {
        color
    }
}

/// One colored part, in a color of the screen.
pub fn one(pen: &mut Pen<'_>, tint: &Tinted, color: Color32) {
    let width = tint.stroke.map(|width| pen.camera.length(width).max(0.8));
    match (&tint.shape, width) {
        // The wall of a bore stays visible around its resin or ball.
        (Shape::Circle(circle), None) if tint.in_bore => {
            if let Some((at, radius)) = pen.seen(*circle, 2.0) {
                pen.disc(at, 0.9 * radius, color);
            }
        }
        (Shape::Circle(circle), None) => pen.round(*circle, color),
        (Shape::Area(corners), None) => pen.fill(&Fill::of(corners), color),
        (Shape::Area(corners), Some(width)) => pen.outline(corners, Stroke::new(width, color)),
        (Shape::Text(text), _) => {
            let middle = Point::new(text.at.x, text.at.y + 0.36 * text.size);
            let size = pen.camera.length(text.size);
            let at = pen.camera.screen(middle);
            pen.words(at, Align2::CENTER_CENTER, &text.words, size, color);
        }
        (shape, Some(width)) => pen.shape(shape, Stroke::new(width, color)),
        _ => {}
    }
}
