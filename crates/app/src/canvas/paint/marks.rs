//! Marks that point holes and players out: halos, rings, badges. Never by color alone.

use board::{Hole, HoleId, Role};
use egui::{Align2, Pos2, Vec2};
use geometry::{Circle, PocketShape, Point, point_at};

use super::{BoardView, holes, tints};
use crate::camera::Camera;
use crate::canvas::pick;
use crate::color::ink_on;
use crate::painter::Pen;

/// Radius of a player's badge, and its middle's distance from the board's edge, in points of the screen.
const BADGE: (f32, f32) = (11.0, 20.0);
/// Least radius of the badge beside a start pocket.
const SMALL_BADGE: f32 = 7.5;
/// Least radius of a bore on the screen for a badge to stand beside it.
const LEAST_BORE: f32 = 2.5;

/// The glow under holes that a finding is about.
pub fn halos(pen: &mut Pen<'_>, view: &BoardView<'_>) {
    let color = pen.palette.halo;
    for_each(pen, view, view.lit, |pen, at, radius| {
        pen.disc(at, radius + 12.0, color);
    });
}

/// Rings around holes that are lit, selected or pointed at.
pub fn rings(pen: &mut Pen<'_>, view: &BoardView<'_>, pointed: Option<HoleId>) {
    for_each(pen, view, view.lit, lit);
    for_each(pen, view, view.chosen, selected);
    for_each(pen, view, pointed.as_slice(), |pen, at, radius| {
        let (hover, contrast) = (pen.palette.hover, pen.palette.casing);
        pen.ring(at, radius + 1.5, (3.6, contrast));
        pen.ring(at, radius + 1.5, (2.0, hover));
    });
}

/// Whether a place on the board lies on the number of a player beside it.
pub fn badge_at(view: &BoardView<'_>, camera: Camera, at: Point) -> bool {
    let reach = view.board().blank.radius() + camera.mm(BADGE.1);
    let mut axes = view
        .layout()
        .sectors
        .iter()
        .map(|sector| sector.place(Point::new(0.0, reach)));
    axes.any(|place| place.distance(at) <= camera.mm(BADGE.0))
}

/// Each player's number, in the player's color, beside the board on the axis, and the mark beside the start pocket.
pub fn badges(pen: &mut Pen<'_>, view: &BoardView<'_>) {
    let reach = view.board().blank.radius() + pen.camera.mm(BADGE.1);
    let around = pen.camera.length(core::f64::consts::TAU * reach);
    if around < 2.2 * BADGE.0 * view.board().players as f32 {
        return;
    }
    for (player, sector) in (1..).zip(&view.layout().sectors) {
        badge(pen, player, sector.place(Point::new(0.0, reach)), BADGE.0);
        // A mark that is made on the board is there already.
        if view.board().colors.marks.is_none()
            && let Some((place, radius)) = beside_pocket(pen, view, player)
        {
            marked(pen, view, player, place, radius);
        }
    }
}

fn badge(pen: &mut Pen<'_>, player: u32, place: Point, radius: f32) {
    let Some((at, _)) = pen.seen(Circle::new(place, 0.0), radius) else {
        return;
    };
    let (color, casing) = (pen.palette.player(player), pen.palette.casing);
    pen.disc(at, radius + 1.0, casing);
    pen.disc(at, radius, color);
    let (text, ink) = (player.to_string(), ink_on(color));
    pen.words(at, Align2::CENTER_CENTER, &text, 1.2 * radius, ink);
}

/// A badge with the player's mark in place of the number.
fn marked(pen: &mut Pen<'_>, view: &BoardView<'_>, player: u32, place: Point, radius: f32) {
    let Some((at, _)) = pen.seen(Circle::new(place, 0.0), radius) else {
        return;
    };
    let (color, casing) = (pen.palette.player(player), pen.palette.casing);
    pen.disc(at, radius + 1.0, casing);
    pen.disc(at, radius, color);
    let Some(look) = view.workpiece.players().get(player as usize - 1) else {
        return;
    };
    let within = Circle::new(place, pen.camera.mm(0.72 * radius));
    for part in drawing::mark(look, within, look.color) {
        tints::one(pen, &part, ink_on(color));
    }
}

/// A place for a small badge of a radius on the screen just outside a start pocket, or just inside it, that is
/// clear of every bore.
fn beside_pocket(pen: &Pen<'_>, view: &BoardView<'_>, player: u32) -> Option<(Point, f32)> {
    let spot = view.layout().pocket?;
    let sector = view.layout().sectors.get(player as usize - 1)?;
    let bearing = sector.axis() + spot.bearing;
    let outward = match view.board().pocket.shape {
        // Their rows run square to the axis, wherever they stand.
        PocketShape::Row | PocketShape::Block => sector.axis(),
        PocketShape::Arc | PocketShape::Ring => bearing,
    };
    let (middle, outward) = (
        point_at(spot.radius, bearing),
        point_at(1.0, outward).to_vec2(),
    );
    let holes = (1..=view.board().start).map(|number| HoleId::new(Role::Start, player, number));
    let mouths: Vec<Circle> = holes
        .filter_map(|id| view.layout().hole(id).map(Hole::mouth))
        .collect();
    let bore = pen.camera.length(mouths.first()?.radius);
    // A mark out of view, its badge too, is not worth a search through all bores.
    let reach = |mouth: &Circle| mouth.center.distance(middle);
    let size = mouths.iter().map(reach).fold(0.0, f64::max);
    let seen = pen.seen(Circle::new(middle, size), 4.0 * BADGE.0 + 2.0 * bore);
    if bore < LEAST_BORE || seen.is_none() {
        return None;
    }
    let badge = (0.6 * bore).clamp(SMALL_BADGE, BADGE.0);
    let clear = pen.camera.mm(holes::owner_width(bore) + badge + 3.0);
    let slack = pen.camera.mm(badge + 1.0);
    [outward, -outward].into_iter().find_map(|way| {
        let reach = |mouth: &Circle| (mouth.center - middle).dot(way) + mouth.radius;
        let furthest = mouths.iter().map(reach).fold(f64::NEG_INFINITY, f64::max);
        let place = middle + way * (furthest + clear);
        let free = pick::hole_at(view.layout(), place, slack).is_none();
        free.then_some((place, badge))
    })
}

/// A heavy ring with four ticks.
fn lit(pen: &mut Pen<'_>, at: Pos2, radius: f32) {
    let (color, contrast) = (pen.palette.lit, pen.palette.contrast);
    let around = radius.max(4.0) + 4.0;
    for (width, longer, color) in [(5.0, 1.0, contrast), (3.0, 0.0, color)] {
        pen.ring(at, around, (width, color));
        for toward in [(1.0, 1.0), (1.0, -1.0), (-1.0, 1.0), (-1.0, -1.0)] {
            let toward = Vec2::new(toward.0, toward.1).normalized();
            let ends = [around, around + 7.0 + longer].map(|reach| at + toward * reach);
            pen.line(ends, (width, color));
        }
    }
}

/// A dashed ring.
fn selected(pen: &mut Pen<'_>, at: Pos2, radius: f32) {
    let (color, contrast) = (pen.palette.selected, pen.palette.contrast);
    let around = radius + holes::owner_width(radius) + 3.5;
    pen.ring(at, around, (5.0, contrast));
    pen.dashed_ring(at, around, (2.6, color));
}

fn for_each(
    pen: &mut Pen<'_>,
    view: &BoardView<'_>,
    ids: &[HoleId],
    mark: impl Fn(&mut Pen<'_>, Pos2, f32),
) {
    for hole in ids.iter().filter_map(|&id| view.layout().hole(id)) {
        if let Some((at, radius)) = pen.seen(hole.mouth(), 24.0) {
            mark(pen, at, radius);
        }
    }
}
