//! The positions of a board's holes.

use super::*;
use geometry::{Pattern, point_at};
use testkit::assert_near;

const PATTERNS: [Pattern; 4] = [
    Pattern::Ring,
    Pattern::Lobes { depth: 0.15 },
    Pattern::Polygon,
    Pattern::Arms { across: 3 },
];

#[test]
fn six_players_make_145_holes_on_every_pattern() {
    for pattern in PATTERNS {
        let layout = layout(&Board {
            pattern,
            ..Board::default()
        })
        .unwrap();
        assert_eq!(layout.holes.len(), 6 * (16 + 5 + 3) + 1, "{pattern:?}");
    }
}

#[test]
fn holes_come_in_table_order_with_padded_names() {
    let layout = layout(&Board::default()).unwrap();
    let names: Vec<String> = layout
        .holes
        .iter()
        .map(|hole| hole.name.to_string())
        .collect();
    assert_eq!(names[0], "T1-01");
    assert_eq!(names[15..18], ["T1-16", "H1-1", "H1-2"]);
    assert_eq!(names[21], "S1-1");
    assert_eq!(names[24], "T2-01");
    assert_eq!(names[144], "C");
    let ids: Vec<HoleId> = layout.holes.iter().map(|hole| hole.name.id()).collect();
    assert!(ids.is_sorted());
}

#[test]
fn every_sector_is_the_first_one_rotated() {
    for pattern in PATTERNS {
        let layout = layout(&Board {
            pattern,
            rotation: 17.0,
            ..Board::default()
        })
        .unwrap();
        for hole in layout
            .holes
            .iter()
            .filter(|hole| hole.name.id().player() > 1)
        {
            let first = layout.hole(hole.name.id().of_player(1)).unwrap();
            let turn = Angle::turn_part(i64::from(hole.name.id().player()) - 1, 6);
            let bearing = geometry::bearing_of(first.center) + turn;
            assert_near!(
                hole.center,
                point_at(first.center.to_vec2().length(), bearing),
                1e-9
            );
        }
    }
}

#[test]
fn the_turn_in_space_lies_on_the_axis_and_the_home_lane_a_pitch_inside_it() {
    let board = Board {
        rotation: 30.0,
        ..Board::default()
    };
    let layout = layout(&board).unwrap();
    let turn_in = layout.hole("T2-9".parse().unwrap()).unwrap();
    assert_near!(
        geometry::bearing_of(turn_in.center).as_degrees(),
        90.0,
        1e-9
    );
    let home = layout.hole("H2-1".parse().unwrap()).unwrap();
    assert_near!(home.center.distance(turn_in.center), board.pitch, 1e-9);
    assert_near!(
        layout.turn_in_radius,
        turn_in.center.to_vec2().length(),
        1e-9
    );
}

fn edited(hole: &str, mirrored: bool, change: Change) -> Layout {
    let edit = Edit {
        hole: hole.parse().unwrap(),
        mirrored,
        change,
    };
    layout(&Board {
        edits: vec![edit],
        ..Board::default()
    })
    .unwrap()
}

#[test]
fn a_hole_is_dropped_alone_or_with_its_mirror_images() {
    assert_eq!(edited("T2-3", false, Change::Drop).holes.len(), 144);
    assert_eq!(edited("T2-03", true, Change::Drop).holes.len(), 139);
    assert_eq!(edited("C", true, Change::Drop).holes.len(), 144);
}

#[test]
fn a_move_survives_a_change_of_pitch() {
    let change = Change::Move { u: 2.0, v: -1.0 };
    let hole: HoleId = "H1-2".parse().unwrap();
    for pitch in [19.0, 21.0] {
        let plain = layout(&Board {
            pitch,
            ..Board::default()
        })
        .unwrap();
        let edit = Edit {
            hole,
            mirrored: false,
            change,
        };
        let moved = layout(&Board {
            pitch,
            edits: vec![edit],
            ..Board::default()
        })
        .unwrap();
        let by = moved.hole(hole).unwrap().center - plain.hole(hole).unwrap().center;
        assert_near!(by.to_point(), Point::new(2.0, -1.0), 1e-9);
    }
}

#[test]
fn an_added_hole_is_an_extra_in_its_players_frame() {
    let bore = Board::default().bores.track;
    let layout = edited(
        "X2-1",
        true,
        Change::Add {
            u: 0.0,
            v: 20.0,
            bore,
        },
    );
    assert_eq!(layout.holes.len(), 151);
    let hole = layout.hole("X3-1".parse().unwrap()).unwrap();
    assert_near!(hole.center, point_at(20.0, Angle::degrees(120.0)), 1e-9);
}

#[test]
fn the_center_hole_stays_at_the_center_pin() {
    let change = Change::Move { u: 1.0, v: 0.0 };
    let edit = Edit {
        hole: HoleId::CENTER,
        mirrored: false,
        change,
    };
    let board = Board {
        edits: vec![edit],
        ..Board::default()
    };
    assert_eq!(layout(&board), Err(BuildError::CenterMoved));
}

#[test]
fn a_pivot_holds_no_piece() {
    let hole = Board::default();
    assert_eq!(layout(&hole).unwrap().seats(&hole).len(), 145);
    let pivot = Board {
        center: Center::Pivot {
            diameter: 6.0,
            depth: 10.0,
        },
        ..hole
    };
    assert_eq!(layout(&pivot).unwrap().seats(&pivot).len(), 144);
}

#[test]
fn no_two_holes_share_a_name() {
    let bore = Board::default().bores.track;
    let added = |hole: &str, mirrored| Edit {
        hole: hole.parse().unwrap(),
        mirrored,
        change: Change::Add {
            u: 0.0,
            v: 20.0,
            bore,
        },
    };
    let built = |edits| {
        layout(&Board {
            edits,
            ..Board::default()
        })
    };
    let twice = built(vec![added("X1-1", true), added("X3-1", false)]);
    let hole = "X3-1".parse().unwrap();
    assert_eq!(twice, Err(BuildError::AddedTwice { hole }));
    assert!(matches!(
        built(vec![added("T1-3", false)]),
        Err(BuildError::AddedName { .. })
    ));
    assert!(matches!(
        built(vec![added("X1-4294967295", false)]),
        Err(BuildError::Range(_))
    ));
}

#[test]
fn an_edit_without_a_hole_waits_and_is_reported() {
    let layout = edited("T9-1", false, Change::Drop);
    assert_eq!(layout.holes.len(), 145);
    assert_eq!(layout.idle_edits, ["T9-1".parse().unwrap()]);
}

#[test]
fn without_a_center_hole_there_is_no_center_hole() {
    let layout = layout(&Board {
        center: Center::Nothing,
        ..Board::default()
    })
    .unwrap();
    assert!(layout.hole(HoleId::CENTER).is_none());
}

#[test]
fn contradictory_numbers_are_refused_with_the_rule() {
    let odd = Board {
        pattern: Pattern::Arms { across: 3 },
        spaces: 13,
        ..Board::default()
    };
    let message = layout(&odd).unwrap_err().to_string();
    assert!(
        message.contains("12") && message.contains("14"),
        "{message}"
    );
    let long = Board {
        home: 40,
        ..Board::default()
    };
    assert!(matches!(layout(&long), Err(BuildError::Geometry(_))));
    let wild = Board {
        pitch: f64::NAN,
        ..Board::default()
    };
    assert!(matches!(layout(&wild), Err(BuildError::Range(_))));
}
