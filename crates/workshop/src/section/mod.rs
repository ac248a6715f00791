//! A board cut open through a bore, the recess and the base, with its sizes.
//!
//! A section uses the frame of a [`Plane`]: s to the right, z up, the top face at z = 0, millimeters. Cavities are closed
//! polygons that deviate from the true shape by at most 0.005 mm; they extend beyond the board or overlap where the tools do.
//! The wood is the outline less all of them.

pub mod block;
mod cuts;
pub mod form;
pub mod plane;
pub mod revolved;
#[cfg(test)]
mod tests;

use board::{Board, Hole, HoleId, HoleName, Role};
use geometry::{Angle, Circle, Point, bearing_of, point_at, turn_in};

use crate::Workpiece;
use crate::recess::recess_outline;

pub use plane::Plane;

/// The least angle between the bearings of a hole and of the recess at which the cut turns toward the recess, degrees.
const APART: f64 = 5.0;
/// A recess whose center is this close to the center pin counts as centered on it, mm.
const ABOUT_PIN: f64 = 0.5;

/// A board cut open.
#[derive(Debug, Clone, PartialEq)]
pub struct Section {
    /// The plane of the cut.
    pub plane: Plane,
    /// The outline of the board; empty if the cut misses it.
    pub outline: Vec<Point>,
    /// The parts removed by tools.
    pub cavities: Vec<Cavity>,
    /// The bodies in the board and below it.
    pub bodies: Vec<Body>,
}

/// Something cut into a board.
#[derive(Debug, Clone, PartialEq)]
pub struct Cavity {
    /// The kind of cavity.
    pub kind: CavityKind,
    /// The hole it belongs to.
    pub hole: Option<HoleName>,
    /// Its outline.
    pub corners: Vec<Point>,
}

/// The kind of a cavity in a board.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum CavityKind {
    /// A bore.
    Bore,
    /// A V-groove.
    Groove,
    /// The storage recess.
    Recess,
    /// Ledge or groove of its lid.
    Lid,
    /// A screw from below.
    Screw,
    /// The mortises of a loose tenon.
    Mortise,
}

/// Something in a board or below it.
#[derive(Debug, Clone, PartialEq)]
pub struct Body {
    /// The kind of body.
    pub kind: BodyKind,
    /// The hole it is in.
    pub hole: Option<HoleName>,
    /// The cut or the view of it.
    pub face: Face,
}

/// The kind of a body in a board or below it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum BodyKind {
    /// Resin up to its level, around the ball or disc.
    Resin,
    /// The ball or disc set in for a magnet piece.
    Insert,
    /// The piece.
    Piece,
    /// The magnet in its foot.
    Magnet,
    /// The lid of the recess.
    Lid,
    /// The turntable, as a plain disc.
    Turntable,
    /// A foot, seen behind the cut; its width is not planned and only an example.
    Foot,
}

/// The view of a body.
#[derive(Debug, Clone, PartialEq)]
pub enum Face {
    /// A circle.
    Disc(Circle),
    /// A polygon.
    Corners(Vec<Point>),
}

/// The hole through which a board is cut: the wanted one, otherwise the first player's turn-in space, whose axis carries the
/// home lane, otherwise the first hole; none on a board without holes.
pub fn cut_through(workpiece: &Workpiece, wanted: Option<HoleId>) -> Option<HoleId> {
    let layout = workpiece.layout();
    let turn_in = HoleId::new(Role::Track, 1, turn_in(workpiece.board().spaces));
    let mut named = wanted.into_iter().chain([turn_in]);
    named
        .find(|id| layout.hole(*id).is_some())
        .or_else(|| Some(layout.holes.first()?.name.id()))
}

/// A board cut from its center pin through a hole to the right, and through the center of the recess to the left. The cut
/// continues straight if there is no recess, if it is centered on the pin, or if it lies in line with the hole. `None`
/// if the board has no hole with this name.
///
/// ```
/// use workshop::{CavityKind, Workpiece, section};
/// let workpiece = Workpiece::of(&board::Board::default())?;
/// let first = workpiece.layout().holes[0].name.id();
/// let section = section(&workpiece, first).unwrap();
/// // The top face is at 0, and the underside below it by the thickness.
/// let lowest = section.outline.iter().map(|corner| corner.y).fold(0.0, f64::min);
/// assert!((lowest + workpiece.board().blank.thickness).abs() < 1e-9);
/// assert!(section.cavities.iter().any(|cavity| cavity.kind == CavityKind::Bore));
/// # Ok::<(), board::BuildError>(())
/// ```
pub fn section(workpiece: &Workpiece, hole: HoleId) -> Option<Section> {
    let hole = workpiece.layout().hole(hole)?;
    let plane = aligned(workpiece.board(), hole);
    let mut section = cuts::cut(workpiece, plane);
    section.bodies.extend(cuts::feet(workpiece.board()));
    Some(section)
}

/// A board cut across the grain through the center of its recess, where s is 0. `None` if no recess is planned.
pub fn recess_section(workpiece: &Workpiece) -> Option<Section> {
    let recess = workpiece.board().recess?;
    let across = point_at(1.0, Angle::ZERO).to_vec2();
    let plane = Plane::straight(recess_outline(&recess).middle, across);
    Some(cuts::cut(workpiece, plane))
}

/// The plane through the pin and a hole, which turns at the pin toward the recess if there is one.
fn aligned(board: &Board, hole: &Hole) -> Plane {
    let along = |bearing| point_at(1.0, bearing).to_vec2();
    // For the hole at the pin any bearing works.
    let right = if hole.name.id() == HoleId::CENTER {
        Angle::ZERO
    } else {
        bearing_of(hole.center)
    };
    let straight = Plane::straight(Point::ORIGIN, along(right));
    let Some(recess) = board.recess else {
        return straight;
    };
    let at = recess_outline(&recess).middle;
    let apart = (bearing_of(at) - right)
        .wrapped_to_half_turns()
        .as_degrees();
    let is_straight = at.to_vec2().hypot() <= ABOUT_PIN || apart.abs() < APART;
    if is_straight || 180.0 - apart.abs() < 1e-9 {
        return straight;
    }
    Plane {
        left: along(bearing_of(at)),
        ..straight
    }
}
