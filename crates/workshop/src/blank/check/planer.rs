//! Rule: every piece that is glued goes through the maker's planer.

use board::{Board, Build, Measure};

use crate::Mend;
use crate::Workpiece;
use crate::blank::panel::{piece_width, sawn_width};
use crate::check::{Finding, Rule, Severity};

pub const STATEMENT: &str = "Pieces to be glued are planed to one thickness first, so none is wider than the planer. \
     Wider ones are flattened by hand or with a router on a sled. The default, {300 mm|12 1/2\"}, is common practice, no \
     source.";

/// A finding if a piece is wider than the planer.
pub fn check(workpiece: &Workpiece) -> Option<Finding> {
    let board = workpiece.board();
    // Boards that come as a glued panel, or without a described blank, are not checked.
    let sawn = sawn_width(board)?;
    let whole = board.panel.build == Build::Whole;
    if whole && board.stock.outline == board::StockOutline::Unknown {
        return None;
    }
    let planer = board.panel.planer;
    (sawn > planer).then(|| {
        let length = |mm| Measure::mm(mm).shown(board.units);
        let what = if whole { "The blank" } else { "Each piece" };
        let message = format!(
            "{what} is {} wide as sawn; the planer takes {}. {}.",
            length(sawn),
            length(planer),
            strips_wanted(board).map_or_else(
                || "No number of strips goes through it: flatten by hand, or with a router on a sled".into(),
                |strips| format!("Glue it up from {strips} strips")
            )
        );
        let mends: &[Mend] = if strips_wanted(board).is_some() {
            &[Mend::StripsForPlaner]
        } else {
            &[]
        };
        Finding::new(Severity::Caution, Rule::Planer, message)
            .measuring(Measure::mm(sawn), Measure::mm(planer))
            .mended_by(mends)
    })
}

/// The fewest strips that fit the planer; `None` if even the most strips allowed would not.
pub fn strips_wanted(board: &Board) -> Option<u32> {
    let most = board::field::STRIPS.range().max as u32;
    (2..=most).find(|count| {
        let mut stripped = board.clone();
        stripped.panel.build = Build::Strips { count: *count };
        sawn_width(&stripped).is_some_and(|sawn| sawn <= board.panel.planer)
            && piece_width(&stripped).is_some()
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn with(build: Build, planer: f64) -> Option<Finding> {
        let mut board = Board::default();
        board.panel.build = build;
        board.panel.planer = planer;
        check(&Workpiece::of(&board).unwrap())
    }

    #[test]
    fn pieces_are_compared_with_the_planer_at_their_sawn_width() {
        // 650 mm of panel: four strips of 162.5 mm plus 3 mm for the jointer.
        assert_eq!(with(Build::Strips { count: 4 }, 165.5), None);
        let found = with(Build::Strips { count: 4 }, 165.0).unwrap();
        assert!(found.message.contains("5 strips"), "{}", found.message);
        assert_eq!(with(Build::Halves, 326.5), None);
        assert_eq!(with(Build::Whole, 200.0), None);
    }
}
