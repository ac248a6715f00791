//! Dragging a thing over the board, and the resulting document.
//!
//! Every step of a drag is worked out from the document at its start, so that returning to the start gives that document again.
//! A position not snapped to a guide is rounded to a mark of the maker's rule, and no number leaves its range.

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
    /// The dragged thing.
    pub thing: Thing,
    /// The selected holes, which move along if the thing is one of them.
    pub with: &'a [HoleId],
    /// The point where the drag started.
    pub from: Point,
    /// The position of the pointer.
    pub to: Point,
    /// Whether the same hole of every player moves with each hole.
    pub mirrored: bool,
    /// The positions allowed.
    pub snap: Snap,
}

/// The positions allowed for a dragged thing.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Snap {
    /// Guides within a reach, mm; otherwise marks of the maker's rule.
    Guides(f64),
    /// Marks of the maker's rule.
    Marks,
    /// Any position.
    Fine,
}

/// The outcome of a drag.
#[derive(Debug, Clone, PartialEq)]
pub struct Pulled {
    /// The resulting document.
    pub board: Board,
    /// The position of the thing, in the maker's units.
    pub words: String,
    /// The guides that it is on.
    pub guides: Vec<Guide>,
}

/// The document that results from a drag; `None` if the thing cannot be dragged, or the board could not be laid out with it
/// there.
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
    /// The vector from the start of the drag to the pointer.
    fn way(&self) -> geometry::Vec2 {
        self.to - self.from
    }

    /// A length rounded as it is stored.
    fn length(&self, mm: f64, units: Units) -> f64 {
        match self.snap {
            Snap::Guides(_) | Snap::Marks => at_mark(mm, units),
            Snap::Fine => fine(mm),
        }
    }

    /// A bearing in degrees, rounded as it is stored: to a tenth of a degree, or to half a degree for a whole pattern.
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

/// A number without rounding residue.
fn fine(number: f64) -> f64 {
    (number * 1e4).round() / 1e4 + 0.0
}

/// Stores a number in a document, within its range.
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
