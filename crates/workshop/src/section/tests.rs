use super::*;
use crate::{FloorOver, Workpiece, bore_sizes, recess_sizes};
use board::Board;
use board::{
    Base, Bore, Bores, Bottom, Build, Center, Change, Edit, Filling, Footing, Grooves, Insert,
    LidFit, LidHold, Magnet, Panel, Piece, PieceKind, Recess, RecessShape, Rings, Role,
    ScrewCircle, Tenons, Toward, layout,
};
use proptest::prelude::*;
use testkit::assert_near;

use crate::bores::profile::tests::width;
use crate::{insert_below, marble_stand};

const FIRST: HoleId = HoleId::new(Role::Track, 1, 1);

/// A board with one bore in every role.
fn bored(bore: Bore) -> Board {
    Board {
        bores: Bores::all(bore),
        center: Center::Hole { bore, pilot: 0.5 },
        ..Board::default()
    }
}

fn bore(diameter: f64, depth: f64, bottom: Bottom) -> Bore {
    Bore {
        diameter,
        depth,
        bottom,
    }
}

fn cut(board: &Board, hole: HoleId) -> Section {
    section(&Workpiece::of(board).unwrap(), hole).unwrap()
}

/// Straight sides with square corners.
fn straight(length: f64, width: f64) -> RecessShape {
    RecessShape::Straight {
        length,
        width,
        corner: 0.0,
    }
}

/// The least and greatest s and z.
fn around(corners: &[Point]) -> (f64, f64, f64, f64) {
    let fold = |from: f64, by: fn(f64, f64) -> f64, of: fn(&Point) -> f64| {
        corners.iter().map(of).fold(from, by)
    };
    (
        fold(f64::INFINITY, f64::min, |at| at.x),
        fold(f64::NEG_INFINITY, f64::max, |at| at.x),
        fold(f64::INFINITY, f64::min, |at| at.y),
        fold(f64::NEG_INFINITY, f64::max, |at| at.y),
    )
}

fn of(section: &Section, kind: CavityKind) -> Vec<&Cavity> {
    let all = section.cavities.iter();
    all.filter(|cavity| cavity.kind == kind).collect()
}

fn body(section: &Section, kind: BodyKind, hole: HoleId) -> &Face {
    let found = section
        .bodies
        .iter()
        .find(|body| body.kind == kind && body.hole.is_some_and(|name| name.id() == hole));
    &found.unwrap().face
}

#[test]
fn the_chosen_hole_is_cut_through_its_axis() {
    let board = bored(bore(12.0, 5.0, Bottom::Flat));
    let layout = layout(&board).unwrap();
    let cut = cut(&board, FIRST);
    let chosen = of(&cut, CavityKind::Bore);
    let chosen = chosen
        .iter()
        .find(|bore| bore.hole.is_some_and(|name| name.id() == FIRST));
    let (low, high, deep, top) = around(&chosen.unwrap().corners);
    let out = layout.hole(FIRST).unwrap().center.to_vec2().hypot();
    assert_near!(low, out - 6.0, 1e-9);
    assert_near!(high, out + 6.0, 1e-9);
    assert_eq!((deep, top), (-5.0, 0.0));
    assert_eq!(
        section(
            &Workpiece::of(&board).unwrap(),
            HoleId::new(Role::Extra, 1, 1)
        ),
        None
    );
}

#[test]
fn a_bore_beside_the_cut_is_as_wide_as_its_chord() {
    let mut board = bored(bore(12.0, 5.0, Bottom::Flat));
    // A hole on the axis of its sector, and one 4 mm beside it.
    let add = |number, u, v| Edit {
        hole: HoleId::new(Role::Extra, 1, number),
        mirrored: false,
        change: Change::Add {
            u,
            v,
            bore: board.bores.track,
        },
    };
    board.edits = vec![add(1, 0.0, 40.0), add(2, 4.0, 70.0)];
    board.home = 0;
    let cut = cut(&board, HoleId::new(Role::Extra, 1, 1));
    let beside = of(&cut, CavityKind::Bore).into_iter().find(|bore| {
        bore.hole
            .is_some_and(|name| name.id() == HoleId::new(Role::Extra, 1, 2))
    });
    let (low, high, ..) = around(&beside.unwrap().corners);
    assert_near!(high - low, 2.0 * 20.0_f64.sqrt(), 1e-9);
    assert_near!(f64::midpoint(low, high), 70.0, 1e-9);
}

/// Half a cone of 118° cut at a distance d from its axis ends d / tan 59° above its apex.
#[test]
fn drill_points_end_where_the_cut_meets_them() {
    let drilled = bore(10.0, 6.0, Bottom::Point118);
    let round = crate::bores::section::bore(
        &Hole {
            name: FIRST.named(1),
            center: Point::new(2.0, 30.0),
            bore: drilled,
        },
        0.0,
    );
    let view = |x: f64| Plane::straight(Point::new(x, 0.0), point_at(1.0, Angle::ZERO).to_vec2());
    let deep = |x: f64| -around(&round.cut(&view(x).views()[0]).unwrap()).2;
    let tan = Angle::degrees(59.0).tan();
    assert_near!(deep(2.0), 6.0 + 5.0 / tan, 1e-9);
    assert_near!(deep(5.0), 6.0 + 2.0 / tan, 1e-9);
    assert!(round.cut(&view(7.01).views()[0]).is_none());
}

#[test]
fn the_center_hole_is_one_piece_where_the_cut_turns() {
    let board = Board {
        recess: Some(Recess {
            at: [60.0, -40.0],
            shape: RecessShape::Round { diameter: 50.0 },
            ..Recess::default()
        }),
        base: Some(Base::default()),
        ..Board::default()
    };
    let cut = cut(&board, FIRST);
    assert!(!cut.plane.is_straight());
    let center: Vec<_> = of(&cut, CavityKind::Bore)
        .into_iter()
        .filter(|bore| bore.hole.is_some_and(|name| name.id() == HoleId::CENTER))
        .collect();
    let (low, high, ..) = around(&center[0].corners);
    assert_eq!((center.len(), low, high), (1, -6.0, 6.0));
    let (low, high, ..) = around(&cut.outline);
    assert_eq!((low, high), (-320.0, 320.0));
    // The recess is to the left, cut through its center.
    let recess = of(&cut, CavityKind::Recess);
    let (low, high, deep, top) = around(&recess[0].corners);
    let out = libm::hypot(60.0, 40.0);
    assert_near!(low, -out - 25.0, 1e-9);
    assert_near!(high, -out + 25.0, 1e-9);
    assert_eq!((recess.len(), deep, top), (1, -20.0, -10.0));
}

/// From a center at a bearing of 30°, a ray leaves a recess 100 long and 40 wide about the pin at 20 / cos 30°.
#[test]
fn a_straight_recess_is_crossed_obliquely() {
    let mut board = Board {
        recess: Some(Recess {
            shape: straight(100.0, 40.0),
            ..Recess::default()
        }),
        rotation: 30.0,
        ..Board::default()
    };
    board.spaces = 15;
    let turn_in = HoleId::new(Role::Home, 1, 1);
    let cut_at = |board: &Board| {
        let cut = cut(board, turn_in);
        let (low, high, ..) = around(&of(&cut, CavityKind::Recess)[0].corners);
        (low, high)
    };
    let (low, high) = cut_at(&board);
    assert_near!(high, 20.0 / Angle::degrees(30.0).cos(), 1e-9);
    assert_near!(low, -high, 1e-9);
    board.rotation = 75.0;
    assert_near!(cut_at(&board).1, 50.0 / Angle::degrees(75.0).sin(), 1e-9);
}

#[test]
fn a_dovetailed_groove_is_wider_inside_and_open_at_one_edge() {
    let fit = LidFit {
        hold: LidHold::Slides {
            angle: 14.0,
            toward: Toward::Right,
        },
        overlap: 3.0,
        clearance: 0.6,
        ..LidFit::default()
    };
    let board = Board {
        recess: Some(Recess {
            shape: straight(120.0, 80.0),
            at: [10.0, -15.0],
            lid: 6.0,
            depth: 12.0,
            lid_fit: fit,
            spare: 0,
        }),
        ..Board::default()
    };
    let across = recess_section(&Workpiece::of(&board).unwrap()).unwrap();
    let sizes = recess_sizes(&Workpiece::of(&board).unwrap()).unwrap();
    let lid = sizes.lid.unwrap();
    let at = |corners: &[Point], z: f64| {
        let level: Vec<Point> = corners
            .iter()
            .copied()
            .filter(|at| (at.y - z).abs() < 1e-9)
            .collect();
        let (low, high, ..) = around(&level);
        high - low
    };
    let groove = of(&across, CavityKind::Lid)[0];
    assert_near!(at(&groove.corners, -20.0), lid.mouth, 1e-9);
    assert_near!(at(&groove.corners, -14.0), lid.inside, 1e-9);
    assert_near!(lid.mouth, 86.0, 1e-12);
    assert_near!(lid.inside, 86.0 + 12.0 * Angle::degrees(14.0).tan(), 1e-12);
    let made = across
        .bodies
        .iter()
        .find(|body| body.kind == BodyKind::Lid)
        .unwrap();
    let Face::Corners(made) = &made.face else {
        panic!()
    };
    assert_near!(at(made, -20.0), lid.mouth - lid.clearance, 1e-9);
    assert_eq!((sizes.width, sizes.over), (80.0, 8.0));
    // Along the grain it is open on the right, and ends inside the board on the left.
    let mut board = Board {
        rotation: 90.0,
        ..board
    };
    board.recess.as_mut().unwrap().at = [0.0, 0.0];
    let along = cut(&board, HoleId::new(Role::Home, 1, 1));
    let (low, high, ..) = around(&of(&along, CavityKind::Lid)[0].corners);
    assert!(high > 320.0, "{high}");
    assert_near!(low, -63.0 - 6.0 * Angle::degrees(14.0).tan(), 1e-9);
}

#[test]
fn a_groove_is_a_v_across_and_a_slot_along() {
    let wanted = Grooves {
        width: 3.0,
        angle: 90.0,
        tip: 0.5,
        rim: Some(5.0),
        home: true,
        rings: Some(Rings {
            gap: 1.0,
            track: true,
            home: false,
            start: false,
            extra: false,
            center: false,
        }),
        ..Grooves::default()
    };
    let board = Board {
        grooves: Some(wanted),
        ..bored(bore(8.0, 5.0, Bottom::Flat))
    };
    let turn_in = HoleId::new(Role::Track, 1, 9);
    let cut = cut(&board, turn_in);
    let grooves = of(&cut, CavityKind::Groove);
    // The ring inside the rim, where the section ends on the right.
    let rim = grooves.last().unwrap();
    let (low, high, deep, top) = around(&rim.corners);
    assert_near!(high - low, 3.0, 1e-6);
    assert_near!(deep, -1.25, 1e-9);
    assert_eq!(top, 0.0);
    assert!(rim.corners.len() <= 6, "{:?}", rim.corners);
    // The line of the home lane is in the plane of the cut.
    let longest = grooves.iter().map(|groove| {
        let (low, high, ..) = around(&groove.corners);
        high - low
    });
    assert!(longest.fold(0.0, f64::max) > 5.0);
    let plan = Workpiece::of(&board).unwrap().grooves().cloned().unwrap();
    let view = cut.plane.views()[0];
    for corner in grooves.iter().flat_map(|groove| &groove.corners) {
        let at = view.at(corner.x);
        let strokes = plan.grooves.iter().flat_map(|groove| &groove.path);
        let near = strokes.map(|stroke| stroke.distance(at));
        let near = near.fold(f64::INFINITY, f64::min);
        let depth = (1.5 - near).clamp(0.0, 1.25);
        assert!((-corner.y - depth).abs() < 1e-6 || corner.y == 0.0);
    }
}

#[test]
fn pieces_are_drawn_where_their_seats_put_them() {
    let marble = bored(bore(12.0, 5.0, Bottom::Flat));
    let section = cut(&marble, FIRST);
    let Face::Disc(ball) = body(&section, BodyKind::Piece, FIRST) else {
        panic!()
    };
    let stand = marble_stand(16.0, marble.bores.track);
    assert_near!(ball.center.y + ball.radius, stand.above.unwrap(), 1e-9);
    assert_near!(ball.radius, 8.0, 1e-9);

    let peg = Board {
        piece: Piece {
            kind: PieceKind::Peg,
            shank: Some(11.5),
            ..Piece::default()
        },
        ..marble.clone()
    };
    let section = cut(&peg, FIRST);
    let Face::Corners(corners) = body(&section, BodyKind::Piece, FIRST) else {
        panic!()
    };
    let (low, high, deep, top) = around(corners);
    assert_near!(high - low, 16.0, 1e-9);
    assert_eq!((deep, top), (-5.0, 25.0));

    let magnet = Board {
        piece: Piece {
            kind: PieceKind::Magnet,
            shank: Some(10.0),
            insert: Insert::Disc { thickness: 3.0 },
            magnet: Some(Magnet {
                set_back: 0.5,
                ..Magnet::default()
            }),
            ..Piece::default()
        },
        filling: Some(Filling {
            below_top: 1.0,
            ..Filling::default()
        }),
        ..marble
    };
    let section = cut(&magnet, FIRST);
    let level = |kind| {
        let Face::Corners(corners) = body(&section, kind, FIRST) else {
            panic!()
        };
        let (_, _, deep, top) = around(corners);
        (deep, top)
    };
    assert_eq!(level(BodyKind::Insert), (-5.0, -2.0));
    assert_eq!(
        -level(BodyKind::Insert).1,
        insert_below(&magnet.piece, magnet.bores.track)
    );
    assert_eq!(level(BodyKind::Resin), (-5.0, -1.0));
    assert_eq!(level(BodyKind::Piece), (0.0, 30.0));
    assert_eq!(level(BodyKind::Magnet), (0.5, 3.5));
}

#[test]
fn the_floor_is_measured_to_the_nearest_cut_below() {
    let mut board = bored(bore(12.0, 5.0, Bottom::Point118));
    let laid = layout(&board).unwrap();
    let tip = 12.0 * 0.300_430_309_5;
    let floor = |board: &Board, hole| {
        bore_sizes(&Workpiece::of(board).unwrap(), hole)
            .unwrap()
            .floor
    };
    let plain = floor(&board, HoleId::CENTER);
    assert_near!(plain.left, 15.0 - tip, 1e-8);
    assert_eq!(plain.over, FloorOver::Underside);
    board.recess = Some(Recess {
        depth: 10.0,
        lid: 4.0,
        ..Recess::default()
    });
    assert_near!(floor(&board, HoleId::CENTER).left, 5.0 - tip, 1e-8);
    assert_eq!(floor(&board, HoleId::CENTER).over, FloorOver::Recess);
    assert_eq!(floor(&board, FIRST).over, FloorOver::Underside);
    // Its wall is 3 mm beside the axis of a hole, where the point is half as deep.
    let at = laid.hole(FIRST).unwrap().center;
    board.recess = Some(Recess {
        at: [at.x, at.y + 28.0],
        shape: RecessShape::Round { diameter: 50.0 },
        ..Recess::default()
    });
    assert_near!(floor(&board, FIRST).left, 5.0 - tip / 2.0, 1e-8);
}

#[test]
fn screws_mortises_and_the_base_are_cut() {
    let board = Board {
        panel: Panel {
            build: Build::Halves,
            tenons: Some(Tenons {
                count: 1,
                ..Tenons::default()
            }),
            ..Panel::default()
        },
        screws: vec![ScrewCircle {
            bearing: 0.0,
            ..ScrewCircle::default()
        }],
        base: Some(Base {
            footing: Footing::Round { diameter: 200.0 },
            height: 15.0,
            ..Base::default()
        }),
        ..Board::default()
    };
    let cut = cut(&board, HoleId::CENTER);
    let mortise = around(&of(&cut, CavityKind::Mortise)[0].corners);
    assert_eq!(mortise, (-20.0, 20.0, -13.0, -7.0));
    let screw = of(&cut, CavityKind::Screw);
    assert_eq!(screw.len(), 2);
    let (.., deep, top) = around(&screw[0].corners);
    assert_eq!((deep, top), (-20.0, -10.0));
    let table = cut
        .bodies
        .iter()
        .find(|body| body.kind == BodyKind::Turntable);
    let Face::Corners(table) = &table.unwrap().face else {
        panic!()
    };
    assert_eq!(around(table), (-100.0, 100.0, -35.0, -20.0));
}

proptest! {
    /// Halfway between two corners of a bore's outline, its true side is at most 0.005 mm away.
    #[test]
    fn outlines_of_bores_are_accurate(
        kind in 0_usize..5,
        sizes in (2.0..40.0_f64, 0.5..30.0_f64, 0.5..4.0_f64),
        share in 0.0..1.0_f64,
    ) {
        let bore = bore(sizes.0, sizes.1, Bottom::ALL[kind]);
        let spur = sizes.2.min(sizes.0);
        let off = share * bore.radius();
        let hole = Hole { name: FIRST.named(1), center: Point::new(off, 50.0), bore };
        let along = point_at(1.0, Angle::ZERO).to_vec2();
        let view = Plane::straight(Point::ORIGIN, along).views()[0];
        let corners = crate::bores::section::bore(&hole, spur).cut(&view).unwrap();
        for (&from, &to) in corners.iter().zip(corners.iter().cycle().skip(1)) {
            let (halfway, way) = (from.midpoint(to), to - from);
            let Some(radius) = width(bore, spur, -halfway.y).filter(|_| way.y.abs() > 1e-9) else { continue };
            let half = (radius * radius - off * off).max(0.0).sqrt();
            let miss = (half - (halfway.x - 50.0).abs()) * way.y.abs() / way.hypot();
            prop_assert!((-1e-6..0.005).contains(&miss), "{miss} between {from:?} and {to:?}");
        }
    }

    /// A recess of any outline is cut where the plane crosses it, and so is the ledge around it.
    #[test]
    fn a_recess_is_cut_where_the_plane_crosses_it(
        sides in (10.0..300.0_f64, 10.0..300.0_f64, prop::option::of(0.0..60.0_f64)),
        at in (-200.0..200.0_f64, -200.0..200.0_f64),
        hole in 0_usize..145,
        s in -279.0..279.0_f64,
    ) {
        let shape = match sides.2 {
            None => RecessShape::Round { diameter: sides.0 },
            Some(corner) => RecessShape::Straight { length: sides.0, width: sides.1, corner },
        };
        let lid_fit = LidFit { overlap: 4.0, ..LidFit::default() };
        let recess = Recess { shape, at: [at.0, at.1], lid: 3.0, lid_fit, ..Recess::default() };
        let board = Board { recess: Some(recess), ..Board::default() };
        let layout = layout(&board).unwrap();
        let cut = section(&Workpiece::of(&board).unwrap(), layout.holes[hole].name.id()).unwrap();
        let views = cut.plane.views();
        let view = if s < 0.0 { views[0] } else { views[views.len() - 1] };
        let lid = crate::Lid::of(&board).cut.unwrap();
        for (kind, recess) in [(CavityKind::Recess, recess), (CavityKind::Lid, lid)] {
            let is_cut = |s: f64| of(&cut, kind).iter().any(|cavity| {
                let (low, high, ..) = around(&cavity.corners);
                (low..=high).contains(&s)
            });
            let is_over = |s: f64| crate::recess::recess_outline(&recess).away(view.at(s)) <= 0.0;
            if is_over(s - 1e-6) == is_over(s + 1e-6) {
                prop_assert_eq!(is_cut(s), is_over(s));
            }
        }
    }

    #[test]
    fn any_document_can_be_cut(
        sizes in (1.0..2000.0_f64, 0.5..60.0_f64, 0.0..200.0_f64),
        bores in (0.5..60.0_f64, 0.0..60.0_f64, 0_usize..5, 0.0..20.0_f64),
        piece in (0_usize..3, 0.5..80.0_f64, 0.5..80.0_f64),
        recess in (any::<bool>(), 1.0..3000.0_f64, -400.0..400.0_f64, 0.0..80.0_f64, 0.0..80.0_f64, 0.0..40.0_f64),
        hole in 0_usize..145,
    ) {
        let bore = bore(bores.0, bores.1, Bottom::ALL[bores.2]);
        let mut board = bored(bore);
        board.bores.spur = bores.3;
        board.blank.diameter = sizes.0;
        board.blank.thickness = sizes.1;
        board.blank.roundover = sizes.2;
        board.piece = Piece {
            kind: PieceKind::ALL[piece.0],
            diameter: piece.1,
            shank: Some(piece.2),
            magnet: Some(Magnet::default()),
            ..Piece::default()
        };
        board.filling = Some(Filling { below_top: 1.0, ..Filling::default() });
        let shape = if recess.0 {
            RecessShape::Round { diameter: recess.1 }
        } else {
            straight(recess.1, 100.0)
        };
        let hold = LidHold::Slides { angle: 20.0, toward: Toward::Left };
        board.recess = Some(Recess {
            shape,
            at: [recess.2, 30.0],
            depth: recess.3,
            lid: recess.4,
            lid_fit: LidFit {
                hold: if recess.0 { LidHold::LiesIn } else { hold },
                overlap: recess.5,
                clearance: recess.5,
                ..LidFit::default()
            },
            spare: 0,
        });
        board.grooves = Some(Grooves::default());
        if board.blank.flat_radius() < 1.0 {
            board.start = 0;
        }
        let layout = layout(&board).unwrap();
        let worked = Workpiece::of(&board).unwrap();
        let hole = layout.holes[hole % layout.holes.len()].name.id();
        let aligned = section(&worked, hole).unwrap();
        let across = recess_section(&worked).unwrap();
        let sizes = bore_sizes(&worked, hole).unwrap();
        prop_assert!(sizes.floor.left.is_finite());
        for section in [aligned, across] {
            let faces = section.bodies.iter().filter_map(|body| match &body.face {
                Face::Corners(corners) => Some(corners),
                Face::Disc(_) => None,
            });
            let cuts = section.cavities.iter().map(|cavity| &cavity.corners);
            let all: Vec<Point> = faces.chain(cuts).chain([&section.outline]).flatten().copied().collect();
            prop_assert!(all.iter().all(|at| at.is_finite()));
            prop_assert!(all.len() < 20_000, "{}", all.len());
        }
    }
}

#[test]
fn the_turn_in_space_is_cut_by_default() {
    let workpiece = Workpiece::of(&Board::default()).unwrap();
    let turn_in = HoleId::new(Role::Track, 1, 9);
    assert_eq!(cut_through(&workpiece, None), Some(turn_in));
    let wanted = HoleId::new(Role::Start, 4, 2);
    assert_eq!(cut_through(&workpiece, Some(wanted)), Some(wanted));
    let gone = HoleId::new(Role::Extra, 1, 1);
    assert_eq!(cut_through(&workpiece, Some(gone)), Some(turn_in));
}
