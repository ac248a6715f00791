//! What is cut from the blank: the board, half of it, or strips, and the largest there could be.

use board::Board;
use core::f32::consts::FRAC_1_SQRT_2 as DIAGONAL;
use drawing::{Layer, Shape};
use egui::{Align2, Stroke, vec2};
use geometry::{Circle, HalfDisc, Point, Side, StripPlace};
use workshop::{Measure, panel_width};

use super::paint::Scene;
use super::pen::Pen;
use super::pieces::Pieces;
use crate::camera::along;

/// Everything that is cut from the blank.
pub fn paint(pen: &Pen<'_>, scene: &Scene<'_>) {
    match scene.pieces {
        Pieces::None => {}
        Pieces::Whole(pin) => whole(pen, scene, pin),
        Pieces::Half(half, most) => half_board(pen, scene.board, half, most),
        Pieces::Strips(places) => strips(pen, scene.board, places),
    }
}

/// The board in one piece, and the largest one there could be.
fn whole(pen: &Pen<'_>, scene: &Scene<'_>, pin: Point) {
    let board = scene.board;
    pen.ring(
        Circle::new(pin, panel_width(board) / 2.0),
        1.0,
        pen.palette.line,
    );
    edge(
        pen,
        scene.is_stopped,
        Circle::new(pin, board.blank.radius()),
    );
    let there = pin.to_vec2();
    for item in &scene.seen.derived.plan {
        if item.layer == Layer::Seams {
            hidden(pen, &item.shape, there);
        }
    }
    for hole in &scene.seen.derived.layout.holes {
        let mouth = hole.mouth();
        pen.disc(
            Circle::new(mouth.center + there, mouth.radius),
            pen.palette.bore,
        );
    }
    most(pen, scene);
    center_pin(pen, pin);
}

/// A seam, or what is hidden in the wood.
fn hidden(pen: &Pen<'_>, shape: &Shape, there: kurbo::Vec2) {
    let color = pen.palette.line;
    match shape {
        Shape::Line(line) => pen.line([line.p0 + there, line.p1 + there], 1.5, color),
        Shape::Circle(circle) => {
            pen.ring(
                Circle::new(circle.center + there, circle.radius),
                1.0,
                color,
            );
        }
        Shape::Arc(arc) => {
            let way = along(arc, pen.camera.length(arc.radius));
            let way: Vec<Point> = way.into_iter().map(|at| at + there).collect();
            pen.path(&way, false, 1.5, color);
        }
        // All of it is a line, a circle or an arc.
        Shape::Cross { .. } | Shape::Area(_) | Shape::Text(_) => {}
    }
}

/// The finished edge; one that does not fit is red and doubled.
fn edge(pen: &Pen<'_>, is_stopped: bool, circle: Circle) {
    if is_stopped {
        pen.ring(circle, 5.5, pen.palette.casing);
        pen.ring(circle, 3.5, pen.palette.stop);
    } else {
        pen.ring(circle, 2.0, pen.palette.line);
    }
}

/// The largest disc of sound wood, and the board that it gives.
fn most(pen: &Pen<'_>, scene: &Scene<'_>) {
    let Some(plan) = scene.seen.derived.blank.plan() else {
        return;
    };
    let Some(best) = &plan.best else { return };
    pen.dashed_ring(best.circle, pen.palette.most);
    let largest = Measure::Mm(plan.largest_board(scene.board)).shown(scene.board.units);
    let at = pen.camera.screen(best.circle.center);
    let reach = pen.camera.length(best.circle.radius) + 4.0;
    // Low on the right, where a slab has room beside the disc.
    let at = at + reach * vec2(DIAGONAL, DIAGONAL);
    pen.plate(
        at,
        Align2::LEFT_TOP,
        &format!("largest board {largest}"),
        pen.palette.most,
    );
}

fn center_pin(pen: &Pen<'_>, pin: Point) {
    let at = pen.camera.screen(pin);
    pen.painter.circle_filled(at, 9.0, pen.palette.handle);
    pen.mark(pin, 9.0, 1.5, pen.palette.line);
    for way in [vec2(13.0, 0.0), vec2(0.0, 13.0)] {
        let stroke = Stroke::new(1.5, pen.palette.line);
        pen.painter.line_segment([at - way, at + way], stroke);
    }
}

/// One of two leaves: half a board on it, the seam along its straight side, and the largest half there could be.
fn half_board(pen: &Pen<'_>, board: &Board, half: &HalfDisc, halves: f64) {
    let (palette, is_above) = (pen.palette, half.side == Side::Above);
    let sweep = if is_above { (0.0, 0.5) } else { (0.5, 1.0) };
    let of_radius = |radius| Circle::new(half.center, radius);
    let (edge, most) = (of_radius(board.blank.radius()), of_radius(half.radius));
    let color = if halves < board.blank.diameter {
        palette.stop
    } else {
        palette.line
    };
    pen.arc_inside(edge, sweep, palette.board);
    pen.arc(
        of_radius(panel_width(board) / 2.0),
        sweep,
        1.0,
        palette.line,
    );
    for (circle, width, color) in [(edge, 2.5, color), (most, 2.2, palette.most)] {
        pen.arc(circle, sweep, width + 2.0, palette.casing);
        pen.arc(circle, sweep, width, color);
    }
    seam(pen, half);
    let words = format!(
        "largest board of two halves {}",
        Measure::Mm(halves).shown(board.units)
    );
    let (down, anchor) = if is_above {
        (-DIAGONAL, Align2::LEFT_BOTTOM)
    } else {
        (DIAGONAL, Align2::LEFT_TOP)
    };
    let reach = pen.camera.length(half.radius) + 4.0;
    let beside = pen.camera.screen(half.center) + reach * vec2(DIAGONAL, down);
    pen.plate(beside, anchor, &words, palette.most);
}

/// The straight side of half a board, with the center pin on it.
fn seam(pen: &Pen<'_>, half: &HalfDisc) {
    let reach = kurbo::Vec2::new(half.radius, 0.0);
    let ends = [half.center - reach, half.center + reach];
    let tick = kurbo::Vec2::new(0.0, pen.camera.mm(8.0));
    let pin = [half.center - tick, half.center + tick];
    for (width, color) in [(4.5, pen.palette.casing), (2.0, pen.palette.ink)] {
        pen.line(ends, width, color);
        pen.line(pin, width, color);
    }
    let [_, right] = ends.map(|end| pen.camera.screen(end));
    let within = right - vec2(12.0, 0.0);
    pen.plate(within, Align2::RIGHT_CENTER, "seam", pen.palette.ink);
}

/// Strips where they are sawn, each with its number from the lowest in the board up.
fn strips(pen: &Pen<'_>, board: &Board, places: &[StripPlace]) {
    for place in places {
        let (from, size) = (place.corner, place.size);
        let to = Point::new(from.x + size.length, from.y + size.width);
        let corners = [from, Point::new(to.x, from.y), to, Point::new(from.x, to.y)];
        pen.fill(&[corners], pen.palette.board);
        pen.path(&corners, true, 4.5, pen.palette.casing);
        pen.path(&corners, true, 2.2, pen.palette.most);
        let number = format!("strip {}", place.strip + 1);
        let shown = |mm| Measure::Mm(mm).shown(board.units);
        let all = format!("{number}   {} × {}", shown(size.length), shown(size.width));
        let has_room = pen.plate_size(&all).x < pen.camera.length(size.length);
        let words = if has_room { all } else { number };
        let middle = pen.camera.screen(from.midpoint(to));
        pen.plate(middle, Align2::CENTER_CENTER, &words, pen.palette.most);
    }
}
