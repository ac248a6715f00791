//! Programs run by an interpreter of the standard: every bore once, with its position and depth, and nothing in the way.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    reason = "a test that cannot go on has failed"
)]

mod refused;

use board::{BitRun, Board, Bore, Bottom, DrillWords, Machine, ProgramFiles, Units};
use export::{GcodeError, GcodeOptions, Program, gcode};
use geometry::Point;
use proptest::prelude::*;
use testkit::{GcodeKind, GcodeRun, GcodeStep, assert_near, run_gcode};
use workshop::{HoleRow, HoleTable, Workpiece};

const CLEARANCE: f64 = 20.0;
const RETRACT: f64 = 2.0;
/// Rounding error of a file, mm.
const PLACE: f64 = 1e-3;
/// The machine's position when a program starts: somewhere below clearance, off the board.
const PARKED: [f64; 3] = [-400.0, -400.0, 5.0];

/// Six players and 145 holes, bored with three bits.
fn table() -> HoleTable {
    let bore = |diameter, depth, bottom| Bore {
        diameter,
        depth,
        bottom,
    };
    let mut board = Board::default();
    board.bores.track = bore(12.0, 5.0, Bottom::Forstner);
    board.bores.home = bore(6.35, 12.0, Bottom::Point118);
    board.bores.start = bore(12.0, 6.0, Bottom::Ball);
    Workpiece::of(&board).unwrap().hole_table().clone()
}

fn setting(diameter: f64, bottom: Bottom) -> BitRun {
    BitRun {
        diameter,
        bottom,
        speed: Some(1800.0),
        feed: Some(250.0),
        peck: None,
        dwell: None,
    }
}

fn options() -> GcodeOptions {
    let table = table();
    let mut bits: Vec<BitRun> = Vec::new();
    for row in &table.rows {
        let known = |bit: &BitRun| bit.diameter == row.diameter && bit.bottom == row.bottom;
        if !bits.iter().any(known) {
            bits.push(setting(row.diameter, row.bottom));
        }
    }
    GcodeOptions {
        title: String::new(),
        date: String::new(),
        stop: String::new(),
        units: Units::Mm,
        machine: Machine {
            clearance: CLEARANCE,
            retract: RETRACT,
            through: None,
            spin_up: 0.0,
            files: ProgramFiles::OnePerBit,
            words: DrillWords::Cycles,
            bits,
            edge: None,
            groove: None,
        },
        thickness: 20.0,
        blank: 25.0,
        spur: 2.0,
    }
}

/// Options with pecks for drill points, and a dwell for the Forstner bit.
fn careful() -> GcodeOptions {
    let mut options = options();
    for bit in &mut options.machine.bits {
        match bit.bottom {
            Bottom::Point118 => bit.peck = Some(5.0),
            Bottom::Forstner => bit.dwell = Some(0.5),
            _ => {}
        }
    }
    options.machine.spin_up = 3.0;
    options
}

fn with(mut options: GcodeOptions, change: impl FnOnce(&mut Machine)) -> GcodeOptions {
    change(&mut options.machine);
    options
}

fn every_kind() -> impl Iterator<Item = GcodeOptions> {
    [options(), careful()].into_iter().flat_map(|options| {
        [Units::Mm, Units::INCH].into_iter().flat_map(move |units| {
            let options = options.clone();
            DrillWords::ALL.into_iter().flat_map(move |words| {
                let options = options.clone();
                [ProgramFiles::OnePerBit, ProgramFiles::One].map(|files| GcodeOptions {
                    units,
                    ..with(options.clone(), |machine| {
                        (machine.files, machine.words) = (files, words);
                    })
                })
            })
        })
    })
}

fn run(program: &Program) -> GcodeRun {
    let run = run_gcode(&program.text, PARKED);
    run.unwrap_or_else(|fault| panic!("{fault:?} in\n{}", program.text))
}

fn place([x, y, _]: [f64; 3]) -> Point {
    Point::new(x, y)
}

/// The positions of the bores, with the deepest Z of each.
fn bored(run: &GcodeRun) -> Vec<(Point, f64)> {
    let bores = run.bores().into_iter();
    bores.map(|bore| (place(bore), bore[2])).collect()
}

fn all_bored(programs: &[Program]) -> Vec<(Point, f64)> {
    programs
        .iter()
        .flat_map(|program| bored(&run(program)))
        .collect()
}

fn assert_bores(bored: &[(Point, f64)], rows: &[HoleRow]) {
    assert_eq!(bored.len(), rows.len());
    for row in rows {
        let here: Vec<_> = bored
            .iter()
            .filter(|(at, _)| at.distance(row.center) <= PLACE)
            .collect();
        assert_eq!(here.len(), 1, "{}", row.name);
        assert_near!(here[0].1, -row.depth, PLACE);
    }
}

#[test]
fn every_bore_is_drilled_once_with_its_position_and_depth() {
    for options in every_kind() {
        let programs = gcode(&table(), &options).unwrap();
        // The center hole is a separate program.
        let files = if options.machine.files == ProgramFiles::One {
            2
        } else {
            4
        };
        assert_eq!(programs.len(), files);
        assert_bores(&all_bored(&programs), &table().rows);
    }
}

/// Checks a step: a rapid may leave clearance only straight down to R over its own hole, or inside the bore after a peck.
fn assert_safe(step: &GcodeStep, deepest: f64) {
    if step.kind == GcodeKind::Rapid {
        let sideways = place(step.from) != place(step.to);
        assert!(!sideways || step.from[2] >= CLEARANCE - PLACE, "{step:?}");
        assert!(!sideways || step.to[2] >= CLEARANCE - PLACE, "{step:?}");
        let down = step.to[2] < step.from[2];
        let least = deepest.min(RETRACT - PLACE);
        assert!(!down || step.to[2] >= least, "{step:?} into wood");
    }
    if step.kind == GcodeKind::Feed {
        assert_eq!(place(step.from), place(step.to), "{step:?}");
        assert!(step.spindle > 0.0 && step.feed > 0.0, "{step:?}");
    }
}

#[test]
fn nothing_moves_sideways_below_clearance_or_bores_with_the_spindle_off() {
    for options in every_kind() {
        for program in gcode(&table(), &options).unwrap() {
            let run = run(&program);
            let mut deepest = f64::INFINITY;
            for step in &run.steps {
                if place(step.from) != place(step.to) {
                    deepest = f64::INFINITY;
                }
                assert_safe(step, deepest);
                if step.kind == GcodeKind::Feed {
                    deepest = deepest.min(step.to[2]);
                }
            }
            let first = &run.steps[0];
            assert_eq!(place(first.to), place(PARKED), "{first:?}");
        }
    }
}

#[test]
fn the_spindle_is_stopped_before_a_bit_is_changed_and_at_the_end() {
    for options in every_kind() {
        for program in gcode(&table(), &options).unwrap() {
            let run = run(&program);
            assert_eq!(run.spindle_at_end, 0.0);
            let lines: Vec<_> = program.text.lines().rev().take(2).collect();
            assert_eq!(lines, ["M2", "M5"]);
            let tools = run.steps.iter().filter_map(|step| match step.kind {
                GcodeKind::Tool(slot) => Some((slot, step.spindle)),
                _ => None,
            });
            let expected = match options.machine.files {
                ProgramFiles::OnePerBit => vec![],
                // The center uses the same bit as the track.
                ProgramFiles::One if program.stem == "drill-center" => vec![(1, 0.0)],
                ProgramFiles::One => (1..=3).map(|slot| (slot, 0.0)).collect(),
            };
            assert_eq!(tools.collect::<Vec<_>>(), expected);
        }
    }
}

#[test]
fn inches_and_millimeters_give_the_same_positions() {
    for files in [ProgramFiles::OnePerBit, ProgramFiles::One] {
        let [mm, inch] = [Units::Mm, Units::INCH].map(|units| {
            let options = GcodeOptions {
                units,
                ..with(careful(), |machine| machine.files = files)
            };
            let programs = gcode(&table(), &options).unwrap();
            for program in &programs {
                let word = if units == Units::Mm { " G21 " } else { " G20 " };
                assert_eq!(program.text.matches(word).count(), 1);
            }
            programs
                .iter()
                .flat_map(|program| run(program).steps)
                .collect::<Vec<_>>()
        });
        assert_eq!(mm.len(), inch.len());
        for (mm, inch) in mm.iter().zip(&inch) {
            assert_eq!(mm.kind, inch.kind);
            assert_near!(place(mm.to), place(inch.to), PLACE);
            assert_near!(mm.to[2], inch.to[2], PLACE);
            assert_near!(mm.feed, inch.feed, 0.001);
        }
        // The words themselves are 25.4 times as large.
        let word = |units| {
            let options = GcodeOptions {
                units,
                ..with(options(), |machine| machine.files = files)
            };
            let text = gcode(&table(), &options).unwrap().remove(0).text;
            let line = text
                .lines()
                .find(|line| line.starts_with("G81"))
                .unwrap()
                .to_owned();
            let words: Vec<_> = line.split([' ', '(']).map(ToOwned::to_owned).collect();
            words[1..5]
                .iter()
                .map(|word| word[1..].parse::<f64>().unwrap())
                .collect::<Vec<_>>()
        };
        for (mm, inch) in word(Units::Mm).into_iter().zip(word(Units::INCH)) {
            assert_near!(mm, inch * 25.4, PLACE);
        }
    }
}

#[test]
fn cycles_depend_on_depth_and_bit() {
    let cycles = |options: &GcodeOptions, cycle| {
        let programs = gcode(&table(), options).unwrap();
        let lines = programs.iter().flat_map(|program| program.text.lines());
        lines.filter(|line| line.starts_with(cycle)).count()
    };
    assert_eq!(cycles(&options(), "G81 "), 145);
    let of = |bottom| {
        table()
            .rows
            .iter()
            .filter(|row| row.bottom == bottom)
            .count()
    };
    let (pecked, dwelt) = (of(Bottom::Point118), of(Bottom::Forstner));
    assert_eq!(cycles(&careful(), "G83 "), pecked);
    assert_eq!(cycles(&careful(), "G82 "), dwelt);
    assert_eq!(cycles(&careful(), "G81 "), 145 - pecked - dwelt);
    let mut shallow = careful();
    for bit in &mut shallow.machine.bits {
        bit.peck = bit.peck.map(|_| 12.0);
    }
    assert_eq!(cycles(&shallow, "G83 "), 0);
}

/// A control without cycles stops at the first word of one.
#[test]
fn plain_moves_contain_no_cycle_and_make_the_same_bores() {
    let plain = with(careful(), |machine| machine.words = DrillWords::Moves);
    let programs = gcode(&table(), &plain).unwrap();
    for program in &programs {
        for word in ["G80", "G81", "G82", "G83", "G98"] {
            assert!(!program.text.contains(word), "{word} in {}", program.stem);
        }
    }
    let cycles = gcode(&table(), &careful()).unwrap();
    let (one, other) = (all_bored(&programs), all_bored(&cycles));
    assert_eq!(one.len(), other.len());
    for ((at, depth), (there, to)) in one.iter().zip(&other) {
        assert!(at.distance(*there) <= PLACE);
        assert_near!(*depth, *to, PLACE);
    }
}

/// A bit must not go through the board's thickness, although the blank is thicker until it is planed.
#[test]
fn the_head_gives_the_thickness_of_the_blank() {
    let text = gcode(&table(), &options()).unwrap().remove(0).text;
    assert!(text.contains("(Board 20 mm thick)\n(Plane the blank of 25 mm to that first)"));
    let planed = GcodeOptions {
        blank: 20.0,
        ..options()
    };
    let text = gcode(&table(), &planed).unwrap().remove(0).text;
    assert!(text.contains("(Board 20 mm thick)") && !text.to_lowercase().contains("blank"));
}

#[test]
fn a_peck_cuts_no_more_than_was_set() {
    let ways = [Units::Mm, Units::INCH].into_iter();
    let ways = ways.flat_map(|units| DrillWords::ALL.map(|words| (units, words)));
    for (units, words) in ways {
        let options = GcodeOptions {
            units,
            ..with(careful(), |machine| machine.words = words)
        };
        let programs = gcode(&table(), &options).unwrap();
        let point = programs
            .iter()
            .find(|program| program.stem.ends_with("point-118"))
            .unwrap();
        let mut reached = RETRACT;
        let mut longest = 0.0_f64;
        for step in run(point).steps {
            if place(step.from) != place(step.to) {
                reached = RETRACT;
            }
            if step.kind == GcodeKind::Feed {
                longest = longest.max(reached - step.to[2]);
                reached = step.to[2];
            }
        }
        assert_near!(longest, 5.0, PLACE);
    }
}

#[test]
fn dwell_and_spindle_warm_up_are_in_seconds() {
    let program = gcode(&table(), &careful()).unwrap().remove(0);
    let dwells: Vec<_> = run(&program)
        .steps
        .into_iter()
        .filter_map(|step| match step.kind {
            GcodeKind::Dwell(seconds) => Some(seconds),
            _ => None,
        })
        .collect();
    assert_eq!(dwells[0], 3.0);
    assert!(dwells[1..].iter().all(|seconds| *seconds == 0.5));
    assert_eq!(dwells.len(), 1 + 96);
}

/// The circle is cut on the pin before the playing hole replaces it: no other hole shares its program, which comes last.
#[test]
fn the_center_hole_is_alone_in_the_last_program() {
    for options in every_kind() {
        let programs = gcode(&table(), &options).unwrap();
        let (last, others) = programs.split_last().unwrap();
        assert!(last.stem.starts_with("drill-center"), "{}", last.stem);
        assert!(last.text.contains("no more work turns on its pin"));
        let center = bored(&run(last));
        assert_eq!(center.len(), 1);
        assert!(center[0].0.distance(Point::ORIGIN) <= PLACE);
        let others = all_bored(others);
        assert!(
            others
                .iter()
                .all(|(at, _)| at.distance(Point::ORIGIN) > 1.0)
        );
    }
    // A pivot comes first, in the program of its bit.
    let mut rows = table().rows;
    rows.rotate_right(1);
    let programs = gcode(&HoleTable { rows }, &options()).unwrap();
    assert_eq!(programs.len(), 3);
}

#[test]
fn each_bit_follows_the_order_of_the_table() {
    let backwards: Vec<_> = (0..table().rows.len()).rev().collect();
    let table = table().in_order(&backwards);
    let programs = gcode(&table, &options()).unwrap();
    let names: Vec<_> = programs[0]
        .text
        .lines()
        .filter(|line| line.starts_with("G81"))
        .collect();
    assert!(names[0].ends_with("(C)"), "{}", names[0]);
    assert_bores(&all_bored(&programs), &table.rows);
}

#[test]
fn every_program_states_its_purpose_and_how_to_set_z() {
    for options in every_kind() {
        for program in gcode(&table(), &options).unwrap() {
            for words in ["PROVE IT IN AIR", "center pin", "top face", "Unit: "] {
                assert!(program.text.contains(words), "{words} in\n{}", program.text);
            }
        }
    }
    // 6.35 mm at 118 degrees: 0.3004303 of the diameter.
    let programs = gcode(&table(), &options()).unwrap();
    let point = programs
        .iter()
        .find(|program| program.stem.ends_with("point-118"))
        .unwrap();
    assert!(
        point.text.contains("Z reads 1.9077 when its point touches"),
        "{}",
        point.text
    );
    assert_eq!(point.stem, "drill-2-6_35mm-point-118");
}

#[test]
fn typed_text_cannot_leave_its_comment() {
    let title = format!("(MSG, a) G0 X1\nM3 é{}", "x".repeat(500));
    let options = GcodeOptions {
        title,
        date: "2026-11-25".into(),
        ..options()
    };
    for program in gcode(&table(), &options).unwrap() {
        assert!(program.text.is_ascii());
        assert!(program.text.contains("(Board: [MSG, a] G0 X1M3)\n(- _xxx"));
        assert!(program.text.contains("(Date: 2026-11-25)"));
        run(&program);
    }
    let plain = gcode(&table(), &self::options()).unwrap();
    assert!(!plain[0].text.contains("Date"));
}

/// Checked with the reader, which parses a line like RS274/NGC; small controls hold 80 characters of one.
#[test]
fn every_line_fits_a_small_control_and_every_comment_is_read_whole() {
    let title = "Thirty-two spaces around, for six, with a long name! ".repeat(3);
    let stop = "wood between holes, rim margin, floor under holes, roundover, reach, sheets, seams";
    for options in every_kind() {
        let options = GcodeOptions {
            title: title.clone(),
            stop: stop.into(),
            ..options
        };
        for program in gcode(&table(), &options).unwrap() {
            let long = program.text.lines().find(|line| line.len() > 80);
            assert_eq!(long, None);
            let comments = program.text.lines().filter(|line| line.starts_with('('));
            for comment in comments {
                assert!(comment.ends_with(')'), "{comment}");
                assert!(
                    !comment.contains(['!', '?', '~', '$', '%', ';']),
                    "{comment}"
                );
                assert_eq!(comment.matches(['(', ')']).count(), 2, "{comment}");
            }
            run(&program);
        }
    }
}

#[test]
fn the_same_table_gives_the_same_programs() {
    for options in every_kind() {
        assert_eq!(gcode(&table(), &options), gcode(&table(), &options));
    }
}
