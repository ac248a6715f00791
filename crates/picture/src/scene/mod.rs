//! The board on a table as the renderer needs it: every bore, groove and piece, indexed by position.
//!
//! It is built for each picture, which takes far less time than the picture. The board is a disc with a rounded upper edge,
//! given by the distance to it, and everything cut into it is cut into its flat top.

mod cut;
mod grid;
mod mark;
mod piece;
mod well;

use board::{Board, Footing, Hole, HoleId, Insert, PieceKind, Role};
use geometry::Angle;
use workshop::{Workpiece, insert_below, insert_diameter, open_bore};

use crate::coat::Sheen;
use crate::grain::Grain;
use crate::paint::{self, BorePaint, Paint};
use crate::space::Space;

pub use cut::{CutLine, InGroove, Vee};
pub use grid::Grid;
use mark::Patch;
pub use piece::{Shape, Standing};
use well::Steel;
pub use well::{Met, Surface, Well};

/// A board with its pieces, its base, its bores and its grooves.
#[derive(Debug, Clone, PartialEq)]
pub struct Scene {
    /// Its wood.
    pub grain: Grain,
    /// Its finish.
    pub sheen: Sheen,
    /// Its size.
    pub disc: Disc,
    /// Its bores, in the order of the layout.
    pub wells: Vec<Well>,
    /// The index of its bores by position.
    wells_at: Grid,
    /// The shape of the grooves.
    vee: Option<Vee>,
    /// Their center lines in straight pieces.
    lines: Vec<CutLine>,
    /// The index of those pieces by position.
    lines_at: Grid,
    /// The parts of the players' marks, in drawing order.
    marks: Vec<Patch>,
    /// The index of those parts by position.
    marks_at: Grid,
    /// The pieces.
    pieces: Vec<Standing>,
    /// The index of pieces by position.
    pieces_at: Grid,
    /// The index of pieces and their shadows by position.
    shades_at: Grid,
    /// Height of the highest piece.
    tallest: f64,
    /// The fields of the players: the axis of each, and its color.
    sectors: Vec<((f64, f64), Option<Paint>)>,
    /// Distance from the center pin at which the fields begin.
    sectors_from: f64,
    /// The feet, or the turntable, that it stands on.
    pub feet: Vec<Foot>,
}

/// The board as a body; lengths in mm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Disc {
    /// Its radius.
    pub radius: f64,
    /// Radius of its roundover.
    pub round: f64,
    /// Its thickness.
    pub thick: f64,
    /// Height of the table, below 0.
    pub table: f64,
}

/// A round foot, or a turntable.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Foot {
    /// Its axis.
    pub x: f64,
    /// Its axis.
    pub y: f64,
    /// Its radius.
    pub radius: f64,
}

/// Side of the squares of the index for bores and grooves, and for pieces, mm.
const SQUARES: (f64, f64) = (7.0, 22.0);
/// Width of the eased edge around a bore's mouth, mm.
pub const LIP: f64 = 0.45;
/// Radius of a foot, as a share of the board's; common practice, no source.
const FOOT: f64 = 0.06;

impl Scene {
    /// The scene of a workpiece.
    pub fn of(workpiece: &Workpiece) -> Self {
        let board = workpiece.board();
        let disc = Disc::of(board);
        let mut scene = Self {
            grain: Grain::of(workpiece),
            sheen: Sheen::of(board),
            disc,
            wells: Vec::new(),
            wells_at: Grid::new(disc.radius, SQUARES.0),
            vee: None,
            lines: Vec::new(),
            lines_at: Grid::new(disc.radius, SQUARES.0),
            marks: Vec::new(),
            marks_at: Grid::new(disc.radius, SQUARES.0),
            pieces: Vec::new(),
            pieces_at: Grid::new(disc.radius, SQUARES.1),
            shades_at: Grid::new(disc.radius, SQUARES.1),
            tallest: 0.0,
            sectors: sectors(workpiece),
            sectors_from: board
                .grooves
                .and_then(|grooves| grooves.sectors_from)
                .unwrap_or(0.0),
            feet: feet(board),
        };
        scene.drill(workpiece);
        scene.cut(workpiece);
        scene.mark(workpiece);
        scene.set_up(workpiece);
        scene
    }

    /// Adds every bore, and the planned resin in it.
    fn drill(&mut self, workpiece: &Workpiece) {
        let board = workpiece.board();
        let resin = board.filling.map(|filling| filling.below_top.max(0.0));
        for (number, hole) in (0..).zip(&workpiece.layout().holes) {
            let is_seat = number < workpiece.seats().len() as u32;
            let place = (hole.center.x, hole.center.y);
            let id = hole.name.id();
            let paint = BorePaint::of(workpiece.color_of(id), board.colors.ring);
            // Colored resin is shown even where no filling is planned.
            let below = resin.or(paint.resin.map(|_| 0.0)).filter(|_| is_seat);
            let mut well = Well::of(place, hole.bore, board.bores.spur, below);
            well.paint = paint;
            well.steel = steel(board, hole).filter(|_| is_seat);
            let reach = paint.ring.map_or(LIP, |(_, width)| width.max(LIP));
            self.wells_at.add(number, [place; 2], well.radius + reach);
            self.wells.push(well);
        }
    }

    /// Adds the grooves.
    fn cut(&mut self, workpiece: &Workpiece) {
        let (Some(plan), Some(wanted)) = (workpiece.grooves(), &workpiece.board().grooves) else {
            return;
        };
        let vee = Vee {
            half: wanted.width / 2.0,
            depth: plan.depth.max(0.0),
            floor: wanted.tip / 2.0,
        };
        for groove in &plan.grooves {
            let color = workpiece.groove_color(groove.kind, groove.player);
            let paint = color.map(Paint::of);
            let lines = groove
                .path
                .iter()
                .flat_map(|stroke| cut::lines_of(stroke, paint));
            for line in lines {
                let number = self.lines.len() as u32;
                self.lines_at.add(number, line.ends(), vee.half);
                self.lines.push(line);
            }
        }
        self.vee = Some(vee);
    }

    /// Adds the players' marks.
    fn mark(&mut self, workpiece: &Workpiece) {
        let marks = drawing::player_marks(workpiece);
        for patch in marks.iter().flat_map(Patch::of) {
            let number = self.marks.len() as u32;
            self.marks_at.add(number, patch.bounds(), 0.0);
            self.marks.push(patch);
        }
    }

    /// Puts the pieces into their start pockets, or, where a player has none, at the start of the track.
    fn set_up(&mut self, workpiece: &Workpiece) {
        for piece in standing(workpiece) {
            let (place, top) = ((piece.x, piece.y), piece.shape.top());
            let number = self.pieces.len() as u32;
            let reach = piece.shape.reach();
            // A ray is sampled at points up to a square apart.
            self.pieces_at
                .add(number, [place; 2], reach + SQUARES.1 / 2.0);
            // A shadow extends at most twice the height to any side.
            self.shades_at
                .add(number, [place; 2], reach + 1.6 * top.max(0.0));
            self.tallest = self.tallest.max(top);
            self.pieces.push(piece);
        }
    }

    /// The numbers of the pieces that a ray may hit at a point.
    pub fn pieces_near(&self, x: f64, y: f64) -> &[u32] {
        self.pieces_at.at(x, y)
    }

    /// The piece with a number.
    pub fn piece(&self, number: u32) -> Option<&Standing> {
        self.pieces.get(number as usize)
    }

    /// The pieces that may cast a shadow on a point.
    pub fn shades_near(&self, x: f64, y: f64) -> impl Iterator<Item = &Standing> {
        let numbers = self.shades_at.at(x, y).iter();
        numbers.filter_map(|&number| self.piece(number))
    }

    /// The bores whose mouths may be at a point.
    pub fn wells_near(&self, x: f64, y: f64) -> impl Iterator<Item = (u32, &Well)> {
        let numbers = self.wells_at.at(x, y).iter();
        numbers.filter_map(|&number| Some((number, self.wells.get(number as usize)?)))
    }

    /// The groove at a point, and the cross-section of all grooves.
    pub fn groove_at(&self, x: f64, y: f64) -> Option<(Vee, InGroove)> {
        let vee = self.vee?;
        let numbers = self.lines_at.at(x, y).iter();
        let lines = numbers.filter_map(|&number| self.lines.get(number as usize));
        Some((vee, vee.nearest(lines, x, y)?))
    }

    /// The paint of a player's mark at a point, with the number of its part; the topmost one.
    pub fn mark_at(&self, x: f64, y: f64) -> Option<(u32, Paint)> {
        let numbers = self.marks_at.at(x, y).iter().rev();
        let mut parts =
            numbers.filter_map(|&number| Some((number, self.marks.get(number as usize)?)));
        let (number, part) = parts.find(|(_, part)| part.covers(x, y))?;
        Some((number, part.paint))
    }

    /// The colored field at a point, with the number of its player.
    pub fn sector_at(&self, x: f64, y: f64) -> Option<(u32, Paint)> {
        if x * x + y * y < self.sectors_from * self.sectors_from {
            return None;
        }
        // The field is that of the axis nearest by bearing.
        let along = |axis: (f64, f64)| axis.0 * x + axis.1 * y;
        let fields = (0..).zip(&self.sectors);
        let (number, (_, paint)) =
            fields.max_by(|one, other| along(one.1.0).total_cmp(&along(other.1.0)))?;
        Some((number, (*paint)?))
    }

    /// The mean number of pieces that may shade a point.
    pub fn mean_shades(&self) -> f64 {
        self.shades_at.mean()
    }

    /// Height of the highest piece; 0 without pieces.
    pub const fn tallest(&self) -> f64 {
        self.tallest
    }

    /// Side of the squares of the index for pieces, mm.
    pub const fn piece_square() -> f64 {
        SQUARES.1
    }
}

impl Disc {
    /// The body of a board on its table.
    fn of(board: &Board) -> Self {
        let (radius, thick) = (board.blank.radius(), board.blank.thickness);
        let under = board.base.as_ref().map_or(0.0, |base| base.height.max(0.0));
        Self {
            radius,
            round: board.blank.roundover.clamp(0.0, thick.min(radius)),
            thick,
            table: -thick - under,
        }
    }

    /// Radius at which the flat top ends.
    pub fn flat(&self) -> f64 {
        self.radius - self.round
    }

    /// Distance of a point from the board, from the point's distance from the axis and its height.
    pub fn off(&self, across: f64, height: f64) -> f64 {
        let (out, up) = (across - self.flat(), height + self.round);
        let edge = if out > 0.0 && up > 0.0 {
            (out * out + up * up).sqrt() - self.round
        } else {
            (across - self.radius).max(height)
        };
        edge.max(-self.thick - height)
    }

    /// The normal of its edge at a point: outward and up on the roundover, straight outward below it.
    pub fn out(&self, place: Space) -> Space {
        let across = place.across().max(1e-9);
        let (x, y) = (place.x / across, place.y / across);
        let (out, up) = (across - self.flat(), place.z + self.round);
        if self.round > 0.0 && out > 0.0 && up > 0.0 {
            let length = (out * out + up * up).sqrt().max(1e-9);
            Space::new(x * out / length, y * out / length, up / length)
        } else if place.z > -1e-3 {
            Space::UP
        } else {
            Space::new(x, y, 0.0)
        }
    }
}

/// The pieces in their places.
fn standing(workpiece: &Workpiece) -> impl Iterator<Item = Standing> {
    let board = workpiece.board();
    let is_start = |id: HoleId| {
        id.role() == Role::Start
            || (board.start == 0 && id.role() == Role::Track && id.number() == 1)
    };
    let holes = workpiece.layout().holes.iter();
    let starts = holes.filter(move |hole| is_start(hole.name.id()));
    starts.map(|hole| Standing {
        x: hole.center.x,
        y: hole.center.y,
        shape: Shape::of(&board.piece, open_bore(board, hole.bore)),
        tone: paint::player(workpiece, hole.name.id().player()),
    })
}

/// Height of the table, below 0, and of the highest piece; 0 without pieces.
pub fn heights(workpiece: &Workpiece) -> (f64, f64) {
    let tops = standing(workpiece).map(|piece| piece.shape.top());
    (Disc::of(workpiece.board()).table, tops.fold(0.0, f64::max))
}

/// The axes of the players with the colors of their fields; empty if no field is colored.
fn sectors(workpiece: &Workpiece) -> Vec<((f64, f64), Option<Paint>)> {
    let axes = (1..).zip(&workpiece.layout().sectors);
    let fields: Vec<_> = axes
        .map(|(player, sector)| {
            let (sin, cos) = sector.axis().sin_cos();
            ((sin, cos), workpiece.sector_color(player).map(Paint::of))
        })
        .collect();
    if fields.iter().all(|(_, paint)| paint.is_none()) {
        return Vec::new();
    }
    fields
}

/// The steel set into a hole for magnet pieces; `None` for other pieces.
fn steel(board: &Board, hole: &Hole) -> Option<Steel> {
    if board.piece.kind != PieceKind::Magnet {
        return None;
    }
    let below = insert_below(&board.piece, hole.bore);
    let radius = insert_diameter(&board.piece, hole.bore) / 2.0;
    Some(match board.piece.insert {
        Insert::Ball => Steel::Ball { below, radius },
        Insert::Disc { .. } => Steel::Disc { below, radius },
    })
}

/// The turntable or the feet under a board.
fn feet(board: &Board) -> Vec<Foot> {
    let Some(base) = &board.base else {
        return Vec::new();
    };
    match base.footing {
        Footing::Round { diameter } => vec![Foot {
            x: 0.0,
            y: 0.0,
            radius: diameter / 2.0,
        }],
        Footing::Feet { count, circle } => (0..i64::from(count))
            .map(|number| {
                let (sin, cos) = Angle::turn_part(2 * number + 1, 2 * i64::from(count)).sin_cos();
                Foot {
                    x: sin * circle / 2.0,
                    y: cos * circle / 2.0,
                    radius: FOOT * board.blank.radius(),
                }
            })
            .collect(),
    }
}

#[cfg(test)]
mod tests;
