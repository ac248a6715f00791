//! The round of wood, its growth rings, and the guides drawn on it.

use board::{Blank, Role};
use drawing::{Layer, Shape};
use egui::{Color32, Pos2, Stroke, Vec2};
use geometry::Point;

use super::{Brush, directions, strip};
use crate::camera::along;
use crate::canvas::BoardView;
use crate::canvas::palette::mix;

/// Growth rings across the board.
const RINGS: u16 = 15;
/// Places along a growth ring at which its bend is worked out.
const BENDS: u16 = 56;

/// The disc: its shadow, the flat, the turn of the roundover, the edge.
pub fn paint(brush: &mut Brush<'_>, blank: Blank) {
    let (at, radius) = (brush.at(Point::ORIGIN), brush.length(blank.radius()));
    let flat = brush.length(blank.flat_radius().max(0.0));
    shadow(brush, at, radius);
    // A little under the roundover, whose corners lie elsewhere.
    disc(brush, at, (flat + 1.0).min(radius));
    grain(brush, at, flat);
    roundover(brush, at, flat, radius);
    let palette = brush.palette;
    if radius - flat > 1.5 {
        brush.ring(at, flat, 1.0, palette.shoulder);
    }
    brush.ring(at, radius, 1.5, palette.edge);
}

/// The plan's guides: sector axes and radius circles; seams and what is hidden in the wood; and the way from space to
/// space.
pub fn guides(brush: &mut Brush<'_>, view: &BoardView<'_>) {
    for (layer, width, color) in [
        (Layer::Seams, 1.5, brush.palette.seam),
        (Layer::Guides, 1.0, brush.palette.guide),
    ] {
        lines(brush, view, layer, width, color);
    }
    track(brush, view);
}

fn lines(brush: &mut Brush<'_>, view: &BoardView<'_>, layer: Layer, width: f32, color: Color32) {
    let items = view.plan.iter().filter(|item| item.layer == layer);
    for item in items {
        match &item.shape {
            Shape::Line(line) => {
                brush.line([line.p0, line.p1].map(|end| brush.at(end)), width, color);
            }
            Shape::Circle(circle) => {
                let radius = brush.length(circle.radius);
                brush.ring(brush.at(circle.center), radius, width, color);
            }
            Shape::Arc(arc) => {
                let way = along(arc, brush.length(arc.radius));
                let way = way.into_iter().map(|at| brush.at(at)).collect();
                brush.add(egui::Shape::line(way, Stroke::new(width, color)));
            }
            // All of it is a line, a circle or an arc; what else a plan holds is shown as wood and bores.
            Shape::Cross { .. } | Shape::Area(_) | Shape::Text(_) => {}
        }
    }
}

/// The way from space to space, left out where spaces are too small to be told apart anyway.
fn track(brush: &mut Brush<'_>, view: &BoardView<'_>) {
    let spaces = view
        .layout
        .holes
        .iter()
        .filter(|hole| hole.name.id().role() == Role::Track);
    let way: Vec<Pos2> = spaces.map(|hole| brush.at(hole.center)).collect();
    let width = brush
        .length(view.board.bores.track.diameter * 0.16)
        .min(5.0);
    if width > 0.8 {
        let stroke = Stroke::new(width, brush.palette.path);
        brush.add(egui::Shape::closed_line(way, stroke));
    }
}

/// A shadow that fades away from the edge, a little to the lower right.
fn shadow(brush: &mut Brush<'_>, at: Pos2, radius: f32) {
    let (dark, reach) = (brush.palette.shadow, 14.0);
    let at = super::toward_light(at, -5.0);
    let (inner, outer) = ((radius - 6.0).max(0.0), radius + reach);
    let pairs = closed(radius, |toward| {
        [
            (at + toward * inner, dark),
            (at + toward * outer, Color32::TRANSPARENT),
        ]
    });
    brush.add(strip(pairs));
}

/// The flat, a little lighter toward the light.
fn disc(brush: &mut Brush<'_>, at: Pos2, radius: f32) {
    let flat = brush.palette.flat;
    let pairs = closed(radius, |toward| {
        [
            (at, flat[1]),
            (at + toward * radius, slope(toward, [flat[0], flat[2]])),
        ]
    });
    brush.add(strip(pairs));
}

/// The turn of the roundover: it takes up the flat's color, and is light or dark as it faces.
fn roundover(brush: &mut Brush<'_>, at: Pos2, flat: f32, radius: f32) {
    let palette = brush.palette;
    let middle = flat + 0.55 * (radius - flat);
    let start = |toward| slope(toward, [palette.flat[0], palette.flat[2]]);
    let end = |toward| slope(toward, palette.turn);
    let half = |toward| mix(start(toward), end(toward), 0.6);
    let last = |toward| mix(end(toward), palette.edge, 0.35);
    brush.add(strip(closed(radius, |toward| {
        [
            (at + toward * flat, start(toward)),
            (at + toward * middle, half(toward)),
        ]
    })));
    brush.add(strip(closed(radius, |toward| {
        [
            (at + toward * middle, half(toward)),
            (at + toward * radius, last(toward)),
        ]
    })));
}

/// Growth rings of a slab sawn off the heart: each sharp on one side and fading to the next.
fn grain(brush: &mut Brush<'_>, at: Pos2, radius: f32) {
    let dark = brush.palette.grain;
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
        brush.add(strip(pairs));
    }
}

/// How high above the middle a growth ring lies at a place along it, in board radii; never two at one place.
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

/// The color of a slope that faces a way: the first toward the light, the second away from it.
fn slope(facing: Vec2, [light, dark]: [Color32; 2]) -> Color32 {
    let away = facing.dot(Vec2::new(0.62, 0.78));
    mix(light, dark, 0.5 + 0.5 * away)
}
