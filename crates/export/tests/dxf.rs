//! DXF files read back: every hole is where the board has it, every release states its unit, and the bytes are the same every
//! time.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    reason = "a test that cannot go on has failed"
)]

use board::{Board, Build, DxfRelease, INCH, Marking, Role, Tenons, Units, layout};
use drawing::{Anchor, Item, Layer, Line, Shape, Sheet, Stamp, Text, whole_sheet};
use export::{DxfOptions, dxf};
use geometry::{Angle, Arc, Point, point_at};
use testkit::{DxfFile, DxfKind, DxfShape, assert_near};
use workshop::Workpiece;

const RELEASES: [DxfRelease; 2] = [DxfRelease::R12, DxfRelease::R2000];
const UNITS: [(Units, f64); 2] = [(Units::Mm, 1.0), (Units::INCH, INCH)];

/// A board of two halves, with everything that a plan can show.
fn board() -> Board {
    let mut board = Board::default();
    board.panel.build = Build::Halves;
    board.panel.tenons = Some(Tenons::default());
    board
}

fn sheet(board: &Board) -> Sheet {
    whole_sheet(&Workpiece::of(board).unwrap(), &Stamp::default())
}

fn every_option() -> impl Iterator<Item = (DxfOptions, f64)> {
    RELEASES
        .into_iter()
        .flat_map(|release| UNITS.map(|(units, unit)| (DxfOptions { units, release }, unit)))
}

fn read(sheet: &Sheet, options: DxfOptions) -> DxfFile {
    DxfFile::read(dxf(sheet, options).unwrap().as_bytes()).unwrap()
}

/// A sheet with one part, with its page shifted relative to the board.
fn one(layer: Layer, line: Line, shape: Shape) -> Sheet {
    let mut sheet = sheet(&board());
    sheet.view.items = vec![Item { layer, line, shape }];
    sheet.marks.clear();
    sheet
}

fn drawn(sheet: &Sheet) -> Vec<DxfShape> {
    read(sheet, DxfOptions::default()).shapes
}

const fn layer_name(role: Role) -> &'static str {
    match role {
        Role::Track => "TRACK",
        Role::Home => "HOME",
        Role::Start => "START",
        Role::Extra => "EXTRA",
        Role::Center => "CENTER",
    }
}

#[test]
fn every_bore_is_a_circle_on_its_layer_within_a_thousandth_of_a_millimeter() {
    let board = board();
    let holes = layout(&board).unwrap().holes;
    for (options, unit) in every_option() {
        let file = read(&sheet(&board), options);
        for hole in &holes {
            let circles = file.circles(layer_name(hole.name.id().role()));
            let same = circles.iter().filter(|(center, radius)| {
                (radius * unit - hole.bore.radius()).abs() <= 1e-6
                    && (center.to_vec2() * unit).to_point().distance(hole.center) <= 1e-6
            });
            assert_eq!(same.count(), 1, "{} in {options:?}", hole.name);
        }
        let counts = ["TRACK", "HOME", "START"].map(|layer| file.circles(layer).len());
        assert_eq!(counts, [96, 30, 18]);
    }
}

/// `$INSUNITS` 4 is the millimeter and 1 the inch; `$MEASUREMENT` 1 is metric and 0 English.
#[test]
fn the_unit_is_stated_as_far_as_each_release_can() {
    for (options, unit) in every_option() {
        let file = read(&sheet(&board()), options);
        let text = dxf(&sheet(&board()), options).unwrap();
        assert_eq!(file.metric, unit == 1.0);
        let code = if unit == 1.0 { 4 } else { 1 };
        match options.release {
            DxfRelease::R12 => {
                assert_eq!(file.release, "AC1009");
                assert!(!text.contains("$INSUNITS"));
            }
            DxfRelease::R2000 => assert_eq!((file.release.as_str(), file.units), ("AC1015", code)),
        }
        let word = if unit == 1.0 { "millimeter" } else { "inch" };
        let comment = format!("999\nFull size. Unit: {word}. Origin: center pin.\n");
        assert!(text.starts_with(&comment), "{}", &text[..80]);
    }
}

/// Names in R12 have up to 31 letters, digits, `$`, `_` and `-` (from memory); only that of the active viewport begins with an
/// asterisk.
#[test]
fn r12_allows_every_name() {
    for (options, _) in every_option() {
        let text = dxf(&sheet(&board()), options).unwrap();
        let lines: Vec<&str> = text.lines().map(str::trim).collect();
        let mut seen = 0;
        let mut entry = "";
        for pair in lines.chunks(2) {
            let [code, value] = pair else {
                panic!("a tag without a value")
            };
            if *code == "0" {
                entry = value;
            }
            let is_name = match *code {
                "2" => matches!(entry, "LAYER" | "LTYPE" | "STYLE" | "APPID" | "DIMSTYLE"),
                "6" | "7" | "8" => entry != "STYLE",
                _ => false,
            };
            if is_name {
                let is_sign = |sign: char| {
                    sign.is_ascii_uppercase() || sign.is_ascii_digit() || "$_-".contains(sign)
                };
                assert!(!value.is_empty() && value.len() <= 31, "{value}");
                assert!(value.chars().all(is_sign), "{value} in {options:?}");
                seen += 1;
            }
        }
        assert!(seen > 300, "{seen} names");
    }
}

/// A tag's value has at most 255 characters in R12, all of them ASCII, for any typed text.
#[test]
fn no_title_makes_a_value_too_long_for_a_reader() {
    let words = "Ünïcödé 𝔸 板 ".repeat(20);
    let text = Text::level(Point::ORIGIN, 4.0, Anchor::Start, words);
    let sheet = one(Layer::Title, Line::Dimension, Shape::Text(text));
    for (options, _) in every_option() {
        let file = dxf(&sheet, options).unwrap();
        assert!(file.is_ascii() && file.lines().all(|line| line.len() <= 255));
        let read = DxfFile::read(file.as_bytes()).unwrap();
        assert_eq!(read.shapes.len(), 1);
    }
}

#[test]
fn exactly_the_layers_in_use_are_declared() {
    for (options, _) in every_option() {
        let file = read(&sheet(&board()), options);
        let mut used: Vec<_> = file.shapes.iter().map(|shape| &shape.layer).collect();
        used.sort();
        used.dedup();
        let mut declared: Vec<_> = file.layers.iter().filter(|name| *name != "0").collect();
        declared.sort();
        assert_eq!(used, declared);
        for name in [
            "EDGE",
            "SEAMS",
            "GUIDES",
            "TRACK",
            "CENTER",
            "CENTER-CROSS",
            "TITLE",
        ] {
            assert!(used.iter().any(|used| *used == name), "{name} in {used:?}");
        }
    }
}

#[test]
fn crosses_and_the_roundover_are_not_on_layers_that_are_machined() {
    let mut board = board();
    board.blank.roundover = 3.0;
    board.template.marking = Marking::Both;
    let file = read(&sheet(&board), DxfOptions::default());
    let edge = file.circles("EDGE");
    assert_eq!(edge, [(Point::ORIGIN, board.blank.radius())]);
    assert_eq!(file.circles("EDGE-GUIDE").len(), 1);
    let track = file.shapes.iter().filter(|shape| shape.layer == "TRACK");
    assert!(
        track
            .clone()
            .all(|shape| matches!(shape.kind, DxfKind::Circle { .. }))
    );
    assert_eq!(track.count(), 96);
    let crosses = file
        .shapes
        .iter()
        .filter(|shape| shape.layer == "TRACK-CROSS");
    assert_eq!(crosses.count(), 2 * 96);
}

#[test]
fn the_bar_of_the_sheet_has_its_length_in_the_unit_of_the_file() {
    for (options, unit) in every_option() {
        let file = read(&sheet(&board()), options);
        let bars = file.shapes.iter().filter(|shape| match shape.kind {
            // The line of a bar is as long as the longer of its scales, 4 in.
            DxfKind::Line(from, to) => ((to - from).length() * unit - 101.6).abs() < 1e-6,
            _ => false,
        });
        assert!(bars.count() >= 2);
    }
}

#[test]
fn y_points_up_and_an_arc_runs_from_end_to_start() {
    let arc = Arc {
        center: Point::new(10.0, 20.0),
        radius: 5.0,
        start: Angle::degrees(300.0),
        sweep: Angle::degrees(100.0),
    };
    let shapes = drawn(&one(Layer::Edge, Line::Cut, Shape::Arc(arc)));
    let [
        DxfShape {
            kind:
                DxfKind::Arc {
                    center,
                    radius,
                    from,
                    to,
                },
            ..
        },
    ] = shapes[..]
    else {
        panic!("{shapes:?}")
    };
    assert_near!(center, arc.center, 1e-9);
    for (angle, bearing) in [(from, arc.start + arc.sweep), (to, arc.start)] {
        let end = Point::new(Angle::degrees(angle).cos(), Angle::degrees(angle).sin());
        assert_near!(
            (end.to_vec2() * radius).to_point(),
            point_at(5.0, bearing),
            1e-8
        );
    }
    // Counterclockwise by 100 degrees, across 12 o'clock.
    assert_near!(
        Angle::degrees(to - from).wrapped().as_degrees(),
        100.0,
        1e-8
    );
}

#[test]
fn an_arc_of_a_full_turn_is_a_circle_and_one_of_length_0_is_left_out() {
    let arc = |sweep| {
        Shape::Arc(Arc {
            center: Point::ORIGIN,
            radius: 5.0,
            start: Angle::ZERO,
            sweep,
        })
    };
    let all = drawn(&one(Layer::Edge, Line::Cut, arc(Angle::TURN)));
    assert!(matches!(all[0].kind, DxfKind::Circle { .. }), "{all:?}");
    assert_eq!(drawn(&one(Layer::Edge, Line::Cut, arc(Angle::ZERO))), []);
}

#[test]
fn words_keep_their_position_and_use_only_ascii() {
    let words = Text {
        turn: Angle::degrees(-30.0),
        ..Text::level(Point::new(3.0, 4.0), 10.0, Anchor::Middle, "Ø 12 – 60°")
    };
    let start = words.start();
    let sheet = one(Layer::Title, Line::Dimension, Shape::Text(words));
    let shapes = drawn(&sheet);
    let [
        DxfShape {
            kind:
                DxfKind::Words {
                    start: at,
                    height,
                    ref words,
                },
            ..
        },
    ] = shapes[..]
    else {
        panic!("{shapes:?}")
    };
    assert_near!(at, start, 1e-9);
    assert_near!(height, 7.3, 1e-9);
    assert_eq!(words, "%%c 12 - 60%%d");
    for (options, _) in every_option() {
        assert!(dxf(&sheet, options).unwrap().is_ascii());
    }
}

#[test]
fn marks_of_the_page_are_moved_into_the_frame_of_the_board() {
    let mut sheet = sheet(&board());
    let pin = sheet.view.page_from_board.to_point();
    let shape = Shape::Circle(kurbo::Circle::new(pin, 2.0));
    let (layer, line) = (Layer::Marks, Line::Dimension);
    sheet.marks = vec![Item { layer, line, shape }];
    let file = read(&sheet, DxfOptions::default());
    let [(center, _)] = file.circles("MARKS")[..] else {
        panic!("no mark")
    };
    assert_near!(center, Point::ORIGIN, 1e-9);
}

#[test]
fn hidden_parts_and_guides_are_dashed() {
    let file = read(&sheet(&board()), DxfOptions::default());
    let of = |layer| file.shapes.iter().filter(move |shape| shape.layer == layer);
    // All but the arrow along the grain, a shaft and two heads.
    let solid = of("SEAMS").filter(|shape| shape.line_type != "HIDDEN");
    assert_eq!(solid.count(), 5);
    assert!(of("GUIDES").all(|shape| shape.line_type == "GUIDE"));
    assert!(of("EDGE").all(|shape| shape.line_type == "BYLAYER"));
}

#[test]
fn the_same_sheet_gives_the_same_bytes() {
    for (options, _) in every_option() {
        let [first, second] = [(); 2].map(|()| dxf(&sheet(&board()), options).unwrap());
        assert_eq!(first, second);
    }
}

/// Each handle names one thing, and the next free one is higher than all of them.
#[test]
fn handles_are_unique() {
    let release = DxfRelease::R2000;
    let text = dxf(
        &sheet(&board()),
        DxfOptions {
            release,
            ..DxfOptions::default()
        },
    )
    .unwrap();
    let lines: Vec<_> = text.lines().collect();
    let tags: Vec<_> = lines.chunks(2).map(|tag| (tag[0].trim(), tag[1])).collect();
    let seed = tags
        .iter()
        .position(|tag| *tag == ("9", "$HANDSEED"))
        .unwrap()
        + 1;
    let number = |value: &str| u32::from_str_radix(value, 16).unwrap();
    let own = tags
        .iter()
        .skip(seed + 1)
        .filter(|(code, _)| matches!(*code, "5" | "105"));
    let mut handles: Vec<_> = own.map(|(_, value)| number(value)).collect();
    let count = handles.len();
    handles.sort_unstable();
    handles.dedup();
    assert_eq!(handles.len(), count);
    assert!(handles.last().unwrap() < &number(tags[seed].1));
}

#[test]
fn a_part_without_a_finite_position_is_rejected() {
    let shape = Shape::Circle(kurbo::Circle::new((f64::NAN, 0.0), 2.0));
    let sheet = one(Layer::Track, Line::Drill, shape);
    let error = dxf(&sheet, DxfOptions::default()).unwrap_err();
    assert!(error.to_string().contains("not a number"), "{error}");
}
