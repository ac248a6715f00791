//! Closed grooves: outlines around home lanes and start pockets, rings around bores and about the pin.

use board::{Grooves, Hole, HoleName, Layout, Role};
use geometry::{Angle, Arc, Circle, PocketShape, Point, Vec2, bearing_of, point_at};
use kurbo::Line;

use crate::Workpiece;
use crate::grooves::{GrooveKind, HAIR, Laid, Stroke};

/// Adds the planned closed grooves.
pub fn lay(workpiece: &Workpiece, wanted: &Grooves, laid: &mut Laid) {
    let (board, layout) = (workpiece.board(), workpiece.layout());
    let half = wanted.width / 2.0;
    for player in 1..=board.players {
        if let Some(gap) = wanted.around_home {
            let holes = of_player(layout, Role::Home, player);
            let kind = (GrooveKind::AroundHome, player);
            around(kind, &holes, gap + half, laid, outline);
        }
        if let Some(gap) = wanted.around_start {
            let holes = of_player(layout, Role::Start, player);
            let sector = layout.sectors.get(player as usize - 1);
            let middle = sector.zip(layout.pocket);
            let toward = middle.map_or(Angle::ZERO, |(sector, spot)| sector.axis() + spot.bearing);
            around(
                (GrooveKind::AroundStart, player),
                &holes,
                gap + half,
                laid,
                |centers, off| pocket_outline(board.pocket.shape, toward, centers, off),
            );
        }
    }
    if let Some(rings) = wanted.rings {
        let ringed = layout.holes.iter();
        for hole in ringed.filter(|hole| rings.of(hole.name.id().role())) {
            let circle = Circle::new(hole.center, hole.bore.radius() + rings.gap + half);
            laid.add(
                (GrooveKind::Ring, hole.name.id().player()),
                vec![Stroke::Circle(circle)],
                vec![hole.name],
            );
        }
    }
    let rim = |rim| board.blank.flat_radius() - rim - half;
    let about_pin = [
        (GrooveKind::Rim, wanted.rim.map(rim)),
        (GrooveKind::Middle, wanted.middle.map(|off| off + half)),
    ];
    for (kind, radius) in about_pin {
        match radius {
            Some(radius) if radius > HAIR => {
                let circle = Circle::new(Point::ORIGIN, radius);
                laid.add((kind, 0), vec![Stroke::Circle(circle)], Vec::new());
            }
            Some(_) => laid.drop(kind, Vec::new()),
            None => {}
        }
    }
}

/// The holes of a role and a player, in the order of the layout.
fn of_player(layout: &Layout, role: Role, player: u32) -> Vec<&Hole> {
    let is_his = |hole: &&Hole| {
        let id = hole.name.id();
        id.role() == role && id.player() == player
    };
    layout.holes.iter().filter(is_his).collect()
}

/// An outline that is `off` plus the radius of the widest bore away from the centers.
fn around(
    kind: (GrooveKind, u32),
    holes: &[&Hole],
    off: f64,
    laid: &mut Laid,
    outline: impl Fn(&[Point], f64) -> Vec<Stroke>,
) {
    let widest = holes.iter().map(|hole| hole.bore.radius());
    let centers: Vec<Point> = holes.iter().map(|hole| hole.center).collect();
    let path = outline(&centers, widest.fold(0.0, f64::max) + off);
    if !path.is_empty() {
        let names: Vec<HoleName> = holes.iter().map(|hole| hole.name).collect();
        laid.add(kind, path, names);
    }
}

/// The outline of a pocket; a pocket that lies along a circle has an outline along that circle.
fn pocket_outline(shape: PocketShape, toward: Angle, centers: &[Point], off: f64) -> Vec<Stroke> {
    let round = match shape {
        PocketShape::Arc => band(toward, centers, off),
        PocketShape::Ring => circle(centers, off),
        PocketShape::Row | PocketShape::Block => None,
    };
    round.unwrap_or_else(|| outline(centers, off))
}

/// A circle around centers that are equally far from their mean.
fn circle(centers: &[Point], off: f64) -> Option<Vec<Stroke>> {
    let sum: Vec2 = centers.iter().map(|center| center.to_vec2()).sum();
    let middle = (sum / centers.len() as f64).to_point();
    let radius = centers.first()?.distance(middle);
    let even = |center: &Point| (center.distance(middle) - radius).abs() < EVEN;
    let circle = Circle::new(middle, radius + off);
    centers
        .iter()
        .all(even)
        .then(|| vec![Stroke::Circle(circle)])
}

/// A band with round ends along the circle about the center pin on which all centers lie; `None` if they lie on no such circle.
fn band(toward: Angle, centers: &[Point], off: f64) -> Option<Vec<Stroke>> {
    let radius = centers.first()?.to_vec2().length();
    let even = |center: &Point| (center.to_vec2().length() - radius).abs() < EVEN;
    let turn = |center: &Point| (bearing_of(*center) - toward).wrapped_to_half_turns();
    let first = centers
        .iter()
        .map(turn)
        .reduce(|a, b| if b < a { b } else { a })?;
    let last = centers
        .iter()
        .map(turn)
        .reduce(|a, b| if b > a { b } else { a })?;
    let sweep = last - first;
    let open = sweep > Angle::ZERO && sweep < Angle::degrees(180.0);
    if !open || radius <= off || !centers.iter().all(even) {
        return None;
    }
    let half_turn = Angle::degrees(180.0);
    let (first, last) = (toward + first, toward + last);
    let arc = |center, radius, start, sweep| {
        Stroke::Arc(Arc {
            center,
            radius,
            start,
            sweep,
        })
    };
    Some(vec![
        arc(Point::ORIGIN, radius + off, first, sweep),
        arc(point_at(radius, last), off, last, half_turn),
        arc(Point::ORIGIN, radius - off, last, -sweep),
        arc(point_at(radius, first), off, first + half_turn, half_turn),
    ])
}

/// The outline at a distance around centers: straight along the sides of their convex hull, round at its corners.
fn outline(centers: &[Point], off: f64) -> Vec<Stroke> {
    let corners = hull(centers);
    if let [center] = corners[..] {
        return vec![Stroke::Circle(Circle::new(center, off))];
    }
    let sides: Vec<(Point, Point, Angle)> = corners
        .iter()
        .zip(corners.iter().cycle().skip(1))
        .map(|(&from, &to)| {
            let way = to - from;
            // Clockwise around the hull, outward is to the left.
            let outward = bearing_of(Point::new(-way.y, way.x));
            (from, to, outward)
        })
        .collect();
    let nexts = sides.iter().cycle().skip(1);
    sides
        .iter()
        .zip(nexts)
        .flat_map(|(&(from, to, outward), &(_, _, next))| {
            let shift = point_at(off, outward).to_vec2();
            [
                Stroke::Line(Line::new(from + shift, to + shift)),
                Stroke::Arc(Arc {
                    center: to,
                    radius: off,
                    start: outward,
                    sweep: (next - outward).wrapped(),
                }),
            ]
        })
        .collect()
}

/// The corners of the convex hull of some points, clockwise, without points on its sides.
///
/// The points are sorted along the line between the two that are farthest apart. Sorted by x, a vertical row would be ordered
/// by rounding alone, and lose its ends.
fn hull(points: &[Point]) -> Vec<Point> {
    let along = longest(points);
    let mut sorted: Vec<(f64, Point)> = points
        .iter()
        .map(|point| (along.dot(point.to_vec2()), *point))
        .collect();
    sorted.sort_by(|a, b| a.0.total_cmp(&b.0));
    let mut sorted: Vec<Point> = sorted.into_iter().map(|(_, point)| point).collect();
    sorted.dedup_by(|a, b| a.distance(*b) < EVEN);
    let chain = |points: &mut dyn Iterator<Item = Point>| {
        let mut chain: Vec<Point> = Vec::new();
        for point in points {
            while let [.., before, last] = chain[..]
                && (last - before).cross(point - last) >= -HAIR
            {
                chain.pop();
            }
            chain.push(point);
        }
        chain.pop();
        chain
    };
    let mut corners = chain(&mut sorted.iter().copied());
    corners.extend(chain(&mut sorted.iter().rev().copied()));
    if corners.is_empty() { sorted } else { corners }
}

/// The vector between the two points that are farthest apart; the first pair among equals.
fn longest(points: &[Point]) -> Vec2 {
    let mut longest = Vec2::ZERO;
    for (at, from) in points.iter().enumerate() {
        for to in points.iter().skip(at + 1) {
            let way = *to - *from;
            if way.length() > longest.length() + EVEN {
                longest = way;
            }
        }
    }
    longest
}

/// Points closer than this count as one, mm.
const EVEN: f64 = 1e-6;
