//! Words: on the screen, on plates that set them off, and as a drawing has them.

use std::sync::Arc;

use drawing::{Text, font};
use egui::epaint::TextShape;
use egui::{Align2, Color32, FontFamily, FontId, Galley, Pos2, Rect, Shape, Stroke, Vec2, vec2};

use super::Pen;
use crate::theme;

/// Room around words on a plate.
const PADDING: Vec2 = Vec2::new(5.0, 2.0);
/// Size of words on plates.
const TYPE: f32 = theme::SMALL;
/// Smallest type of a drawing that is painted as letters, in points.
const READABLE: f32 = 3.5;

impl Pen<'_> {
    /// Words of a size.
    pub fn words(&mut self, at: Pos2, anchor: Align2, words: &str, size: f32, color: Color32) {
        let galley = self.galley(words, size, color);
        let place = anchor.anchor_size(at, galley.size());
        self.add(Shape::galley(place.min, galley, color));
    }

    /// Room of words on a plate, in points.
    pub fn plate_size(&self, words: &str) -> Vec2 {
        self.galley(words, TYPE, self.palette.ink).size() + 2.0 * PADDING
    }

    /// Words on a small plate that sets them off from the drawing below; moved into the picture where they would be cut off.
    pub fn plate(&mut self, at: Pos2, anchor: Align2, words: &str, color: Color32) {
        let galley = self.galley(words, TYPE, color);
        let place = anchor.anchor_size(at, galley.size() + 2.0 * PADDING);
        let place = moved_into(self.frame().shrink(4.0), place);
        let chip = self.palette.chip.gamma_multiply(0.94);
        self.add(Shape::rect_filled(place, 4.0, chip));
        self.add(Shape::galley(place.min + PADDING, galley, color));
    }

    /// Whether words of a drawing are painted as letters.
    pub fn is_readable(&self, text: &Text) -> bool {
        self.camera.length(text.size) >= READABLE
    }

    /// Words of a drawing with their baseline where it is on paper; a gray line where they could not be read.
    pub fn text(&mut self, text: &Text) {
        let size = self.camera.length(text.size);
        // Counter-clockwise on paper, clockwise on the screen.
        let turn = egui::emath::Rot2::from_angle(-text.turn.as_radians() as f32);
        let start = self.camera.screen(text.start());
        if !self.is_readable(text) {
            let width = font::width(&text.words, text.size, text.weight);
            let up = turn * vec2(0.0, -0.3 * size);
            let end = start + turn * vec2(self.camera.length(width), 0.0);
            let stroke = Stroke::new(0.4 * size, self.palette.print_faint);
            self.line([start + up, end + up], stroke);
            return;
        }
        let family = match text.weight {
            font::Weight::Regular => FontFamily::Proportional,
            font::Weight::SemiBold => theme::strong(),
        };
        let (font, ink) = (FontId::new(size, family), self.palette.print);
        let galley = self.painter.layout_no_wrap(text.words.clone(), font, ink);
        let Some(row) = galley.rows.first() else {
            return;
        };
        let baseline = row.pos.y + row.glyphs.first().map_or(0.0, |glyph| glyph.pos.y);
        let corner = start - turn * vec2(0.0, baseline);
        self.add(TextShape::new(corner, galley, ink).with_angle(turn.angle()));
    }

    fn galley(&self, words: &str, size: f32, color: Color32) -> Arc<Galley> {
        let font = FontId::proportional(size);
        self.painter.layout_no_wrap(words.to_owned(), font, color)
    }
}

/// A place moved as little as it takes to lie in a frame; if it is too large, it begins where the frame does.
fn moved_into(frame: Rect, place: Rect) -> Rect {
    let start = place.min.min(frame.max - place.size()).max(frame.min);
    Rect::from_min_size(start, place.size())
}

#[cfg(test)]
mod tests {
    use super::*;
    use egui::pos2;

    #[test]
    fn a_place_moves_into_its_frame_and_no_further() {
        let frame = Rect::from_min_max(pos2(10.0, 10.0), pos2(110.0, 60.0));
        let size = Vec2::new(30.0, 20.0);
        for (start, expected) in [
            (pos2(-5.0, 30.0), pos2(10.0, 30.0)),
            (pos2(100.0, 55.0), pos2(80.0, 40.0)),
            (pos2(40.0, 12.0), pos2(40.0, 12.0)),
        ] {
            let moved = moved_into(frame, Rect::from_min_size(start, size));
            assert_eq!(moved, Rect::from_min_size(expected, size));
        }
    }
}
