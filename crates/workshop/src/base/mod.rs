//! The load on the base, and the push that tips the board.
//!
//! A board stands as long as the resultant of its weight and a push on its rim meets the table within its footing. Everything
//! here is statics about one edge: the weight times its lever arm against the push times its own.

pub mod check;
pub mod fixing;
pub mod screw;
pub mod section;
pub mod steps;
pub mod sums;

use board::Footing;
use geometry::Angle;

use crate::Workpiece;
use crate::bores::holds::{GRAVITY, piece_mass};
use crate::recess::pieces;
use crate::wood::WoodError;

/// The load on the base of a board, and the push that tips the board; masses in kg, lengths in mm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Standing {
    /// The board, without its base: as weighed, or by its wood.
    pub board: f64,
    /// All pieces.
    pub pieces: f64,
    /// Extra load allowed on the board.
    pub load: f64,
    /// Distance from the center pin to the edge over which the board tips.
    pub edge: f64,
    /// The push down on the rim, N, that tips the board without pieces or load; `None` if the base reaches to the rim.
    pub tips: Option<f64>,
    /// Height of the top face above the table.
    pub height: f64,
}

impl Standing {
    /// Total mass that a turntable carries, kg.
    pub const fn carried(&self) -> f64 {
        self.board + self.pieces + self.load
    }
}

/// The load on the base of a board; `None` if no base is planned.
///
/// # Errors
/// [`WoodError`] where the board was not weighed and its weight cannot be calculated from its wood.
pub fn standing(workpiece: &Workpiece) -> Option<Result<Standing, WoodError>> {
    let board = workpiece.board();
    let base = board.base?;
    let by_wood = || {
        workpiece
            .mass()
            .map(|mass| mass.total() / 1000.0)
            .map_err(Clone::clone)
    };
    let mass = base.board.map_or_else(by_wood, Ok);
    Some(mass.map(|mass| {
        let edge = tipping_edge(base.footing);
        Standing {
            board: mass,
            pieces: f64::from(pieces(board)) * piece_mass(&board.piece) / 1000.0,
            load: base.load,
            edge,
            tips: tipping_force(mass * GRAVITY / 1000.0, edge, board.blank.radius()),
            height: base.height + board.blank.thickness,
        }
    }))
}

/// Distance from the center at which a base tips, mm: its radius for a round base; for n feet, midway between two of them, the
/// radius of their circle times cos(180°/n).
///
/// ```
/// use board::Footing;
/// let four = workshop::tipping_edge(Footing::Feet { count: 4, circle: 200.0 });
/// assert!((four - 100.0 * 0.5_f64.sqrt()).abs() < 1e-9);
/// assert_eq!(workshop::tipping_edge(Footing::Round { diameter: 200.0 }), 100.0);
/// ```
pub fn tipping_edge(footing: Footing) -> f64 {
    match footing {
        Footing::Round { diameter } => diameter / 2.0,
        Footing::Feet { count, circle } => {
            circle / 2.0 * Angle::degrees(180.0 / f64::from(count)).cos()
        }
    }
}

/// The push down, N, that tips a body of a given weight, N, when applied at a distance from its center: W a / (ρ - a) by
/// moments about the edge, for an edge at a and a push at ρ; `None` if the push is no farther out than the edge.
///
/// ```
/// use workshop::tipping_force;
/// assert_eq!(tipping_force(20.0, 100.0, 200.0), Some(20.0));
/// assert_eq!(tipping_force(20.0, 100.0, 100.0), None);
/// ```
pub fn tipping_force(weight: f64, edge: f64, out: f64) -> Option<f64> {
    (out > edge).then(|| weight * edge / (out - edge))
}

#[cfg(test)]
mod tests {
    use super::*;
    use board::Base;
    use board::Board;
    use proptest::prelude::*;
    use testkit::assert_near;

    fn on(footing: Footing) -> Standing {
        let mut board = Board {
            base: Some(Base {
                footing,
                board: Some(2.177_12),
                load: 1.0,
                ..Base::default()
            }),
            ..Board::default()
        };
        board.blank.diameter = 500.0;
        standing(&Workpiece::of(&board).unwrap()).unwrap().unwrap()
    }

    /// By computation for walnut of 616 kg/m³, 500 mm across and 18 mm thick: 2.17712 kg, 21.3503 N.
    #[test]
    fn a_board_of_walnut_tips_when_a_hand_leans_on_it() {
        let round = on(Footing::Round { diameter: 200.0 });
        assert_near!(round.tips.unwrap(), 14.2335, 1e-3);
        let feet = |count| {
            on(Footing::Feet {
                count,
                circle: 200.0,
            })
        };
        assert_near!(feet(4).edge, 70.7107, 1e-4);
        assert_near!(feet(4).tips.unwrap(), 8.4204, 1e-3);
        assert_near!(feet(3).edge, 50.0, 1e-9);
        assert_near!(feet(3).tips.unwrap(), 5.3376, 1e-3);
        assert_eq!(on(Footing::Round { diameter: 500.0 }).tips, None);
    }

    #[test]
    fn a_turntable_carries_board_pieces_and_load() {
        let found = on(Footing::Round { diameter: 200.0 });
        // 30 marbles of 16 mm.
        let marbles = 30.0 * core::f64::consts::PI * 4096.0 / 6.0 * 2.5e-6;
        assert_near!(found.carried(), 2.177_12 + marbles + 1.0, 1e-9);
        assert_eq!(found.height, 32.0);
    }

    #[test]
    fn an_unknown_weight_gives_its_reason() {
        let board = Board {
            base: Some(Base::default()),
            ..Board::default()
        };
        assert_eq!(
            standing(&Workpiece::of(&board).unwrap()),
            Some(Err(WoodError::NoWood))
        );
        let bare = Workpiece::of(&Board::default()).unwrap();
        assert_eq!(standing(&bare), None);
    }

    proptest! {
        #[test]
        fn moments_about_the_edge_balance(weight in 1.0..99.0_f64, edge in 1.0..99.0_f64, out in 100.0..200.0_f64) {
            let push = tipping_force(weight, edge, out).unwrap();
            prop_assert!((push * (out - edge) - weight * edge).abs() < 1e-9);
        }
    }
}
