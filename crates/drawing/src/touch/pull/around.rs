//! Drags about the center pin: circles of screws, and the pattern itself.

use board::field;
use geometry::{Angle, Point, Vec2, bearing_of, point_at};
use workshop::Workpiece;

use super::{Pull, Pulled, fine, put, shown_angle, shown_length};
use crate::touch::{Guide, Way};

/// Drags a circle of screws: its diameter by the outward movement, its bearing by the movement around the pin.
pub fn screws(start: &Workpiece, pull: &Pull<'_>, at: usize) -> Option<Pulled> {
    let board = start.board();
    let ring = board.screws.get(at)?;
    let out = 2.0 * (pull.to.to_vec2().length() - pull.from.to_vec2().length());
    let circle = pull.length(ring.circle + out, board.units);
    let bearing = ring.bearing + swept(pull).as_degrees();
    let bearing = pull.degrees(half_turns(bearing), 2.0);
    let mut after = board.clone();
    put(&mut after, &field::SCREW_CIRCLE, at, circle);
    put(&mut after, &field::SCREW_BEARING, at, bearing);
    let words = format!(
        "screws on a circle {} across, the first at {}",
        shown_length(circle, board.units),
        shown_angle(bearing, board.units)
    );
    Some(Pulled {
        board: after,
        words,
        guides: Vec::new(),
    })
}

/// Rotates the pattern about the pin. It snaps to rotations at which a player's axis, or the line between two players, is along
/// the grain or square to it.
pub fn turn(start: &Workpiece, pull: &Pull<'_>) -> Pulled {
    let board = start.board();
    let wanted = half_turns(board.rotation + swept(pull).as_degrees());
    // Reach of a guide in degrees, equal to its reach in mm at the edge of the board.
    let reach = Angle::radians(pull.reach() / board.blank.radius()).as_degrees();
    let step = 180.0 / f64::from(board.players);
    let level = [0.0, 90.0].map(|grain| {
        let steps = ((wanted - grain) / step).round();
        (grain + steps * step, steps as i64, grain)
    });
    let near = level
        .into_iter()
        .find(|(there, ..)| (there - wanted).abs() <= reach);
    let (rotation, guide) = match near {
        Some((there, steps, grain)) => (fine(half_turns(there)), Some(grain_guide(steps, grain))),
        None => (pull.degrees(wanted, 2.0), None),
    };
    let mut after = board.clone();
    put(&mut after, &field::ROTATION, 0, rotation);
    Pulled {
        board: after,
        words: format!("rotation {}", shown_angle(rotation, board.units)),
        guides: guide.into_iter().collect(),
    }
}

fn grain_guide(steps: i64, grain: f64) -> Guide {
    let what = if steps % 2 == 0 {
        "a player's axis"
    } else {
        "a line between players"
    };
    let (how, along) = if grain == 0.0 {
        ("straight across the grain", Vec2::new(0.0, 1.0))
    } else {
        ("along the grain", Vec2::new(1.0, 0.0))
    };
    Guide {
        way: Way::Line(Point::ORIGIN, along),
        words: format!("{what} {how}"),
    }
}

/// The angle about the pin from the start of the drag to the pointer.
fn swept(pull: &Pull<'_>) -> Angle {
    (bearing_of(pull.to) - bearing_of(pull.from)).wrapped_to_half_turns()
}

/// The equivalent angle above -180 and up to 180 degrees.
fn half_turns(degrees: f64) -> f64 {
    let wrapped = bearing_of(point_at(1.0, Angle::degrees(degrees)));
    if (-180.0..=180.0).contains(&degrees) {
        degrees
    } else {
        fine(wrapped.wrapped_to_half_turns().as_degrees())
    }
}
