//! The programs for the edge and the grooves, run by an interpreter of the standard: they cut exactly the planned shapes, and
//! nothing else.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    reason = "a test that cannot go on has failed"
)]

use board::{Board, CutterRun, EdgeRun, Grooves, Machine, Rings, Units};
use export::{GcodeError, GcodeOptions, Program, gcode_edge, gcode_grooves};
use geometry::{Angle, Arc, Circle, PocketShape, Point, bearing_of, point_at};
use proptest::prelude::*;
use testkit::{GcodeKind, GcodeRun, GcodeStep, assert_near, run_gcode};
use workshop::{Groove, GrooveKind, Stroke, Workpiece};

const CLEARANCE: f64 = 20.0;
const RETRACT: f64 = 2.0;
/// Rounding error of a file, mm.
const PLACE: f64 = 1e-3;
/// The machine's position when a program starts: somewhere below clearance, off the board.
const PARKED: [f64; 3] = [-400.0, -400.0, 5.0];

fn options() -> GcodeOptions {
    let edge = EdgeRun {
        speed: Some(12_000.0),
        feed: Some(800.0),
        plunge: Some(150.0),
        ..EdgeRun::default()
    };
    let groove = CutterRun {
        speed: Some(15_000.0),
        feed: Some(900.0),
        plunge: Some(200.0),
    };
    GcodeOptions {
        title: String::new(),
        date: String::new(),
        stop: String::new(),
        units: Units::Mm,
        machine: Machine {
            clearance: CLEARANCE,
            retract: RETRACT,
            spin_up: 2.0,
            edge: Some(edge),
            groove: Some(groove),
            ..Machine::default()
        },
        thickness: 20.0,
        blank: 25.0,
        spur: 0.0,
    }
}

fn with(change: impl FnOnce(&mut GcodeOptions)) -> GcodeOptions {
    let mut options = options();
    change(&mut options);
    options
}

fn edge_of(options: &mut GcodeOptions) -> &mut EdgeRun {
    options.machine.edge.as_mut().unwrap()
}

fn in_both_units() -> [GcodeOptions; 2] {
    [Units::Mm, Units::INCH].map(|units| with(|options| options.units = units))
}

fn run(program: &Program) -> GcodeRun {
    let run = run_gcode(&program.text, PARKED);
    run.unwrap_or_else(|fault| panic!("{fault:?} in\n{}", program.text))
}

fn place([x, y, _]: [f64; 3]) -> Point {
    Point::new(x, y)
}

/// The path of a step at feed rate, as a stroke; none for a plunge and for a rapid.
fn way(step: &GcodeStep) -> Option<Stroke> {
    let (from, to) = (place(step.from), place(step.to));
    match step.kind {
        GcodeKind::Feed if from != to => Some(Stroke::Line(kurbo::Line::new(from, to))),
        GcodeKind::Arc { center, clockwise } => {
            let center = Point::new(center[0], center[1]);
            let seen = |point: Point| bearing_of((point - center).to_point());
            let turn = if clockwise {
                (seen(to) - seen(from)).wrapped()
            } else {
                (seen(from) - seen(to)).wrapped()
            };
            let turn = if from == to { Angle::TURN } else { turn };
            Some(Stroke::Arc(Arc {
                center,
                radius: from.distance(center),
                start: seen(from),
                sweep: if clockwise { turn } else { -turn },
            }))
        }
        _ => None,
    }
}

/// Checks that nothing moves fast through wood, nothing cuts with the spindle off or without a feed, and the end is correct.
fn assert_safe(program: &Program) {
    let run = run(program);
    for step in &run.steps {
        let sideways = place(step.from) != place(step.to);
        match step.kind {
            GcodeKind::Rapid if sideways => {
                let lowest = step.from[2].min(step.to[2]);
                assert!(lowest >= CLEARANCE - PLACE, "{step:?}");
            }
            GcodeKind::Rapid => {
                let down = step.to[2] < step.from[2];
                assert!(!down || step.to[2] >= RETRACT - PLACE, "{step:?}");
            }
            GcodeKind::Feed | GcodeKind::Arc { .. } => {
                assert!(step.spindle > 0.0 && step.feed > 0.0, "{step:?}");
            }
            GcodeKind::Dwell(_) => {}
            GcodeKind::Tool(_) | GcodeKind::Stop => panic!("{step:?}"),
        }
    }
    let first = &run.steps[0];
    assert_eq!(place(first.to), place(PARKED), "{first:?}");
    assert_eq!(run.spindle_at_end, 0.0);
    assert_near!(run.steps.last().unwrap().to[2], CLEARANCE, PLACE);
    let lines: Vec<_> = program.text.lines().rev().take(2).collect();
    assert_eq!(lines, ["M2", "M5"]);
    assert!(program.text.lines().all(|line| line.len() <= 256));
}

fn lowest(run: &GcodeRun) -> f64 {
    run.steps.iter().map(|step| step.to[2]).fold(0.0, f64::min)
}

/// Checks that the edge of a board is cut down to its skin all around, and that the cutter stays outside the board.
fn assert_edge(diameter: f64, options: &GcodeOptions) {
    let program = gcode_edge(diameter, options).unwrap();
    assert_safe(&program);
    let run = run(&program);
    let edge = options.machine.edge.unwrap();
    let depth = options.thickness - edge.skin;
    assert_near!(lowest(&run), -depth, PLACE);
    let in_wood = run.steps.iter().filter(|step| step.to[2] < PLACE);
    let mut level = Angle::ZERO;
    for step in in_wood.filter(|step| step.kind != GcodeKind::Rapid) {
        let cut = step.from[2].min(0.0) - step.to[2];
        assert!(cut <= edge.pass + PLACE, "{step:?}");
        let GcodeKind::Arc { center, clockwise } = step.kind else {
            assert_eq!(place(step.from), place(step.to), "{step:?}");
            assert!(step.feed <= edge.plunge.unwrap() + PLACE);
            continue;
        };
        assert!(!clockwise);
        assert_near!(Point::new(center[0], center[1]), Point::ORIGIN, 1e-9);
        let radius = place(step.from).to_vec2().length();
        let over = radius - edge.cutter / 2.0 - diameter / 2.0;
        assert!((-1e-9..=PLACE).contains(&over), "{over} at {diameter}");
        let Some(Stroke::Arc(arc)) = way(step) else {
            panic!("{step:?}")
        };
        // Down no faster than the plunge feed.
        let drop = step.from[2] - step.to[2];
        let along = arc.radius * arc.sweep.as_radians().abs();
        let minutes = kurbo::Vec2::new(along, drop).length() / step.feed;
        assert!(
            drop / minutes <= edge.plunge.unwrap() * 1.001 + PLACE,
            "{step:?}"
        );
        if (step.to[2] + depth).abs() < PLACE && (step.from[2] + depth).abs() < PLACE {
            level = level - arc.sweep;
        }
    }
    assert_near!(level.as_degrees(), 360.0, 1e-6);
}

#[test]
fn the_edge_is_cut_all_around_outside_the_board_down_to_its_skin() {
    for options in in_both_units() {
        for diameter in [50.0, 333.333_33, 560.0, 1_234.567_89] {
            assert_edge(diameter, &options);
        }
    }
}

#[test]
fn the_program_for_the_edge_has_this_text() {
    let program = gcode_edge(560.0, &options()).unwrap();
    assert_eq!(program.stem, "edge");
    let lines: Vec<&str> = program.text.lines().collect();
    let start = lines
        .iter()
        .position(|line| line.starts_with("G17"))
        .unwrap();
    let expected = [
        "G17 G21 G40 G80 G90 G94 G98",
        "G0 Z20.0000",
        "S12000 M3",
        "G4 P2",
        "G0 X283.0000 Y0.0000",
        "G0 Z2.0000",
        "G1 Z0.0000 F150",
        "G3 X283.0000 Y0.0000 Z-2.7857 I-283.0000 J0.0000 F800",
        "G3 X283.0000 Y0.0000 Z-5.5714 I-283.0000 J0.0000",
    ];
    assert_eq!(lines[start..start + expected.len()], expected);
    for words in [
        "PROVE IT IN AIR",
        "center pin",
        "Conventional",
        "skin of 0.5",
        "out to 572 across",
        "Turns down: 7",
    ] {
        assert!(program.text.contains(words), "{words} in\n{}", program.text);
    }
}

#[test]
fn an_edge_without_a_skin_needs_a_spoilboard() {
    let no_skin = |through| {
        let options = with(|options| {
            edge_of(options).skin = 0.0;
            options.machine.through = through;
        });
        gcode_edge(560.0, &options)
    };
    assert_eq!(no_skin(None), Err(GcodeError::NoSkin));
    assert!(no_skin(Some(0.0)).unwrap().text.contains("CUTS THROUGH"));
}

/// The error for an edge with a changed setting.
fn refused_edge(change: impl Fn(&mut GcodeOptions)) -> String {
    gcode_edge(560.0, &with(change)).unwrap_err().to_string()
}

#[test]
fn an_incomplete_or_impossible_edge_is_rejected() {
    let error = refused_edge(|options| options.machine.edge = None);
    assert_eq!(
        error,
        "no speed and feeds for the cutter for the edge: enter them under Drill, Machine"
    );
    assert!(
        refused_edge(|options| edge_of(options).speed = None).contains("missing spindle speed")
    );
    assert!(refused_edge(|options| edge_of(options).feed = None).contains("missing feed along"));
    assert!(refused_edge(|options| edge_of(options).plunge = None).contains("missing feed down"));
    assert!(refused_edge(|options| edge_of(options).skin = 20.0).contains("leaves nothing to cut"));
    let many = refused_edge(|options| edge_of(options).pass = 0.001);
    assert!(
        many.contains("19500 passes; make each 0.039 mm or more"),
        "{many}"
    );
    for bad in [0.0, -1.0, f64::NAN, f64::INFINITY] {
        for (what, change) in [
            (
                "cutter",
                (|edge, bad| edge.cutter = bad) as fn(&mut EdgeRun, f64),
            ),
            ("pass", |edge, bad| edge.pass = bad),
            ("spindle speed", |edge, bad| edge.speed = Some(bad)),
            ("feed", |edge, bad| edge.feed = Some(bad)),
            ("feed down", |edge, bad| edge.plunge = Some(bad)),
        ] {
            let error = refused_edge(|options| change(edge_of(options), bad));
            assert!(error.contains(what), "{bad}: {error}");
        }
        assert!(refused_edge(|options| options.thickness = bad).contains("thickness"));
        assert!(refused_edge(|options| options.machine.clearance = bad).contains("height"));
        assert!(gcode_edge(bad, &options()).is_err());
    }
    assert!(refused_edge(|options| edge_of(options).skin = -1.0).contains("skin"));
    assert!(refused_edge(|options| options.machine.retract = 30.0).contains("retract height"));
}

/// A board with every kind of groove.
fn grooved(shape: PocketShape) -> (Vec<Groove>, Grooves, f64) {
    let rings = Rings {
        gap: 1.0,
        track: true,
        home: true,
        start: true,
        extra: true,
        center: true,
    };
    let wanted = Grooves {
        width: 1.5,
        pass: 0.5,
        stop: 1.0,
        around_home: Some(4.0),
        around_start: Some(4.0),
        rings: Some(rings),
        sectors_from: Some(40.0),
        rim: Some(5.0),
        ..Grooves::default()
    };
    let mut board = Board {
        grooves: Some(wanted),
        rotation: 7.0,
        ..Board::default()
    };
    board.pocket.shape = shape;
    let plan = Workpiece::of(&board).unwrap().grooves().unwrap().clone();
    (plan.grooves, wanted, plan.depth)
}

/// Checks that every groove is followed at its full depth, and that nothing else is.
fn assert_grooves(strokes: &[Groove], wanted: &Grooves, depth: f64, options: &GcodeOptions) {
    let program = gcode_grooves(strokes, wanted, options).unwrap();
    assert_safe(&program);
    let run = run(&program);
    assert_near!(lowest(&run), -depth, PLACE);
    let at_bottom: Vec<Stroke> = run
        .steps
        .iter()
        .filter(|step| (step.to[2] + depth).abs() < PLACE && step.from[2] == step.to[2])
        .filter_map(way)
        .collect();
    let all: Vec<Stroke> = strokes
        .iter()
        .flat_map(|groove| groove.path.clone())
        .collect();
    let length = |strokes: &[Stroke]| strokes.iter().map(Stroke::length).sum::<f64>();
    let slack = PLACE * all.len() as f64;
    assert_near!(length(&at_bottom), length(&all), slack);
    let places = |strokes: &[Stroke]| {
        let shares = [0.0, 0.21, 0.5, 0.77, 1.0];
        let all = strokes.iter();
        all.flat_map(|stroke| shares.map(|share| stroke.at(share)))
            .collect::<Vec<Point>>()
    };
    for at in places(&at_bottom) {
        let near = all.iter().any(|stroke| stroke.distance(at) <= PLACE);
        assert!(near, "cuts {at:?}");
    }
    // A piece too short to be written is cut by plunging there.
    let ends = run
        .steps
        .iter()
        .filter(|step| (step.to[2] + depth).abs() < PLACE);
    let ends: Vec<Point> = ends.map(|step| place(step.to)).collect();
    for at in places(&all) {
        let along = at_bottom.iter().any(|stroke| stroke.distance(at) <= PLACE);
        let near = along || ends.iter().any(|end| end.distance(at) <= PLACE);
        assert!(near, "does not cut {at:?}");
    }
    // No pass is deeper than the one before by more than the planned pass.
    let mut reached = 0.0;
    for step in &run.steps {
        if step.kind == GcodeKind::Rapid && place(step.from) != place(step.to) {
            reached = 0.0;
        }
        assert!(reached - step.to[2] <= wanted.pass + PLACE, "{step:?}");
        reached = f64::min(reached, step.to[2]);
    }
}

#[test]
fn every_groove_is_cut_where_it_is_drawn_at_its_depth() {
    for shape in [PocketShape::Row, PocketShape::Arc, PocketShape::Ring] {
        let (strokes, wanted, depth) = grooved(shape);
        for options in in_both_units() {
            assert_grooves(&strokes, &wanted, depth, &options);
        }
    }
}

#[test]
fn circles_stay_circles_and_lines_are_cut_back_and_forth() {
    let ring = Groove {
        kind: GrooveKind::Rim,
        player: 0,
        path: vec![Stroke::Circle(Circle::new((10.0, 5.0), 20.0))],
        holes: Vec::new(),
    };
    let line = Groove {
        kind: GrooveKind::Sector,
        player: 0,
        path: vec![Stroke::Line(kurbo::Line::new((0.0, 30.0), (0.0, 90.0)))],
        holes: Vec::new(),
    };
    let wanted = Grooves {
        width: 3.0,
        angle: 90.0,
        pass: 0.8,
        ..Grooves::default()
    };
    let program = gcode_grooves(&[ring, line], &wanted, &options()).unwrap();
    let lines: Vec<&str> = program.text.lines().collect();
    let start = lines
        .iter()
        .position(|line| line.starts_with("G4"))
        .unwrap()
        + 1;
    let expected = [
        "G0 X10.0000 Y25.0000 (ring at the rim)",
        "G0 Z2.0000",
        "G1 Z-0.7500 F200",
        "G2 X10.0000 Y25.0000 I0.0000 J-20.0000 F900",
        "G1 Z-1.5000 F200",
        "G2 X10.0000 Y25.0000 I0.0000 J-20.0000 F900",
        "G0 Z20.0000",
        "G0 X0.0000 Y30.0000 (line between sectors)",
        "G0 Z2.0000",
        "G1 Z-0.7500 F200",
        "G1 X0.0000 Y90.0000 F900",
        "G1 Z-1.5000 F200",
        "G1 X0.0000 Y30.0000 F900",
        "G0 Z20.0000",
        "M5",
        "M2",
    ];
    assert_eq!(lines[start..], expected);
    assert!(
        program
            .text
            .contains("V bit of 90 degrees with a tip of 0; grooves: 2")
    );
    assert!(program.text.contains("Width 3, depth 1.5, passes: 2"));
}

/// The error for grooves with a changed setting.
fn refused(change: impl Fn(&mut GcodeOptions, &mut Grooves)) -> String {
    let (strokes, mut wanted, _) = grooved(PocketShape::Row);
    let mut options = options();
    change(&mut options, &mut wanted);
    let refused = gcode_grooves(&strokes, &wanted, &options);
    refused.unwrap_err().to_string()
}

#[test]
fn incomplete_or_impossible_grooves_are_rejected() {
    assert!(refused(|options, _| options.machine.groove = None).contains("for the V bit"));
    let unsettled = CutterRun {
        speed: Some(9000.0),
        feed: Some(500.0),
        plunge: None,
    };
    let error = refused(|options, _| options.machine.groove = Some(unsettled));
    assert_eq!(
        error,
        "missing feed down of the V bit: enter it; there is no default"
    );
    assert!(refused(|_, wanted| wanted.tip = 1.5).contains("cuts no groove 1.5 mm wide"));
    assert!(refused(|options, _| options.thickness = 1.0).contains("in a board of 1 mm"));
    assert!(refused(|_, wanted| wanted.pass = 0.001).contains("passes"));
    for bad in [0.0, -1.0, f64::NAN, f64::INFINITY] {
        assert!(refused(|_, wanted| wanted.width = bad).contains("width"));
        assert!(refused(|_, wanted| wanted.pass = bad).contains("pass"));
    }
    assert!(refused(|_, wanted| wanted.angle = f64::NAN).contains("cuts no groove"));
    let none = gcode_grooves(&[], &Grooves::default(), &options());
    assert_eq!(none, Err(GcodeError::NoGrooves));
    let lost = Groove {
        kind: GrooveKind::Ring,
        player: 0,
        path: vec![Stroke::Circle(Circle::new((f64::NAN, 0.0), 3.0))],
        holes: Vec::new(),
    };
    let lost = gcode_grooves(&[lost], &Grooves::default(), &options());
    assert!(matches!(lost, Err(GcodeError::Groove { .. })), "{lost:?}");
}

/// Ten to a power.
fn tens(power: f64) -> f64 {
    (power * core::f64::consts::LN_10).exp()
}

/// An outline with one bend or more, closed or open, with lines and arcs as short and as long as possible.
fn outlines() -> impl Strategy<Value = Groove> {
    let piece = (
        any::<bool>(),
        -2.5..2.5_f64,
        -360.0..360.0_f64,
        -6.0..2.5_f64,
    );
    let start = (-300.0..300.0_f64, -300.0..300.0_f64);
    (start, prop::collection::vec(piece, 1..6)).prop_map(|(start, pieces)| {
        let mut at = Point::new(start.0, start.1);
        let path = pieces.into_iter().map(|(is_line, size, turn, sweep)| {
            let (length, bearing) = (tens(size), Angle::degrees(turn));
            let stroke = if is_line {
                let end = at + point_at(length, bearing).to_vec2();
                Stroke::Line(kurbo::Line::new(at, end))
            } else {
                let center = at - point_at(length, bearing).to_vec2();
                let sweep = Angle::degrees(tens(sweep).min(350.0));
                Stroke::Arc(Arc {
                    center,
                    radius: length,
                    start: bearing,
                    sweep: if turn > 0.0 { sweep } else { -sweep },
                })
            };
            at = stroke.end();
            stroke
        });
        Groove {
            kind: GrooveKind::Sector,
            player: 0,
            path: path.collect(),
            holes: Vec::new(),
        }
    })
}

proptest! {
    #[test]
    fn any_board_is_cut_round_from_outside_its_edge(
        diameter in 1.0..5000.0_f64,
        cutter in 0.1..50.0_f64,
        pass in 0.2..30.0_f64,
        skin in 0.01..5.0_f64,
        thickness in 6.0..60.0_f64,
        feeds in (1.0..9000.0_f64, 1.0..9000.0_f64),
        inches: bool,
    ) {
        let options = with(|options| {
            options.units = if inches { Units::INCH } else { Units::Mm };
            options.thickness = thickness;
            *edge_of(options) = EdgeRun {
                cutter,
                pass,
                skin,
                feed: Some(feeds.0),
                plunge: Some(feeds.1),
                ..*edge_of(options)
            };
        });
        assert_edge(diameter, &options);
    }

    #[test]
    fn any_outline_is_followed(
        outline in outlines(),
        shape in (0.5..20.0_f64, 20.0..150.0_f64),
        passes in 0.7..9.0_f64,
        inches: bool,
    ) {
        let wanted = Grooves { width: shape.0, angle: shape.1, ..Grooves::default() };
        let depth = workshop::groove_depth(&wanted);
        let wanted = Grooves { pass: depth / passes, ..wanted };
        let options = with(|options| {
            options.units = if inches { Units::INCH } else { Units::Mm };
            options.thickness = 100.0;
        });
        assert_grooves(&[outline], &wanted, depth, &options);
    }
}
