//! The page on turning a sector jig, and on how its errors add up.
//!
//! Errors of a jig add up from turn to turn, unlike those of a template. Their total is worked out with the jig, in crate
//! `workshop`; this page states it before wood is drilled, with a way to prove the jig on scrap.

use board::{Board, Center, HoleName, Layout, Measure, show_length};
use workshop::{SectorPlan, SectorTurn, Workpiece, paper_size, sector_work};

use crate::cautions::cautions;
use crate::hardboard::router::operation_blocks;
use crate::{Align, Block, Cell, Column, Head, Sheet, Stamp, Table, numbered, pages};

/// The drilling error of an index hole that the page assumes as an example, mm.
const OFF: f64 = 0.1;

/// The page on the order of turning.
pub fn turning(workpiece: &Workpiece, jig: &SectorPlan, stamp: &Stamp) -> Vec<Sheet> {
    let board = workpiece.board();
    let first = match board.drilled_center() {
        Center::Hole { .. } => {
            "In the blank the pilot at the center comes first, for the pin, and the playing hole there last."
        }
        Center::Nothing | Center::Pivot { .. } => {
            "In the blank the hole at the center comes first, for the pin."
        }
    };
    let work = sector_work(workpiece);
    let [make, drill] = &work;
    let mut blocks = vec![Block::Words(format!(
        "Each index hole is marked with the hole of the sector before, which its pin goes into. {first} {}",
        drills(workpiece.layout(), jig)
    ))];
    blocks.extend(cautions(&workshop::cautions_of(&work)));
    blocks.extend(operation_blocks(make));
    blocks.extend(operation_blocks(drill));
    blocks.extend([
        Block::Heading("Order of turning".into()),
        Block::Table(turns(jig)),
        Block::Heading("Error after the last turn".into()),
    ]);
    blocks.extend(sums(board, jig).into_iter().map(Block::Words));
    let head = Head::of("Sector jig", "order of turning", workpiece, stamp);
    let paper = paper_size(board.template.paper);
    let margin = board.template.margin;
    numbered(pages(paper, margin, &head, &blocks), margin)
}

/// The number of holes that it drills, in words.
fn drills(layout: &Layout, jig: &SectorPlan) -> String {
    let at = |turn: &SectorTurn| jig.holes.len() - turn.skip.len();
    let drilled: usize = jig.turns.iter().map(at).sum();
    format!(
        "In {} turns it drills {drilled} of the board's {} holes.",
        jig.turns.len(),
        layout.holes.len()
    )
}

/// Names joined into a list.
pub fn listed(names: &[HoleName]) -> String {
    let names: Vec<String> = names.iter().map(ToString::to_string).collect();
    names.join(", ")
}

/// One row per turn: the sector, the holes for the index pins, and the holes drilled through the jig.
fn turns(jig: &SectorPlan) -> Table {
    let row = |turn: &SectorTurn| {
        vec![
            Cell::Tick,
            Cell::Words(turn.player.to_string()),
            Cell::Words(hold(turn)),
            Cell::Words(drill(turn)),
        ]
    };
    let columns = [
        ("", Align::Start),
        ("Sector", Align::End),
        ("Hold by", Align::Start),
        ("Drill", Align::Start),
    ];
    Table {
        columns: columns
            .map(|(title, align)| Column::new(title, align))
            .to_vec(),
        rows: jig.turns.iter().map(row).collect(),
    }
}

/// The pins that hold the jig in a turn; for the first sector there are no holes to pin into yet.
fn hold(turn: &SectorTurn) -> String {
    match turn.pins.as_slice() {
        [] => format!("center pin, clamped on player {}'s axis", turn.player),
        [pin] => format!("center pin, index pin in {pin}"),
        pins => format!("center pin, index pins in {}", listed(pins)),
    }
}

/// The holes drilled in a turn; hand edits make them differ between sectors.
fn drill(turn: &SectorTurn) -> String {
    let through = if turn.skip.is_empty() {
        "all holes".to_owned()
    } else {
        format!("all but {}", listed(&turn.skip))
    };
    if turn.apart.is_empty() {
        through
    } else {
        format!("{through}; without the jig {}", listed(&turn.apart))
    }
}

/// The sentences on the total of play and drilling errors after all turns: the angle of the last sector, the wood left where
/// the circle closes, a misdrilled index hole, and how to prove the jig on scrap.
fn sums(board: &Board, jig: &SectorPlan) -> Vec<String> {
    let length = |mm: f64| Measure::mm(mm).shown(board.units);
    let play = board.sector_jig.map_or(0.0, |jig| jig.play);
    let mut words = vec![format!(
        "With {} of play at each pin the last sector is off by {} typically, and by {} at worst.",
        show_length(play, board.units),
        Measure::degrees(jig.turned.likely).shown(board.units),
        Measure::degrees(jig.turned.worst).shown(board.units)
    )];
    if let Some(closing) = jig.closing {
        words.push(format!(
            "Where the circle closes, the layout has {} of wood between {} and {}; {} is likely to remain, {} at worst.",
            length(closing.wood),
            closing.last,
            closing.first,
            length(closing.likely),
            length(closing.worst)
        ));
    }
    let turns = f64::from(board.players) - 1.0;
    if turns > 1.0 {
        words.push(format!(
            "An index hole drilled off its place along the circle adds that error at every turn: {} adds up to {} by the last.",
            length(OFF),
            length(OFF * turns)
        ));
    }
    if !jig.proof.is_empty() {
        let pins = if jig.proof.len() > 1 {
            "pins go"
        } else {
            "pin goes"
        };
        words.push(format!(
            "Prove the jig on scrap: after the last sector, turned once more onto sector 1, its index {pins} into {}, and \
             every hole meets its own.",
            listed(&jig.proof)
        ));
    }
    words
}
