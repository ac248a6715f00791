//! Checks that every writer of sheets makes before it writes a byte.

use drawing::{Item, Shape, Sheet, Text};
use geometry::Arc;
use kurbo::{Circle, Point};
use workshop::Correction;

use crate::Error;
use crate::number::is_sound;

/// The longest side of a page: 14,400 units of 1/72 in (ISO 32000-1:2008, Annex C, Table C.1; the clause from memory), in mm.
pub const LONGEST_SIDE: f64 = 14_400.0 * 25.4 / 72.0;

/// Checks that the paper has a size that can be written, and that everything on it is a number.
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
    wrong_part(sheet).map_or(Ok(()), |part| {
        let label = sheet.label.clone();
        Err(Error::NotANumber { label, part })
    })
}

/// The first part of a sheet with a number that no file can hold.
fn wrong_part(sheet: &Sheet) -> Option<String> {
    let view = &sheet.view;
    let corners = [
        view.window.origin(),
        (view.window.x1, view.window.y1).into(),
    ];
    if !corners.into_iter().all(point) || !point(view.page_from_board.to_point()) {
        return Some("the part of the board that it shows".into());
    }
    let is_corrected = |correction: &Correction| correction.print.is_sound();
    if !sheet.correction.as_ref().is_none_or(is_corrected) {
        return Some("the printer's correction".into());
    }
    if !view.tints.iter().all(|tint| is_finite(&tint.shape)) {
        return Some("a colored part".into());
    }
    let mut items = view.items.iter().chain(&sheet.marks);
    items.find(|item| !is_finite(&item.shape)).map(named)
}

/// The words for a part: its kind, and its layer.
fn named(item: &Item) -> String {
    let what = match &item.shape {
        Shape::Text(text) => &format!("{:?}", text.words),
        Shape::Circle(_) => "a circle",
        Shape::Arc(_) => "an arc",
        Shape::Area(_) => "an area",
        Shape::Line(_) | Shape::Cross { .. } => "a line",
    };
    format!("{what} on layer {}", item.layer.id())
}

/// Whether every number of a shape is finite; sizes of 0 or less are allowed and draw nothing.
fn is_finite(shape: &Shape) -> bool {
    match shape {
        Shape::Circle(it) => circle(*it),
        Shape::Arc(it) => arc(it),
        Shape::Line(line) => point(line.p0) && point(line.p1),
        Shape::Cross { center, arm } => point(*center) && is_sound(*arm),
        Shape::Area(corners) => corners.iter().all(|corner| point(*corner)),
        Shape::Text(it) => text(it),
    }
}

fn point(point: Point) -> bool {
    is_sound(point.x) && is_sound(point.y)
}

fn circle(circle: Circle) -> bool {
    point(circle.center) && is_sound(circle.radius)
}

fn arc(arc: &Arc) -> bool {
    arc.is_finite() && circle(arc.circle())
}

/// Whether anchor, size and direction are finite; the words can be anything.
fn text(text: &Text) -> bool {
    point(text.at) && is_sound(text.size) && text.turn.as_radians().is_finite()
}
