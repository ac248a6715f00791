//! Rule: the maker owns a bit of every bore's size.

use board::{Board, Measure, counted};

use crate::bores::owned::{OwnedBit, bit_name, owned_bit};
use crate::bores::sums::{Kind, kinds};
use crate::check::{Finding, Rule, Severity};
use crate::job::Method;
use crate::{Cutter, Mend, Workpiece};

/// The rule in words, as the list of rules shows it.
pub const STATEMENT: &str = "If the bits you own are listed in your shop, one of them has the size of each hole that \
     holds a piece. The nearest one offered still seats the piece as it should. Nothing is said about bits that are \
     not listed.";

/// A note for each bore size for which the maker has no bit; nothing where bores are routed, or drilled by a machine with its
/// own bits.
pub fn check(workpiece: &Workpiece) -> Vec<Finding> {
    let board = workpiece.board();
    match Method::of(board) {
        Method::Router | Method::Machine => Vec::new(),
        Method::Template | Method::SectorJig | Method::Pivot => {
            let kinds = kinds(workpiece.seats());
            let found = kinds.iter().filter_map(|kind| found(board, kind));
            found.collect()
        }
    }
}

/// The note about one kind of bore; `None` if the maker has its bit.
///
/// It is a note and not a caution: a maker who lacks a bit buys one, and the board is as sound as before.
fn found(board: &Board, kind: &Kind) -> Option<Finding> {
    let owned = owned_bit(board, kind.bore)?;
    let cutters = [Cutter::Forstner, Cutter::Flat, Cutter::RoundNose];
    let cutter = cutters
        .iter()
        .find(|cutter| cutter.leaves(kind.bore.bottom))?;
    let size = kind.bore.cutter();
    let none = format!(
        "You own no {} of {}, which {}",
        cutter.label(),
        bit_name(size, board.units),
        counted(kind.holes.len(), "hole needs", "holes need")
    );
    let (message, near) = match owned {
        OwnedBit::Same => return None,
        OwnedBit::Near(near) => {
            let near_name = bit_name(near, board.units);
            let message = format!("{none}. The nearest that fits the piece is {near_name}.");
            (message, Some(near))
        }
        OwnedBit::Unsuited => (format!("{none}, and none that fits the piece."), None),
    };
    let finding = Finding::new(Severity::Note, Rule::OwnedBits, message).about(kind.holes.clone());
    Some(match near {
        Some(near) => finding
            .measuring(Measure::mm(size), Measure::mm(near))
            .mended_by(&[Mend::OwnedBits]),
        None => finding,
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use board::Router;

    fn told(board: &Board) -> Vec<Finding> {
        check(&Workpiece::of(board).unwrap())
    }

    fn owning(forstner: &[f64]) -> Board {
        let mut board = Board::default();
        board.tools.forstner = forstner.to_vec();
        board
    }

    #[test]
    fn an_empty_list_or_one_with_the_size_gives_no_note() {
        assert_eq!(told(&Board::default()), []);
        assert_eq!(told(&owning(&[10.0, 12.0])), []);
        let mut other = Board::default();
        (other.tools.straight, other.tools.bushings) = (vec![6.0], vec![16.0]);
        assert_eq!(told(&other), []);
    }

    #[test]
    fn the_nearest_owned_bit_is_named_and_used_by_the_fix() {
        let board = owning(&[12.7, 25.4]);
        let found = told(&board).remove(0);
        assert_eq!((found.severity, found.holes.len()), (Severity::Note, 145));
        let said = "You own no Forstner bit of 12 mm, which 145 holes need. The nearest that fits the piece is 1/2\".";
        assert_eq!(found.message, said);
        let mended = Mend::OwnedBits.applied(&board).unwrap();
        assert_eq!(mended.bores.start.diameter, 12.7);
        assert_eq!(told(&mended), []);
    }

    #[test]
    fn no_bit_is_offered_where_none_fits() {
        let found = told(&owning(&[25.0])).remove(0);
        assert!(
            found.message.ends_with("and none that fits the piece."),
            "{}",
            found.message
        );
        assert!(found.mends.is_empty() && Mend::OwnedBits.applied(&owning(&[25.0])).is_err());
    }

    #[test]
    fn routed_bores_need_no_drill() {
        let board = Board {
            router: Some(Router::default()),
            ..owning(&[20.0])
        };
        assert_eq!(told(&board), []);
    }
}
