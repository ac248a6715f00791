//! The first page of the job sheet: the board, the players with their colors, the total time, and the open findings.

use board::several;
use kurbo::{Point, Size};
use workshop::{FIRST, Finding, Severity, Workpiece, mark_name, player_look};

use super::steps::hands_on_hours;

use crate::font::{self, Weight};
use crate::looks::{color_name, player_numbers, small_plan};
use crate::{Align, Anchor, Block, Cell, Column, Figure, Item, Line, Shape, Table, Text};

/// Width and height of the drawing of the board, mm, if the page is wide enough.
const BOARD: f64 = 66.0;
/// Size of the lines beside it, mm: 11 pt.
const BESIDE: f64 = 3.9;
/// Size of the findings, mm: 9 pt.
const FOUND: f64 = 9.0 / 72.0 * board::INCH;
/// Spacing of the lines beside it, mm.
const STEP: f64 = 5.6;

/// The blocks of the first page, for a page of this width, mm.
///
/// Where a picture of the board is laid under the numbers of the players, the board is not drawn.
///
/// Findings come last, since their number varies: everything else keeps its place from sheet to sheet.
pub fn front(workpiece: &Workpiece, width: f64, is_pictured: bool) -> Vec<Block> {
    let mut blocks = vec![
        Block::Figure(seen(workpiece, width, is_pictured)),
        Block::Type(BESIDE),
        Block::Words(about(workpiece)),
        Block::Words(in_all(workpiece)),
        Block::Caution(FIRST.into()),
        Block::Type(FOUND),
    ];
    blocks.extend(found(workpiece.findings()));
    blocks
}

/// Side of the square with the board on a page of this width, mm.
pub fn side(width: f64) -> f64 {
    BOARD.min(0.45 * width)
}

/// The board from above, and beside it the players with their colors and marks.
///
/// Players that do not fit below each other continue in another column; a line too long for its column is shortened.
fn seen(workpiece: &Workpiece, width: f64, is_pictured: bool) -> Figure {
    let side = side(width);
    let mut items = if is_pictured {
        player_numbers(workpiece, side)
    } else {
        small_plan(workpiece, side)
    };
    let left = side + 6.0;
    let room = width - left;
    let each = ((side / STEP) as usize).max(1);
    let lines = players(workpiece);
    let columns = lines.len().div_ceil(each).max(1);
    let wide = room / columns as f64;
    for (at, words) in lines.iter().enumerate() {
        let (column, row) = (at / each, at % each);
        let place = Point::new(
            left + column as f64 * wide,
            side - STEP * (row as f64 + 0.8),
        );
        let weight = if at == 0 {
            Weight::SemiBold
        } else {
            Weight::Regular
        };
        let words = font::cut(words, BESIDE, weight, wide - 2.0);
        let text = Text::level(place, BESIDE, Anchor::Start, words).weighing(weight);
        items.push(Item::of_title(Line::Dimension, Shape::Text(text)));
    }
    Figure {
        size: Size::new(width, side),
        items,
    }
}

/// The players, one line each: color and mark.
///
/// The first line is the title. Colors and marks are given in words, since the sheet is black on white.
fn players(workpiece: &Workpiece) -> Vec<String> {
    let board = workpiece.board();
    let lines = (1..=board.players).map(|player| {
        let look = player_look(board, player);
        let (color, mark) = (color_name(look.color), mark_name(&look.mark));
        format!("{player}  {color}, {mark}")
    });
    let title = "Player: color and mark".to_owned();
    core::iter::once(title).chain(lines).collect()
}

/// The board in one sentence.
///
/// Lengths are in the maker's unit.
fn about(workpiece: &Workpiece) -> String {
    let (board, layout) = (workpiece.board(), workpiece.layout());
    let length = |mm| board::show_length(mm, board.units);
    format!(
        "For {} players: {} holes, {} across, {} thick, pitch {}, played with {} of {}.",
        board.players,
        layout.holes.len(),
        length(board.blank.diameter),
        length(board.blank.thickness),
        length(board.pitch),
        board.piece.kind.label(),
        length(board.piece.diameter)
    )
}

/// The method, the total time, and what the sheet is for in an order of several boards.
///
/// Waits are added up one after the other, which is an upper limit: glue sets while paper is printed.
fn in_all(workpiece: &Workpiece) -> String {
    let (plan, boards) = (workpiece.work_plan(), workpiece.board().schedule.boards);
    let hands_on = |boards| time(hands_on_hours(workpiece, &plan.operations, boards));
    let (on_all, scope) = match boards {
        0 | 1 => (String::new(), String::new()),
        _ => (
            format!(" for one board, {} for all {boards}", hands_on(boards)),
            format!(
                " Pieces and amounts in the steps are for one board, and the order is for {boards}; the shopping list and the cut \
                 list are for all."
            ),
        ),
    };
    format!(
        "Holes by {}. About {} hands-on{on_all}, and {} of waiting if nothing else is done meanwhile; times that you have not typed \
         are common practice, no source.{scope}",
        plan.method.label(),
        hands_on(1),
        time(plan.waiting_hours())
    )
}

/// A time as people state it in a shop: minutes to the nearest five, hours, days.
///
/// No estimate here is accurate to a minute, and none of a wait to an hour.
pub fn time(hours: f64) -> String {
    if hours < 1.75 {
        several(((hours * 12.0).ceil() * 5.0).max(5.0), "minute")
    } else if hours < 48.0 {
        several(hours.round(), "hour")
    } else {
        several((hours / 24.0).round(), "day")
    }
}

/// The findings left when the sheet is made, worst first, with boxes to tick: a caution that the maker has decided to accept is
/// ticked off on paper. Notes are only in the window.
///
/// Each has the name of its rule, under which the maker finds it in the window.
fn found(findings: &[Finding]) -> Vec<Block> {
    let told: Vec<&Finding> = findings
        .iter()
        .filter(|finding| finding.severity != Severity::Note)
        .collect();
    if told.is_empty() {
        return vec![Block::Words("No problems found.".into())];
    }
    let mut blocks = vec![Block::Heading("Before wood is cut".into())];
    let row = |finding: &&Finding| {
        let what = match finding.severity {
            Severity::Stop => "stop",
            Severity::Caution | Severity::Note => "caution",
        };
        let rule = format!("{what}: {}", finding.rule.label());
        vec![
            Cell::Tick,
            Cell::Words(rule),
            Cell::Words(finding.message.clone()),
        ]
    };
    blocks.push(Block::Table(Table {
        columns: Column::all(&[
            ("", Align::Start),
            ("Check", Align::Start),
            ("Problem", Align::Start),
        ]),
        rows: told.iter().map(row).collect(),
    }));
    blocks
}
