//! The line at the top of the sheets of a board that the checks stop.
//!
//! A sheet outlives the screen it was printed from: the line tells a reader at the bench that the board cannot be made as it is
//! drawn. Tables for programs have no such line, as their format has no place for one.

use kurbo::Point;
use workshop::{Workpiece, stopped_by};

use crate::font::{self, Weight};
use crate::{Anchor, Item, Line, Shape, Text};

/// Size of its type, mm.
pub const SIZE: f64 = 3.2;

/// The line for the sheets of a board; `None` if nothing stops it.
///
/// It names the rules instead of repeating their messages: those are on the job sheet, and change with every revision.
pub fn stop_line(workpiece: &Workpiece) -> Option<String> {
    let rules = stopped_by(workpiece.findings())?;
    Some(format!(
        "STOP: do not cut wood by this sheet. Fix first: {rules}."
    ))
}

/// The line on a sheet, with its lower left corner at a point, cut where the room ends.
///
/// It is on the layer of the title, so that a DXF has it among the words and no machine cuts it.
pub fn stop_item(line: &str, at: Point, room: f64) -> Item {
    let words = font::cut(line, SIZE, Weight::SemiBold, room);
    Item::of_title(
        Line::Dimension,
        Shape::Text(Text::level(at, SIZE, Anchor::Start, words).weighing(Weight::SemiBold)),
    )
}
