//! Drags of holes: alone, with those of the other players, or all that are selected.

use std::collections::BTreeSet;

use board::{Board, HoleId, Layout, field};
use geometry::{Circle, Point, Sector, Vec2, bearing_of, web_between};
use workshop::Workpiece;

use super::{Pull, Pulled, Snap, shown_angle, shown_length, within};
use crate::touch::{Guide, Way, snapped};

/// The selected holes, moved so that the dragged one follows the pointer.
pub fn pulled(start: &Workpiece, pull: &Pull<'_>, id: HoleId) -> Option<Pulled> {
    let (board, layout) = (start.board(), start.layout());
    let hole = layout.hole(id).filter(|_| id != HoleId::CENTER)?;
    let sector = sector_of(layout, id)?;
    let moving = moving(pull, id);
    let guides = match pull.snap {
        Snap::Guides(_) => guides(start, pull, id, &moving),
        Snap::Marks | Snap::Fine => Vec::new(),
    };
    let wanted = hole.center + pull.way();
    let (before, local) = (board.moved(id, pull.mirrored), sector.local(hole.center));
    let (by, on) = if let Some((at, on)) = snapped(wanted, &guides, pull.reach()) {
        (sector.local(at) - local, on)
    } else {
        let by = sector.local(wanted) - local;
        let mark = |before: f64, by: f64| pull.length(before + by, board.units) - before;
        let by = Vec2::new(mark(before.0, by.x), mark(before.1, by.y));
        (by, Vec::new())
    };
    let mut after = board.clone();
    for other in &moving {
        let by = if pull.mirrored {
            by
        } else {
            turned(layout, sector, *other, by)?
        };
        carry(&mut after, *other, pull.mirrored, by);
    }
    // Automatic pockets find their place after the drag.
    let words = match layout.pocket {
        Some(spot) => words(&after.with_pockets_at(spot), id, pull.mirrored),
        None => words(&after, id, pull.mirrored),
    };
    Some(Pulled {
        words,
        board: after,
        guides: on.into_iter().cloned().collect(),
    })
}

/// The holes that move: the selected ones, or the dragged one alone; of holes that move with their twins, one each.
fn moving(pull: &Pull<'_>, id: HoleId) -> BTreeSet<HoleId> {
    let chosen = if pull.with.contains(&id) {
        pull.with
    } else {
        &[]
    };
    let all = chosen
        .iter()
        .copied()
        .chain([id])
        .filter(|id| *id != HoleId::CENTER);
    if !pull.mirrored {
        return all.collect();
    }
    let first = |other: HoleId| {
        let of_one = other.of_player(id.player());
        if of_one == id { id } else { of_one }
    };
    all.map(first).collect()
}

/// The same move over the board, converted from the frame of one player to that of another.
fn turned(layout: &Layout, from: Sector, to: HoleId, by: Vec2) -> Option<Vec2> {
    let over = from.place(by.to_point());
    Some(sector_of(layout, to)?.local(over).to_vec2())
}

/// Adds to the hand-made offset of a hole, within the range of offsets.
fn carry(board: &mut Board, id: HoleId, mirrored: bool, by: Vec2) {
    let (u, v) = board.moved(id, mirrored);
    // A rounding residue is not a move.
    let clean = |mm: f64| if mm.abs() < 1e-9 { 0.0 } else { mm };
    let u = within(&field::EDIT_U, clean(u + by.x));
    let v = within(&field::EDIT_V, clean(v + by.y));
    board.set_moved(id, mirrored, (u, v));
}

fn sector_of(layout: &Layout, id: HoleId) -> Option<Sector> {
    layout.sectors.get(id.player().max(1) as usize - 1).copied()
}

/// Guides that a dragged hole may snap to.
fn guides(start: &Workpiece, pull: &Pull<'_>, id: HoleId, moving: &BTreeSet<HoleId>) -> Vec<Guide> {
    let (board, layout) = (start.board(), start.layout());
    let (Some(hole), Some(sector)) = (layout.hole(id), sector_of(layout, id)) else {
        return Vec::new();
    };
    let wanted = hole.center + pull.way();
    let moves = |other: HoleId| {
        moving.contains(&other) || (pull.mirrored && moving.contains(&other.of_player(id.player())))
    };
    let still = layout.holes.iter().filter(|other| !moves(other.name.id()));
    let mut guides = own(board, pull, id, hole.center, sector);
    let near = still
        .clone()
        .filter(|other| other.center.distance(wanted) < 1.6 * board.pitch);
    guides.extend(near.map(|other| Guide {
        way: Way::Circle(Circle::new(other.center, board.pitch)),
        words: format!("one hole spacing from {}", other.name),
    }));
    let radius = wanted.to_vec2().length();
    let off = |other: &board::Hole| (other.center.to_vec2().length() - radius).abs();
    let level = still
        .clone()
        .filter(|other| other.name.id() != HoleId::CENTER);
    guides.extend(
        level
            .min_by(|a, b| off(a).total_cmp(&off(b)))
            .map(|other| Guide {
                way: Way::Circle(Circle::new(Point::ORIGIN, other.center.to_vec2().length())),
                words: format!("as far out as {}", other.name),
            }),
    );
    let twins = still.filter(|other| {
        let other = other.name.id();
        other.role() == id.role() && other.player() == id.player()
    });
    guides.extend(twins.map(|other| {
        let local = sector.local(other.center);
        Guide {
            way: Way::Place(sector.place(Point::new(-local.x, local.y))),
            words: format!("opposite {}", other.name),
        }
    }));
    guides
}

/// The guides of a single hole: its place in the pattern, its player's axis, its own circle and bearing, and the grain.
fn own(board: &Board, pull: &Pull<'_>, id: HoleId, center: Point, sector: Sector) -> Vec<Guide> {
    let (u, v) = board.moved(id, pull.mirrored);
    let home = sector.place(sector.local(center) - Vec2::new(u, v));
    let radius = center.to_vec2().length();
    let guide = |way, words: &str| Guide {
        way,
        words: words.into(),
    };
    let mut guides = vec![
        guide(
            Way::Line(Point::ORIGIN, sector.place(Point::new(0.0, 1.0)).to_vec2()),
            "on the player's axis",
        ),
        guide(
            Way::Circle(Circle::new(Point::ORIGIN, radius)),
            "as far out as before",
        ),
        guide(Way::Line(center, Vec2::new(1.0, 0.0)), "along the grain"),
    ];
    if radius > 0.0 {
        guides.push(guide(
            Way::Line(Point::ORIGIN, center.to_vec2() / radius),
            "on the bearing it had",
        ));
    }
    if (u, v) != (0.0, 0.0) {
        guides.push(guide(Way::Place(home), "where the pattern has it"));
    }
    guides
}

/// The words on a hole's position, its offset, and the wood to its neighbor.
fn words(board: &Board, id: HoleId, mirrored: bool) -> String {
    let units = board.units;
    let Ok(layout) = board::layout(board) else {
        return String::new();
    };
    let Some(hole) = layout.hole(id) else {
        return String::new();
    };
    let others = layout.holes.iter().filter(|other| other.name != hole.name);
    let wood = others.map(|other| web_between(hole.mouth(), other.mouth()));
    let wood = wood.fold(f64::INFINITY, f64::min);
    let (u, v) = board.moved(id, mirrored);
    format!(
        "{}: radius {}, bearing {}; moved {}, {}; least wood {}",
        hole.name,
        shown_length(hole.center.to_vec2().length(), units),
        shown_angle(bearing_of(hole.center).as_degrees(), units),
        sided(u, ["clockwise", "counterclockwise"], units),
        sided(v, ["outward", "inward"], units),
        shown_length(wood, units),
    )
}

/// A distance with its side, the second side where it is negative.
fn sided(mm: f64, [side, other]: [&str; 2], units: board::Units) -> String {
    let side = if mm < 0.0 { other } else { side };
    format!("{} {side}", shown_length(mm.abs(), units))
}
