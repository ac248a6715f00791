//! Time to write the programs of a board: drilling, and its grooves.
//!
//! `cargo bench -p export --bench gcode`

use core::hint::black_box;

use board::{BitRun, Board, Bottom, CutterRun, Grooves, Machine, Rings, Units};
use divan::Bencher;
use export::GcodeOptions;
use workshop::HoleTable;

fn main() {
    divan::main();
}

/// The 145 holes of the default board, repeated.
fn table(count: usize) -> HoleTable {
    let workpiece = workshop::Workpiece::of(&Board::default());
    let small = workpiece
        .map(|workpiece| workpiece.hole_table().rows.clone())
        .unwrap_or_default();
    let rows: Vec<_> = small.into_iter().cycle().take(count).collect();
    assert_eq!(rows.len(), count);
    HoleTable { rows }
}

fn options(table: &HoleTable) -> GcodeOptions {
    let bit = |bottom| BitRun {
        diameter: table.rows[0].diameter,
        bottom,
        speed: Some(1800.0),
        feed: Some(250.0),
        peck: None,
        dwell: Some(0.5),
    };
    GcodeOptions {
        title: "Bench".to_owned(),
        date: String::new(),
        stop: String::new(),
        units: Units::Mm,
        machine: Machine {
            bits: Bottom::ALL.map(bit).to_vec(),
            ..Machine::default()
        },
        thickness: 20.0,
        blank: 25.0,
        spur: 2.0,
    }
}

#[divan::bench(args = [145, 10_000])]
fn programs_of_so_many_holes(bencher: Bencher<'_, '_>, count: usize) {
    let table = table(count);
    let options = options(&table);
    assert!(export::gcode(&table, &options).is_ok());
    bencher.bench(|| export::gcode(black_box(&table), &options));
}

/// Lines, rings and outlines of 145 holes, in three passes.
#[divan::bench]
fn all_grooves_of_a_board(bencher: Bencher<'_, '_>) {
    let rings = Rings {
        track: true,
        home: true,
        start: true,
        ..Rings::default()
    };
    let wanted = Grooves {
        pass: 0.6,
        around_home: Some(4.0),
        around_start: Some(4.0),
        rings: Some(rings),
        sectors_from: Some(40.0),
        rim: Some(5.0),
        ..Grooves::default()
    };
    let board = Board {
        grooves: Some(wanted),
        ..Board::default()
    };
    let workpiece = workshop::Workpiece::of(&board).ok();
    let plan = workpiece.as_ref().and_then(workshop::Workpiece::grooves);
    let strokes = plan.map(|plan| plan.grooves.clone()).unwrap_or_default();
    let run = CutterRun {
        speed: Some(15_000.0),
        feed: Some(900.0),
        plunge: Some(200.0),
    };
    let options = GcodeOptions {
        title: "Bench".to_owned(),
        date: String::new(),
        stop: String::new(),
        units: Units::Mm,
        machine: Machine {
            groove: Some(run),
            ..Machine::default()
        },
        thickness: 20.0,
        blank: 25.0,
        spur: 0.0,
    };
    assert!(export::gcode_grooves(&strokes, &wanted, &options).is_ok());
    bencher.bench(|| export::gcode_grooves(black_box(&strokes), &wanted, &options));
}
