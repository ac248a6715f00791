//! Tape and film that keep finish and color where they belong.

use core::f64::consts::PI;

use board::Medium;

use super::{Shelf, ToBuy};
use crate::Workpiece;
use crate::colors::amount::area;
use crate::colors::steps::{laid, lies_flat};
use crate::colors::used::Used;
use crate::finish::{is_color, needs_tape};

/// Masking tape and stencil film for this number of boards; empty if nothing is masked.
pub fn lines(workpiece: &Workpiece, boards: u32) -> Vec<ToBuy> {
    let painted: Vec<Used> = laid(workpiece)
        .into_iter()
        .filter(|one| one.tint.medium == Medium::Paint && lies_flat(one))
        .collect();
    tape(workpiece, !painted.is_empty(), boards)
        .into_iter()
        .chain(film(workpiece, &painted, boards))
        .collect()
}

/// Length of tape on a roll, m; from memory.
const ROLL: f64 = 50.0;
/// Length of tape for one board, as a multiple of its circumference; common practice, no source.
const ROUNDS: f64 = 3.0;

/// Rolls of masking tape.
///
/// Tape goes around parts that are painted, by the work plan or as a coat of the finish, and over parts to keep free of finish.
fn tape(workpiece: &Workpiece, is_painted: bool, boards: u32) -> Option<ToBuy> {
    let board = workpiece.board();
    let is_colored = board.finish.iter().any(|coat| is_color(coat.kind));
    let keeps_off = needs_tape(workpiece);
    let note = match (is_painted || is_colored, keeps_off) {
        (true, true) => "low tack, around painted parts and over parts to keep free of finish",
        (true, false) => "low tack, around painted parts",
        (false, true) => "low tack, on what no finish may get on",
        (false, false) => return None,
    };
    let meters = ROUNDS * PI * board.blank.diameter / 1000.0 * f64::from(boards);
    Some(ToBuy {
        note: note.into(),
        ..ToBuy::pieces(
            Shelf::Supplies,
            "masking-tape".into(),
            "Masking tape, roll".into(),
            (meters / ROLL).ceil(),
        )
    })
}

/// Side lengths of a sheet of stencil film, mm: about letter or A4; from memory.
const SHEET: (f64, f64) = (210.0, 280.0);
/// Film for painted parts, as a multiple of their area; common practice, no source.
const BESIDE: f64 = 2.0;

/// Sheets of stencil film for painted rings, fields and marks.
fn film(workpiece: &Workpiece, painted: &[Used], boards: u32) -> Option<ToBuy> {
    let covered: f64 = painted.iter().map(|one| area(workpiece, one)).sum();
    let sheets = (covered * BESIDE * f64::from(boards) / (SHEET.0 * SHEET.1)).ceil();
    (sheets > 0.0).then(|| ToBuy {
        note: "self-adhesive, to cut stencils from".into(),
        ..ToBuy::pieces(
            Shelf::Supplies,
            "stencil-film".into(),
            "Stencil film, sheet".into(),
            sheets,
        )
    })
}
