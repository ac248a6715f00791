//! Paints the picture of the blank: wood and flaws, and over them the pieces cut from it.

use board::{FlawShape, StockFlaw};
use drawing::on_blank::{Grip, MOST_HANDLES, handles, place};
use egui::{Align2, Pos2, Rect, Shape, Stroke, StrokeKind, Vec2, vec2};
use geometry::{Circle, Point};

use super::drawn::{Area, Drawn};
use super::pieces::Pieces;
use super::words::flaw_label;
use super::{Scene, cut};
use crate::guides;
use crate::painter::Pen;
use crate::wood_face::Figured;

/// From this many flaws on, each is labeled with a letter instead of a word.
const CROWD: usize = 13;
/// Least distance on the screen between corner numbers, in points.
const NUMBERS: f32 = 22.0;

/// Paints the whole picture, the wood first.
pub fn paint(pen: &mut Pen<'_>, scene: &Scene<'_>) {
    let board = scene.board;
    if let Some(wood) = scene.drawn.wood() {
        wood_under(pen, wood, scene.seen.wood);
    }
    if let Pieces::Whole(pin) = scene.pieces {
        let laid = scene.laid(pen.palette);
        pen.round(Circle::new(pin, board.blank.radius()), laid);
    }
    for (flaw, area) in scene.drawn.flaws() {
        flaw_fill(pen, flaw, area);
    }
    if let Some(wood) = scene.drawn.wood() {
        wood_edge(pen, wood);
    }
    cut::paint(pen, scene);
    axes(pen);
    for (_, corner) in handles(&board.stock) {
        handle(pen, corner);
    }
    flaw_labels(pen, scene.drawn);
    hot(pen, scene);
    let size = scene
        .drawn
        .bounds()
        .map_or(0.0, |all| all.width().max(all.height()));
    if let Some(at) = scene.pointer {
        let words: Vec<&str> = scene
            .told
            .split("   ")
            .filter(|part| !part.is_empty())
            .collect();
        guides::paint(pen, &words, scene.guides, at, 1.2 * size);
    }
}

fn wood_under(pen: &mut Pen<'_>, wood: &Area, figured: Option<Figured>) {
    if let Some(figured) = figured {
        pen.fill_with(&wood.fill, figured.texture, figured.bounds);
        return;
    }
    pen.fill(&wood.fill, pen.palette.wood);
    for line in &wood.lines {
        pen.segment(*line, (1.0, pen.palette.grain));
    }
}

fn wood_edge(pen: &mut Pen<'_>, wood: &Area) {
    if wood.is_sound() {
        pen.outline(&wood.corners, (2.0, pen.palette.pencil));
    } else {
        broken(pen, &wood.corners);
    }
}

/// Paints corners that do not form an outline as an open line, numbered as in the message about them.
fn broken(pen: &mut Pen<'_>, corners: &[Point]) {
    pen.path(corners, (4.0, pen.palette.contrast));
    pen.path(corners, (2.0, pen.palette.lit));
    let mut last = None::<Pos2>;
    for (corner, number) in corners.iter().zip(1_usize..) {
        let at = pen.camera.screen(*corner);
        let is_seen = pen.frame().contains(at);
        if is_seen && last.is_none_or(|last| last.distance(at) >= NUMBERS) {
            pen.plate(
                at + vec2(6.0, -6.0),
                Align2::LEFT_BOTTOM,
                &number.to_string(),
                pen.palette.ink,
            );
            last = Some(at);
        }
    }
}

fn flaw_fill(pen: &mut Pen<'_>, flaw: &StockFlaw, area: &Area) {
    let (fill, hatch) = pen.palette.flaw(flaw.kind);
    let circle = match &flaw.shape {
        FlawShape::Round { x, y, diameter } => Some(Circle::new((*x, *y), diameter / 2.0)),
        FlawShape::Area { .. } => None,
    };
    if let Some(circle) = circle {
        pen.round(circle, fill);
    }
    pen.fill(&area.fill, fill);
    for line in &area.lines {
        pen.segment(*line, (1.0, hatch));
    }
    let edge = (1.5, pen.palette.pencil);
    match circle {
        Some(circle) => pen.circle(circle, edge),
        None if area.is_sound() => pen.outline(&area.corners, edge),
        None => broken(pen, &area.corners),
    }
}

/// Paints the label of each flaw: inside it where there is room, otherwise below it.
fn flaw_labels(pen: &mut Pen<'_>, drawn: &Drawn) {
    let is_crowd = drawn.flaws().count() >= CROWD;
    for ((flaw, area), number) in drawn.flaws().zip(1_usize..) {
        let Some(bounds) = area.bounds else {
            continue;
        };
        let words = flaw_label(flaw.kind, number, is_crowd);
        let size = pen.plate_size(&words);
        let has_room = pen.camera.length(bounds.width()) > size.x + 6.0
            && pen.camera.length(bounds.height()) > size.y + 6.0;
        let (at, anchor) = if has_room {
            (pen.camera.screen(bounds.center()), Align2::CENTER_CENTER)
        } else {
            let below = Point::new(bounds.center().x, bounds.y0);
            (
                pen.camera.screen(below) + vec2(0.0, 6.0),
                Align2::CENTER_TOP,
            )
        };
        if pen.frame().contains(at) {
            pen.plate(at, anchor, &words, pen.palette.ink);
        }
    }
}

/// Paints the origin of the blank's coordinates, with arrows along x and y.
fn axes(pen: &mut Pen<'_>) {
    let at = pen.camera.screen(Point::ORIGIN);
    if !pen.frame().contains(at) {
        return;
    }
    for (way, side, anchor, words) in [
        (vec2(34.0, 0.0), vec2(0.0, 1.0), Align2::LEFT_CENTER, "x"),
        (vec2(0.0, -34.0), vec2(1.0, 0.0), Align2::CENTER_BOTTOM, "y"),
    ] {
        let tip = at + way;
        let back = tip - way.normalized() * 7.0;
        for stroke in [(4.5, pen.palette.contrast), (2.0, pen.palette.ink)] {
            pen.line([at, tip], stroke);
            for side in [side * 4.0, side * -4.0] {
                pen.line([back + side, tip], stroke);
            }
        }
        pen.plate(tip + way.normalized() * 4.0, anchor, words, pen.palette.ink);
    }
}

/// Highlights the thing under the pointer that can be dragged.
fn hot(pen: &mut Pen<'_>, scene: &Scene<'_>) {
    let Some(grip) = scene.grip else { return };
    let stock = &scene.board.stock;
    let Some(at) = place(stock, scene.pieces.pin(), grip) else {
        return;
    };
    for stroke in [(5.0, pen.palette.casing), (2.5, pen.palette.hover)] {
        let middle = pen.camera.screen(at);
        match grip {
            Grip::Pin => pen.ring(middle, 14.0, stroke),
            Grip::Corner(_) | Grip::FlawCorner(..) => pen.ring(middle, 9.0, stroke),
            Grip::Flaw(flaw) => {
                let found = scene.drawn.flaws().nth(flaw);
                let few = found.filter(|(_, area)| area.corners.len() <= MOST_HANDLES);
                if let Some((_, area)) = few {
                    pen.outline(&area.corners, stroke);
                }
            }
        }
    }
}

/// Paints the small square by which a corner is dragged.
fn handle(pen: &mut Pen<'_>, at: Point) {
    let place = Rect::from_center_size(pen.camera.screen(at), Vec2::splat(8.0));
    let edge = Stroke::new(1.5, pen.palette.pencil);
    pen.add(Shape::rect_filled(place, 1.0, pen.palette.handle));
    pen.add(Shape::rect_stroke(place, 1.0, edge, StrokeKind::Middle));
}
