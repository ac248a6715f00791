//! The repair page: distances to measure after taping or drilling, the verdict on them, and misdrilled holes.
//!
//! The page is printed twice. The first time nothing has been measured, and it is a list to fill in at the bench; the second
//! time it says what slipped and has the steps of each repair. All numbers come from the workpiece; this module only prints
//! them.

use board::{Units, show_length};
use workshop::{Caution, Repair, Workpiece, readings, repairs, verdict_words, worth_measuring};

use crate::cautions::cautions;
use crate::{Align, Block, Cell, Column, Head, Sheet, Stamp, Table, template_pages};

/// The repair page of a board on the paper of its template. Before anything is measured it says which distances to measure,
/// with a column to write in; afterward, how far each is off, and why. Each misdrilled hole has its steps.
///
/// ```
/// use board::{Board, Fault, WrongHole};
/// use drawing::{Stamp, repair_pages};
/// use workshop::Workpiece;
///
/// let fault = Fault::Off { u: 2.0, v: 0.0 };
/// let board = Board { wrong: vec![WrongHole { hole: "T1-03".parse().unwrap(), fault }], ..Board::default() };
/// let sheets = repair_pages(&Workpiece::of(&board)?, &Stamp::default());
/// assert!(sheets[0].label.starts_with("repair page"));
/// # Ok::<(), board::BuildError>(())
/// ```
pub fn repair_pages(workpiece: &Workpiece, stamp: &Stamp) -> Vec<Sheet> {
    let board = workpiece.board();
    let head = Head::of("Repair page", "repair page", workpiece, stamp);
    let mut blocks = to_measure(workpiece);
    blocks.extend(measured(workpiece));
    let repairs = repairs(workpiece);
    if !repairs.is_empty() {
        blocks.push(Block::Heading("Misdrilled holes".into()));
        blocks.extend(cautions(&[
            Caution::DrillPress,
            Caution::Eyes,
            Caution::Dust,
        ]));
        blocks.extend(
            repairs
                .iter()
                .flat_map(|repair| mended(repair, board.units)),
        );
    }
    template_pages(board, &head, &blocks)
}

/// The distances worth measuring, with room to write.
///
/// They are also listed after readings were typed: a maker who prints the page again measures the same distances on the drilled
/// board as on the template, and sees what drilling has added.
fn to_measure(workpiece: &Workpiece) -> Vec<Block> {
    let units = workpiece.board().units;
    let distances = worth_measuring(workpiece);
    if distances.is_empty() {
        return Vec::new();
    }
    let rows = distances.iter().map(|distance| {
        let [from, to] = distance.ends.map(|end| Cell::Words(end.to_string()));
        vec![
            Cell::Tick,
            from,
            to,
            Cell::Words(show_length(distance.mm, units)),
            Cell::Words(WRITE.into()),
        ]
    });
    let columns = [
        ("", Align::Start),
        ("From", Align::Start),
        ("To", Align::Start),
        ("Should be", Align::End),
        ("You read", Align::End),
    ];
    vec![
        Block::Heading("Measure these".into()),
        Block::Words(
            "With a steel rule or a tape, from center to center; of two like holes from the left edge of one to the left edge of \
             the other. On the taped template before it is glued down, and again on the drilled board. Six in different \
             directions show the most; enter your readings under Repair."
                .into(),
        ),
        Block::Table(Table { columns: Column::all(&columns), rows: rows.collect() }),
    ]
}

/// Room to write a number by hand.
const WRITE: &str = "____________";

/// The readings with the nominal value of each, and the verdict as a separate sentence.
///
/// The column of residuals shows at a glance which reading does not fit the others. Before anything is measured this part is
/// left out.
fn measured(workpiece: &Workpiece) -> Vec<Block> {
    let units = workpiece.board().units;
    let told = readings(workpiece);
    if told.readings.is_empty() {
        return Vec::new();
    }
    let length = |mm: f64| Cell::Words(show_length(mm, units));
    let rows = told.readings.iter().map(|reading| {
        let [from, to] = reading.ends.map(|end| Cell::Words(end.to_string()));
        vec![
            from,
            to,
            length(reading.nominal),
            length(reading.read),
            length(reading.long()),
            length(reading.left),
        ]
    });
    let columns = [
        ("From", Align::Start),
        ("To", Align::Start),
        ("Should be", Align::End),
        ("Read", Align::End),
        ("Longer by", Align::End),
        ("Unexplained", Align::End),
    ];
    let verdict = verdict_words(workpiece);
    vec![
        Block::Heading("Measured".into()),
        Block::Table(Table {
            columns: Column::all(&columns),
            rows: rows.collect(),
        }),
        Block::Words(verdict),
    ]
}

/// A misdrilled hole: the wood it leaves, and the steps of its repair.
///
/// A hole that is left as it is has a sentence and no steps, so that nobody looks for them.
fn mended(repair: &Repair, units: Units) -> Vec<Block> {
    let mut blocks = vec![Block::Words(repair.sentences(units))];
    let steps = repair.words(units).steps;
    if !steps.is_empty() {
        blocks.push(Block::Ticked(steps));
    }
    blocks
}
