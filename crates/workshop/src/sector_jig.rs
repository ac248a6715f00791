//! A template of one sector that is turned from player to player about the center pin.
//!
//! It lies on player 1's sector first. For each next sector it is turned clockwise, and an index pin goes through it into
//! a hole that was drilled in the sector before: so the index hole stands where the sector before has that hole.

use board::{Board, Hole, HoleId, HoleName, Layout, SectorJig};
use geometry::{Angle, Circle, Point, bearing_of, close_webs, point_at};

/// How far the same hole of two sectors may be apart for one jig to drill both, mm.
const ALIKE: f64 = 1e-6;

/// The jig, and what it does.
#[derive(Debug, Clone, PartialEq)]
pub struct SectorPlan {
    /// The holes that are drilled through it: player 1's.
    pub holes: Vec<Hole>,
    /// The index holes, as they lie in the jig: the hole of player 1 whose copy in each sector takes the pin, and the
    /// place. The first leads.
    pub index: Vec<(HoleName, Circle)>,
    /// Holes of other players that the jig does not drill, since they were changed by hand.
    pub apart: Vec<HoleName>,
    /// How far off the last sector may be turned, degrees: at worst, and likely.
    pub turned: (f64, f64),
    /// The two holes with the least wood between the last sector and the first, as laid out, mm.
    pub closing: Option<(HoleName, HoleName, f64)>,
    /// What play leaves of that wood, mm: at worst, and likely.
    pub left: (f64, f64),
}

/// Why a board has no sector jig.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
pub enum SectorJigError {
    /// There is nothing to turn to.
    #[error("a board for one has no next sector: a sector jig needs two players or more")]
    OnePlayer,
    /// Nothing to put the pin into.
    #[error("player 1 has no holes to drill through a jig")]
    NoHoles,
}

/// The jig of a board that asks for one; none where it does not.
///
/// # Errors
/// [`SectorJigError`] where there is no next sector, or no hole.
pub fn sector_jig(board: &Board, layout: &Layout) -> Option<Result<SectorPlan, SectorJigError>> {
    board.sector_jig.map(|jig| plan(board, layout, jig))
}

fn plan(board: &Board, layout: &Layout, jig: SectorJig) -> Result<SectorPlan, SectorJigError> {
    if board.players < 2 {
        return Err(SectorJigError::OnePlayer);
    }
    let own: Vec<Hole> = of_player(layout, 1).copied().collect();
    let sector = Angle::degrees(360.0 / f64::from(board.players));
    let index = index_holes(board, &own, sector, jig.pins);
    let Some(&(_, first)) = index.first() else {
        return Err(SectorJigError::NoHoles);
    };
    let arm = first.center.to_vec2().length();
    let (worst, likely) = turned(jig, board.players, arm);
    let closing = closing(layout, board.players);
    let wood = closing.map_or(f64::INFINITY, |(_, _, mm, _)| mm);
    let out = closing.map_or(0.0, |(_, _, _, out)| out);
    // Besides the turn, each sector may sit off the center by the play of the center pin.
    let likely_off = libm::hypot(out * likely, core::f64::consts::SQRT_2 * jig.play);
    Ok(SectorPlan {
        apart: apart(board, layout, &own, sector),
        holes: own,
        index,
        turned: (worst.to_degrees(), likely.to_degrees()),
        closing: closing.map(|(a, b, mm, _)| (a, b, mm)),
        left: (wood - out * worst - 2.0 * jig.play, wood - likely_off),
    })
}

fn of_player(layout: &Layout, player: u32) -> impl Iterator<Item = &Hole> {
    layout
        .holes
        .iter()
        .filter(move |hole| hole.name.id() != HoleId::CENTER && hole.name.id().player() == player)
}

/// How far the last of n sectors may be turned off, radians, at worst and likely, where the index pin stands at `arm`.
///
/// A pin of play p lets the jig's hole be off the board's hole by p: half for each of the two holes it stands in. Turn k
/// puts the index hole within p of a hole that the turn before drilled, and the center within p of the pin. Along the
/// circle at the index hole, arm × (turn k − turn before) = d + (center before − center now), d within ±p. Added up, the
/// centers of all turns but the first and the last count by the change of direction from one index hole to the next,
/// 2 sin(180°/n), so that at worst arm × sum = p (n − 1 + 2 + (n − 2) 2 sin(180°/n)); likely, as independent errors, by the
/// root of the sum of squares. A second pin halves the likely share of the index holes, which it averages.
fn turned(jig: SectorJig, players: u32, arm: f64) -> (f64, f64) {
    if arm <= 0.0 {
        return (0.0, 0.0);
    }
    let turns = f64::from(players) - 1.0;
    let between = 2.0 * Angle::degrees(180.0 / f64::from(players)).sin();
    let worst = turns + 2.0 + (turns - 1.0) * between;
    let squares = turns / f64::from(jig.pins.max(1)) + 2.0 + (turns - 1.0) * between * between;
    let share = jig.play / arm;
    (worst * share, squares.sqrt() * share)
}

/// The holes for the pins, where the sector before has them: far out, for a long arm, and in the half of that sector that
/// is nearer to the jig, so that it stays small. A second one as far from the first as can be.
fn index_holes(board: &Board, own: &[Hole], sector: Angle, pins: u32) -> Vec<(HoleName, Circle)> {
    let axis = Angle::degrees(board.rotation);
    let back = |hole: &Hole| {
        let at = hole.center.to_vec2();
        let turned = point_at(at.length(), bearing_of(hole.center) - sector);
        (hole.name, Circle::new(turned, hole.bore.radius()))
    };
    let near = |hole: &&Hole| {
        let off = (bearing_of(hole.center) - axis).wrapped_to_half_turns();
        hole.center != Point::ORIGIN && off.as_degrees() >= -1e-9
    };
    let mut holes: Vec<(HoleName, Circle)> = own.iter().filter(near).map(back).collect();
    if holes.is_empty() {
        holes = own.iter().map(back).collect();
    }
    let arm = |hole: &(HoleName, Circle)| hole.1.center.to_vec2().length();
    let turn =
        |hole: &(HoleName, Circle)| (bearing_of(hole.1.center) - axis).wrapped_to_half_turns();
    // Of equal arms the one that lies nearest to the jig's own sector: the least turn back.
    let better = |a: &(HoleName, Circle), b: &(HoleName, Circle)| {
        arm(a) > arm(b) + ALIKE
            || (arm(a) > arm(b) - ALIKE && turn(a).as_degrees() > turn(b).as_degrees())
    };
    let first = holes
        .iter()
        .copied()
        .reduce(|a, b| if better(&b, &a) { b } else { a });
    let Some(first) = first else {
        return Vec::new();
    };
    let far = |hole: &(HoleName, Circle)| hole.1.center.distance(first.1.center);
    let second = holes
        .iter()
        .copied()
        .filter(|hole| hole.0 != first.0)
        .reduce(|a, b| if far(&b) > far(&a) { b } else { a });
    let second = second.filter(|_| pins > 1);
    core::iter::once(first).chain(second).collect()
}

/// Holes of other players that are not where the jig drills, or not as wide and deep.
fn apart(board: &Board, layout: &Layout, own: &[Hole], sector: Angle) -> Vec<HoleName> {
    let mut apart = Vec::new();
    for player in 2..=board.players {
        let turn = sector * f64::from(player - 1);
        let drilled = |hole: &Hole| {
            let at = point_at(
                hole.center.to_vec2().length(),
                bearing_of(hole.center) - turn,
            );
            own.iter()
                .any(|mine| mine.center.distance(at) < ALIKE && mine.bore == hole.bore)
        };
        apart.extend(
            of_player(layout, player)
                .filter(|hole| !drilled(hole))
                .map(|hole| hole.name),
        );
    }
    apart
}

/// The least wood between a hole of the last sector and one of the first, and how far out the farther one lies, mm.
fn closing(layout: &Layout, players: u32) -> Option<(HoleName, HoleName, f64, f64)> {
    let holes: Vec<&Hole> = of_player(layout, 1)
        .chain(of_player(layout, players))
        .collect();
    let mouths: Vec<Circle> = holes.iter().map(|hole| hole.mouth()).collect();
    let reach = 2.0
        * holes
            .iter()
            .map(|hole| hole.center.to_vec2().length())
            .fold(0.0, f64::max);
    let across = |web: &&geometry::Web| {
        let player = |at: usize| holes.get(at).map(|hole| hole.name.id().player());
        player(web.a) != player(web.b)
    };
    // A web at a time would do; the nearest few of a board are found in microseconds.
    let mut within = 8.0;
    while within < 2.0 * reach {
        let webs = close_webs(&mouths, within);
        if let Some(web) = webs.iter().find(across) {
            let (a, b) = (holes.get(web.a)?, holes.get(web.b)?);
            let out = a.center.to_vec2().length().max(b.center.to_vec2().length());
            return Some((a.name, b.name, web.mm, out));
        }
        within *= 2.0;
    }
    None
}

#[cfg(test)]
mod tests {
    use super::*;
    use board::{Change, Edit, layout};
    use proptest::prelude::*;
    use testkit::assert_near;

    fn with(players: u32, jig: SectorJig) -> Board {
        Board {
            players,
            sector_jig: Some(jig),
            ..Board::default()
        }
    }

    fn planned(board: &Board) -> SectorPlan {
        sector_jig(board, &layout(board).unwrap()).unwrap().unwrap()
    }

    #[test]
    fn the_index_hole_of_a_ring_is_the_last_space_before_the_sector() {
        let board = with(6, SectorJig::default());
        let plan = planned(&board);
        assert_eq!(plan.index[0].0.to_string(), "T1-14");
        assert_eq!(plan.holes.len(), 22);
        assert!(plan.apart.is_empty());
        let (a, b, wood) = plan.closing.unwrap();
        assert_eq!(
            (a.to_string(), b.to_string()),
            ("T1-01".into(), "T6-14".into())
        );
        // Pitch 19 less bores of 12.
        assert_near!(wood, 7.0, 1e-6);
    }

    #[test]
    fn a_hole_changed_by_hand_in_one_sector_is_told() {
        let mut board = with(6, SectorJig::default());
        let drop = |hole: &str, mirrored| Edit {
            hole: hole.parse().unwrap(),
            mirrored,
            change: Change::Move { u: 0.5, v: 0.0 },
        };
        board.edits = vec![drop("T2-3", false)];
        let names: Vec<String> = planned(&board)
            .apart
            .iter()
            .map(ToString::to_string)
            .collect();
        assert_eq!(names, ["T2-03"]);
        board.edits = vec![drop("T2-3", true)];
        assert!(planned(&board).apart.is_empty());
    }

    #[test]
    fn one_player_has_no_next_sector() {
        let board = Board {
            home: 0,
            start: 0,
            ..with(1, SectorJig::default())
        };
        let found = sector_jig(&board, &layout(&board).unwrap()).unwrap();
        assert_eq!(found, Err(SectorJigError::OnePlayer));
        assert_eq!(
            sector_jig(&Board::default(), &layout(&Board::default()).unwrap()),
            None
        );
    }

    #[test]
    fn two_pins_stand_far_apart_and_leave_less_error() {
        let one = planned(&with(6, SectorJig { pins: 1, play: 0.1 }));
        let two = planned(&with(6, SectorJig { pins: 2, play: 0.1 }));
        assert_eq!(two.index.len(), 2);
        assert!(two.turned.1 < one.turned.1);
        assert_eq!(
            planned(&with(6, SectorJig { pins: 1, play: 0.0 })).turned,
            (0.0, 0.0)
        );
    }

    /// A jig turned round with pins that lie anywhere in their play: the closed forms hold it.
    fn simulated(players: u32, arm: f64, play: f64, draw: &mut impl FnMut() -> f64) -> f64 {
        let sector = core::f64::consts::TAU / f64::from(players);
        let disc = |draw: &mut dyn FnMut() -> f64| {
            loop {
                let (x, y) = (draw(), draw());
                if x * x + y * y <= 1.0 {
                    return (x * play, y * play);
                }
            }
        };
        let (mut off, mut center) = (0.0, disc(draw));
        for turn in 1..players {
            let now = disc(draw);
            // Direction along the circle at this turn's index hole.
            let bearing = sector * f64::from(turn - 1);
            let (sin, cos) = (libm::sin(bearing), libm::cos(bearing));
            let along = |(x, y): (f64, f64)| x * cos - y * sin;
            off += (draw() * play + along(center) - along(now)) / arm;
            center = now;
        }
        off
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(24))]
        #[test]
        fn no_simulated_round_is_worse_than_the_worst(players in 2_u32..9, seed in 1_u64..u64::MAX) {
            let jig = SectorJig { pins: 1, play: 0.2 };
            let (worst, likely) = turned(jig, players, 180.0);
            let mut state = seed;
            let mut draw = || {
                state ^= state << 13;
                state ^= state >> 7;
                state ^= state << 17;
                (state >> 11) as f64 / (1_u64 << 52) as f64 - 1.0
            };
            let rounds: Vec<f64> = (0..2000).map(|_| simulated(players, 180.0, 0.2, &mut draw)).collect();
            for round in &rounds {
                prop_assert!(round.abs() <= worst + 1e-12);
            }
            // The root of the sum of squares of even draws is the root of 3 standard deviations: some 8 % lie beyond.
            let beyond = rounds.iter().filter(|round| round.abs() > likely).count();
            prop_assert!(beyond < 220, "{beyond} of 2000");
        }

        #[test]
        fn index_holes_lie_on_holes_of_the_sector_before(players in 2_u32..9, rotation in -180.0..180.0_f64, pins in 1_u32..=2) {
            let board = Board { rotation, ..with(players, SectorJig { pins, play: 0.1 }) };
            let holes = layout(&board).unwrap();
            for (name, circle) in planned(&board).index {
                let near = of_player(&holes, players).map(|hole| hole.center.distance(circle.center));
                prop_assert!(near.fold(f64::INFINITY, f64::min) < 1e-9, "{}", name);
            }
        }
    }
}
