//! Thickness of the wood at each step from the yard to the finished board.

use board::{Board, Build, INCH, Units};

use crate::check::HAIR;
use crate::leaf_thickness;

/// Thickness of the wood after each step, mm. No step makes it thicker, and none leaves it thinner than the finished board,
/// unless it was bought so.
///
/// ```
/// use board::{Board, Build};
/// use workshop::Thicknesses;
/// let mut board = Board::default();
/// (board.stock.thickness, board.blank.thickness) = (52.0, 20.0);
/// board.panel.build = Build::Halves;
/// let at = Thicknesses::of(&board);
/// // A kerf of 3 mm leaves two leaves of 24.5 mm; half of what they have to spare is for jointing and planing them.
/// assert_eq!((at.bought, at.sawn), (52.0, 24.5));
/// assert!((at.glued - 22.2).abs() < 1e-9 && (at.flattened - 21.1).abs() < 1e-9);
/// assert_eq!(at.finished, 20.0);
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Thicknesses {
    /// Thickness as bought.
    pub bought: f64,
    /// Thickness after sawing: each of two leaves has half of the thickness less the kerf.
    pub sawn: f64,
    /// Thickness after glue-up, with the parts jointed and planed; the sawn thickness of a board that is not glued up in the
    /// shop.
    pub glued: f64,
    /// Thickness with the top face flat: about half of the surplus is gone.
    pub flattened: f64,
    /// Thickness of the finished board.
    pub finished: f64,
}

impl Thicknesses {
    /// The thicknesses of a board.
    pub fn of(board: &Board) -> Self {
        let finished = board.blank.thickness;
        let bought = board.stock.thickness;
        let sawn = match board.panel.build {
            Build::Halves => leaf_thickness(board),
            Build::Whole | Build::Strips { .. } | Build::Seams { .. } => bought,
        };
        let spare = (sawn - finished).max(0.0);
        let left = match board.panel.build {
            Build::Halves | Build::Strips { .. } => {
                (spare / 2.0).min(left_for_flattening(board.units))
            }
            Build::Whole | Build::Seams { .. } => spare,
        };
        let step = readable(board.units);
        let above = |mm: f64| finished + (mm / step).floor() * step;
        Self {
            bought,
            sawn,
            glued: above(left),
            flattened: above(left / 2.0),
            finished,
        }
    }

    /// Whether the sawn wood is thick enough for all that is planed off it.
    pub fn is_enough(&self, build: &Build) -> bool {
        self.sawn >= self.finished + planed_off(build) - HAIR
    }

    /// Wood planed off the top face after glue-up, mm.
    pub const fn off_the_top(&self) -> f64 {
        self.glued - self.flattened
    }
}

/// Least wood that flattening both faces removes from a blank, mm: 1/16 in; common practice, no source.
const FLATTENING: f64 = INCH / 16.0;

/// Least wood planed off a sawn blank, leaf or strip, mm. Parts are flattened before glue-up, and the panel after it.
pub const fn planed_off(build: &Build) -> f64 {
    match build {
        Build::Halves | Build::Strips { .. } => 2.0 * FLATTENING,
        Build::Whole | Build::Seams { .. } => FLATTENING,
    }
}

/// The increments in which thicknesses above the finished one are given, mm: those of a caliper or a rule.
const fn readable(units: Units) -> f64 {
    match units {
        Units::Mm => 0.1,
        Units::Inch(_) => INCH / 64.0,
    }
}

/// Surplus of a glued panel for flattening both of its faces, mm: 3 mm, or 1/8 in; common practice, no source.
pub const fn left_for_flattening(units: Units) -> f64 {
    match units {
        Units::Mm => 3.0,
        Units::Inch(_) => INCH / 8.0,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        #[test]
        fn wood_only_gets_thinner_and_never_thinner_than_the_board(
            bought in 10.0..120.0_f64,
            finished in 5.0..60.0_f64,
            build in 0_usize..4,
        ) {
            let mut board = Board::default();
            (board.stock.thickness, board.blank.thickness) = (bought, finished);
            board.panel.build = [
                Build::Whole,
                Build::Halves,
                Build::Strips { count: 3 },
                Build::Seams { at: vec![0.0] },
            ][build].clone();
            let at = Thicknesses::of(&board);
            prop_assert!(at.bought >= at.sawn);
            prop_assert!(at.glued >= at.flattened && at.flattened >= at.finished);
            if at.sawn >= at.finished {
                prop_assert!(at.sawn >= at.glued - 1e-9);
            }
        }
    }
}
