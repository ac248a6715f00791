//! The bores: dark wells, lit from the upper left, in the colors of those who own them.

use board::{Center, Hole, HoleId, Role};
use egui::{Align2, Color32, Pos2};
use geometry::Point;

use super::{Brush, toward_light};
use crate::canvas::BoardView;

/// Radius on the screen below which a bore is one disc.
const PLAIN: f32 = 3.0;
/// Radius on the screen from which a bore shows its floor.
const DEEP: f32 = 5.0;
/// Smallest size of type that can be read, and the largest a name is given.
const TYPE: (f32, f32) = (9.0, 20.0);

/// All bores in view, the marks of turn-in spaces below them, names above.
pub fn paint(brush: &mut Brush<'_>, view: &BoardView<'_>) {
    turn_ins(brush, view);
    for hole in &view.layout.holes {
        let Some((at, radius)) = brush.seen(hole.mouth(), 8.0) else {
            continue;
        };
        let id = hole.name.id();
        if matches!(id.role(), Role::Home | Role::Start) {
            owner(brush, at, radius, id.player());
        }
        well(brush, at, radius, id);
        if view.show_names && id != HoleId::CENTER {
            name(brush, at, radius, hole);
        }
    }
    center(brush, view.board.drilled_center());
}

/// Width of the colored ring around a bore of a radius on the screen.
pub fn owner_width(radius: f32) -> f32 {
    (0.34 * radius).clamp(1.4, 7.0)
}

/// A disc in a player's color, larger than the bore that comes onto it: a ring. From the ninth player on a
/// thin line parts the ring, from the seventeenth two.
fn owner(brush: &mut Brush<'_>, at: Pos2, radius: f32, player: u32) {
    let (color, casing) = (brush.palette.player(player), brush.palette.casing);
    if radius < PLAIN {
        return;
    }
    let width = owner_width(radius);
    brush.disc(at, radius + width + 0.8, casing);
    brush.disc(at, radius + width, color);
    let parts = player.saturating_sub(1) / 8;
    for part in (1..=parts).rev() {
        let place = radius + width * part as f32 / (parts + 1) as f32;
        brush.disc(at, place + 0.6, casing);
        brush.disc(at, place - 0.6, color);
    }
}

/// The bore itself.
fn well(brush: &mut Brush<'_>, at: Pos2, radius: f32, id: HoleId) {
    let palette = brush.palette;
    if radius < PLAIN {
        let color = match id.role() {
            Role::Home | Role::Start => palette.player(id.player()),
            Role::Track | Role::Extra | Role::Center => palette.well,
        };
        brush.disc(at, radius.max(0.6), color);
        return;
    }
    brush.disc(toward_light(at, -0.07 * radius - 0.4), radius, palette.lip);
    brush.disc(at, radius, palette.well);
    if radius >= DEEP {
        brush.disc(
            toward_light(at, -0.12 * radius),
            0.84 * radius,
            palette.floor,
        );
    }
}

/// A stroke in the player's color from each turn-in space toward the home lane.
fn turn_ins(brush: &mut Brush<'_>, view: &BoardView<'_>) {
    let turn_in = geometry::turn_in(view.board.spaces);
    for player in 1..=view.board.players {
        let hole = |role, number| view.layout.hole(HoleId::new(role, player, number));
        let (Some(space), Some(home)) = (hole(Role::Track, turn_in), hole(Role::Home, 1)) else {
            continue;
        };
        let ends = [brush.at(space.center), brush.at(home.center)];
        let width = brush.length(0.42 * space.bore.diameter).min(12.0);
        if width < 1.5 {
            continue;
        }
        let (casing, color) = (brush.palette.casing, brush.palette.player(player));
        brush.line(ends, width + 1.6, casing);
        brush.line(ends, width, color);
    }
}

/// The name in the bore: all of it where it fits, else the number alone, else nothing.
fn name(brush: &mut Brush<'_>, at: Pos2, radius: f32, hole: &Hole) {
    // Below this not even one figure would be readable.
    if radius < 0.75 * TYPE.0 {
        return;
    }
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
        let color = brush.palette.name;
        brush.words(at, Align2::CENTER_CENTER, text, size, color);
    }
}

/// The pilot and the cross at the center pin.
fn center(brush: &mut Brush<'_>, center: Center) {
    let at = brush.at(Point::ORIGIN);
    let palette = brush.palette;
    let bore = center
        .bore()
        .map_or(0.0, |bore| brush.length(bore.radius()));
    if let Center::Hole { pilot, .. } = center {
        let radius = brush.length(pilot / 2.0);
        if radius >= 1.0 {
            brush.disc(at, radius, palette.pilot);
        }
    }
    let arm = brush.length(4.0).max(1.35 * bore).max(4.0);
    cross(brush, at, arm, palette.edge);
    cross(brush, at, 0.62 * bore, palette.name);
}

fn cross(brush: &mut Brush<'_>, at: Pos2, arm: f32, color: Color32) {
    if arm < 2.0 {
        return;
    }
    for (x, y) in [(arm, 0.0), (0.0, arm)] {
        let by = egui::vec2(x, y);
        brush.line([at - by, at + by], 1.0, color);
    }
}
