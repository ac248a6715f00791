//! The lid of a recess through the seasons: whether it binds, and whether it still holds.

use board::{LidGrain, LidHold, Recess};

use crate::Workpiece;
use crate::recess::lid_cut::lean;
use crate::wood::movement::{WoodError, WoodMoves};
use crate::wood::wood_moves;

/// Change of balanced plywood in its plane per 1 % of moisture, as a share: the Wood Handbook, second-hand.
const PLYWOOD: f64 = 0.0002;

/// The fit of a lid through the seasons; lengths in mm. Clearances and gaps are the total play on both sides.
///
/// A thin lid follows the air faster than the board does. So each season is checked twice: with both at rest in it, and with
/// only the lid at rest and the board still as it was cut; the worse case counts. A lid of the board's own wood, with its grain
/// along the board's, moves with the board, and is checked once.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LidMoves {
    /// The clearance at the bench below which it binds in some season.
    pub least: f64,
    /// The clearance at the bench above which, pushed to one side, it comes off its ledge or out of its groove in some season;
    /// none for a lid without a ledge.
    pub most: Option<f64>,
    /// The smallest gap in any season, with the planned clearance; the lid binds at 0 or less.
    pub tightest: f64,
    /// The largest gap in any season.
    pub widest: f64,
    /// Width by which ledge or groove holds the lid on each side, mm.
    pub held: f64,
}

/// The fit of the lid of a board's recess through the seasons; `None` if no lid or no wood is planned.
///
/// # Errors
/// [`WoodError`] where the movement of the wood is not known.
pub fn lid_moves(workpiece: &Workpiece) -> Option<Result<LidMoves, WoodError>> {
    let board = workpiece.board();
    let recess = board.recess.filter(|recess| recess.lid > 0.0)?;
    let wood = board.wood.as_ref()?;
    Some(wood_moves(wood).map(|moves| fit(&recess, &moves)))
}

/// One direction across a lid's place: its width, and the change of board and lid along it per 1 % of moisture.
struct Direction {
    wide: f64,
    board: f64,
    lid: f64,
}

/// The change of a gap in a season: a clearance c becomes c · (1 + swelled) + opened.
struct Change {
    opened: f64,
    swelled: f64,
}

impl Change {
    /// The gap in the season, mm, around a lid made `clearance` mm narrower than its place at the bench.
    fn gap(&self, clearance: f64) -> f64 {
        clearance * (1.0 + self.swelled) + self.opened
    }

    /// The clearance at the bench that gives this gap in the season.
    fn clearance(&self, gap: f64) -> f64 {
        (gap - self.opened) / (1.0 + self.swelled)
    }
}

/// The fit over all directions and seasons, of which the worst counts.
fn fit(recess: &Recess, moves: &WoodMoves) -> LidMoves {
    let changes: Vec<Change> = directions(recess, moves.change.value)
        .iter()
        .flat_map(|direction| changes(direction, moves))
        .collect();
    let planned = recess.lid_fit.clearance;
    let held = held(recess);
    let over = |sum: fn(f64, f64) -> f64, from: f64, of: &dyn Fn(&Change) -> f64| {
        changes.iter().map(of).fold(from, sum)
    };
    let most = over(f64::min, f64::INFINITY, &|change| change.clearance(held));
    LidMoves {
        least: over(f64::max, 0.0, &|change| change.clearance(0.0)),
        most: (held > 0.0).then_some(most.max(0.0)),
        tightest: over(f64::min, planned, &|change| change.gap(planned)),
        widest: over(f64::max, planned, &|change| change.gap(planned)),
        held,
    }
}

/// Across the grain of the board, and along it where the lid has ends that could bind.
fn directions(recess: &Recess, change: f64) -> Vec<Direction> {
    let beyond = 2.0 * recess.lid_fit.overlap;
    let (long, wide) = recess.shape.sides();
    let (across, along) = match recess.lid_fit.grain {
        LidGrain::WithBoard => (change, 0.0),
        LidGrain::AcrossBoard => (0.0, change),
        LidGrain::Plywood => (PLYWOOD, PLYWOOD),
    };
    // A dovetailed groove is wider at its top than at its opening, and both faces of the lid have to fit.
    let leaning = 2.0 * lean(recess);
    let widths = core::iter::once(0.0).chain((leaning > 0.0).then_some(leaning));
    let mut found: Vec<Direction> = widths
        .map(|more| Direction {
            wide: wide + beyond + more,
            board: change,
            lid: across,
        })
        .collect();
    if recess.lid_fit.hold == LidHold::LiesIn {
        found.push(Direction {
            wide: long + beyond,
            board: 0.0,
            lid: along,
        });
    }
    found
}

/// The change of the gap in each season, with the board at rest and, where lid and board move differently, with the board as it
/// was cut.
fn changes(direction: &Direction, moves: &WoodMoves) -> [Change; 4] {
    let Direction { wide, board, lid } = *direction;
    // The same wood changes by the same share.
    let moves_along = (board - lid).abs() < f64::EPSILON;
    let still = if moves_along { board } else { 0.0 };
    let season = |moisture: f64, board: f64| {
        let damper = moisture - moves.shop.value;
        Change {
            opened: wide * (board - lid) * damper,
            swelled: lid * damper,
        }
    };
    [
        season(moves.dry, board),
        season(moves.dry, still),
        season(moves.humid, board),
        season(moves.humid, still),
    ]
}

/// Width by which the lid is held on each side, mm: the ledge, or the extra width of the groove at its top.
fn held(recess: &Recess) -> f64 {
    match recess.lid_fit.hold {
        LidHold::LiesIn => recess.lid_fit.overlap,
        LidHold::Slides { .. } => lean(recess),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use board::Board;
    use board::{LidFit, RecessShape, Toward, Wood};
    use proptest::prelude::*;
    use testkit::assert_near;

    const SLIDES: LidHold = LidHold::Slides {
        angle: 14.0,
        toward: Toward::Right,
    };

    fn with(lid_fit: LidFit, change: f64) -> Board {
        Board {
            recess: Some(Recess {
                shape: RecessShape::Straight {
                    length: 200.0,
                    width: 90.0,
                    corner: 0.0,
                },
                lid: 6.0,
                lid_fit,
                ..Recess::default()
            }),
            wood: Some(Wood {
                change: Some(change),
                moisture: Some(8.0),
                ..Wood::default()
            }),
            ..Board::default()
        }
    }

    fn fitted(lid_fit: LidFit) -> LidMoves {
        lid_moves(&Workpiece::of(&with(lid_fit, 0.003)).unwrap())
            .unwrap()
            .unwrap()
    }

    fn moistures() -> (f64, f64) {
        let moves = wood_moves(&Wood::default()).unwrap();
        (moves.dry, moves.humid)
    }

    #[test]
    fn a_lid_of_the_boards_own_wood_moves_with_the_board() {
        for hold in [SLIDES, LidHold::LiesIn] {
            let found = fitted(LidFit {
                hold,
                overlap: 5.0,
                clearance: 0.8,
                ..LidFit::default()
            });
            let (dry, humid) = moistures();
            // The place and the lid change by the same share, and so does the gap between them.
            assert_near!(found.tightest, 0.8 * (1.0 + 0.003 * (dry - 8.0)), 1e-9);
            assert_near!(found.widest, 0.8 * (1.0 + 0.003 * (humid - 8.0)), 1e-9);
            assert_near!(found.least, 0.0, 1e-12);
        }
        let groove = fitted(LidFit {
            hold: SLIDES,
            ..LidFit::default()
        });
        assert_near!(groove.held, 6.0 * 0.249_328, 1e-5);
    }

    #[test]
    fn a_lid_across_the_grain_of_the_board_binds_when_the_board_shrinks() {
        let across = fitted(LidFit {
            hold: SLIDES,
            clearance: 0.1,
            grain: LidGrain::AcrossBoard,
            ..LidFit::default()
        });
        let (dry, humid) = moistures();
        let inside = 90.0 + 2.0 * across.held;
        assert_near!(across.tightest, 0.1 - inside * 0.003 * (8.0 - dry), 1e-9);
        assert_near!(across.widest, 0.1 + inside * 0.003 * (humid - 8.0), 1e-9);
        // For a lid in the recess itself, its length of 200 mm lies along the direction that moves.
        let lies_in = fitted(LidFit {
            clearance: 0.1,
            grain: LidGrain::AcrossBoard,
            ..LidFit::default()
        });
        assert_near!(lies_in.tightest, 0.1 - 199.9 * 0.003 * (humid - 8.0), 1e-9);
        assert_eq!(lies_in.most, None);
    }

    #[test]
    fn plywood_hardly_moves_but_its_place_does() {
        let plywood = fitted(LidFit {
            grain: LidGrain::Plywood,
            hold: SLIDES,
            ..LidFit::default()
        });
        let (dry, _) = moistures();
        let inside = 90.0 + 2.0 * plywood.held;
        let closes = (inside * 0.003 - (inside - 0.5) * 0.0002) * (8.0 - dry);
        assert_near!(plywood.tightest, 0.5 - closes, 1e-9);
    }

    #[test]
    fn without_a_lid_or_a_wood_there_is_no_fit() {
        let mut board = with(LidFit::default(), 0.003);
        board.wood = None;
        assert_eq!(lid_moves(&Workpiece::of(&board).unwrap()), None);
        board.wood = Some(Wood {
            species: "driftwood".into(),
            ..Wood::default()
        });
        assert!(lid_moves(&Workpiece::of(&board).unwrap()).unwrap().is_err());
        board.recess = Some(Recess::default());
        assert_eq!(lid_moves(&Workpiece::of(&board).unwrap()), None);
    }

    proptest! {
        #[test]
        fn the_least_clearance_just_does_not_bind_and_the_most_just_holds(
            change in 0.0005..0.005_f64,
            grain in prop::sample::select(&LidGrain::ALL[..]),
            overlap in 4.0..9.0_f64,
        ) {
            let fit = |clearance| {
                let lid_fit = LidFit { clearance, grain, overlap, ..LidFit::default() };
                lid_moves(&Workpiece::of(&with(lid_fit, change)).unwrap()).unwrap().unwrap()
            };
            let free = fit(0.0);
            prop_assert!(fit(free.least).tightest.abs() < 1e-9);
            prop_assert!((fit(free.most.unwrap()).widest - overlap).abs() < 1e-9);
        }
    }
}
