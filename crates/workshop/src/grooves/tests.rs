//! The grooves of boards, compared with distances measured independently.

use super::*;
use crate::{Rule, Workpiece};
use board::Board;
use board::{Bore, Change, Edit, Grooves, HoleId, Rings, Role, layout};
use geometry::{Angle, Pattern, PocketShape, Point, bearing_of, point_at};
use proptest::prelude::*;
use testkit::assert_near;

const NONE: Grooves = Grooves {
    width: 2.0,
    angle: 60.0,
    tip: 0.0,
    pass: 2.0,
    stop: 1.5,
    track: false,
    home: false,
    around_home: None,
    around_start: None,
    rings: None,
    sectors_from: None,
    rim: None,
    middle: None,
};

const ALL_RINGS: Rings = Rings {
    gap: 1.5,
    track: true,
    home: true,
    start: true,
    extra: true,
    center: true,
};

fn planned(board: &Board, wanted: Grooves) -> GroovePlan {
    let board = Board {
        grooves: Some(wanted),
        ..board.clone()
    };
    lay_grooves(&Workpiece::of(&board).unwrap()).unwrap()
}

fn of(plan: &GroovePlan, kind: GrooveKind) -> Vec<&Groove> {
    let of_kind = plan.grooves.iter().filter(|groove| groove.kind == kind);
    of_kind.collect()
}

/// Wood between a groove and a bore at the top face.
fn wood(groove: &Groove, board: &Board, id: HoleId) -> f64 {
    let layout = layout(board).unwrap();
    let hole = layout.hole(id).unwrap();
    let away = |stroke: &Stroke| stroke.distance(hole.center);
    let nearest = groove.path.iter().map(away).fold(f64::INFINITY, f64::min);
    nearest - hole.bore.radius() - NONE.width / 2.0
}

#[test]
fn a_board_without_grooves_has_no_plan() {
    let board = Board::default();
    assert_eq!(lay_grooves(&Workpiece::of(&board).unwrap()), None);
}

#[test]
fn the_track_closes_and_each_line_stops_short_of_its_bores() {
    let board = Board::default();
    let plan = planned(
        &board,
        Grooves {
            track: true,
            ..NONE
        },
    );
    assert_eq!(plan.grooves.len(), 96);
    assert_eq!(plan.dropped, []);
    for groove in &plan.grooves {
        assert_eq!(groove.holes.len(), 2);
        for name in &groove.holes {
            assert_near!(wood(groove, &board, name.id()), 1.5, 1e-9);
        }
    }
    let last: Vec<String> = plan.grooves[95]
        .holes
        .iter()
        .map(ToString::to_string)
        .collect();
    assert_eq!(last, ["T1-01", "T6-16"]);
    // The pitch less two bore radii, two gaps of wood, and half a width at each end.
    assert_near!(plan.length, 96.0 * (19.0 - 12.0 - 3.0 - 2.0), 1e-6);
    assert_near!(plan.depth, 3.0_f64.sqrt(), 1e-12);
    assert_eq!(plan.passes, 1);
}

#[test]
fn a_home_lane_is_joined_to_its_turn_in_space() {
    let plan = planned(&Board::default(), Grooves { home: true, ..NONE });
    assert_eq!(plan.grooves.len(), 30);
    let first: Vec<String> = plan.grooves[0]
        .holes
        .iter()
        .map(ToString::to_string)
        .collect();
    assert_eq!(first, ["T1-09", "H1-1"]);
}

#[test]
fn a_line_without_room_is_reported() {
    let wanted = Grooves {
        track: true,
        stop: 2.5,
        ..NONE
    };
    let plan = planned(&Board::default(), wanted);
    // 19 - 12 - 5 - 2 leaves nothing.
    assert_eq!(plan.grooves, []);
    assert_eq!(plan.dropped.len(), 96);
    assert_eq!(
        (plan.dropped[0].0, plan.dropped[0].1.len()),
        (GrooveKind::Track, 2)
    );
}

#[test]
fn a_removed_hole_takes_its_lines_along() {
    let drop = Edit {
        hole: "T1-3".parse().unwrap(),
        mirrored: false,
        change: Change::Drop,
    };
    let board = Board {
        edits: vec![drop],
        ..Board::default()
    };
    let plan = planned(
        &board,
        Grooves {
            track: true,
            ..NONE
        },
    );
    assert_eq!((plan.grooves.len(), plan.dropped.len()), (96 - 2, 0));
}

#[test]
fn rings_surround_the_bores_of_their_roles_and_stay_circles() {
    let board = Board::default();
    for (rings, count) in [(ALL_RINGS, 145), (Rings::default(), 1)] {
        let plan = planned(
            &board,
            Grooves {
                rings: Some(rings),
                ..NONE
            },
        );
        assert_eq!(plan.grooves.len(), count);
        for groove in &plan.grooves {
            assert!(matches!(groove.path[..], [Stroke::Circle(_)]));
            assert_near!(wood(groove, &board, groove.holes[0].id()), 1.5, 1e-9);
        }
    }
}

#[test]
fn lines_between_sectors_run_from_their_start_to_the_rim_and_stop_at_bores() {
    let wanted = Grooves {
        sectors_from: Some(40.0),
        rim: Some(5.0),
        ..NONE
    };
    // Eight of the 16 spaces of a sector come before the turn-in space, and the first of them is on the border.
    let mut board = Board {
        start: 0,
        ..Board::default()
    };
    let plan = planned(&board, wanted);
    let lines = of(&plan, GrooveKind::Sector);
    assert_eq!(lines.len(), 12);
    let reach = |at: Point| at.to_vec2().length();
    assert_near!(reach(lines[0].path[0].start()), 41.0, 1e-9);
    // 320 mm less the roundover of 5 mm, 5 mm of wood and half the width: the center line of the ring at the rim.
    assert_near!(reach(lines[1].path[0].end()), 309.0, 1e-9);
    assert_near!(
        reach(of(&plan, GrooveKind::Rim)[0].path[0].start()),
        309.0,
        1e-9
    );
    board.pattern = Pattern::Polygon;
    board.start = 3;
    let plan = planned(&board, wanted);
    for groove in of(&plan, GrooveKind::Sector) {
        for hole in &layout(&board).unwrap().holes {
            assert!(wood(groove, &board, hole.name.id()) >= 1.5 - 1e-9);
        }
    }
}

#[test]
fn the_ring_around_the_center_starts_at_the_typed_distance() {
    let board = Board::default();
    let at = |middle: f64| Grooves {
        middle: Some(middle),
        ..NONE
    };
    let plan = planned(&board, at(30.0));
    // The inner edge of a groove of 2 mm is at 30 mm, its center line at 31 mm.
    let Stroke::Circle(ring) = plan.grooves[0].path[0] else {
        panic!("{:?}", plan.grooves)
    };
    assert_eq!(
        (plan.grooves.len(), plan.grooves[0].kind),
        (1, GrooveKind::Middle)
    );
    assert_near!(ring.radius, 31.0, 1e-12);
    assert_near!(ring.center.to_vec2().length(), 0.0, 0.0);
    // A ring through the last home holes is reported, and so is one beyond the edge.
    let rules = |middle: f64| {
        let board = Board {
            grooves: Some(at(middle)),
            ..board.clone()
        };
        let workpiece = Workpiece::of(&board).unwrap();
        let found = workpiece.findings().iter().map(|found| found.rule);
        found.collect::<Vec<_>>()
    };
    let home = layout(&board).unwrap();
    let inmost = home
        .holes
        .iter()
        .filter(|hole| hole.name.id().role() == Role::Home);
    let inmost = inmost
        .map(|hole| hole.center.to_vec2().length())
        .fold(f64::INFINITY, f64::min);
    assert!(rules(inmost).contains(&Rule::GrooveBores));
    assert!(rules(330.0).contains(&Rule::GrooveRim));
    assert!(
        !rules(30.0)
            .iter()
            .any(|rule| [Rule::GrooveBores, Rule::GrooveRim].contains(rule))
    );
}

#[test]
fn outlines_keep_their_distance_and_close() {
    for shape in [
        PocketShape::Row,
        PocketShape::Arc,
        PocketShape::Block,
        PocketShape::Ring,
    ] {
        for start in [1, 2, 3, 4, 7] {
            let mut board = Board {
                start,
                ..Board::default()
            };
            board.pocket.shape = shape;
            board.blank.diameter = 700.0;
            let wanted = Grooves {
                around_home: Some(3.0),
                around_start: Some(3.0),
                ..NONE
            };
            let plan = planned(&board, wanted);
            assert_eq!(plan.grooves.len(), 12);
            for groove in &plan.grooves {
                assert_closed(groove);
                for name in &groove.holes {
                    let wood = wood(groove, &board, name.id());
                    assert!(wood > 3.0 - 1e-9, "{shape:?} {start} {name}: {wood}");
                }
                let ends = [groove.holes[0], *groove.holes.last().unwrap()];
                for name in ends {
                    let near = wood(groove, &board, name.id());
                    assert!(near < 3.0 + 1e-6, "{shape:?} {start} {name}: {near}");
                }
            }
        }
    }
}

fn assert_closed(groove: &Groove) {
    let nexts = groove.path.iter().cycle().skip(1);
    for (stroke, next) in groove.path.iter().zip(nexts) {
        assert_near!(stroke.end(), next.start(), 1e-9);
    }
}

#[test]
fn an_outline_around_a_row_is_two_lines_and_two_half_circles() {
    let wanted = Grooves {
        around_home: Some(3.0),
        ..NONE
    };
    let plan = planned(&Board::default(), wanted);
    let path = &plan.grooves[0].path;
    let [
        Stroke::Line(_),
        Stroke::Arc(cap),
        Stroke::Line(_),
        Stroke::Arc(_),
    ] = path[..]
    else {
        panic!("{path:?}")
    };
    assert_near!(cap.sweep.as_degrees(), 180.0, 1e-9);
    assert_near!(cap.radius, 10.0, 1e-12);
    // Five holes at a pitch of 19 mm: twice four pitches plus a circle with a radius of 10 mm.
    assert_near!(
        plan.grooves[0].length(),
        8.0 * 19.0 + 20.0 * core::f64::consts::PI,
        1e-9
    );
}

#[test]
fn every_sector_has_the_same_grooves() {
    let wanted = Grooves {
        track: true,
        home: true,
        around_home: Some(2.0),
        around_start: Some(2.0),
        rings: Some(ALL_RINGS),
        sectors_from: Some(10.0),
        rim: Some(3.0),
        ..NONE
    };
    for pattern in [
        Pattern::Lobes { depth: 0.15 },
        Pattern::Polygon,
        Pattern::Arms { across: 3 },
    ] {
        let board = Board {
            pattern,
            rotation: 11.0,
            ..Board::default()
        };
        let plan = planned(&board, wanted);
        let of_player = |player: u32| {
            let his = plan.grooves.iter().filter(move |groove| {
                groove.holes.first().is_some_and(|name| {
                    name.id().player() == player && name.id().role() != Role::Center
                })
            });
            let mut lengths: Vec<f64> = his.map(Groove::length).collect();
            lengths.sort_by(f64::total_cmp);
            lengths
        };
        let second = of_player(2);
        for player in [3, 4, 5] {
            let other = of_player(player);
            assert_eq!(other.len(), second.len());
            for (one, other) in second.iter().zip(other) {
                assert_near!(*one, other, 1e-6);
            }
        }
    }
}

/// Checks that the outlines of each player, turned back to the first player, equal those of the first, stroke for stroke.
fn assert_symmetric(plan: &GroovePlan, players: u32) -> Result<(), TestCaseError> {
    for kind in [GrooveKind::AroundHome, GrooveKind::AroundStart] {
        let all = of(plan, kind);
        let Some(first) = all.first() else { continue };
        prop_assert_eq!(all.len() as u32, players);
        for (groove, player) in all.iter().zip(0..) {
            let back = Angle::turn_part(-player, i64::from(players));
            prop_assert_eq!(groove.path.len(), first.path.len());
            for (stroke, wanted) in groove.path.iter().zip(&first.path) {
                for part in [0.0, 0.3, 1.0] {
                    let at = stroke.at(part);
                    let at = point_at(at.to_vec2().length(), bearing_of(at) + back);
                    // A circle begins at the same bearing in every sector.
                    let off = wanted.distance(at).min(at.distance(wanted.at(part)));
                    prop_assert!(off < 1e-6, "{:?} is {} off", kind, off);
                }
            }
        }
    }
    Ok(())
}

proptest! {
    #[test]
    fn outlines_are_the_same_in_every_sector(
        (players, spaces, home, start) in (2_u32..9, 8_u32..16, 0_u32..5, 1_u32..7),
        rotation in prop_oneof![Just(0.0), -180.0..180.0_f64],
        shape in prop::sample::select(vec![PocketShape::Row, PocketShape::Arc, PocketShape::Block, PocketShape::Ring]),
        bearing in prop::option::of(prop_oneof![Just(0.0), Just(90.0), -90.0..90.0_f64]),
    ) {
        let mut board = Board { players, spaces, home, start, rotation, ..Board::default() };
        board.pocket = board::Pocket { shape, bearing, radius: bearing.map(|_| 200.0) };
        board.blank.diameter = 900.0;
        prop_assume!(layout(&board).is_ok());
        let wanted = Grooves { around_home: Some(2.0), around_start: Some(2.0), ..NONE };
        let plan = planned(&board, wanted);
        assert_symmetric(&plan, players)?;
        // Each center is inside its outline by the outline's distance.
        for groove in &plan.grooves {
            let centers = groove.holes.iter().map(|name| layout(&board).unwrap().hole(name.id()).unwrap().center);
            for center in centers {
                let off = groove.path.iter().map(|stroke| stroke.distance(center)).fold(f64::INFINITY, f64::min);
                prop_assert!(off > board.bores.start.radius() + 3.0 - 1e-6, "{:?}: {}", groove.kind, off);
            }
        }
    }

    #[test]
    fn grooves_of_random_boards_keep_clear_of_their_own_bores(
        counts in (1_u32..9, 1_u32..30, 0_u32..7, 0_u32..7),
        sizes in (2.0..40.0_f64, 0.2..12.0_f64, 0.1..5.0_f64, 0.0..6.0_f64),
        moved in (-30.0..30.0_f64, -30.0..30.0_f64),
        turn in 0.0..360.0_f64,
    ) {
        let (players, spaces, home, start) = counts;
        let bore = Bore { diameter: sizes.1, ..Board::default().bores.track };
        let edit = Edit {
            hole: HoleId::new(Role::Start, 1, 1),
            mirrored: true,
            change: Change::Move { u: moved.0, v: moved.1 },
        };
        let board = Board {
            players, spaces, home, start,
            pitch: sizes.0,
            rotation: turn,
            bores: board::Bores::all(bore),
            edits: vec![edit],
            ..Board::default()
        };
        prop_assume!(layout(&board).is_ok());
        let wanted = Grooves {
            width: sizes.2, stop: sizes.3,
            track: true, home: true,
            around_home: Some(sizes.3), around_start: Some(sizes.3),
            rings: Some(Rings { gap: sizes.3, ..ALL_RINGS }),
            sectors_from: Some(5.0), rim: Some(2.0),
            ..NONE
        };
        let plan = planned(&board, wanted);
        let layout = layout(&board).unwrap();
        for groove in &plan.grooves {
            prop_assert!(groove.length() > 0.0 && groove.length().is_finite());
            for pair in groove.path.windows(2) {
                prop_assert!(pair[0].end().distance(pair[1].start()) < 1e-6, "{groove:?}");
            }
            let belongs = layout.holes.iter().filter(|hole| {
                groove.kind == GrooveKind::Sector || groove.holes.contains(&hole.name)
            });
            for hole in belongs {
                let nearest = groove.path.iter().map(|stroke| stroke.distance(hole.center));
                let wood = nearest.fold(f64::INFINITY, f64::min) - hole.bore.radius() - wanted.width / 2.0;
                prop_assert!(wood > sizes.3 - 1e-6, "{groove:?} {wood}");
            }
        }
    }
}

#[test]
fn sector_lines_are_midway_between_the_axes() {
    let wanted = Grooves {
        sectors_from: Some(0.0),
        ..NONE
    };
    let board = Board {
        players: 4,
        rotation: 10.0,
        ..Board::default()
    };
    let plan = planned(&board, wanted);
    let end = of(&plan, GrooveKind::Sector)[0].path[0].end();
    let bearing = geometry::bearing_of(end) - Angle::degrees(55.0);
    assert_near!(bearing.as_degrees(), 0.0, 1e-9);
}

/// With two players each comes before the other: the line that closes the track across 12 o'clock belongs to the second.
#[test]
fn a_line_between_two_sectors_belongs_to_the_player_before_it() {
    for players in [2, 3, 6] {
        let board = Board {
            players,
            ..Board::default()
        };
        let wanted = Grooves {
            track: true,
            home: true,
            ..NONE
        };
        let plan = planned(&board, wanted);
        for player in 1..=players {
            let of_player = |kind| {
                let his = of(&plan, kind).into_iter();
                his.filter(|groove| groove.player == player).count()
            };
            assert_eq!(of_player(GrooveKind::Track), board.spaces as usize);
            assert_eq!(of_player(GrooveKind::Home), board.home as usize);
        }
    }
}
