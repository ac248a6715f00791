//! Questions that every writer of sheets asks before it writes a byte.

use drawing::{Item, Shape, Sheet, Text};
use workshop::Correction;

use crate::Error;

/// The longest side of a page: 14,400 units of 1/72 in (ISO 32000-1:2008, Annex C, Table C.1), in mm.
pub const LONGEST_SIDE: f64 = 14_400.0 * 25.4 / 72.0;

/// Paper of a size that can be written, and nothing on it that is not a number.
pub fn sheet(sheet: &Sheet) -> Result<(), Error> {
    let sound = |side: f64| side > 0.0 && side <= LONGEST_SIDE;
    if !sound(sheet.size.width) || !sound(sheet.size.height) {
        return Err(Error::SheetSize {
            label: sheet.label.clone(),
            width: sheet.size.width,
            height: sheet.size.height,
            most: LONGEST_SIDE,
        });
    }
    let view = &sheet.view;
    let sound = |correction: &Correction| correction.print.is_sound();
    let placed = view.window.is_finite()
        && view.page_from_board.is_finite()
        && sheet.correction.as_ref().is_none_or(sound);
    if placed && view.items.iter().chain(&sheet.marks).all(is_finite) {
        Ok(())
    } else {
        let label = sheet.label.clone();
        Err(Error::NotANumber { label })
    }
}

/// Whether every number of an item is one; sizes may be 0 or less, which draws nothing.
fn is_finite(item: &Item) -> bool {
    match &item.shape {
        Shape::Circle(circle) => circle.is_finite(),
        Shape::Arc(arc) => arc.is_finite(),
        Shape::Line(line) => line.is_finite(),
        Shape::Cross { center, arm } => center.is_finite() && arm.is_finite(),
        Shape::Area(corners) => corners.iter().all(|corner| corner.is_finite()),
        Shape::Text(text) => text_is_finite(text),
    }
}

/// Anchor, size and turn; the words themselves can be any.
fn text_is_finite(text: &Text) -> bool {
    text.at.is_finite() && text.size.is_finite() && text.turn.as_radians().is_finite()
}
