//! A measure on the board: its line with its words, the way along the circle, and the thing it would be laid to.

use drawing::{Along, End};
use egui::{Align2, Pos2, vec2};
use geometry::{Arc, Point, point_at};

use super::Scene;
use crate::canvas::BoardView;
use crate::canvas::readout::{along_words, length_words};
use crate::painter::Pen;

/// Half the part of the rim that is marked under the pointer, in points.
const RIM_MARK: f32 = 40.0;

/// The mark of the thing under the pointer, and the measure or its loose end.
pub fn paint(pen: &mut Pen<'_>, scene: &Scene<'_>) {
    for end in scene.end.into_iter().chain(scene.pulled) {
        mark(pen, scene.view, end);
    }
    if let (Some(from), Some(end)) = (scene.pulled, scene.pointer)
        && let Some(start) = place(scene.view, from)
    {
        let ends = [start, end].map(|at| pen.camera.screen(at));
        line(pen, ends);
    }
    let Some(measure) = scene.measure else { return };
    let span = &measure.span;
    if let Some(along) = &span.along {
        way(pen, along);
        words(pen, scene.view, along);
    }
    let ends = [span.from, span.to].map(|at| pen.camera.screen(at));
    line(pen, ends);
    let middle = ends[0].lerp(ends[1], 0.5);
    if pen.frame().contains(middle) {
        let (said, ink) = (length_words(span, scene.view.units), pen.palette.ink);
        // Beside the line, so that the words cover neither of its ends.
        let way = ends[1] - ends[0];
        if way.y.abs() > way.x.abs() {
            pen.plate(middle + vec2(12.0, 0.0), Align2::LEFT_CENTER, &said, ink);
        } else {
            pen.plate(middle - vec2(0.0, 12.0), Align2::CENTER_BOTTOM, &said, ink);
        }
    }
}

/// The words of the way along the circle, outside its middle.
fn words(pen: &mut Pen<'_>, view: &BoardView<'_>, along: &Along) {
    let middle = along.start + along.sweep * 0.5;
    let outside = along.radius + pen.camera.mm(14.0);
    let at = pen.camera.screen(point_at(outside, middle));
    // Beside a short measure the two would overlap; the line below the board has both.
    let is_long = pen.camera.length(along.length) > 160.0;
    if is_long && pen.frame().contains(at) {
        let (said, ink) = (along_words(along, view.units), pen.palette.ink);
        pen.plate(at, Align2::CENTER_CENTER, &said, ink);
    }
}

fn line(pen: &mut Pen<'_>, ends: [Pos2; 2]) {
    let (color, contrast) = (pen.palette.selected, pen.palette.contrast);
    for (width, dot, color) in [(4.5, 4.5, contrast), (2.0, 3.2, color)] {
        pen.line(ends, (width, color));
        for end in ends {
            pen.disc(end, dot, color);
        }
    }
}

/// The way along the circle.
fn way(pen: &mut Pen<'_>, along: &Along) {
    let arc = Arc {
        center: Point::ORIGIN,
        radius: along.radius,
        start: along.start,
        sweep: along.sweep,
    };
    let places = pen.along(&arc);
    let (color, contrast) = (pen.palette.selected, pen.palette.contrast);
    pen.path(&places, (3.5, contrast));
    pen.path(&places, (1.4, color));
}

/// The thing that a measure would be laid to.
fn mark(pen: &mut Pen<'_>, view: &BoardView<'_>, end: End) {
    let (color, contrast) = (pen.palette.selected, pen.palette.contrast);
    let both = [(5.0, contrast), (2.4, color)];
    match end {
        End::Pin | End::Center(_) => {
            let Some(at) = place(view, end) else { return };
            let at = pen.camera.screen(at);
            pen.cross(at, 9.0, (4.0, contrast));
            pen.cross(at, 8.0, (2.0, color));
        }
        End::Edge(id) => {
            let mouth = view.layout().hole(id).map(board::Hole::mouth);
            if let Some((at, radius)) = mouth.and_then(|mouth| pen.seen(mouth, 8.0)) {
                for stroke in both {
                    pen.ring(at, radius, stroke);
                }
            }
        }
        End::Rim(bearing) => {
            let radius = view.board().blank.radius();
            let half = geometry::Angle::radians(pen.camera.mm(RIM_MARK) / radius);
            let (start, sweep) = (bearing - half, half * 2.0);
            let center = Point::ORIGIN;
            let places = pen.along(&Arc {
                center,
                radius,
                start,
                sweep,
            });
            for stroke in both {
                pen.path(&places, stroke);
            }
        }
        End::Seam(at) => {
            let Some(height) = view.workpiece.seams().get(at) else {
                return;
            };
            let half = drawing::half_chord(view.board().blank.radius(), *height);
            let ends = [-half, half].map(|x| pen.camera.screen(Point::new(x, *height)));
            for stroke in both {
                pen.line(ends, stroke);
            }
        }
    }
}

/// The place of an end by itself.
fn place(view: &BoardView<'_>, end: End) -> Option<Point> {
    drawing::end_place(view.workpiece, end)
}
