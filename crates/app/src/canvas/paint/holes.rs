//! The bores: dark wells, lit from the upper left, in the colors of their players.

use board::{Center, Hole, HoleId, Role};
use egui::{Align2, Color32, Pos2};
use geometry::Point;

use super::{BoardView, tints, toward_light};
use crate::color::{ink_on, screen};
use crate::painter::Pen;

/// Radius on the screen below which a bore is one disc.
const PLAIN: f32 = 3.0;
/// Radius on the screen from which a bore shows its floor.
const DEEP: f32 = 5.0;
/// Smallest size of type that can be read, and the largest a name is given.
const TYPE: (f32, f32) = (9.0, 20.0);

/// All bores in view, the marks of turn-in spaces below them, names above.
pub fn paint(pen: &mut Pen<'_>, view: &BoardView<'_>) {
    // Colors planned for the wood replace those that only show the player of a hole.
    let is_colored = view.board().colors.colors_wood();
    if !is_colored {
        turn_ins(pen, view);
    }
    for hole in &view.layout().holes {
        let Some((at, radius)) = pen.seen(hole.mouth(), 8.0) else {
            continue;
        };
        let id = hole.name.id();
        if matches!(id.role(), Role::Home | Role::Start) && !is_colored {
            owner(pen, at, radius, id.player());
        }
        well(pen, at, radius, id);
    }
    tints::paint(pen, view, true);
    names(pen, view);
    center(pen, view.board().drilled_center());
}

/// The names in the bores, where they are wanted.
fn names(pen: &mut Pen<'_>, view: &BoardView<'_>) {
    if !view.show_names {
        return;
    }
    for hole in &view.layout().holes {
        let id = hole.name.id();
        // Below this not even one figure would be readable.
        if let Some((at, radius)) = pen.seen(hole.mouth(), 8.0)
            && id != HoleId::CENTER
            && radius >= 0.75 * TYPE.0
        {
            let color = match within(view, hole) {
                Some(color) => ink_on(color),
                None => pen.palette.bore_name,
            };
            name(pen, at, radius, hole, color);
        }
    }
}

/// The color within a bore, if it has one.
fn within(view: &BoardView<'_>, hole: &Hole) -> Option<Color32> {
    let mut colored = view.tints.iter().filter(|tint| tint.in_bore);
    let is_it = |tint: &&drawing::Tinted| tint.shape == drawing::Shape::Circle(hole.mouth());
    colored.find(is_it).map(|tint| screen(tint.color))
}

/// Width of the colored ring around a bore of a radius on the screen.
pub fn owner_width(radius: f32) -> f32 {
    (0.34 * radius).clamp(1.4, 7.0)
}

/// A disc in a player's color, larger than the bore that comes onto it: a ring. From the ninth player on a
/// thin line parts the ring, from the seventeenth two.
fn owner(pen: &mut Pen<'_>, at: Pos2, radius: f32, player: u32) {
    let (color, casing) = (pen.palette.player(player), pen.palette.casing);
    if radius < PLAIN {
        return;
    }
    let width = owner_width(radius);
    pen.disc(at, radius + width + 0.8, casing);
    pen.disc(at, radius + width, color);
    let parts = player.saturating_sub(1) / 8;
    for part in (1..=parts).rev() {
        let place = radius + width * part as f32 / (parts + 1) as f32;
        pen.disc(at, place + 0.6, casing);
        pen.disc(at, place - 0.6, color);
    }
}

/// The bore itself.
fn well(pen: &mut Pen<'_>, at: Pos2, radius: f32, id: HoleId) {
    let palette = pen.palette;
    if radius < PLAIN {
        let color = match id.role() {
            Role::Home | Role::Start => palette.player(id.player()),
            Role::Track | Role::Extra | Role::Center => palette.bore,
        };
        pen.disc(at, radius.max(0.6), color);
        return;
    }
    pen.disc(
        toward_light(at, -0.07 * radius - 0.4),
        radius,
        palette.bore_lip,
    );
    pen.disc(at, radius, palette.bore);
    if radius >= DEEP {
        pen.disc(
            toward_light(at, -0.12 * radius),
            0.84 * radius,
            palette.bore_floor,
        );
    }
}

/// A stroke in the player's color from each turn-in space toward the home lane.
fn turn_ins(pen: &mut Pen<'_>, view: &BoardView<'_>) {
    let turn_in = geometry::turn_in(view.board().spaces);
    for player in 1..=view.board().players {
        let hole = |role, number| view.layout().hole(HoleId::new(role, player, number));
        let (Some(space), Some(home)) = (hole(Role::Track, turn_in), hole(Role::Home, 1)) else {
            continue;
        };
        let ends = [
            pen.camera.screen(space.center),
            pen.camera.screen(home.center),
        ];
        let width = pen.camera.length(0.42 * space.bore.diameter).min(12.0);
        if width < 1.5 {
            continue;
        }
        let (casing, color) = (pen.palette.casing, pen.palette.player(player));
        pen.line(ends, (width + 1.6, casing));
        pen.line(ends, (width, color));
    }
}

/// The name in the bore: all of it where it fits, else the number alone, else nothing.
fn name(pen: &mut Pen<'_>, at: Pos2, radius: f32, hole: &Hole, color: Color32) {
    let name = hole.name.to_string();
    let number = name.rsplit('-').next().unwrap_or_default();
    // Names of four letters as if of five, so that all roles change over together.
    let readable = [(name.as_str(), name.len().max(5)), (number, number.len())]
        .into_iter()
        .find_map(|(text, letters)| {
            // Letters and figures are on average 0.62 of the type's size wide.
            let size = (1.6 * radius / (0.62 * letters as f32)).min(1.1 * radius);
            (size >= TYPE.0).then(|| (text, size.min(TYPE.1).floor()))
        });
    if let Some((text, size)) = readable {
        pen.words(at, Align2::CENTER_CENTER, text, size, color);
    }
}

/// The pilot and the cross at the center pin.
fn center(pen: &mut Pen<'_>, center: Center) {
    let at = pen.camera.screen(Point::ORIGIN);
    let palette = pen.palette;
    let bore = center
        .bore()
        .map_or(0.0, |bore| pen.camera.length(bore.radius()));
    if let Center::Hole { pilot, .. } = center {
        let radius = pen.camera.length(pilot / 2.0);
        if radius >= 1.0 {
            pen.disc(at, radius, palette.pilot);
        }
    }
    let arm = pen.camera.length(4.0).max(1.35 * bore).max(4.0);
    pen.cross(at, arm, (1.0, palette.edge));
    let inner = 0.62 * bore;
    if inner >= 2.0 {
        pen.cross(at, inner, (1.0, palette.bore_name));
    }
}
