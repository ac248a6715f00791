//! The finish: kinds and their figures, which coat bonds to which, the shortest fix of a plan that does not hold, and the work.
//!
//! Pairs and times are those of trade pages on finishes, not of a standard, or from memory, and each says which. The label on the
//! can comes first, and so does a test board.

mod amounts;
mod bond;
mod care;
pub mod check;
mod kinds;
mod masking;
mod meeting;
mod parts;
mod presets;
mod rules;
mod search;
pub mod steps;

use board::{Board, Measure, Units};

pub use amounts::{
    FinishNeed, bore_area, coat_ml, covered, finish_needs, groove_area, ml_on, ring_area, volume,
};
pub use bond::{Bond, BondSort, bond};
pub use care::{care_words, topcoat};
pub(crate) use kinds::is_color;
pub use kinds::{CoatData, coat_data, hard_after, hard_hours};
pub(crate) use masking::needs_tape;
pub use masking::{to_mask, to_unmask};
pub use meeting::{Meeting, is_sound, meetings};
pub use parts::{Parts, columns};
pub use presets::FinishPreset;
pub use search::{FinishChange, FinishFix, finish_fixes};
pub use steps::last_to_harden;

/// Hours from the first coat of a board to the last.
///
/// The drying of the last coat is not included; see [`hard_after`].
///
/// ```
/// use board::{Board, Coat, CoatKind};
/// let three = Coat { coats: 3, ..Coat::of(CoatKind::WipingVarnish, 24.0) };
/// let board = Board { finish: vec![three], ..Board::default() };
/// assert_eq!(workshop::finish_hours(&board), 48.0);
/// ```
pub fn finish_hours(board: &Board) -> f64 {
    let all: f64 = board.finish.iter().map(board::Coat::hours).sum();
    let last = board.finish.last().map_or(0.0, |coat| coat.dries);
    (all - last).max(0.0)
}

/// The board with every coat drying as long as the next one needs; coats that do not bond at all stay as they are.
pub fn dried(board: &Board) -> Board {
    let mut dried = board.clone();
    // Each wait makes none of the others shorter, so that a round for each is enough.
    while let Some(early) = meetings(&dried.finish).into_iter().find(Meeting::is_early) {
        let Some(coat) = dried.finish.get_mut(early.under) else {
            break;
        };
        coat.dries += early.bond.hours - early.waits;
    }
    dried
}

/// The board with the shortest fix of its finish, the first of [`finish_fixes`]; none where every coat holds.
pub fn fixed(board: &Board) -> Option<Board> {
    let fix = finish_fixes(&board.finish).into_iter().next()?;
    Some(Board {
        finish: fix.coats,
        ..board.clone()
    })
}

/// A time as messages have it: hours to a tenth, days from three on. It is the same in both systems.
///
/// ```
/// assert_eq!(workshop::drying_time(6.0), "6 h");
/// assert_eq!(workshop::drying_time(336.0), "14 days");
/// ```
pub fn time(hours: f64) -> String {
    if hours < 72.0 {
        Measure::hours(hours).shown(Units::Mm)
    } else {
        format!("{} days", board::show_number(hours / 24.0, 1))
    }
}

pub(crate) use board::in_a_row as list;

#[cfg(test)]
mod tests {
    use super::*;
    use board::Coat;
    use board::CoatKind::{OilPolyurethane, WaterPolyurethane, Wax};

    #[test]
    fn coats_are_dried_as_long_as_the_next_wants_and_times_add_up() {
        let coat = |kind, dries| Coat::of(kind, dries);
        let board = Board {
            finish: vec![
                coat(OilPolyurethane, 3.0),
                coat(OilPolyurethane, 48.0),
                coat(Wax, 0.0),
            ],
            ..Board::default()
        };
        let after = dried(&board);
        let hours: Vec<f64> = after.finish.iter().map(|coat| coat.dries).collect();
        assert_eq!(hours, [24.0, 48.0, 0.0]);
        assert!((finish_hours(&after) - 72.0).abs() < 1e-12);
        assert!(finish_hours(&Board::default()).abs() < 1e-12);
        assert!(is_sound(&after.finish) && fixed(&after).is_none());
    }

    #[test]
    fn coats_that_never_bond_are_not_dried_for_ever() {
        let board = Board {
            finish: vec![
                Coat::of(OilPolyurethane, 1.0),
                Coat::of(WaterPolyurethane, 0.0),
            ],
            ..Board::default()
        };
        assert_eq!(dried(&board), board);
        assert!(is_sound(&fixed(&board).unwrap().finish));
    }
}
