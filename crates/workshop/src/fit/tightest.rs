//! The place where a laid-out board comes closest to its limits, or misses them most.

use board::{Board, BuildError, Hole, HoleName, Layout};
use geometry::Circle;

use super::Limit;
use crate::figures::rim_margin;

/// Rounding slack for a limit that is met exactly, mm; less than the checks allow.
pub(super) const ROUNDING: f64 = 1e-10;

/// The limit met with the least to spare, or missed by the most.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Tightest {
    /// The margin over the limit, mm; negative if it is missed.
    pub(super) spare: f64,
    pub(super) limit: Limit,
    /// The hole or the two holes where it is.
    pub(super) holes: Vec<HoleName>,
}

/// Limits to be kept.
pub(super) type Kept = &'static [Limit];

impl Tightest {
    /// Whether the limit is kept, within the slack for rounding.
    pub(super) fn is_kept(&self) -> bool {
        is_kept(self.spare)
    }

    /// The tighter of two; the first of equals.
    pub(super) fn or(self, other: Option<Self>) -> Self {
        match other {
            Some(other) if other.spare < self.spare => other,
            _ => self,
        }
    }
}

/// Whether a limit is kept with this much to spare, mm.
pub(super) fn is_kept(spare: f64) -> bool {
    spare >= -ROUNDING
}

/// Lays out a board and checks it against limits.
pub(super) fn measure(board: &Board, kept: Kept) -> Result<Tightest, BuildError> {
    Ok(tightest(board, &board::layout(board)?, kept))
}

/// The tightest of some limits on a laid-out board; a limit that does not apply has infinitely much to spare.
pub(super) fn tightest(board: &Board, layout: &Layout, kept: Kept) -> Tightest {
    let nothing = Tightest {
        spare: f64::INFINITY,
        limit: Limit::Rim,
        holes: Vec::new(),
    };
    kept.iter().fold(nothing, |all, limit| {
        all.or(match limit {
            Limit::Rim => Some(rim(board, &layout.holes, board.limits.rim, Limit::Rim)),
            Limit::Flat => Some(rim(board, &layout.holes, 0.0, Limit::Flat)),
            Limit::Web => web(layout, board.limits.web),
            Limit::Gap => gap(board, layout),
            Limit::Edge => edge(board, layout),
        })
    })
}

/// The hole closest to the rim; a board without holes needs only its center inside.
fn rim(board: &Board, holes: &[Hole], least: f64, limit: Limit) -> Tightest {
    let flat = board.blank.flat_radius();
    let margins = holes
        .iter()
        .map(|hole| (rim_margin(flat, hole.mouth()), Some(hole.name)));
    let tightest = margins.min_by(|a, b| a.0.total_cmp(&b.0));
    let (margin, name) = tightest.unwrap_or((flat, None));
    Tightest {
        spare: margin - least,
        limit,
        holes: name.into_iter().collect(),
    }
}

/// The thinnest web between two bores.
fn web(layout: &Layout, least: f64) -> Option<Tightest> {
    pair(&layout.mouths(), &layout.holes, least, Limit::Web)
}

/// The narrowest gap between two pieces.
fn gap(board: &Board, layout: &Layout) -> Option<Tightest> {
    let seats = layout.seats(board);
    let radius = board.piece.diameter / 2.0;
    let pieces: Vec<Circle> = seats
        .iter()
        .map(|hole| Circle::new(hole.center, radius))
        .collect();
    pair(&pieces, seats, board.limits.piece_gap, Limit::Gap)
}

/// The piece closest to the edge of the board.
fn edge(board: &Board, layout: &Layout) -> Option<Tightest> {
    let radius = board.piece.diameter / 2.0;
    let room = |hole: &Hole| board.blank.radius() - hole.center.to_vec2().length() - radius;
    let rooms = layout
        .seats(board)
        .iter()
        .map(|hole| (room(hole), hole.name));
    let (spare, name) = rooms.min_by(|a, b| a.0.total_cmp(&b.0))?;
    Some(Tightest {
        spare,
        limit: Limit::Edge,
        holes: vec![name],
    })
}

/// The two circles closest to each other, compared with the distance required between them.
fn pair(circles: &[Circle], holes: &[Hole], least: f64, limit: Limit) -> Option<Tightest> {
    let web = geometry::smallest_web(circles)?;
    let name = |at: usize| holes.get(at).map(|hole| hole.name);
    Some(Tightest {
        spare: web.mm - least,
        limit,
        holes: [name(web.a), name(web.b)].into_iter().flatten().collect(),
    })
}
