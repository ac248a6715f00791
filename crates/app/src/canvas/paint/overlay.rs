//! Overlays of the board: sheets, a measure, the scale bar.

use board::{INCH, Units};
use egui::{Align2, Rect, Shape, Stroke, StrokeKind, pos2, vec2};

use crate::canvas::SheetOutline;
use crate::painter::Pen;

/// Longest scale bar, in points of the screen.
const LONGEST_BAR: f32 = 150.0;

/// The outline and the name of every printed sheet.
pub fn sheets(pen: &mut Pen<'_>, sheets: &[SheetOutline]) {
    let (color, contrast) = (pen.palette.sheet, pen.palette.contrast);
    for sheet in sheets {
        let place = pen.rect(sheet.window);
        pen.add(Shape::rect_filled(place, 0.0, color.gamma_multiply(0.05)));
        // They go over the wood and over the bench, of which one may be pale and the other dark.
        for (width, color) in [(3.0, contrast.gamma_multiply(0.6)), (1.2, color)] {
            let stroke = Stroke::new(width, color);
            pen.add(Shape::rect_stroke(place, 0.0, stroke, StrokeKind::Middle));
        }
    }
    for sheet in sheets {
        // A sheet out of view has no label, and one partly in view has it in that part.
        let seen = pen.rect(sheet.window).intersect(pen.frame());
        if seen.width() > 40.0 && seen.height() > 24.0 {
            pen.plate(seen.center(), Align2::CENTER_CENTER, &sheet.label, color);
        }
    }
}

/// The box that chooses the holes in it.
pub fn part(pen: &mut Pen<'_>, part: Option<kurbo::Rect>) {
    let Some(part) = part else { return };
    let place = pen.rect(part);
    let color = pen.palette.selected;
    pen.add(Shape::rect_filled(place, 0.0, color.gamma_multiply(0.12)));
    let stroke = Stroke::new(1.4, color);
    pen.add(Shape::rect_stroke(place, 0.0, stroke, StrokeKind::Middle));
}

/// A bar of a neat length in the lower left corner.
pub fn scale_bar(pen: &mut Pen<'_>, units: Units) {
    let (mm, words) = neat_length(pen.camera.mm(LONGEST_BAR), units);
    let (width, ink) = (pen.camera.length(mm), pen.palette.ink);
    let frame = pen.frame();
    let left = pos2(frame.left() + 16.0, frame.bottom() - 16.0);
    let plate = Rect::from_min_max(
        left - vec2(8.0, 25.0),
        left + vec2(width.max(44.0) + 8.0, 8.0),
    );
    let chip = pen.palette.chip.gamma_multiply(0.85);
    pen.add(Shape::rect_filled(plate, 5.0, chip));
    let right = left + vec2(width, 0.0);
    pen.line([left, right], (2.0, ink));
    for (at, tall) in [(left, 6.0), (left.lerp(right, 0.5), 3.5), (right, 6.0)] {
        pen.line([at, at - vec2(0.0, tall)], (1.5, ink));
    }
    pen.words(
        left - vec2(0.0, 7.0),
        Align2::LEFT_BOTTOM,
        &words,
        12.0,
        ink,
    );
}

/// The longest neat length, in mm and in words, that is no longer than `most` mm.
fn neat_length(most: f64, units: Units) -> (f64, String) {
    match units {
        Units::Mm => {
            let mm = neat(most);
            (mm, format!("{mm} mm"))
        }
        Units::Inch(_) => {
            let inches = most / INCH;
            let part = [2.0, 4.0, 8.0, 16.0]
                .into_iter()
                .find(|parts| 1.0 / parts <= inches);
            match part {
                Some(parts) if inches < 1.0 => (INCH / parts, format!("1/{parts}\"")),
                _ => {
                    let inches = neat(inches);
                    (INCH * inches, format!("{inches}\""))
                }
            }
        }
    }
}

/// The largest of …, 1, 2, 5, 10, 20, … that is no larger than `most`.
fn neat(most: f64) -> f64 {
    let mut decade = 0.001;
    while decade * 10.0 <= most {
        decade *= 10.0;
    }
    let steps = [5.0, 2.0, 1.0].map(|step| (step * decade * 1000.0_f64).round() / 1000.0);
    steps
        .into_iter()
        .find(|step| *step <= most)
        .unwrap_or(decade)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn bars_have_neat_lengths() {
        let words = |most, units| neat_length(most, units).1;
        assert_eq!(words(137.0, Units::Mm), "100 mm");
        assert_eq!(words(60.0, Units::Mm), "50 mm");
        assert_eq!(words(2.5, Units::Mm), "2 mm");
        assert_eq!(words(0.7, Units::Mm), "0.5 mm");
        assert_eq!(words(137.0, Units::INCH), "5\"");
        assert_eq!(words(20.0, Units::INCH), "1/2\"");
        assert_eq!(words(3.5, Units::INCH), "1/8\"");
    }

    #[test]
    fn a_bar_is_never_longer_than_it_may_be() {
        for units in [Units::Mm, Units::INCH] {
            for most in [0.7, 2.4, 9.99, 25.4, 33.0, 780.0, 7800.0] {
                let (mm, words) = neat_length(most, units);
                assert!(mm <= most && mm > most / 2.6, "{words} for {most}");
            }
        }
    }
}
