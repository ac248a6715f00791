//! The picture: wood and flaws, and over them what is cut from the blank.

use board::{Board, FlawShape, StockFlaw};
use egui::{Align2, Color32, Pos2, Stroke, vec2};
use geometry::{Circle, Point};

use super::BlankSeen;
use super::cut;
use super::drawn::{Area, Drawn};
use super::grip::{Grip, MOST_HANDLES, handles, place};
use super::pen::Pen;
use super::pieces::Pieces;
use super::words::flaw_label;

/// Flaws in a blank from which they are labeled by letters.
const CROWD: usize = 13;
/// Least room between numbers of corners, in points.
const NUMBERS: f32 = 22.0;

/// What there is to paint.
pub struct Scene<'a> {
    pub board: &'a Board,
    pub seen: &'a BlankSeen<'a>,
    pub drawn: &'a Drawn,
    pub pieces: Pieces<'a>,
    /// Whether the board is stopped for what the blank gives.
    pub is_stopped: bool,
    /// What is under the pointer, or dragged.
    pub grip: Option<Grip>,
}

/// The whole picture, from the wood up.
pub fn paint(pen: &Pen<'_>, scene: &Scene<'_>) {
    let board = scene.board;
    if let Some(wood) = scene.drawn.wood() {
        wood_under(pen, wood);
    }
    if let Pieces::Whole(pin) = scene.pieces {
        pen.disc(Circle::new(pin, board.blank.radius()), pen.palette.board);
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
        pen.handle(corner);
    }
    flaw_labels(pen, scene.drawn);
    hot(pen, scene);
}

fn wood_under(pen: &Pen<'_>, wood: &Area) {
    pen.fill(&wood.fill, pen.palette.wood);
    for line in &wood.lines {
        pen.line(*line, 1.0, pen.palette.grain);
    }
}

fn wood_edge(pen: &Pen<'_>, wood: &Area) {
    if wood.is_sound {
        pen.path(&wood.corners, true, 2.0, pen.palette.line);
    } else {
        broken(pen, &wood.corners);
    }
}

/// Corners that make no outline: an open line, with the numbers that the sentence about it uses.
fn broken(pen: &Pen<'_>, corners: &[Point]) {
    pen.path(corners, false, 4.0, pen.palette.casing);
    pen.path(corners, false, 2.0, pen.palette.stop);
    let mut last = None::<Pos2>;
    for (corner, number) in corners.iter().zip(1_usize..) {
        let at = pen.camera.screen(*corner);
        let is_seen = pen.camera.frame.contains(at);
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

fn flaw_fill(pen: &Pen<'_>, flaw: &StockFlaw, area: &Area) {
    let (fill, hatch) = pen.palette.flaw(flaw.kind);
    let circle = match &flaw.shape {
        FlawShape::Round { x, y, diameter } => Some(Circle::new((*x, *y), diameter / 2.0)),
        FlawShape::Area { .. } => None,
    };
    if let Some(circle) = circle {
        pen.disc(circle, fill);
    }
    pen.fill(&area.fill, fill);
    for line in &area.lines {
        pen.line(*line, 1.0, hatch);
    }
    match circle {
        Some(circle) => pen.ring(circle, 1.5, pen.palette.line),
        None if area.is_sound => pen.path(&area.corners, true, 1.5, pen.palette.line),
        None => broken(pen, &area.corners),
    }
}

/// Word and number of each flaw: in it where there is room, else below it.
fn flaw_labels(pen: &Pen<'_>, drawn: &Drawn) {
    let is_crowd = drawn.flaws().count() >= CROWD;
    for ((flaw, area), number) in drawn.flaws().zip(1_usize..) {
        let corners = area.corners.iter();
        let bounds = corners
            .map(|at| kurbo::Rect::from_points(*at, *at))
            .reduce(|all, corner| all.union(corner));
        let Some(bounds) = bounds else { continue };
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
        if pen.camera.frame.contains(at) {
            pen.plate(at, anchor, &words, pen.palette.ink);
        }
    }
}

/// Where the blank's numbers begin, and which way they run.
fn axes(pen: &Pen<'_>) {
    let at = pen.camera.screen(Point::ORIGIN);
    if !pen.camera.frame.contains(at) {
        return;
    }
    for (way, side, anchor, words) in [
        (vec2(34.0, 0.0), vec2(0.0, 1.0), Align2::LEFT_CENTER, "x"),
        (vec2(0.0, -34.0), vec2(1.0, 0.0), Align2::CENTER_BOTTOM, "y"),
    ] {
        let tip = at + way;
        let back = tip - way.normalized() * 7.0;
        for (width, color) in [(4.5, pen.palette.casing), (2.0, pen.palette.ink)] {
            let stroke = Stroke::new(width, color);
            pen.painter.line_segment([at, tip], stroke);
            for side in [side * 4.0, side * -4.0] {
                pen.painter.line_segment([back + side, tip], stroke);
            }
        }
        pen.plate(tip + way.normalized() * 4.0, anchor, words, pen.palette.ink);
    }
}

/// What is under the pointer and can be dragged.
fn hot(pen: &Pen<'_>, scene: &Scene<'_>) {
    let Some(grip) = scene.grip else { return };
    let stock = &scene.board.stock;
    let Some(at) = place(stock, scene.pieces.pin(), grip) else {
        return;
    };
    let ring = |width: f32, color: Color32| match grip {
        Grip::Pin => pen.mark(at, 14.0, width, color),
        Grip::Corner(_) | Grip::FlawCorner(..) => pen.mark(at, 9.0, width, color),
        Grip::Flaw(flaw) => {
            let found = scene.drawn.flaws().nth(flaw);
            if let Some((_, area)) = found.filter(|(_, area)| area.corners.len() <= MOST_HANDLES) {
                pen.path(&area.corners, true, width, color);
            }
        }
    };
    ring(5.0, pen.palette.hot_casing);
    ring(2.5, pen.palette.hot);
}
