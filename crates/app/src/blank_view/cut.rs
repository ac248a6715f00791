//! The pieces cut from the blank: the board, half of it, or strips, and the largest there could be.

use board::{show_least, show_most};
use core::f32::consts::FRAC_1_SQRT_2 as DIAGONAL;
use drawing::Layer;
use egui::{Align2, vec2};
use geometry::{Angle, Arc, Circle, HalfDisc, Point, Side, StripPlace};
use workshop::panel_width;

use super::Scene;
use super::pieces::Pieces;
use crate::painter::Pen;

/// Everything that is cut from the blank.
pub fn paint(pen: &mut Pen<'_>, scene: &Scene<'_>) {
    match scene.pieces {
        Pieces::None => {}
        Pieces::Whole(pin) => whole(pen, scene, pin),
        Pieces::Half(half, most) => half_board(pen, scene, half, most),
        Pieces::Strips(places) => strips(pen, scene, places),
    }
}

/// The board in one piece, and the largest one there could be.
fn whole(pen: &mut Pen<'_>, scene: &Scene<'_>, pin: Point) {
    let (board, pencil) = (scene.board, pen.palette.pencil);
    pen.circle(Circle::new(pin, panel_width(board) / 2.0), (1.0, pencil));
    edge(
        pen,
        scene.is_stopped,
        Circle::new(pin, board.blank.radius()),
    );
    pen.moved(pin.to_vec2(), |pen| {
        let plan = scene.seen.plan.iter();
        for seam in plan.filter(|item| item.layer == Layer::Seams) {
            pen.shape(&seam.shape, (1.5, pencil));
        }
        for hole in &scene.seen.workpiece.layout().holes {
            pen.round(hole.mouth(), pen.palette.bore);
        }
    });
    most(pen, scene);
    center_pin(pen, pin);
}

/// The finished edge; one that does not fit is red and doubled.
fn edge(pen: &mut Pen<'_>, is_stopped: bool, circle: Circle) {
    if is_stopped {
        pen.circle(circle, (5.5, pen.palette.contrast));
        pen.circle(circle, (3.5, pen.palette.lit));
    } else {
        pen.circle(circle, (2.0, pen.palette.pencil));
    }
}

/// The largest disc of sound wood, and the board that it gives.
fn most(pen: &mut Pen<'_>, scene: &Scene<'_>) {
    let Some(plan) = scene.seen.workpiece.stock() else {
        return;
    };
    let Some(best) = &plan.best else { return };
    let at = pen.camera.screen(best.circle.center);
    let radius = pen.camera.length(best.circle.radius);
    let color = pen.palette.selected;
    pen.dashed_ring(at, radius, (4.5, pen.palette.contrast));
    pen.dashed_ring(at, radius, (2.2, color));
    let largest = show_most(plan.largest_board(scene.board), scene.board.units);
    let words = format!("largest board {largest}");
    // Low on the right, where a slab has room beside the disc.
    let beside = at + (radius + 4.0) * vec2(DIAGONAL, DIAGONAL);
    pen.plate(beside, Align2::LEFT_TOP, &words, color);
}

fn center_pin(pen: &mut Pen<'_>, pin: Point) {
    let (at, stroke) = (pen.camera.screen(pin), (1.5, pen.palette.pencil));
    pen.disc(at, 9.0, pen.palette.handle);
    pen.ring(at, 9.0, stroke);
    pen.cross(at, 13.0, stroke);
}

/// One of two leaves: half a board on it, the seam along its straight side, and the largest half there could be.
fn half_board(pen: &mut Pen<'_>, scene: &Scene<'_>, half: &HalfDisc, halves: f64) {
    let board = scene.board;
    let (palette, is_above) = (pen.palette, half.side == Side::Above);
    let of_radius = |radius| Arc {
        center: half.center,
        radius,
        start: Angle::degrees(if is_above { -90.0 } else { 90.0 }),
        sweep: Angle::degrees(180.0),
    };
    let (edge, most) = (of_radius(board.blank.radius()), of_radius(half.radius));
    let color = if halves < board.blank.diameter {
        palette.lit
    } else {
        palette.pencil
    };
    pen.polygon(&pen.along(&edge), scene.laid(palette));
    pen.arc(of_radius(panel_width(board) / 2.0), (1.0, palette.pencil));
    for (arc, width, color) in [(edge, 2.5, color), (most, 2.2, palette.selected)] {
        pen.arc(arc, (width + 2.0, palette.contrast));
        pen.arc(arc, (width, color));
    }
    seam(pen, half);
    let words = format!(
        "largest board of two halves {}",
        show_most(halves, board.units)
    );
    let (down, anchor) = if is_above {
        (-DIAGONAL, Align2::LEFT_BOTTOM)
    } else {
        (DIAGONAL, Align2::LEFT_TOP)
    };
    let reach = pen.camera.length(half.radius) + 4.0;
    let beside = pen.camera.screen(half.center) + reach * vec2(DIAGONAL, down);
    pen.plate(beside, anchor, &words, palette.selected);
}

/// The straight side of half a board, with the center pin on it.
fn seam(pen: &mut Pen<'_>, half: &HalfDisc) {
    let reach = kurbo::Vec2::new(half.radius, 0.0);
    let ends = [half.center - reach, half.center + reach];
    let tick = kurbo::Vec2::new(0.0, pen.camera.mm(8.0));
    let pin = [half.center - tick, half.center + tick];
    for stroke in [(4.5, pen.palette.contrast), (2.0, pen.palette.ink)] {
        pen.segment(ends, stroke);
        pen.segment(pin, stroke);
    }
    let [_, right] = ends.map(|end| pen.camera.screen(end));
    let within = right - vec2(12.0, 0.0);
    pen.plate(within, Align2::RIGHT_CENTER, "seam", pen.palette.ink);
}

/// Strips where they are sawn, each with its number from the lowest in the board up.
fn strips(pen: &mut Pen<'_>, scene: &Scene<'_>, places: &[StripPlace]) {
    let (units, laid) = (scene.board.units, scene.laid(pen.palette));
    for place in places {
        let (from, size) = (place.corner, place.size);
        let to = Point::new(from.x + size.length, from.y + size.width);
        let corners = [from, Point::new(to.x, from.y), to, Point::new(from.x, to.y)];
        pen.polygon(&corners, laid);
        pen.outline(&corners, (4.5, pen.palette.contrast));
        pen.outline(&corners, (2.2, pen.palette.selected));
        let number = format!("strip {}", place.strip + 1);
        let shown = |mm| show_least(mm, units);
        let all = format!(
            "{number}   at least {} × {}",
            shown(size.length),
            shown(size.width)
        );
        let has_room = pen.plate_size(&all).x < pen.camera.length(size.length);
        let words = if has_room { all } else { number };
        let middle = pen.camera.screen(from.midpoint(to));
        pen.plate(middle, Align2::CENTER_CENTER, &words, pen.palette.selected);
    }
}
