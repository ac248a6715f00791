//! The mark of a severity.

use egui::{Color32, Pos2, Rect, Shape, Stroke, Ui, vec2};
use workshop::Severity;

/// A severity as a colored shape of a given size: a filled square, a triangle or a ring.
pub fn mark(ui: &Ui, center: Pos2, size: f32, severity: Severity, color: Color32) {
    let painter = ui.painter();
    let at = |x: f32, y: f32| center + size * vec2(x, y);
    match severity {
        Severity::Stop => {
            let square = Rect::from_center_size(center, size * vec2(10.0, 10.0));
            painter.rect_filled(square, 1.0, color);
        }
        Severity::Caution => {
            painter.add(Shape::convex_polygon(
                vec![at(0.0, -6.0), at(6.0, 5.0), at(-6.0, 5.0)],
                color,
                Stroke::NONE,
            ));
        }
        Severity::Note => {
            painter.circle_stroke(center, size * 4.5, Stroke::new(2.0, color));
        }
    }
}
