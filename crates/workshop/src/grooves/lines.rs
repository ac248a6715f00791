//! Straight grooves: along the track and the home lanes, and between sectors.

use board::{Grooves, Hole, HoleId, HoleName, Layout, Role};
use geometry::{Angle, Point, point_at};
use kurbo::Line;

use crate::Workpiece;
use crate::grooves::{GrooveKind, HAIR, Laid, Stroke};

/// Adds the planned straight grooves.
pub fn lay(workpiece: &Workpiece, wanted: &Grooves, laid: &mut Laid) {
    let (board, layout) = (workpiece.board(), workpiece.layout());
    if wanted.track {
        track(workpiece, wanted, laid);
    }
    if wanted.home {
        home(workpiece, wanted, laid);
    }
    if let Some(from) = wanted.sectors_from
        && board.players > 1
    {
        for sector in &layout.sectors {
            let border = sector.axis() + Angle::turn_part(1, 2 * i64::from(board.players));
            between_sectors(workpiece, wanted, (from, border), laid);
        }
    }
}

/// Joins each space to the next, and the last of a sector to the first of the next sector.
fn track(workpiece: &Workpiece, wanted: &Grooves, laid: &mut Laid) {
    let (board, layout) = (workpiece.board(), workpiece.layout());
    let spaces: Vec<HoleId> = (1..=board.players)
        .flat_map(|player| (1..=board.spaces).map(move |at| HoleId::new(Role::Track, player, at)))
        .collect();
    // Two spaces have one line between them, not one in each direction.
    let lines = if spaces.len() < 3 { 1 } else { spaces.len() };
    let nexts = spaces.iter().cycle().skip(1);
    for (&one, &next) in spaces.iter().zip(nexts).take(lines) {
        join(layout, wanted, (GrooveKind::Track, [one, next]), laid);
    }
}

/// Joins each turn-in space to its home lane, hole by hole.
fn home(workpiece: &Workpiece, wanted: &Grooves, laid: &mut Laid) {
    let (board, layout) = (workpiece.board(), workpiece.layout());
    for player in 1..=board.players {
        let turn_in = HoleId::new(Role::Track, player, geometry::turn_in(board.spaces));
        let lane = (1..=board.home).map(|at| HoleId::new(Role::Home, player, at));
        let mut before = turn_in;
        for hole in lane {
            join(layout, wanted, (GrooveKind::Home, [before, hole]), laid);
            before = hole;
        }
    }
}

/// Adds a line between two holes that ends short of both; none where one of them is not on the board.
fn join(
    layout: &Layout,
    wanted: &Grooves,
    (kind, ends): (GrooveKind, [HoleId; 2]),
    laid: &mut Laid,
) {
    let [Some(one), Some(other)] = ends.map(|id| layout.hole(id)) else {
        return;
    };
    if one.name == other.name {
        return;
    }
    let mut holes = vec![one.name, other.name];
    holes.sort_by_key(|name: &HoleName| name.id());
    let way = other.center - one.center;
    let length = way.length();
    let (start, end) = (kept_clear(one, wanted), length - kept_clear(other, wanted));
    if end - start <= HAIR {
        laid.drop(kind, holes);
        return;
    }
    let at = |along: f64| one.center + way * (along / length);
    let line = Stroke::Line(Line::new(at(start), at(end)));
    laid.add((kind, ends[0].player()), vec![line], holes);
}

/// Distance from the center of a bore to the end of a groove's center line, mm.
fn kept_clear(hole: &Hole, wanted: &Grooves) -> f64 {
    hole.bore.radius() + wanted.stop + wanted.width / 2.0
}

/// Adds a line on the border of two sectors, in as many segments as the bores on it leave.
fn between_sectors(
    workpiece: &Workpiece,
    wanted: &Grooves,
    (from, border): (f64, Angle),
    laid: &mut Laid,
) {
    let (board, layout) = (workpiece.board(), workpiece.layout());
    let half = wanted.width / 2.0;
    let flat = board.blank.flat_radius();
    let end = match wanted.rim {
        Some(rim) => flat - rim - half,
        None => flat - wanted.stop - half,
    };
    let outward = point_at(1.0, border).to_vec2();
    let mut barred: Vec<(f64, f64)> = layout
        .holes
        .iter()
        .filter_map(|hole| {
            let (along, clear) = (hole.center.to_vec2().dot(outward), kept_clear(hole, wanted));
            let across = hole.center.to_vec2().cross(outward);
            let square = clear * clear - across * across;
            let reach = (square > 0.0).then(|| square.sqrt())?;
            Some((along - reach, along + reach))
        })
        .collect();
    barred.sort_by(|one, other| one.0.total_cmp(&other.0));
    let before = laid.grooves.len();
    let at = |along: f64| Point::ORIGIN + outward * along;
    let mut free = from + half;
    for (start, clear) in barred.into_iter().chain([(end, end)]) {
        if start.min(end) - free > HAIR {
            let line = Stroke::Line(Line::new(at(free), at(start.min(end))));
            laid.add((GrooveKind::Sector, 0), vec![line], Vec::new());
        }
        free = free.max(clear);
    }
    if laid.grooves.len() == before {
        laid.drop(GrooveKind::Sector, Vec::new());
    }
}
