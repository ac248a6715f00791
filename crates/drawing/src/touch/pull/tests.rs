//! Tests of drags and of the resulting documents.

use board::{Board, Build, Grooves, Recess, Role, ScrewCircle};
use geometry::Vec2;
use proptest::prelude::*;
use testkit::assert_near;
use workshop::GrooveKind;

use super::*;

/// A board with everything that can be dragged.
fn full() -> Board {
    let mut board = Board {
        grooves: Some(Grooves {
            rim: Some(5.0),
            middle: Some(30.0),
            sectors_from: Some(60.0),
            around_home: Some(3.0),
            around_start: Some(3.0),
            rings: Some(board::Rings::default()),
            ..Grooves::default()
        }),
        recess: Some(Recess::default()),
        screws: vec![ScrewCircle::default()],
        ..Board::default()
    };
    (board.pocket.bearing, board.pocket.radius) = (Some(30.0), Some(150.0));
    board.panel.build = Build::Seams {
        at: vec![93.0, -75.0],
    };
    board
}

fn id(name: &str) -> HoleId {
    name.parse().unwrap()
}

const THINGS: [Thing; 14] = [
    Thing::Hole(HoleId::new(Role::Track, 2, 5)),
    Thing::Hole(HoleId::new(Role::Home, 4, 1)),
    Thing::Lane(2),
    Thing::Pocket(3),
    Thing::Groove(GrooveKind::Rim),
    Thing::Groove(GrooveKind::Middle),
    Thing::Groove(GrooveKind::Sector),
    Thing::Groove(GrooveKind::Ring),
    Thing::Groove(GrooveKind::AroundHome),
    Thing::Groove(GrooveKind::AroundStart),
    Thing::Screws(0),
    Thing::Seam(1),
    Thing::Recess,
    Thing::Rim,
];

/// A drag of a thing by a vector, from a point of the board.
fn by(
    board: &Board,
    thing: Thing,
    from: Point,
    way: Vec2,
    mirrored: bool,
    snap: Snap,
) -> Option<Board> {
    let pull = Pull {
        thing,
        with: &[],
        from,
        to: from + way,
        mirrored,
        snap,
    };
    Some(pulled(&Workpiece::of(board).unwrap(), &pull)?.board)
}

const FROM: Point = Point::new(100.0, 60.0);

/// A point at which a thing can be dragged.
fn on(board: &Board, thing: Thing) -> Point {
    let shapes = thing.shapes(&Workpiece::of(board).unwrap());
    match shapes.first() {
        Some(crate::Shape::Circle(circle)) => {
            circle.center + (0.6 * circle.radius, 0.8 * circle.radius)
        }
        Some(crate::Shape::Line(line)) => line.midpoint(),
        Some(crate::Shape::Arc(arc)) => arc.at(0.4),
        _ => FROM,
    }
}

#[test]
fn a_hole_moves_with_its_twins_or_alone() {
    let (board, hole) = (full(), Thing::Hole(id("T1-9")));
    // The first player's axis points up: right is clockwise, up is outward.
    let all = by(
        &board,
        hole,
        FROM,
        Vec2::new(2.04, -1.52),
        true,
        Snap::Marks,
    )
    .unwrap();
    assert_eq!(all.moved(id("T5-9"), true), (2.0, -1.5));
    let one = by(
        &board,
        hole,
        FROM,
        Vec2::new(2.04, -1.52),
        false,
        Snap::Marks,
    )
    .unwrap();
    assert_eq!(one.moved(id("T1-9"), false), (2.0, -1.5));
    assert_eq!(one.moved(id("T5-9"), false), (0.0, 0.0));
}

#[test]
fn selected_holes_move_along_with_the_dragged_one() {
    let board = full();
    let workpiece = Workpiece::of(&board).unwrap();
    let with = [id("T1-3"), id("T1-4"), id("T3-4")];
    let pull = |mirrored| Pull {
        thing: Thing::Hole(with[1]),
        with: &with,
        from: FROM,
        to: FROM + Vec2::new(0.0, 1.0),
        mirrored,
        snap: Snap::Fine,
    };
    let together = pulled(&workpiece, &pull(true)).unwrap().board;
    assert_eq!(together.edits.len(), 2);
    let apart = pulled(&workpiece, &pull(false)).unwrap().board;
    assert_eq!(apart.edits.len(), 3);
    let center = |board: &Board, name| board::layout(board).unwrap().hole(id(name)).unwrap().center;
    for name in ["T1-3", "T1-4", "T3-4"] {
        let way = center(&apart, name) - center(&board, name);
        assert_near!(way.to_point(), Point::new(0.0, 1.0), 1e-3);
    }
}

#[test]
fn a_hole_snaps_to_the_spacing_and_to_the_axis() {
    let board = full();
    let workpiece = Workpiece::of(&board).unwrap();
    let lane = workpiece.layout().hole(id("H1-5")).unwrap().center;
    let at = |to| {
        let pull = Pull {
            thing: Thing::Hole(id("H1-5")),
            with: &[],
            from: lane,
            to,
            mirrored: true,
            snap: Snap::Guides(2.0),
        };
        pulled(&workpiece, &pull).unwrap()
    };
    let on_axis = at(lane + Vec2::new(0.7, -7.0));
    let moved = on_axis.board.moved(id("H1-5"), true);
    assert_near!(moved.0, 0.0, 1e-9);
    assert!(
        on_axis
            .guides
            .iter()
            .any(|guide| guide.words.contains("axis"))
    );
    // A quarter of a turn about H1-4: one spacing to the right of it.
    let beside = at(lane + Vec2::new(18.6, 18.6));
    let layout = board::layout(&beside.board).unwrap();
    let apart = layout
        .hole(id("H1-5"))
        .unwrap()
        .center
        .distance(layout.hole(id("H1-4")).unwrap().center);
    assert_near!(apart, board.pitch, 1e-6);
    assert!(
        beside
            .guides
            .iter()
            .any(|guide| guide.words == "one hole spacing from H1-4")
    );
}

#[test]
fn a_turned_pattern_snaps_to_the_grain() {
    let turn = |degrees: f64| {
        let from = Point::new(0.0, 300.0);
        let to = geometry::point_at(300.0, geometry::Angle::degrees(degrees));
        by(
            &full(),
            Thing::Turn,
            from,
            to - from,
            true,
            Snap::Guides(4.0),
        )
        .unwrap()
        .rotation
    };
    // With six players, an axis or a border is square to the grain every 30 degrees.
    assert_eq!(turn(30.4), 30.0);
    assert_eq!(turn(12.3), 12.5);
    assert_eq!(turn(-89.8), -90.0);
}

#[test]
fn the_center_hole_and_lines_without_an_offset_stay() {
    let board = full();
    let still = [
        Thing::Hole(HoleId::CENTER),
        Thing::Groove(GrooveKind::Track),
        Thing::Seam(9),
        Thing::Pocket(0),
    ];
    for thing in still {
        assert_eq!(
            by(&board, thing, FROM, Vec2::new(5.0, 5.0), true, Snap::Marks),
            None
        );
    }
}

fn snaps() -> impl Strategy<Value = Snap> {
    prop_oneof![
        Just(Snap::Fine),
        Just(Snap::Marks),
        (0.1..6.0).prop_map(Snap::Guides)
    ]
}

proptest! {
    /// However far a thing is dragged, every number stays within its range, and the board can be laid out.
    #[test]
    fn a_drag_never_leaves_a_field_s_range(
        thing in 0..THINGS.len(), x in -9e3..9e3, y in -9e3..9e3, mirrored: bool, snap in snaps(),
    ) {
        if let Some(after) = by(&full(), THINGS[thing], on(&full(), THINGS[thing]), Vec2::new(x, y), mirrored, snap) {
            prop_assert!(board::out_of_range(&after).is_empty());
            prop_assert!(board::layout(&after).is_ok());
        }
    }

    /// A hole dragged with its twins keeps all sectors of the board equal.
    #[test]
    fn a_drag_with_twins_keeps_the_sectors_alike(number in 1..=14_u32, x in -9.0..9.0, y in -9.0..9.0, snap in snaps()) {
        let hole = HoleId::new(Role::Track, 3, number);
        if let Some(after) = by(&full(), Thing::Hole(hole), FROM, Vec2::new(x, y), true, snap) {
            let layout = board::layout(&after).unwrap();
            let local = |player: u32| {
                let center = layout.hole(hole.of_player(player)).unwrap().center;
                layout.sectors[player as usize - 1].local(center)
            };
            for player in 2..=6 {
                prop_assert!(local(player).distance(local(1)) < 1e-9);
            }
        }
    }

    /// A drag and its reverse give the same board, if nothing snaps to a guide or reaches the end of its range on the way;
    /// the first that would is the gap of rings, 1.5 mm.
    #[test]
    fn a_drag_and_its_inverse_give_the_same_board(
        thing in 0..THINGS.len(), x in -1.0..1.0, y in -1.0..1.0, mirrored: bool, is_fine: bool,
    ) {
        // Things with a bearing are rounded to a tenth of a degree, coarser than the move.
        let is_polar = matches!(THINGS[thing], Thing::Pocket(_) | Thing::Screws(_));
        let (board, way) = (full(), Vec2::new(x, y));
        let from = on(&board, THINGS[thing]);
        let snap = if is_fine { Snap::Fine } else { Snap::Marks };
        if let Some(there) = by(&board, THINGS[thing], from, way, mirrored, snap)
            && let Some(back) = by(&there, THINGS[thing], from + way, -way, mirrored, snap)
        {
            if is_polar {
                let (was, is) = (board::layout(&board).unwrap(), board::layout(&back).unwrap());
                for (was, is) in was.holes.iter().zip(&is.holes) {
                    prop_assert!(was.center.distance(is.center) < 0.5);
                }
            } else {
                prop_assert_eq!(&back, &board);
            }
        }
        // Within one drag, returning to the start gives the original document.
        let stay = by(&board, THINGS[thing], FROM, Vec2::ZERO, mirrored, snap);
        prop_assert_eq!(stay, Some(board));
    }
}
