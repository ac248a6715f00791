//! V-grooves in the top face: the path of the bit, its depth, and the planned lines that have no room.
//!
//! Distances that the maker types are of wood left beside a groove; strokes are center lines, half the groove's width farther
//! off. A straight groove stops short of bores; anything else that comes too close stays as it is and is reported by the
//! checks.

mod boxes;
pub mod check;
mod depth;
mod lines;
mod rounds;
pub mod section;
pub mod steps;
mod stroke;
mod strokes;
pub mod sums;

use board::HoleName;

use crate::Workpiece;

pub use depth::{groove_depth, passes};
pub use stroke::Stroke;

use boxes::Boxes;
pub(crate) use strokes::Strokes;

/// One groove, cut without lifting the bit.
#[derive(Debug, Clone, PartialEq)]
pub struct Groove {
    /// The kind of groove.
    pub kind: GrooveKind,
    /// The player it belongs to, counted from 1; 0 for grooves between players or all around. A line from one sector to the
    /// next belongs to the first of the two players.
    pub player: u32,
    /// The strokes, each of which begins where the one before ends.
    pub path: Vec<Stroke>,
    /// The holes it joins or surrounds, in table order.
    pub holes: Vec<HoleName>,
}

impl Groove {
    /// Length of the path, mm.
    ///
    /// ```
    /// use board::{Board, Grooves};
    /// use workshop::Workpiece;
    /// let board = Board { grooves: Some(Grooves::default()), ..Board::default() };
    /// let workpiece = Workpiece::of(&board)?;
    /// let plan = workpiece.grooves().unwrap();
    /// let all: f64 = plan.grooves.iter().map(workshop::Groove::length).sum();
    /// assert!((plan.length - all).abs() < 1e-6);
    /// # Ok::<(), board::BuildError>(())
    /// ```
    pub fn length(&self) -> f64 {
        self.path.iter().map(Stroke::length).sum()
    }
}

/// A kind of groove.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum GrooveKind {
    /// A line between neighboring spaces of the track.
    Track,
    /// A line along a home lane.
    Home,
    /// An outline around a home lane.
    AroundHome,
    /// An outline around a start pocket.
    AroundStart,
    /// A ring around a bore.
    Ring,
    /// A line between two sectors.
    Sector,
    /// The ring inside the rim.
    Rim,
    /// The ring around the center of the board.
    Middle,
}

impl GrooveKind {
    /// Its name on screens, in files and on sheets.
    pub const fn label(self) -> &'static str {
        match self {
            Self::Track => "line of the track",
            Self::Home => "line of a home lane",
            Self::AroundHome => "outline of a home lane",
            Self::AroundStart => "outline of a start pocket",
            Self::Ring => "ring around a hole",
            Self::Sector => "line between sectors",
            Self::Rim => "ring at the rim",
            Self::Middle => "ring around the middle",
        }
    }
}

/// The grooves of a board.
#[derive(Debug, Clone, PartialEq)]
pub struct GroovePlan {
    /// The grooves, in the order they are cut.
    pub grooves: Vec<Groove>,
    /// The planned grooves that have no room, as kind and holes; sector lines and rings about the pin have no holes.
    pub dropped: Vec<(GrooveKind, Vec<HoleName>)>,
    /// Depth, mm; 0 or less where the bit cannot cut the width.
    pub depth: f64,
    /// Number of passes to that depth; 0 if there is no depth.
    pub passes: u32,
    /// Total length of all grooves, mm, counting each once.
    pub length: f64,
}

/// The grooves of a board; `None` if none are planned.
pub(crate) fn lay_grooves(workpiece: &Workpiece) -> Option<GroovePlan> {
    let wanted = workpiece.board().grooves?;
    let mut laid = Laid::default();
    lines::lay(workpiece, &wanted, &mut laid);
    rounds::lay(workpiece, &wanted, &mut laid);
    let depth = groove_depth(&wanted);
    Some(GroovePlan {
        length: laid.grooves.iter().map(Groove::length).sum(),
        grooves: laid.grooves,
        dropped: laid.dropped,
        passes: passes(depth, wanted.pass),
        depth,
    })
}

/// The grooves laid so far.
#[derive(Default)]
struct Laid {
    grooves: Vec<Groove>,
    dropped: Vec<(GrooveKind, Vec<HoleName>)>,
}

impl Laid {
    /// Adds a player's groove to those that are cut.
    fn add(&mut self, (kind, player): (GrooveKind, u32), path: Vec<Stroke>, holes: Vec<HoleName>) {
        self.grooves.push(Groove {
            kind,
            player,
            path,
            holes,
        });
    }

    /// Adds a planned groove to those that have no room.
    fn drop(&mut self, kind: GrooveKind, holes: Vec<HoleName>) {
        self.dropped.push((kind, holes));
    }
}

/// Rounding slack for a length that is exactly right, mm.
const HAIR: f64 = 1e-9;

#[cfg(test)]
mod tests;
