//! The line at the top of a sheet of a board that the checks stop.
//!
//! A sheet outlives the screen it was printed from: a reader at the bench learns from it that the board cannot be made as it is
//! drawn. Tables that programs read have no such line, as their format has no place for one.

use kurbo::Point;
use workshop::{Workpiece, stopped_by};

use crate::font::{self, Weight};
use crate::{Anchor, Item, Line, Shape, Text};

/// Size of its type, mm.
pub const SIZE: f64 = 3.2;

/// The line for the sheets of a board; none where nothing stops it.
///
/// It names the rules and not their messages: those are on the job sheet, and change with every revision.
pub fn stop_line(workpiece: &Workpiece) -> Option<String> {
    let rules = stopped_by(workpiece.findings())?;
    Some(format!(
        "STOP: do not cut wood by this sheet. Fix first: {rules}."
    ))
}

/// The line on a sheet, its lower left corner at a place, cut off where the room ends.
///
/// It belongs to the title, so that a DXF has it on the layer of words and no machine cuts it.
pub fn stop_item(line: &str, at: Point, room: f64) -> Item {
    let words = font::cut(line, SIZE, Weight::SemiBold, room);
    Item::of_title(
        Line::Dimension,
        Shape::Text(Text::level(at, SIZE, Anchor::Start, words).weighing(Weight::SemiBold)),
    )
}
