//! The places of the players' marks: beside their start pockets, clear of every bore and on the flat top.

use geometry::{Point, Vec2, point_at};

use crate::Workpiece;
use board::Role;

/// Wood left between a mark and a bore, or the roundover, mm; our own choice.
const CLEAR: f64 = 1.0;
/// Steps away from the pocket: their length in mm, and their number.
const STEP: (f64, u32) = (2.0, 25);

/// Width of the line around a mark, as a share of the radius of the circle that contains both.
pub const MARK_LINE: f64 = 0.16;

/// The center of each player's mark of a size, mm; none where there is no start pocket, or no room beside it.
pub fn mark_places(workpiece: &Workpiece, size: f64) -> Vec<Option<Point>> {
    (0..workpiece.layout().sectors.len())
        .map(|at| mark_place(workpiece, at, size))
        .collect()
}

/// The place of one player's mark: the nearest to the pocket, tried outward first, then inward, then sideways.
fn mark_place(workpiece: &Workpiece, at: usize, size: f64) -> Option<Point> {
    let layout = workpiece.layout();
    let (spot, sector) = (layout.pocket?, layout.sectors.get(at)?);
    let bearing = sector.axis() + spot.bearing;
    let middle = point_at(spot.radius, bearing);
    let outward = point_at(1.0, bearing).to_vec2();
    let aside = Vec2::new(outward.y, -outward.x);
    let player = at as u32 + 1;
    let pocket = layout.holes.iter().filter(|hole| {
        let id = hole.name.id();
        id.role() == Role::Start && id.player() == player
    });
    let pocket: Vec<_> = pocket.map(board::Hole::mouth).collect();
    let flat = workpiece.board().blank.flat_radius();
    let radius = size / 2.0;
    let is_free = |place: Point| {
        let clear = |mouth: &geometry::Circle| {
            mouth.center.distance(place) >= mouth.radius + radius + CLEAR
        };
        place.to_vec2().hypot() + radius + CLEAR <= flat && workpiece.mouths().iter().all(clear)
    };
    (0..STEP.1).find_map(|step| {
        [outward, -outward, aside, -aside]
            .into_iter()
            .find_map(|way| {
                let reach =
                    |mouth: &geometry::Circle| (mouth.center - middle).dot(way) + mouth.radius;
                let farthest = pocket.iter().map(reach).fold(0.0, f64::max);
                let away = farthest + radius + CLEAR + STEP.0 * f64::from(step);
                let place = middle + way * away;
                is_free(place).then_some(place)
            })
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use board::Board;

    #[test]
    fn each_mark_lies_beside_its_own_pocket_and_clear_of_every_bore() {
        for players in [2, 6, 8] {
            let workpiece = Workpiece::of(&Board {
                players,
                ..Board::default()
            })
            .unwrap();
            let places = mark_places(&workpiece, 10.0);
            assert_eq!(places.len(), players as usize);
            for place in places.into_iter().flatten() {
                for mouth in workpiece.mouths() {
                    assert!(mouth.center.distance(place) >= mouth.radius + 6.0 - 1e-9);
                }
            }
        }
    }

    #[test]
    fn a_mark_as_large_as_the_board_finds_no_place() {
        let workpiece = Workpiece::of(&Board::default()).unwrap();
        assert!(mark_places(&workpiece, 600.0).iter().all(Option::is_none));
        let bare = Workpiece::of(&Board {
            start: 0,
            ..Board::default()
        })
        .unwrap();
        assert!(mark_places(&bare, 10.0).iter().all(Option::is_none));
    }
}
