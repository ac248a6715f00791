//! The report's own examples and errors.

use super::*;

/// Runs lines in millimeters from the start of the report's examples, with a feed.
fn run(lines: &str) -> Result<Vec<GcodeStep>, String> {
    let program = format!("G21 G94 F100\n{lines}\nM2\n");
    let run = run_gcode(&program, [1.0, 2.0, 3.0]);
    run.map(|run| run.steps).map_err(|fault| fault.why)
}

fn moves(lines: &str) -> Vec<(GcodeKind, [f64; 3])> {
    let steps = run(lines).unwrap().into_iter();
    let rounded = |place: [f64; 3]| place.map(|value| (value * 1e9).round() / 1e9);
    steps.map(|step| (step.kind, rounded(step.to))).collect()
}

const RAPID: GcodeKind = GcodeKind::Rapid;
const FEED: GcodeKind = GcodeKind::Feed;

/// NISTIR 6556, 3.5.16.2, first example.
#[test]
fn g81_drills_one_hole_and_returns_to_the_previous_z() {
    let expected = [
        (RAPID, [4.0, 5.0, 3.0]),
        (RAPID, [4.0, 5.0, 2.8]),
        (FEED, [4.0, 5.0, 1.5]),
        (RAPID, [4.0, 5.0, 3.0]),
    ];
    assert_eq!(moves("G90 G81 G98 X4 Y5 Z1.5 R2.8"), expected);
}

/// NISTIR 6556, 3.5.16.2, second example.
#[test]
fn g81_in_increments_repeats_from_hole_to_hole() {
    let mut expected = vec![(RAPID, [1.0, 2.0, 4.8])];
    for (x, y) in [(5.0, 7.0), (9.0, 12.0), (13.0, 17.0)] {
        expected.push((RAPID, [x, y, 4.8]));
        expected.push((FEED, [x, y, 4.2]));
        expected.push((RAPID, [x, y, 4.8]));
    }
    assert_eq!(moves("G91 G81 G98 X4 Y5 Z-0.6 R1.8 L3"), expected);
}

/// NISTIR 6556, 3.5.16.3.
#[test]
fn g82_waits_at_the_bottom() {
    let expected = [
        (RAPID, [4.0, 5.0, 3.0]),
        (RAPID, [4.0, 5.0, 2.8]),
        (FEED, [4.0, 5.0, 1.5]),
        (GcodeKind::Dwell(2.0), [4.0, 5.0, 1.5]),
        (RAPID, [4.0, 5.0, 3.0]),
    ];
    assert_eq!(moves("G90 G82 G98 X4 Y5 Z1.5 R2.8 P2"), expected);
}

/// NISTIR 6556, 3.5.16.4: each peck except the last goes up to clear Z and back to just above the last bottom.
#[test]
fn g83_retracts_between_pecks() {
    let z: Vec<_> = moves("G90 G83 G98 X1 Y2 Z-1 R2 Q1.25")
        .into_iter()
        .map(|(kind, to)| (kind, to[2]))
        .collect();
    let expected = [
        (RAPID, 2.0),
        (FEED, 0.75),
        (RAPID, 3.0),
        (RAPID, 1.004),
        (FEED, -0.5),
        (RAPID, 3.0),
        (RAPID, -0.246),
        (FEED, -1.0),
        (RAPID, 3.0),
    ];
    assert_eq!(z, expected);
}

#[test]
fn g99_returns_only_to_r() {
    let last = moves("G90 G81 G99 X4 Y5 Z1.5 R2.8").pop().unwrap();
    assert_eq!(last, (RAPID, [4.0, 5.0, 2.8]));
}

#[test]
fn a_cycle_continues_with_positions_alone() {
    let last = moves("G90 G81 G98 X4 Y5 Z1.5 R2.8\nX6").pop().unwrap();
    assert_eq!(last, (RAPID, [6.0, 5.0, 3.0]));
    assert_eq!(moves("G81 G98 X4 Y5 Z1.5 R2.8\nX6").len(), 8);
}

#[test]
fn inches_are_25_4_millimeters() {
    assert_eq!(moves("G20 G0 X1 Y-2"), [(RAPID, [25.4, -50.8, 3.0])]);
}

#[test]
fn an_arc_keeps_its_radius() {
    let arcs = moves("G2 X3 Y2 I1 J0\nG3 X3 I-1");
    let arc = |center, clockwise| GcodeKind::Arc { center, clockwise };
    assert_eq!(arcs[0], (arc([2.0, 2.0], true), [3.0, 2.0, 3.0]));
    assert_eq!(arcs[1], (arc([2.0, 2.0], false), [3.0, 2.0, 3.0]));
    assert!(run("G2 X4 Y2 I1").is_err());
    // 0.002 mm, or 0.0002 in, is allowed.
    assert!(run("G2 X3.0019 Y2 I1").is_ok() && run("G2 X3.0021 Y2 I1").is_err());
    let inch = |x: &str| run(&format!("G20 G0 X0 Y0\nG2 X{x} Y0 I1"));
    assert!(inch("2.00019").is_ok() && inch("2.00021").is_err());
}

/// NISTIR 6556, 3.5.3.2, example (its numbers from memory): from X 7, Y 7, Z 7 the center is at X 10, Y 11 and the radius 5.
#[test]
fn an_arc_with_another_z_is_a_helix() {
    let last = moves("G0 X7 Y7 Z7\nG17 G2 X10 Y16 I3 J4 Z9").pop().unwrap();
    let center = [10.0, 11.0];
    let arc = GcodeKind::Arc {
        center,
        clockwise: true,
    };
    assert_eq!(last, (arc, [10.0, 16.0, 9.0]));
}

/// NISTIR 6556, 3.5.16: the errors of a canned cycle.
#[test]
fn errors_of_the_report_are_errors() {
    for (lines, why) in [
        ("G81 Z1 R2\nG81 R2", "a cycle needs X, Y or Z"),
        ("G83 X4 Y5 Z1.5 R2.8 Q0", "Q is not over 0"),
        ("G83 X4 Y5 Z1.5 R2.8 Q-1", "Q is not over 0"),
        ("G81 X4 Y5 Z2.9 R2.8", "R is lower than Z"),
        ("G81 X4 Y5 Z1.5 R2.8 L0", "L is not a whole number over 0"),
        ("G81 X4 Y5 Z1.5 R2.8 L1.5", "L is not a whole number over 0"),
        ("G82 X4 Y5 Z1.5 R2.8 P-1", "P is negative"),
        (
            "G93 G81 X4 Y5 Z1.5 R2.8",
            "a cycle cannot have an inverse-time feed",
        ),
        (
            "G41 G81 X4 Y5 Z1.5 R2.8",
            "a cycle cannot have cutter compensation",
        ),
        ("G81 X4 Y5 R2.8", "Z is missing"),
        ("G81 X4 Y5 Z1 R2.8\nG82 X4 P1", "Z is missing"),
        ("G81 X4 Y5 Z1", "R is missing"),
        ("G80\nX4", "an axis moves without a motion"),
        ("G80 X4", "an axis moves though G80 ends all motion"),
        ("S-1", "S is negative"),
        ("G0 G1 X1", "two G codes of one group"),
        ("M3 M5", "two M codes of one group"),
        ("G0 X1 X2", "X is there twice"),
        ("G0 X1 (a (b))", "a comment within a comment"),
        ("G0 X1 (a", "a comment has no end"),
        ("G0 X1e3", "a word E cannot be run"),
        ("G0 X", "\"X\" is no word"),
        ("G0 X1 Q2", "Q has no use here"),
        ("G28 X1", "G28 cannot be run"),
        ("G0", "no axis moves"),
        ("F0\nG1 X4", "there is no feed"),
        ("F0\nG2 X3 I1", "there is no feed"),
        ("G2 X3", "an arc needs I or J"),
        ("G3 I1 J0", "an arc needs X or Y"),
        ("G2 X3 R1", "R has no use here"),
    ] {
        assert_eq!(run(lines), Err(why.to_owned()), "{lines}");
    }
}

/// NISTIR 6556, interpreter, on files: a pair of %, or M2, or M30.
#[test]
fn a_program_has_an_end() {
    let runs = |program| run_gcode(program, [0.0; 3]).is_ok();
    assert!(runs("G0 X1\nM2\n"));
    assert!(runs("M30\nthis is not run"));
    assert!(runs("%\nG0 X1\n%\nnor this"));
    assert!(!runs("G0 X1\n"));
    assert!(!runs("%\nG0 X1\nM2\n"));
}

#[test]
fn every_move_has_the_spindle_speed_which_is_0_for_a_tool_change() {
    let steps = run("S800 M3\nG0 X4\nT3 M6\nG0 X5").unwrap();
    let spindle: Vec<_> = steps.iter().map(|step| (step.kind, step.spindle)).collect();
    let expected = [(RAPID, 800.0), (GcodeKind::Tool(3), 800.0), (RAPID, 0.0)];
    assert_eq!(spindle, expected);
    let end = |program| run_gcode(program, [0.0; 3]).unwrap().spindle_at_end;
    assert_eq!((end("S9 M3\nM2"), end("S9 M3\nM5\nM2")), (9.0, 0.0));
}
