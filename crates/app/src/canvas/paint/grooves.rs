//! The V-grooves, as wide as they are cut, with the line at their bottom where there is room for it.

use drawing::{Arc, Item, Layer, Shape};
use egui::{Color32, Pos2, Stroke};
use geometry::{Circle, Point, point_at};

use super::Brush;
use crate::canvas::BoardView;

/// Thinnest line a groove is shown as, and the least width on the screen from which its bottom is.
const LEAST: (f32, f32) = (1.2, 4.5);
/// Length of a straight piece of an arc on the screen.
const PIECE: f32 = 5.0;

/// The grooves of the plan.
pub fn paint(brush: &mut Brush<'_>, view: &BoardView<'_>) {
    let Some(grooves) = view.board.grooves else {
        return;
    };
    let width = brush.length(grooves.width);
    let (side, bottom) = (brush.palette.groove, brush.palette.valley);
    let items = || view.plan.iter().filter(|item| item.layer == Layer::Grooves);
    for item in items() {
        stroke(brush, item, width.max(LEAST.0), side);
    }
    if width >= LEAST.1 {
        for item in items() {
            stroke(brush, item, 0.22 * width, bottom);
        }
    }
}

fn stroke(brush: &mut Brush<'_>, item: &Item, width: f32, color: Color32) {
    match &item.shape {
        Shape::Line(line) => {
            let ends = [line.p0, line.p1].map(|end| brush.at(end));
            brush.line(ends, width, color);
            // The bit leaves round ends.
            for end in ends {
                brush.disc(end, width / 2.0, color);
            }
        }
        Shape::Circle(circle) => {
            if let Some((at, radius)) = brush.seen(*circle, width) {
                brush.ring(at, radius, width, color);
            }
        }
        Shape::Arc(arc) => {
            let circle = Circle::new(arc.center, arc.radius);
            if brush.seen(circle, width).is_some() {
                let way = way(brush, arc);
                brush.add(egui::Shape::line(way, Stroke::new(width, color)));
            }
        }
        // The middles of grooves are none of these.
        Shape::Cross { .. } | Shape::Area(_) | Shape::Text(_) => {}
    }
}

/// An arc in straight pieces, too short to be seen as such.
fn way(brush: &Brush<'_>, arc: &Arc) -> Vec<Pos2> {
    let length = brush.length(arc.radius * arc.sweep.as_radians());
    let pieces = (length / PIECE).ceil().clamp(8.0, 800.0) as u16;
    let at = |piece: u16| -> Point {
        let bearing = arc.start + arc.sweep * (f64::from(piece) / f64::from(pieces));
        arc.center + point_at(arc.radius, bearing).to_vec2()
    };
    (0..=pieces).map(|piece| brush.at(at(piece))).collect()
}
