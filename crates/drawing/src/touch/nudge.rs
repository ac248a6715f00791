//! Things on the board moved with keys: selection of one after another, and steps as fine as the maker's rule.

use board::HoleId;
use geometry::{Angle, Point, Vec2, point_at};
use workshop::{GrooveKind, Workpiece};

use super::pull::{Pull, Pulled, Snap, groove_off, pulled};
use super::thing::{Thing, nudge_step, typed_seams, walked};

/// Degrees per step of rotation.
const TURN: f64 = 0.5;

/// Steps that keys move a thing by.
#[derive(Debug, Clone, Copy)]
pub struct Nudge<'a> {
    /// The thing.
    pub thing: Thing,
    /// The selected holes, which move along if the thing is one of them.
    pub with: &'a [HoleId],
    /// Steps to the right and up.
    pub steps: Vec2,
    /// Whether the same hole of every player moves with each hole.
    pub mirrored: bool,
}

/// The thing this many positions further among all except single holes, wrapping at the end; `None` if the board has none.
///
/// ```
/// use board::Board;
/// use drawing::{Thing, thing_after};
/// use workshop::Workpiece;
/// let workpiece = Workpiece::of(&Board::default())?;
/// assert_eq!(thing_after(&workpiece, None, 1), Some(Thing::Lane(1)));
/// assert_eq!(thing_after(&workpiece, Some(Thing::Lane(1)), 1), Some(Thing::Pocket(1)));
/// assert_eq!(thing_after(&workpiece, Some(Thing::Lane(1)), -1), Some(Thing::Turn));
/// # Ok::<(), board::BuildError>(())
/// ```
pub fn thing_after(workpiece: &Workpiece, from: Option<Thing>, steps: isize) -> Option<Thing> {
    let all = walked(workpiece);
    let here = from.and_then(|from| all.iter().position(|thing| *thing == from));
    let next = match here {
        Some(here) => here.cast_signed() + steps,
        None => steps - isize::from(steps > 0),
    };
    let place = next.checked_rem_euclid(all.len().cast_signed())?;
    all.get(place.cast_unsigned()).copied()
}

/// The document with a thing moved by steps: half a millimeter or the finest mark of an inch rule, and half a degree where it
/// turns. A thing with a single size grows with steps up or to the right.
///
/// ```
/// use board::Board;
/// use drawing::{Nudge, Thing, nudged};
/// use geometry::Vec2;
/// use workshop::Workpiece;
/// let workpiece = Workpiece::of(&Board::default())?;
/// let steps = Vec2::new(0.0, 3.0);
/// let rim = Nudge { thing: Thing::Rim, with: &[], steps, mirrored: true };
/// let wider = nudged(&workpiece, &rim).unwrap().board;
/// assert_eq!(wider.blank.diameter, workpiece.board().blank.diameter + 1.5);
/// # Ok::<(), board::BuildError>(())
/// ```
pub fn nudged(start: &Workpiece, nudge: &Nudge<'_>) -> Option<Pulled> {
    let (board, layout) = (start.board(), start.layout());
    let step = nudge_step(board.units);
    let (way, out) = (nudge.steps * step, nudge.steps.x + nudge.steps.y);
    let turned = Angle::degrees(TURN * out);
    let up = |at: f64, by: f64| [Point::new(0.0, at), Point::new(0.0, at + by)];
    let by_way = |from: Point| [from, from + way];
    let (snap, [from, to]) = match nudge.thing {
        Thing::Hole(id) => (Snap::Fine, by_way(layout.hole(id)?.center)),
        Thing::Lane(_) | Thing::Recess => (Snap::Fine, by_way(Point::ORIGIN)),
        Thing::Pocket(player) => {
            let (spot, sector) = (layout.pocket?, layout.sectors.get(player as usize - 1)?);
            let middle = point_at(spot.radius, sector.axis() + spot.bearing);
            (Snap::Fine, by_way(middle))
        }
        Thing::Seam(at) => (
            Snap::Fine,
            by_way(Point::new(0.0, *typed_seams(start).get(at)?)),
        ),
        Thing::Rim => (Snap::Fine, up(board.blank.radius(), out * step / 2.0)),
        Thing::Screws(at) => {
            let radius = board.screws.get(at)?.circle / 2.0;
            let turned = Angle::degrees(TURN * nudge.steps.x);
            let to = point_at(radius + way.y / 2.0, turned);
            (Snap::Marks, [Point::new(0.0, radius), to])
        }
        Thing::Turn => (
            Snap::Marks,
            [point_at(1.0, Angle::ZERO), point_at(1.0, turned)],
        ),
        Thing::Groove(kind) => {
            let by = if kind == GrooveKind::Rim { -out } else { out };
            return groove_off(start, kind, by * step, nearly);
        }
    };
    let pull = Pull {
        thing: nudge.thing,
        with: nudge.with,
        from,
        to,
        mirrored: nudge.mirrored,
        snap,
    };
    pulled(start, &pull)
}

/// A length without rounding residue.
fn nearly(mm: f64) -> f64 {
    (mm * 1e4).round() / 1e4
}

#[cfg(test)]
mod tests {
    use super::*;
    use board::{Board, Build, Grooves, Recess, ScrewCircle};

    fn board() -> Board {
        let mut board = Board {
            grooves: Some(Grooves {
                rim: Some(5.0),
                middle: Some(30.0),
                around_home: Some(4.0),
                ..Grooves::default()
            }),
            recess: Some(Recess::default()),
            screws: vec![ScrewCircle::default()],
            ..Board::default()
        };
        (board.pocket.bearing, board.pocket.radius) = (Some(30.0), Some(150.0));
        board.panel.build = Build::Seams { at: vec![93.0] };
        board
    }

    fn moved(board: &Board, thing: Thing, steps: Vec2) -> Board {
        let workpiece = Workpiece::of(board).unwrap();
        let nudge = Nudge {
            thing,
            with: &[],
            steps,
            mirrored: true,
        };
        nudged(&workpiece, &nudge).unwrap().board
    }

    #[test]
    fn keys_cycle_through_everything_that_can_be_dragged() {
        let workpiece = Workpiece::of(&board()).unwrap();
        let mut met = Vec::new();
        let mut here = None;
        for _ in 0..12 {
            here = thing_after(&workpiece, here, 1);
            met.extend(here);
        }
        let all = [
            Thing::Lane(1),
            Thing::Pocket(1),
            Thing::Groove(GrooveKind::AroundHome),
            Thing::Groove(GrooveKind::Middle),
            Thing::Groove(GrooveKind::Rim),
            Thing::Screws(0),
            Thing::Seam(0),
            Thing::Recess,
            Thing::Rim,
            Thing::Turn,
        ];
        for thing in all {
            assert!(met.contains(&thing), "{thing:?} in {met:?}");
        }
        assert_eq!(thing_after(&workpiece, Some(Thing::Turn), 1), Some(met[0]));
    }

    #[test]
    fn each_thing_moves_by_a_step_and_back_again() {
        let before = board();
        let workpiece = Workpiece::of(&before).unwrap();
        for thing in walked(&workpiece) {
            let up = Vec2::new(0.0, 1.0);
            let after = moved(&before, thing, up);
            assert_ne!(after, before, "{thing:?}");
            let back = moved(&after, thing, -up);
            let left = board::field::differences(&before, &back);
            // Bearing and radius of a pocket are computed with sine and root, accurate to four decimals.
            for difference in left {
                assert_eq!(thing, Thing::Pocket(1), "{difference:?}");
            }
        }
    }

    #[test]
    fn a_step_is_half_a_millimeter_or_half_a_degree() {
        let before = board();
        let by = |thing, x, y| moved(&before, thing, Vec2::new(x, y));
        let seam = by(Thing::Seam(0), 0.0, 1.0);
        assert_eq!(seam.panel.build, Build::Seams { at: vec![93.5] });
        assert_eq!(by(Thing::Recess, 2.0, 0.0).recess.unwrap().at, [1.0, 0.0]);
        assert_eq!(by(Thing::Turn, 1.0, 0.0).rotation, 0.5);
        assert_eq!(
            by(Thing::Screws(0), 0.0, 1.0).screws[0].circle,
            before.screws[0].circle + 0.5
        );
        let border = by(Thing::Groove(GrooveKind::Rim), 0.0, 1.0)
            .grooves
            .unwrap();
        assert_eq!(border.rim, Some(4.5));
        let lane = by(Thing::Lane(1), 0.0, -2.0);
        for number in 1..=5 {
            let id = HoleId::new(board::Role::Home, 1, number);
            assert_eq!(lane.moved(id, true), (0.0, -1.0));
        }
    }
}
