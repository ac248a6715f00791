//! A thing dragged over the board: the document that comes of it.
//!
//! Every step of a drag is worked out from the document as it was when the drag began, so that coming back to the start gives
//! that document again. A place not snapped to a guide comes to a mark of the maker's rule, and no number leaves its range.

mod around;
mod hole;
mod off;
mod place;
#[cfg(test)]
mod tests;

use board::{Board, Field, HoleId, Measure, Units, Value, at_mark, layout};
use geometry::Point;
use workshop::Workpiece;

use super::{Guide, Thing};
pub(super) use off::groove_off;

/// A drag of a thing.
#[derive(Debug, Clone, Copy)]
pub struct Pull<'a> {
    /// The thing that was taken hold of.
    pub thing: Thing,
    /// The chosen holes, which go along where the thing is one of them.
    pub with: &'a [HoleId],
    /// Where it was taken hold of.
    pub from: Point,
    /// Where the pointer is now.
    pub to: Point,
    /// Whether the same hole of every player moves with each hole.
    pub mirrored: bool,
    /// The places it may come to.
    pub snap: Snap,
}

/// The places that a dragged thing may come to.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Snap {
    /// Guides within a reach, mm; else marks of the maker's rule.
    Guides(f64),
    /// Marks of the maker's rule.
    Marks,
    /// Any place.
    Fine,
}

/// The outcome of a drag.
#[derive(Debug, Clone, PartialEq)]
pub struct Pulled {
    /// The document that comes of it.
    pub board: Board,
    /// Where the thing is now, in the maker's units.
    pub words: String,
    /// The guides that it lies on.
    pub guides: Vec<Guide>,
}

/// The document that comes of a drag; none where the thing cannot be dragged, or the board could not be laid out with it there.
///
/// ```
/// use board::Board;
/// use drawing::{Pull, Snap, Thing, pulled};
/// use geometry::Point;
/// use workshop::Workpiece;
/// let workpiece = Workpiece::of(&Board::default())?;
/// let rim = Pull {
///     thing: Thing::Rim,
///     with: &[],
///     from: Point::new(320.0, 0.0),
///     to: Point::new(330.02, 0.0),
///     mirrored: true,
///     snap: Snap::Marks,
/// };
/// let wider = pulled(&workpiece, &rim).unwrap();
/// assert_eq!(wider.board.blank.diameter, 660.0);
/// assert_eq!(wider.words, "board diameter 660 mm");
/// # Ok::<(), board::BuildError>(())
/// ```
pub fn pulled(start: &Workpiece, pull: &Pull<'_>) -> Option<Pulled> {
    let mut done = match pull.thing {
        Thing::Hole(id) => hole::pulled(start, pull, id),
        Thing::Lane(player) => place::lane(start, pull, player),
        Thing::Pocket(player) => place::pocket(start, pull, player),
        Thing::Recess => place::recess(start, pull),
        Thing::Groove(kind) => off::groove(start, pull, kind),
        Thing::Rim => Some(off::rim(start, pull)),
        Thing::Seam(at) => off::seam(start, pull, at),
        Thing::Screws(at) => around::screws(start, pull, at),
        Thing::Turn => Some(around::turn(start, pull)),
    }?;
    if pull.from == pull.to {
        done.board = start.board().clone();
    }
    layout(&done.board).is_ok().then_some(done)
}

impl Pull<'_> {
    /// The way from where the thing was taken hold of to the pointer.
    fn way(&self) -> geometry::Vec2 {
        self.to - self.from
    }

    /// A length as it is kept.
    fn length(&self, mm: f64, units: Units) -> f64 {
        match self.snap {
            Snap::Guides(_) | Snap::Marks => at_mark(mm, units),
            Snap::Fine => fine(mm),
        }
    }

    /// A bearing in degrees as it is kept: of a tenth of a degree, or a half where it turns a whole pattern.
    fn degrees(&self, degrees: f64, parts: f64) -> f64 {
        match self.snap {
            Snap::Guides(_) | Snap::Marks => (degrees * parts).round() / parts + 0.0,
            Snap::Fine => fine(degrees),
        }
    }

    /// Reach of guides from the center pin, mm.
    fn reach(&self) -> f64 {
        match self.snap {
            Snap::Guides(reach) => reach,
            Snap::Marks | Snap::Fine => 0.0,
        }
    }
}

/// A number without the dust of a computation.
fn fine(number: f64) -> f64 {
    (number * 1e4).round() / 1e4 + 0.0
}

/// Puts a number into a document, within its range.
fn put(board: &mut Board, field: &Field, entry: usize, number: f64) {
    field.set(board, entry, &Value::Number(within(field, number)));
}

/// The number within the range of a field.
fn within(field: &Field, number: f64) -> f64 {
    let range = field.range();
    number.max(range.min).min(range.max)
}

/// A length in words.
fn shown_length(mm: f64, units: Units) -> String {
    Measure::mm(mm).shown(units)
}

/// An angle in words, to a tenth of a degree.
fn shown_angle(degrees: f64, units: Units) -> String {
    Measure::degrees((degrees * 10.0).round() / 10.0 + 0.0).shown(units)
}
