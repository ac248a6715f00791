//! The hold of a piece in its hole while the board is turned or tilted.
//!
//! Everything here is statics of rigid bodies, for a board that turns steadily or is tilted slowly. A jerk, a knock or a hand
//! on the board does more; the limits are the maker's choice, and a trial is worth more than the calculation.

mod insert;
mod magnet;
mod marble;
mod peg;

pub use insert::{
    flush_bore, insert_below, insert_diameter, insert_gap, insert_mass, insert_profile,
};
pub use magnet::{MagnetHold, gap_for_share, magnet_hold, share_of_pull};
pub use marble::{MarbleStand, marble_stand};
pub use peg::{PegStand, peg_stand};

use board::{Bore, Bottom, Hole, Piece, PieceKind};
use core::cmp::Ordering;
use core::f64::consts::PI;
use geometry::Angle;

use crate::Workpiece;
use crate::bores::profile::ball_volume;
use crate::filling::open_bore;

/// Standard gravity, mm/s² (ISO 80000-3).
pub const GRAVITY: f64 = 9806.65;

/// The way a piece leaves its hole.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Leaving {
    /// A marble rolls over the rim.
    RollsOut,
    /// A leaning peg climbs out; friction would hold it longer.
    ClimbsOut,
    /// A magnet piece slides off.
    Slides,
    /// A magnet piece tips over its edge.
    Tips,
}

impl Leaving {
    /// The words that screens and sheets use.
    pub const fn label(self) -> &'static str {
        match self {
            Self::RollsOut => "rolls out",
            Self::ClimbsOut => "climbs out",
            Self::Slides => "slides off",
            Self::Tips => "tips over",
        }
    }
}

/// The effort that moves a piece out of its hole.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Hold {
    /// The way in which it leaves.
    pub leaving: Leaving,
    /// The sideways acceleration that does so on a level board, in units of gravity.
    pub sideways: f64,
    /// The tilt that does so on a board at rest; `None` if the piece holds at any tilt up to upright.
    pub tilt: Option<Angle>,
}

impl Hold {
    /// The hold of a piece by its weight alone, for which tilting and pushing sideways are equivalent.
    fn by_weight(leaving: Leaving, sideways: f64) -> Self {
        Self {
            leaving,
            sideways,
            tilt: Some(Angle::atan2(sideways, 1.0)),
        }
    }

    /// The speed of rotation, rpm, at which a piece at this distance from the center pin leaves: there ω² r equals the sideways
    /// acceleration; none at the center pin.
    ///
    /// ```
    /// use board::{Bore, Bottom};
    /// let bore = Bore { diameter: 12.0, depth: 5.0, bottom: Bottom::Flat };
    /// let hold = workshop::marble_stand(16.0, bore).hold.unwrap();
    /// // At four times the distance it takes half the speed.
    /// let (near, far) = (hold.speed(50.0).unwrap(), hold.speed(200.0).unwrap());
    /// assert!((near - 2.0 * far).abs() < 1e-9);
    /// assert_eq!(hold.speed(0.0), None);
    /// ```
    pub fn speed(&self, radius: f64) -> Option<f64> {
        let turning = libm::sqrt(self.sideways * GRAVITY / radius);
        (radius > 1e-6).then(|| turning * 60.0 / (2.0 * PI))
    }
}

/// The effort that moves a piece out of a bore; `None` if no rotation or tilt up to upright does so, or if it is not known:
/// a magnet that was not measured, or a piece that does not fit.
pub fn hold(piece: &Piece, bore: Bore) -> Option<Hold> {
    match piece.kind {
        PieceKind::Marble => marble_stand(piece.diameter, bore).hold,
        PieceKind::Peg => peg_stand(piece, bore)?.hold,
        PieceKind::Magnet => Some(magnet_hold(piece, bore)?.hold),
    }
}

/// The holes whose pieces leave at the same speed of rotation, rpm, and their distance from the center pin.
#[derive(Debug, Clone, PartialEq)]
pub struct Flight<'a> {
    /// Their distance from the center pin, mm.
    pub radius: f64,
    /// The speed at which they leave.
    pub speed: f64,
    /// The way the pieces leave.
    pub leaving: Leaving,
    /// The holes, in the order of the layout.
    pub holes: Vec<&'a Hole>,
}

/// The speeds of rotation at which pieces leave their holes, the slowest first; those at the center pin never leave.
pub fn flights(workpiece: &Workpiece) -> Vec<Flight<'_>> {
    let board = workpiece.board();
    let seats = workpiece.seats().iter().map(|hole| {
        let radius = hole.center.to_vec2().length();
        (key(radius, hole.bore), radius, hole)
    });
    let mut seats: Vec<([f64; 4], f64, &Hole)> = seats.collect();
    // The outermost first; a stable sort keeps the layout's order among equals.
    seats.sort_by(|a, b| order(&b.0, &a.0));
    let alike = seats.chunk_by(|a, b| order(&a.0, &b.0).is_eq());
    let mut flights: Vec<Flight> = alike
        .filter_map(|alike| {
            let &(_, radius, first) = alike.first()?;
            let hold = hold(&board.piece, open_bore(board, first.bore))?;
            Some(Flight {
                radius,
                speed: hold.speed(radius)?,
                leaving: hold.leaving,
                holes: alike.iter().map(|(.., hole)| *hole).collect(),
            })
        })
        .collect();
    flights.sort_by(|a, b| a.speed.total_cmp(&b.speed));
    flights
}

/// Whether any piece leaves its hole below a speed of rotation, rpm: a version of [`flights`] without the sort, since nearly
/// always none does.
pub fn any_leaves_below(workpiece: &Workpiece, speed: f64) -> bool {
    let board = workpiece.board();
    let mut last: Option<(Bore, Option<Hold>)> = None;
    workpiece.seats().iter().any(|seat| {
        // Neighbors in the layout mostly have the same bore.
        let hold = match last {
            Some((bore, hold)) if bore == seat.bore => hold,
            _ => hold(&board.piece, open_bore(board, seat.bore)),
        };
        last = Some((seat.bore, hold));
        let radius = seat.center.to_vec2().length();
        let leaves = hold.and_then(|hold| hold.speed(radius));
        leaves.is_some_and(|leaves| leaves < speed)
    })
}

/// The radius of a seat, to a micrometer, and its bore. Pieces on seats with equal keys leave at the same speed.
fn key(radius: f64, bore: Bore) -> [f64; 4] {
    let bottom = Bottom::ALL.iter().position(|bottom| *bottom == bore.bottom);
    [
        (radius * 1000.0).round(),
        bore.diameter,
        bore.depth,
        bottom.unwrap_or_default() as f64,
    ]
}

/// The order of two keys.
fn order(a: &[f64; 4], b: &[f64; 4]) -> Ordering {
    let pairs = a.iter().zip(b);
    let mut orders = pairs.map(|(a, b)| a.total_cmp(b));
    orders
        .find(|order| order.is_ne())
        .unwrap_or(Ordering::Equal)
}

/// Weight of one piece, g: as typed, or its volume times its density; pegs and magnet pieces count as plain cylinders of full
/// diameter and height.
///
/// ```
/// use board::Piece;
/// // A glass marble of 16 mm: 2.5 g/cm³ times 2.145 cm³.
/// let marble = Piece { diameter: 16.0, ..Piece::default() };
/// assert!((workshop::piece_mass(&marble) - 5.36).abs() < 0.01);
/// assert_eq!(workshop::piece_mass(&Piece { mass: Some(5.0), ..marble }), 5.0);
/// ```
pub fn piece_mass(piece: &Piece) -> f64 {
    piece.mass.unwrap_or_else(|| {
        let volume = match piece.kind {
            PieceKind::Marble => ball_volume(piece.diameter),
            PieceKind::Peg | PieceKind::Magnet => {
                PI / 4.0 * piece.diameter * piece.diameter * piece.height
            }
        };
        piece_density(piece) * volume / 1000.0
    })
}

/// Density of a piece, g/cm³: as typed, or 2.5 for glass and 0.7 for hardwood, both from memory.
pub fn piece_density(piece: &Piece) -> f64 {
    piece.density.unwrap_or(match piece.kind {
        PieceKind::Marble => 2.5,
        PieceKind::Peg | PieceKind::Magnet => 0.7,
    })
}

/// Weight of one piece, N.
fn weight(piece: &Piece) -> f64 {
    piece_mass(piece) * GRAVITY * 1e-6
}

#[cfg(test)]
mod tests {
    use super::*;
    use board::Board;
    use board::{Change, Edit, HoleId, Role, layout};
    use testkit::assert_near;

    /// Glass of 2.5 g/cm³ (from memory): a marble of 16 mm weighs 5.36 g, one of 14 mm 3.59 g, one of 25 mm 20.45 g.
    #[test]
    fn marbles_weigh_as_much_as_their_glass() {
        for (diameter, wanted) in [(16.0, 5.36), (14.0, 3.59), (25.0, 20.45)] {
            let piece = Piece {
                diameter,
                ..Piece::default()
            };
            assert_near!(piece_mass(&piece), wanted, 0.005);
        }
        let weighed = Piece {
            mass: Some(7.0),
            ..Piece::default()
        };
        assert_eq!(piece_mass(&weighed), 7.0);
        let peg = Piece {
            kind: PieceKind::Peg,
            diameter: 10.0,
            height: 40.0,
            density: Some(1.0),
            ..Piece::default()
        };
        assert_near!(piece_mass(&peg), PI, 1e-12);
    }

    #[test]
    fn the_outermost_pieces_of_a_board_leave_first() {
        let board = Board::default();
        let layout = layout(&board).unwrap();
        let worked = Workpiece::of(&board).unwrap();
        let flights = flights(&worked);
        let speeds: Vec<f64> = flights.iter().map(|flight| flight.speed).collect();
        assert!(speeds.is_sorted() && speeds.len() > 3, "{speeds:?}");
        let held: usize = flights.iter().map(|flight| flight.holes.len()).sum();
        // The piece at the center pin stays.
        assert_eq!(held, layout.holes.len() - 1);
        let outermost = layout
            .holes
            .iter()
            .map(|hole| hole.center.to_vec2().length());
        let outermost = outermost.fold(0.0, f64::max);
        assert_near!(flights[0].radius, outermost, 1e-9);
        assert!(!any_leaves_below(
            &Workpiece::of(&board).unwrap(),
            speeds[0] - 1e-6
        ));
        assert!(any_leaves_below(
            &Workpiece::of(&board).unwrap(),
            speeds[0] + 1e-6
        ));
        // ω² r = g · tan of the tilt: 16 mm on 12 mm, 6 / √28.
        let turning = flights[0].speed * 2.0 * PI / 60.0;
        let sideways = 6.0 / 28.0_f64.sqrt() * GRAVITY;
        assert_near!(turning * turning * outermost, sideways, 1e-6);
    }

    #[test]
    fn two_kinds_of_bores_at_one_radius_are_listed_apart() {
        let mut board = Board {
            home: 0,
            start: 0,
            center: board::Center::Nothing,
            ..Board::default()
        };
        let narrow = Bore {
            diameter: 9.0,
            ..board.bores.track
        };
        board.edits = vec![Edit {
            hole: HoleId::new(Role::Track, 1, 2),
            mirrored: true,
            change: Change::Bore { bore: narrow },
        }];
        let counts: Vec<usize> = flights(&Workpiece::of(&board).unwrap())
            .iter()
            .map(|flight| flight.holes.len())
            .collect();
        assert_eq!(counts, [6, 96 - 6]);
    }
}
