//! The hole at a point of the board, with its facts for the line below.
//!
//! Plain search through all holes: 10,000 of them take some hundredths of a millisecond, once a frame.

use board::{Hole, HoleId, Layout};
use geometry::{Point, bearing_of, web_between};

use super::Hover;

/// The hole whose mouth is at a point, or misses it by no more than `slack` mm.
pub fn hole_at(layout: &Layout, at: Point, slack: f64) -> Option<&Hole> {
    let miss = |hole: &Hole| hole.center.distance(at) - hole.bore.radius();
    let near = layout.holes.iter().map(|hole| (miss(hole), hole));
    let (_, hole) = near
        .filter(|(miss, _)| *miss <= slack)
        .min_by(|a, b| a.0.total_cmp(&b.0))?;
    Some(hole)
}

/// A hole with its place and its nearest neighbor.
pub fn described(layout: &Layout, id: HoleId) -> Option<Hover> {
    let hole = layout.hole(id)?;
    let others = layout.holes.iter().filter(|other| other.name.id() != id);
    let webs = others.map(|other| (other.name, web_between(hole.mouth(), other.mouth())));
    Some(Hover {
        id,
        name: hole.name,
        center: hole.center,
        radius: hole.center.to_vec2().length(),
        bearing: bearing_of(hole.center),
        nearest: webs.min_by(|a, b| a.1.total_cmp(&b.1)),
    })
}

/// The hole `steps` places further in the order of hole tables, around the end; the first or the last one
/// if none is selected.
pub fn stepped(layout: &Layout, from: Option<HoleId>, steps: isize) -> Option<HoleId> {
    let count = layout.holes.len().cast_signed();
    let place = from.and_then(|id| layout.holes.iter().position(|hole| hole.name.id() == id));
    let next = match place {
        Some(place) => place.cast_signed() + steps,
        None => steps.min(0) - isize::from(steps > 0) + steps.max(0),
    };
    let hole = layout.holes.get(next.checked_rem_euclid(count)? as usize)?;
    Some(hole.name.id())
}

#[cfg(test)]
mod tests {
    use super::*;
    use board::{Board, layout};
    use testkit::assert_near;

    fn id(name: &str) -> HoleId {
        name.parse().unwrap()
    }

    #[test]
    fn the_hole_under_a_point_is_found_and_wood_is_not() {
        let layout = layout(&Board::default()).unwrap();
        let hole = layout.hole(id("T3-7")).unwrap();
        let inside = hole.center + (5.0, 0.0);
        assert_eq!(hole_at(&layout, inside, 0.0), Some(hole));
        let outward = hole.center.to_vec2().normalize() * 8.0;
        assert_eq!(hole_at(&layout, hole.center + outward, 1.0), None);
        assert_eq!(hole_at(&layout, hole.center + outward, 2.5), Some(hole));
    }

    #[test]
    fn the_nearest_web_on_the_track_is_pitch_less_diameter() {
        let board = Board::default();
        let layout = layout(&board).unwrap();
        let hover = described(&layout, id("H1-2")).unwrap();
        let (_, wood) = hover.nearest.unwrap();
        assert_near!(wood, board.pitch - board.bores.home.diameter, 1e-9);
        assert_near!(hover.bearing.as_degrees(), 0.0, 1e-9);
    }

    #[test]
    fn stepping_goes_around_in_table_order() {
        let layout = layout(&Board::default()).unwrap();
        assert_eq!(stepped(&layout, None, 1), Some(id("T1-1")));
        assert_eq!(stepped(&layout, None, -1), Some(HoleId::CENTER));
        assert_eq!(stepped(&layout, Some(id("T1-16")), 1), Some(id("H1-1")));
        assert_eq!(stepped(&layout, Some(HoleId::CENTER), 1), Some(id("T1-1")));
        assert_eq!(stepped(&layout, Some(id("T1-1")), -1), Some(HoleId::CENTER));
    }
}
