//! The table itself: its rows, one file for each part of the document, and functions that iterate over them.

mod base;
mod blank;
mod bores;
mod colors;
mod edits;
mod filling;
mod finish;
mod grooves;
mod hardboard;
mod jig;
mod limits;
mod machine;
mod panel;
mod pattern;
mod piece;
mod price;
mod recess;
mod repair;
mod schedule;
mod template;
mod tools;
mod wood;

pub use base::*;
pub use blank::*;
pub use bores::*;
pub use colors::*;
pub use edits::*;
pub use filling::*;
pub use finish::*;
pub use grooves::*;
pub use hardboard::*;
pub use jig::*;
pub use limits::*;
pub use machine::*;
pub use panel::*;
pub use pattern::*;
pub use piece::*;
pub use price::*;
pub use recess::*;
pub use repair::*;
pub use schedule::*;
pub use template::*;
pub use tools::*;
pub use wood::*;

use super::total::totals;
use super::{Field, Value};
use crate::{Board, OutOfRange};

/// The table, in the order of the document: blocks of related rows; the rows of a list entry are a block of their own.
const TABLE: &[&[&Field]] = &[
    PATTERN_FIELDS,
    CENTER_FIELDS,
    CENTER_BORE,
    TRACK_BORE,
    HOME_BORE,
    START_BORE,
    SPUR_FIELDS,
    GROOVE_FIELDS,
    PIECE_FIELDS,
    WEIGHT_FIELDS,
    MAGNET_FIELDS,
    BOARD_FIELDS,
    STOCK_FIELDS,
    FLAW_FIELDS,
    PLACE_FIELDS,
    JOINING_FIELDS,
    SCREW_FIELDS,
    WOOD_FIELDS,
    WOOD_DETAILS,
    SHOP_AIR,
    DRY_AIR,
    HUMID_AIR,
    BASE_FIELDS,
    PASSAGE_FIELDS,
    RECESS_FIELDS,
    LID_FIELDS,
    FILLING_FIELDS,
    PLAYER_COLORS_FIELDS,
    PLAYER_COLOR_FIELDS,
    MARKS_FIELDS,
    TRACK_COLORS,
    HOME_COLORS,
    START_COLORS,
    EXTRA_COLORS,
    CENTER_COLORS,
    COLOR_RING_FIELDS,
    LINE_COLORS,
    RING_COLORS,
    RIM_COLORS,
    SECTOR_COLORS,
    COLOR_ORDER_FIELDS,
    HOLE_COLOR_FIELDS,
    HOLE_LOOK,
    COLOR_PLAN_FIELDS,
    FINISH_FIELDS,
    COAT_FIELDS,
    JIG_FIELDS,
    TOOLS_FIELDS,
    LIMIT_FIELDS,
    TEMPLATE_FIELDS,
    ROUTER_FIELDS,
    SECTOR_FIELDS,
    ORDER_FIELDS,
    MACHINE_FIELDS,
    BIT_FIELDS,
    EDGE_FIELDS,
    GROOVE_RUN_FIELDS,
    ERROR_FIELDS,
    EDITS_FIELDS,
    EDIT_FIELDS,
    EDIT_BORE,
    REPAIR_FIELDS,
    DISTANCE_FIELDS,
    WRONG_FIELDS,
    SCHEDULE_FIELDS,
    TIMED_FIELDS,
    DONE_FIELDS,
    PRICE_FIELDS,
    ARTICLE_FIELDS,
    QUOTE_FIELDS,
];

/// Every field, in the order of the document.
///
/// ```
/// use board::field;
/// assert_eq!(field::all_fields().next(), Some(&field::TITLE));
/// ```
pub fn all_fields() -> impl Iterator<Item = &'static Field> {
    TABLE.iter().copied().flatten().copied()
}

/// Every field that a board has now, with the list entry it belongs to, in the order of the document.
///
/// ```
/// use board::{Board, field};
/// let board = Board::default();
/// let has = |sought: &field::Field| field::fields_of(&board).any(|(field, ..)| field == sought);
/// assert!(has(&field::PITCH) && !has(&field::RECESS_DEPTH));
/// ```
pub fn fields_of(board: &Board) -> impl Iterator<Item = (&'static Field, usize, Value)> {
    TABLE.iter().flat_map(move |rows| {
        entries(board, rows).flat_map(move |entry| {
            let has =
                move |field: &&'static Field| Some((*field, entry, field.value(board, entry)?));
            rows.iter().filter_map(has)
        })
    })
}

/// The entries that a block of rows applies to: as many as its list has, or one if it is not in a list.
fn entries(board: &Board, rows: &'static [&'static Field]) -> impl Iterator<Item = usize> {
    let listed = rows.first().filter(|field| field.is_of_entry());
    let has = move |entry: &usize| match listed {
        Some(field) => field.value(board, *entry).is_some(),
        None => *entry == 0,
    };
    (0..).take_while(has)
}

/// Every number of the document that is out of range, in the order of the document; if there is none, the totals that are too
/// large.
///
/// ```
/// use board::{Board, out_of_range};
/// let board = Board { pitch: -1.0, players: 99, ..Board::default() };
/// let found = out_of_range(&board);
/// assert_eq!(found[0].to_string(), "Players: 99 is out of range; use 1 to 24");
/// assert_eq!(found[1].value, -1.0);
/// ```
pub fn out_of_range(board: &Board) -> Vec<OutOfRange> {
    let mut found = Vec::new();
    for (field, entry, value) in fields_of(board) {
        field.measure(&value, |range, number| {
            found.extend(range.check_entry(number, entry).err());
        });
    }
    // Totals are checked only if every single number is in range.
    if found.is_empty() {
        found.extend(totals(board));
    }
    found
}
