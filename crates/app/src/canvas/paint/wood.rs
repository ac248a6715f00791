//! The round of wood, its growth rings, and the guides drawn on it.

use board::{Blank, Role};
use drawing::Layer;
use egui::epaint::Mesh;
use egui::{Color32, Pos2, Shape, Stroke, TextureId, Vec2, pos2};
use geometry::Point;

use super::{BoardView, toward_light};
use crate::color::mix;
use crate::painter::{Pen, directions};
use crate::palette::Palette;

/// Cover of the roundover where figured wood is seen through it.
const THIN: f32 = 0.6;
/// Growth rings across the board.
const RINGS: u16 = 15;
/// Places along a growth ring at which its bend is worked out.
const BENDS: u16 = 56;

/// The disc: its shadow, the flat, the turn of the roundover, the edge.
pub fn paint(pen: &mut Pen<'_>, blank: Blank, wood: Option<TextureId>) {
    let (at, radius) = (
        pen.camera.screen(Point::ORIGIN),
        pen.camera.length(blank.radius()),
    );
    let flat = pen.camera.length(blank.flat_radius().max(0.0));
    shadow(pen, at, radius);
    // A little under the roundover, whose corners lie elsewhere.
    if let Some(wood) = wood {
        pen.add(figured(at, radius, wood));
        light(pen, at, flat);
        roundover(pen, at, flat, radius, THIN);
    } else {
        disc(pen, at, (flat + 1.0).min(radius));
        grain(pen, at, flat);
        roundover(pen, at, flat, radius, 1.0);
    }
    let palette = pen.palette;
    if radius - flat > 1.5 {
        pen.ring(at, flat, (1.0, palette.shoulder));
    }
    pen.ring(at, radius, (1.5, palette.edge));
}

/// The plan's guides: sector axes and radius circles; seams and parts hidden in the wood; and the way from space to space.
pub fn guides(pen: &mut Pen<'_>, view: &BoardView<'_>) {
    let (hidden, guide) = (pen.palette.seam, pen.palette.guide);
    for item in view.plan.iter().filter(|item| item.layer == Layer::Seams) {
        pen.outlined(item, (1.5, hidden));
    }
    for item in view.plan.iter().filter(|item| item.layer == Layer::Guides) {
        pen.shape(&item.shape, (1.0, guide));
    }
    track(pen, view);
}

/// The way from space to space, left out where spaces are too small to be distinguished.
fn track(pen: &mut Pen<'_>, view: &BoardView<'_>) {
    let spaces = view
        .layout()
        .holes
        .iter()
        .filter(|hole| hole.name.id().role() == Role::Track);
    let way: Vec<Pos2> = spaces.map(|hole| pen.camera.screen(hole.center)).collect();
    let width = pen
        .camera
        .length(view.board().bores.track.diameter * 0.16)
        .min(5.0);
    if width > 0.8 {
        let stroke = Stroke::new(width, pen.palette.track);
        pen.add(Shape::closed_line(way, stroke));
    }
}

/// A shadow that fades away from the edge, a little to the lower right.
fn shadow(pen: &mut Pen<'_>, at: Pos2, radius: f32) {
    let (dark, reach) = (pen.palette.shadow, 14.0);
    let at = toward_light(at, -5.0);
    let (inner, outer) = ((radius - 6.0).max(0.0), radius + reach);
    let pairs = closed(radius, |toward| {
        [
            (at + toward * inner, dark),
            (at + toward * outer, Color32::TRANSPARENT),
        ]
    });
    pen.add(strip(pairs));
}

/// The flat, a little lighter toward the light.
fn disc(pen: &mut Pen<'_>, at: Pos2, radius: f32) {
    let palette = pen.palette;
    let pairs = closed(radius, |toward| {
        [
            (at, palette.wood),
            (at + toward * radius, flat_slope(palette, toward)),
        ]
    });
    pen.add(strip(pairs));
}

/// A disc of the wood's picture, which covers the square around it.
fn figured(at: Pos2, radius: f32, wood: TextureId) -> Mesh {
    let mut mesh = Mesh::with_texture(wood);
    let mut corner = |toward: Vec2| {
        mesh.vertices.push(egui::epaint::Vertex {
            pos: at + toward * radius,
            uv: pos2(0.5, 0.5) + toward * 0.5,
            color: Color32::WHITE,
        });
    };
    corner(Vec2::ZERO);
    let rim: Vec<Vec2> = directions(radius)
        .chain(core::iter::once(Vec2::RIGHT))
        .collect();
    for toward in &rim {
        corner(*toward);
    }
    for next in 1..rim.len() as u32 {
        mesh.add_triangle(0, next, next + 1);
    }
    mesh
}

/// A little light over the flat, from the upper left.
fn light(pen: &mut Pen<'_>, at: Pos2, radius: f32) {
    let palette = pen.palette;
    let pairs = closed(radius, |toward| {
        let edge = flat_slope(palette, toward).gamma_multiply(0.2);
        [(at, Color32::TRANSPARENT), (at + toward * radius, edge)]
    });
    pen.add(strip(pairs));
}

/// The turn of the roundover: it takes up the flat's color, and is light or dark as it faces.
fn roundover(pen: &mut Pen<'_>, at: Pos2, flat: f32, radius: f32, cover: f32) {
    let palette = pen.palette;
    let middle = flat + 0.55 * (radius - flat);
    let start = |toward| flat_slope(palette, toward);
    let end = |toward| slope(toward, palette.turn_lit, palette.turn_shade);
    let half = |toward| mix(start(toward), end(toward), 0.6);
    let last = |toward| mix(end(toward), palette.edge, 0.35);
    let covering = |color: Color32| color.gamma_multiply(cover);
    // Where it lets the wood through, it begins from nothing, so that no line is seen.
    let start = |toward| {
        if cover < 1.0 {
            Color32::TRANSPARENT
        } else {
            start(toward)
        }
    };
    pen.add(strip(closed(radius, |toward| {
        [
            (at + toward * flat, start(toward)),
            (at + toward * middle, covering(half(toward))),
        ]
    })));
    pen.add(strip(closed(radius, |toward| {
        [
            (at + toward * middle, covering(half(toward))),
            (at + toward * radius, covering(last(toward))),
        ]
    })));
}

/// Growth rings of a slab sawn off the heart: each sharp on one side and fading to the next.
fn grain(pen: &mut Pen<'_>, at: Pos2, radius: f32) {
    let dark = pen.palette.growth;
    for ring in 0..RINGS {
        let ring = f32::from(ring);
        let pairs = (0..=BENDS).map(|bend| {
            let toward = Vec2::angled(core::f32::consts::PI * f32::from(bend) / f32::from(BENDS));
            // Half a turn ends a hair below zero.
            let (x, reach) = (toward.x, toward.y.max(0.0));
            let height = |ring: f32| growth(ring, x).clamp(-reach, reach);
            let place = |height: f32| at + Vec2::new(x, height) * radius;
            let strength = 0.55 + 0.45 * (ring * 2.7).sin();
            [
                (place(height(ring)), dark.gamma_multiply(strength)),
                (place(height(ring + 1.0)), Color32::TRANSPARENT),
            ]
        });
        pen.add(strip(pairs));
    }
}

/// Height of a growth ring above the middle at a place along it, in board radii; never two at one place.
fn growth(ring: f32, along: f32) -> f32 {
    let spread = 2.2 / f32::from(RINGS);
    let even = (ring - f32::from(RINGS) / 2.0) * spread;
    let uneven = 0.28 * spread * (ring * 1.9).sin();
    let bow = 0.10 * (along * 1.7 + 0.4).sin() + 0.018 * (along * 5.3 + ring * 0.35).sin();
    even + uneven + bow
}

/// Corner pairs all around, the first once more at the end.
fn closed(
    radius: f32,
    pair: impl Fn(Vec2) -> [(Pos2, Color32); 2],
) -> impl Iterator<Item = [(Pos2, Color32); 2]> {
    directions(radius)
        .chain(core::iter::once(Vec2::RIGHT))
        .map(pair)
}

fn flat_slope(palette: &Palette, facing: Vec2) -> Color32 {
    slope(facing, palette.wood_lit, palette.wood_shade)
}

/// The color of a slope that faces a way: the first toward the light, the second away from it.
fn slope(facing: Vec2, lit: Color32, shade: Color32) -> Color32 {
    let away = facing.dot(Vec2::new(0.62, 0.78));
    mix(lit, shade, 0.5 + 0.5 * away)
}

/// Joins every two neighbors of a row of corner pairs by two triangles.
fn strip(pairs: impl Iterator<Item = [(Pos2, Color32); 2]>) -> Mesh {
    let mut mesh = Mesh::default();
    for (pair, ends) in pairs.enumerate() {
        for (at, color) in ends {
            mesh.colored_vertex(at, color);
        }
        if pair > 0 {
            let first = 2 * (pair as u32 - 1);
            mesh.add_triangle(first, first + 1, first + 2);
            mesh.add_triangle(first + 1, first + 2, first + 3);
        }
    }
    mesh
}
