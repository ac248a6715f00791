//! Drags of things with a position of their own: home lanes, start pockets and the recess.

use board::{HoleId, Role, field};
use geometry::{Angle, Circle, Point, Vec2, bearing_of, point_at};
use workshop::Workpiece;

use super::{Pull, Pulled, Snap, hole, put, shown_angle, shown_length};
use crate::touch::{Guide, Thing, Way, snapped};

/// Drags all holes of a player's home lane along its axis, with those of the other players or alone.
pub fn lane(start: &Workpiece, pull: &Pull<'_>, player: u32) -> Option<Pulled> {
    let (board, layout) = (start.board(), start.layout());
    let sector = layout.sectors.get((player as usize).checked_sub(1)?)?;
    let is_his = |id: &HoleId| id.role() == Role::Home && id.player() == player;
    let ids = layout.holes.iter().map(|hole| hole.name.id());
    let holes: Vec<HoleId> = ids.filter(is_his).collect();
    let first = *holes.first()?;
    let outward = sector.place(Point::new(0.0, 1.0)).to_vec2();
    let (_, before) = board.moved(first, pull.mirrored);
    let wanted = before + pull.way().dot(outward);
    let is_back = wanted.abs() <= pull.reach();
    let after = if is_back {
        0.0
    } else {
        pull.length(wanted, board.units)
    };
    let along = Pull {
        thing: Thing::Hole(first),
        with: &holes,
        from: Point::ORIGIN,
        to: (outward * (after - before)).to_point(),
        mirrored: pull.mirrored,
        snap: Snap::Fine,
    };
    let done = hole::pulled(start, &along, first)?;
    let side = if after < 0.0 { "inward" } else { "outward" };
    let guide = is_back.then(|| Guide {
        way: Way::Line(Point::ORIGIN, outward),
        words: "where the pattern has it".into(),
    });
    Some(Pulled {
        board: done.board,
        words: format!(
            "home lane {} {side}",
            shown_length(after.abs(), board.units)
        ),
        guides: guide.into_iter().collect(),
    })
}

/// Drags the start pockets of every player, of which one follows the pointer.
pub fn pocket(start: &Workpiece, pull: &Pull<'_>, player: u32) -> Option<Pulled> {
    let (board, layout) = (start.board(), start.layout());
    let spot = layout.pocket?;
    let sector = layout.sectors.get((player as usize).checked_sub(1)?)?;
    let middle = point_at(spot.radius, spot.bearing);
    let wanted = middle + sector.local(pull.way().to_point()).to_vec2();
    let guides = pocket_guides(start, middle);
    let snap = snapped(wanted, &guides, pull.reach());
    let (at, on) = snap.unwrap_or((wanted, Vec::new()));
    let bearing = bearing_of(at).wrapped_to_half_turns().as_degrees();
    let radius = at.to_vec2().length();
    let is_on = |way: fn(&Way) -> bool| on.iter().any(|guide| way(&guide.way));
    let mut after = board.clone();
    // A guide fixes one of the two numbers; the other is rounded to a mark.
    let bearing = if is_on(|way| matches!(way, Way::Line(..))) {
        super::fine(bearing)
    } else {
        pull.degrees(bearing, 10.0)
    };
    let radius = if is_on(|way| matches!(way, Way::Circle(_))) {
        super::fine(radius)
    } else {
        pull.length(radius, board.units)
    };
    put(&mut after, &field::POCKET_BEARING, 0, bearing);
    put(&mut after, &field::POCKET_RADIUS, 0, radius);
    let words = format!(
        "pocket radius {}, pocket angle {}",
        shown_length(radius, board.units),
        shown_angle(bearing, board.units)
    );
    let seen = |guide: &Guide| Guide {
        way: match guide.way {
            Way::Line(through, along) => Way::Line(
                sector.place(through),
                sector.place(along.to_point()).to_vec2(),
            ),
            other => other,
        },
        words: guide.words.clone(),
    };
    Some(Pulled {
        board: after,
        words,
        guides: on.into_iter().map(seen).collect(),
    })
}

/// Guides for the center of a pocket, in a player's frame.
fn pocket_guides(start: &Workpiece, middle: Point) -> Vec<Guide> {
    let half = Angle::turn_part(1, 2 * i64::from(start.board().players));
    let ray = |bearing, words: &str| Guide {
        way: Way::Line(Point::ORIGIN, point_at(1.0, bearing).to_vec2()),
        words: words.into(),
    };
    vec![
        ray(Angle::ZERO, "on the player's axis"),
        ray(half, "halfway to the next player"),
        ray(Angle::ZERO - half, "halfway to the player before"),
        ray(bearing_of(middle), "on the bearing it had"),
        Guide {
            way: Way::Circle(Circle::new(Point::ORIGIN, middle.to_vec2().length())),
            words: "as far out as before".into(),
        },
    ]
}

/// Drags the recess in the underside.
pub fn recess(start: &Workpiece, pull: &Pull<'_>) -> Option<Pulled> {
    let board = start.board();
    let [x, y] = board.recess?.at;
    let wanted = Point::new(x, y) + pull.way();
    let line = |along, words: &str| Guide {
        way: Way::Line(Point::ORIGIN, along),
        words: words.into(),
    };
    let guides = [
        line(Vec2::new(1.0, 0.0), "along the grain through the pin"),
        line(Vec2::new(0.0, 1.0), "across the grain through the pin"),
    ];
    let (at, on) = snapped(wanted, &guides, pull.reach()).unwrap_or((wanted, Vec::new()));
    let [x, y] = [at.x, at.y].map(|mm| pull.length(mm, board.units));
    let mut after = board.clone();
    put(&mut after, &field::RECESS_X, 0, x);
    put(&mut after, &field::RECESS_Y, 0, y);
    let words = format!(
        "recess {} right of the pin, {} above it",
        shown_length(x, board.units),
        shown_length(y, board.units)
    );
    Some(Pulled {
        board: after,
        words,
        guides: on.into_iter().cloned().collect(),
    })
}
