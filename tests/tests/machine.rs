//! The drilling programs of whole boards, run by an independent interpreter of RS274/NGC.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    reason = "a test that cannot go on has failed"
)]

use app::exports::Kind;
use board::{Board, DrillWords, DrillingOrder, ProgramFiles, Units};
use kurbo::Point;
use testkit::{GcodeRun, assert_near, run_gcode};
use tests::{files, planned, samples, worked};

/// The position of the tool before a program: off the board and low, as it may have been left.
const PARKED: [f64; 3] = [-500.0, 40.0, 3.0];
/// Four decimals of a millimeter or five of an inch.
const PLACE: f64 = 2e-4;

fn runs(board: &Board) -> Vec<GcodeRun> {
    files(Kind::Gcode, board)
        .into_iter()
        .map(|(name, text)| {
            let text = String::from_utf8(text).unwrap();
            run_gcode(&text, PARKED).unwrap_or_else(|fault| panic!("{name}: {fault:?}"))
        })
        .collect()
}

/// Every way that the same board may be drilled.
fn ways(board: &Board) -> Vec<Board> {
    let mut ways = Vec::new();
    for units in [Units::Mm, Units::INCH] {
        for (together, words) in [
            (ProgramFiles::OnePerBit, DrillWords::Cycles),
            (ProgramFiles::One, DrillWords::Moves),
        ] {
            for order in DrillingOrder::ALL {
                let mut way = Board {
                    units,
                    order,
                    ..planned(board)
                };
                if let Some(machine) = &mut way.machine {
                    (machine.files, machine.words) = (together, words);
                }
                ways.push(way);
            }
        }
    }
    ways
}

#[test]
fn every_bore_of_every_sample_is_drilled_once_at_its_position_and_depth() {
    for (name, board) in samples() {
        let holes = worked(&board).layout().holes.clone();
        for way in ways(&board) {
            let bores: Vec<[f64; 3]> = runs(&way).iter().flat_map(GcodeRun::bores).collect();
            assert_eq!(bores.len(), holes.len(), "{name}");
            for hole in &holes {
                let here = bores
                    .iter()
                    .filter(|[x, y, _]| Point::new(*x, *y).distance(hole.center) <= PLACE);
                let depths: Vec<f64> = here.map(|bore| -bore[2]).collect();
                assert_eq!(depths.len(), 1, "{name}: {}", hole.name);
                assert_near!(depths[0], hole.bore.depth, PLACE);
            }
        }
    }
}

#[test]
fn no_program_moves_sideways_below_its_clearance() {
    for (name, board) in samples() {
        for way in ways(&board) {
            let clearance = way.machine.as_ref().unwrap().clearance;
            for step in runs(&way).iter().flat_map(|run| &run.steps) {
                let aside = step.from[..2] != step.to[..2];
                let low = step.from[2].min(step.to[2]) < clearance - PLACE;
                assert!(!(aside && low), "{name}: {step:?}");
            }
        }
    }
}
