use super::frame::Frame;
use super::scene::{Scene, Shown};
use super::*;
use crate::Layer;
use board::{
    Base, Blank, Bore, Bores, Bottom, Center, Filling, Footing, Grooves, Insert, LidFit, LidHold,
    Magnet, Measure, Piece, PieceKind, Recess, RecessShape, Role, ScrewCircle, Toward, Units,
    layout,
};
use proptest::prelude::*;
use workshop::Workpiece;
use workshop::{Cavity, marble_stand, peg_stand};

use super::spans::Ray;

const FIRST: HoleId = HoleId::new(Role::Track, 1, 1);

fn sheet_of(board: &Board, hole: HoleId) -> Sheet {
    section_sheet(&Workpiece::of(board).unwrap(), hole, &Stamp::default()).unwrap()
}

fn words(sheet: &Sheet) -> Vec<&str> {
    let texts = sheet.marks.iter().filter_map(|item| match &item.shape {
        Shape::Text(text) => Some(text.words.as_str()),
        _ => None,
    });
    texts.collect()
}

fn bored(diameter: f64, depth: f64, bottom: Bottom) -> Board {
    let bore = Bore {
        diameter,
        depth,
        bottom,
    };
    Board {
        bores: Bores::all(bore),
        center: Center::Hole { bore, pilot: 0.5 },
        ..Board::default()
    }
}

/// A board with everything that a section can show.
fn planned() -> impl Strategy<Value = Board> {
    let blank = (80.0..2000.0_f64, 3.0..60.0_f64, 0.0..20.0_f64);
    let bores = (1.0..60.0_f64, 0.0..50.0_f64, 0_usize..5, 0.0..6.0_f64);
    let piece = (0_usize..3, 1.0..70.0_f64, 1.0..60.0_f64, any::<[bool; 3]>());
    let filling = prop::option::of(0.0..3.0_f64);
    let base = prop::option::of((20.0..900.0_f64, any::<bool>()));
    (
        blank,
        bores,
        piece,
        filling,
        base,
        recesses(),
        any::<[bool; 2]>(),
    )
        .prop_map(|(blank, bores, piece, filling, base, recess, plans)| {
            let mut board = bored(bores.0, bores.1, Bottom::ALL[bores.2]);
            board.bores.spur = bores.3;
            board.blank = Blank {
                diameter: blank.0,
                thickness: blank.1,
                roundover: blank.2,
            };
            board.units = if plans[0] { Units::Mm } else { Units::INCH };
            board.piece = piece_of(piece);
            board.filling = filling.map(|below_top| Filling {
                below_top,
                ..Filling::default()
            });
            board.grooves = plans[1].then(Grooves::default);
            board.screws = vec![ScrewCircle::default()];
            board.base = base.map(base_of);
            board.recess = recess;
            board
        })
}

fn piece_of((kind, diameter, shank, plans): (usize, f64, f64, [bool; 3])) -> Piece {
    Piece {
        kind: PieceKind::ALL[kind],
        diameter,
        shank: plans[0].then_some(shank),
        insert: if plans[1] {
            Insert::Disc { thickness: 3.0 }
        } else {
            Insert::Ball
        },
        magnet: plans[2].then(Magnet::default),
        ..Piece::default()
    }
}

fn base_of((across, is_round): (f64, bool)) -> Base {
    let footing = if is_round {
        Footing::Round { diameter: across }
    } else {
        Footing::Feet {
            count: 3,
            circle: across,
        }
    };
    Base {
        footing,
        ..Base::default()
    }
}

fn recesses() -> impl Strategy<Value = Option<Recess>> {
    let place = (
        5.0..900.0_f64,
        -200.0..200.0_f64,
        0.0..60.0_f64,
        any::<bool>(),
    );
    let lid = (0.0..30.0_f64, any::<bool>(), 0.0..20.0_f64, 1.0..45.0_f64);
    let recess = (place, lid).prop_map(|((long, at, depth, is_round), lid)| Recess {
        shape: if is_round {
            RecessShape::Round { diameter: long }
        } else {
            RecessShape::Straight {
                length: long,
                width: 60.0,
                corner: 0.0,
            }
        },
        at: [at, 0.5 * at - 20.0],
        depth,
        lid: lid.0,
        spare: 0,
        lid_fit: LidFit {
            hold: if lid.1 && !is_round {
                LidHold::Slides {
                    angle: lid.3,
                    toward: Toward::Right,
                }
            } else {
                LidHold::LiesIn
            },
            overlap: lid.2,
            ..LidFit::default()
        },
    });
    prop::option::weighted(0.7, recess)
}

/// Whether a point is inside an outline, by its winding number.
fn is_inside(corners: &[Point], point: Point) -> bool {
    let after = corners.iter().cycle().skip(1);
    let turns = corners.iter().zip(after).map(|(from, to)| {
        let (from, to) = (*from - point, *to - point);
        turn_between(from, to)
    });
    turns.sum::<f64>().abs() > 3.0
}

fn turn_between(from: Vec2, to: Vec2) -> f64 {
    geometry::Angle::atan2(from.cross(to), from.dot(to)).as_radians()
}

/// Distance of a point from the edges of outlines.
fn off_edges<'a>(outlines: impl Iterator<Item = &'a Vec<Point>>, point: Point) -> f64 {
    let edges = outlines.flat_map(|corners| corners.iter().zip(corners.iter().cycle().skip(1)));
    edges
        .map(|(from, to)| {
            let way = *to - *from;
            let share = (point - *from).dot(way) / way.hypot2().max(1e-12);
            (point - (*from + way * share.clamp(0.0, 1.0))).hypot()
        })
        .fold(f64::INFINITY, f64::min)
}

struct Shows {
    section: Section,
    window: Rect,
    frame: Frame,
}

impl Shows {
    fn new(board: &Board, hole: HoleId, scale: f64) -> Self {
        let layout = layout(board).unwrap();
        let section = workshop::section(&Workpiece::of(board).unwrap(), hole).unwrap();
        let at = layout.hole(hole).unwrap().center.to_vec2().hypot();
        let half = 40.0;
        Self {
            section,
            window: Rect::new(at - half, -board.blank.thickness - 3.0, at + half, 3.0),
            frame: Frame {
                scale,
                at: Point::new(at, 0.0),
            },
        }
    }

    fn scene(&self) -> Scene {
        Scene::new(&self.section, &self.frame, self.window, Shown::default())
    }

    fn is_wood(&self, at: Point) -> bool {
        let cut = |cavity: &Cavity| is_inside(&cavity.corners, at);
        is_inside(&self.section.outline, at) && !self.section.cavities.iter().any(cut)
    }

    fn off_edges(&self, at: Point) -> f64 {
        let cavities = self.section.cavities.iter().map(|cavity| &cavity.corners);
        off_edges(cavities.chain([&self.section.outline]), at)
    }
}

#[test]
fn only_a_hole_of_the_board_has_a_sheet() {
    let workpiece = Workpiece::of(&Board::default()).unwrap();
    let stamp = Stamp {
        date: "2026-11-25".into(),
    };
    let gone = HoleId::new(Role::Extra, 1, 1);
    assert_eq!(section_sheet(&workpiece, gone, &stamp), None);
    let sheet = section_sheet(&workpiece, FIRST, &stamp).unwrap();
    assert_eq!(
        (sheet.size.width, sheet.label.as_str()),
        (297.0, "section T1-01")
    );
    let words = words(&sheet);
    for wanted in [
        "Untitled board – 2026-11-25",
        "Section: cut through T1-01",
        "Board, scale 1 : 3",
        "Hole T1-01, scale 2 : 1",
        "board Ø 640 mm",
        "floor left 12.5 mm",
    ] {
        assert!(words.contains(&wanted), "{wanted} is not among {words:?}");
    }
}

#[test]
fn a_marble_on_resin_is_drawn_and_described_there() {
    let mut board = bored(12.0, 5.0, Bottom::Flat);
    board.filling = Some(Filling::default());
    let sheet = sheet_of(&board, FIRST);
    let said = words(&sheet);
    assert!(
        said.contains(&"the resin keeps it 2.71 mm off the rim"),
        "{said:?}"
    );
    assert!(said.contains(&"marble 16 mm above"), "{said:?}");
    assert!(!said.iter().any(|words| words.starts_with("touches on")));
}

#[test]
fn the_written_sizes_are_those_worked_out() {
    let board = bored(12.0, 5.0, Bottom::Flat);
    let told = |board: &Board, wanted: &[String]| {
        let sheet = sheet_of(board, FIRST);
        for wanted in wanted {
            assert!(
                words(&sheet).contains(&wanted.as_str()),
                "{wanted}: {:?}",
                words(&sheet)
            );
        }
    };
    let mm = |mm| Measure::mm(mm).shown(Units::Mm);
    let stand = marble_stand(16.0, board.bores.track);
    told(
        &board,
        &[
            format!("marble {} below", mm(stand.sinks.unwrap())),
            format!("marble {} above", mm(stand.above.unwrap())),
            format!("touches on Ø {}", mm(stand.contact.unwrap())),
            format!("{} of room under it", mm(stand.clear.unwrap())),
        ],
    );
    let mut peg = board.clone();
    peg.piece.kind = PieceKind::Peg;
    peg.piece.shank = Some(11.3);
    let stand = peg_stand(&peg.piece, peg.bores.track).unwrap();
    told(
        &peg,
        &[
            format!("play {}", mm(stand.play)),
            format!("{} in the hole", mm(stand.deep)),
            format!("{} above", mm(stand.above)),
        ],
    );
    let mut magnet = peg.clone();
    magnet.piece.kind = PieceKind::Magnet;
    magnet.piece.magnet = Some(Magnet::default());
    magnet.piece.insert = Insert::Disc { thickness: 3.0 };
    magnet.filling = Some(Filling {
        below_top: 0.4,
        ..Filling::default()
    });
    let hold = workshop::magnet_hold(&magnet.piece, magnet.bores.track).unwrap();
    told(
        &magnet,
        &[
            "disc 2 mm below the top".into(),
            "gap of 0.35 mm all round".into(),
            format!("{} from magnet to steel", mm(hold.gap)),
            "resin 0.4 mm below the top".into(),
        ],
    );
}

#[test]
fn the_recess_is_written_with_its_groove() {
    let mut board = Board {
        recess: Some(Recess {
            shape: RecessShape::Straight {
                length: 120.0,
                width: 80.0,
                corner: 0.0,
            },
            at: [0.0, 60.0],
            depth: 12.0,
            lid: 6.0,
            spare: 0,
            lid_fit: LidFit {
                hold: LidHold::Slides {
                    angle: 14.0,
                    toward: Toward::Right,
                },
                overlap: 3.0,
                clearance: 0.6,
                ..LidFit::default()
            },
        }),
        ..Board::default()
    };
    let sheet = sheet_of(&board, HoleId::new(Role::Start, 1, 1));
    for wanted in [
        "recess 80 mm wide",
        "recess 12 mm deep",
        "8 mm over the recess",
        "groove 86 mm wide below",
        "88.99 mm wide inside",
        "sides lean 14°",
        "lid 0.6 mm narrower than its place",
    ] {
        assert!(
            words(&sheet).contains(&wanted),
            "{wanted}: {:?}",
            words(&sheet)
        );
    }
    board.bores.track.depth = 14.0;
    board.recess.as_mut().unwrap().at = [0.0, 254.0];
    let turn_in = HoleId::new(Role::Track, 1, 8);
    let broken = sheet_of(&board, turn_in);
    assert!(
        words(&broken).contains(&"8.5 mm into the recess"),
        "{:?}",
        words(&broken)
    );
}

#[test]
fn a_bore_that_breaks_through_shows_where() {
    let board = bored(12.0, 22.0, Bottom::Flat);
    let sheet = sheet_of(&board, FIRST);
    assert!(words(&sheet).contains(&"2 mm out of the underside"));
    let dashed = sheet.marks.iter().filter(|item| item.line == Line::Hidden);
    // Both walls and the floor.
    assert_eq!(dashed.count(), 3);
}

#[test]
fn resin_is_drawn_around_the_insert() {
    let mut board = bored(12.0, 8.0, Bottom::Flat);
    board.piece = Piece {
        kind: PieceKind::Magnet,
        shank: Some(8.0),
        ..Piece::default()
    };
    board.filling = Some(Filling {
        below_top: 1.0,
        ..Filling::default()
    });
    let shows = Shows::new(&board, FIRST, 2.0);
    let items = shows.scene().items();
    let area = |corners: &[Point]| {
        let edges = corners.iter().zip(corners.iter().cycle().skip(1));
        let twice: f64 = edges.map(|(a, b)| a.to_vec2().cross(b.to_vec2())).sum();
        twice.abs() / 2.0
    };
    let gray: f64 = items
        .iter()
        .filter_map(|item| match &item.shape {
            Shape::Area(corners) => Some(area(corners)),
            _ => None,
        })
        .sum();
    // A bore 12 mm wide, filled 7 mm deep, with a ball of 8 mm whose part below the resin's level is filled around; on paper
    // twice as large.
    let (radius, high) = (4.0_f64, 7.0 - 4.0);
    let segment =
        radius * radius * arc_cosine(high / radius) - high * (radius * radius - high * high).sqrt();
    let ball = core::f64::consts::PI * radius * radius - segment;
    assert!(
        (gray / 4.0 - (12.0 * 7.0 - ball)).abs() < 0.2,
        "{}",
        gray / 4.0
    );
}

fn arc_cosine(ratio: f64) -> f64 {
    geometry::Angle::acos(ratio).as_radians()
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(48))]

    /// Lines find the same wood as points: inside the outline and outside every cut.
    #[test]
    fn lines_and_points_find_the_same_wood(board in planned(), at in (0.0..1.0_f64, 0.0..1.0_f64), turn in 0.0..360.0_f64) {
        prop_assume!(layout(&board).is_ok());
        let shows = Shows::new(&board, FIRST, 3.0);
        let scene = shows.scene();
        let window = shows.window;
        let point = window.origin() + Vec2::new(at.0 * window.width(), at.1 * window.height());
        prop_assume!(shows.off_edges(point) > 0.02);
        let along = geometry::point_at(1.0, geometry::Angle::degrees(turn)).to_vec2();
        let ray = Ray { from: shows.frame.place(point), along };
        let found = scene.wood(&ray).iter().any(|(from, to)| (*from..*to).contains(&0.0));
        prop_assert_eq!(found, shows.is_wood(point));
    }

    /// The hatching covers as much area as the wood.
    #[test]
    fn hatching_covers_the_wood(board in planned()) {
        prop_assume!(layout(&board).is_ok());
        let shows = Shows::new(&board, FIRST, 20.0);
        let items = shows.scene().items();
        let hatched: f64 = items
            .iter()
            .filter(|item| item.layer == Layer::Marks)
            .filter_map(|item| match item.shape {
                Shape::Line(line) if line.p1.x > line.p0.x && line.p1.y > line.p0.y => Some((line.p1 - line.p0).hypot()),
                _ => None,
            })
            .sum();
        let steps = 60;
        let (width, height) = (shows.window.width(), shows.window.height());
        let cells = (0..steps * steps).filter(|cell| {
            let share = |at: i32| (f64::from(at) + 0.5) / f64::from(steps);
            let way = Vec2::new(share(cell % steps) * width, share(cell / steps) * height);
            shows.is_wood(shows.window.origin() + way)
        });
        let wood = cells.count() as f64 * width * height / f64::from(steps * steps);
        let (hatched, all) = (hatched * 2.5 / 400.0, width * height);
        prop_assert!((hatched - wood).abs() < 0.03 * all, "{hatched} of {wood} in {all}");
    }

    /// Every edge of the wood has wood on exactly one side: none is drawn inside another cut.
    #[test]
    fn edges_are_drawn_where_wood_ends(mut board in planned()) {
        prop_assume!(layout(&board).is_ok());
        board.piece.kind = PieceKind::Marble;
        board.base = None;
        if let Some(recess) = &mut board.recess {
            recess.lid = 0.0;
        }
        let shows = Shows::new(&board, FIRST, 10.0);
        let to_model = |at: Point| shows.frame.at + at.to_vec2() / 10.0;
        for item in shows.scene().items() {
            let Shape::Line(line) = item.shape else { continue };
            let way = line.p1 - line.p0;
            if item.line != Line::Cut || way.hypot() < 0.5 {
                continue;
            }
            let aside = Vec2::new(-way.y, way.x) * (0.05 / way.hypot());
            let middle = line.p0.midpoint(line.p1);
            let (left, right) = (to_model(middle + aside), to_model(middle - aside));
            // Where two edges nearly coincide, a test point may be beyond the other one.
            let is_clear = [left, right].iter().all(|at| shows.off_edges(*at) > 0.003);
            if is_clear {
                prop_assert!(shows.is_wood(left) != shows.is_wood(right), "{line:?} of {board:?}");
            }
        }
    }

    #[test]
    fn no_words_overlap_and_everything_is_on_the_sheet(board in planned(), number in 0_usize..200) {
        let Ok(layout) = layout(&board) else { return Ok(()) };
        let hole = layout.holes[number % layout.holes.len()].name.id();
        let sheet = section_sheet(&Workpiece::of(&board).unwrap(), hole, &Stamp::default()).unwrap();
        let inside = sheet.size.to_rect().inset(-8.0);
        let mut words: Vec<(Rect, &str)> = Vec::new();
        for item in &sheet.marks {
            let bounds = item.shape.bounds();
            prop_assert!(bounds.is_finite());
            prop_assert!(inside.contains_rect(bounds), "{:?} of {:?}", item.shape, sheet.size);
            if let Shape::Text(text) = &item.shape {
                let clash = words.iter().find(|(other, _)| other.overlaps(bounds));
                prop_assert!(clash.is_none(), "{} over {clash:?}", text.words);
                words.push((bounds, &text.words));
            }
        }
        prop_assert!(sheet.marks.len() < 6000, "{} items", sheet.marks.len());
    }
}

#[test]
fn the_largest_and_the_smallest_boards_are_drawn() {
    let mut many = Board {
        players: 24,
        spaces: 4,
        home: 1,
        start: 1,
        ..bored(60.0, 30.0, Bottom::Ball)
    };
    many.pitch = 62.0;
    many.blank.diameter = 5000.0;
    many.blank.thickness = 500.0;
    many.blank.roundover = 200.0;
    many.piece.diameter = 500.0;
    let mut tiny = bored(0.1, 0.05, Bottom::Point135);
    tiny.players = 1;
    tiny.spaces = 3;
    tiny.home = 0;
    tiny.start = 0;
    tiny.pitch = geometry::PITCH.start().max(0.2);
    tiny.blank.diameter = 1.0;
    tiny.blank.thickness = 0.5;
    tiny.blank.roundover = 0.0;
    tiny.piece.diameter = 0.1;
    for board in [many, tiny] {
        let workpiece = Workpiece::of(&board).unwrap();
        let sheet = section_sheet(&workpiece, FIRST, &Stamp::default()).unwrap();
        assert!(sheet.size.height < 800.0 && sheet.marks.len() < 4000);
        for item in &sheet.marks {
            assert!(sheet.size.to_rect().contains_rect(item.shape.bounds()));
        }
    }
}
