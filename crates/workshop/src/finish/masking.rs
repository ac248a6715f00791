//! Parts to keep finish off: bores that fit a piece, faces that are glued, surfaces that slide or turn.

use board::{Base, Footing, PieceKind};

use super::parts::Parts;
use crate::Workpiece;

/// Everything that is covered before the first coat, a sentence each; nothing where nothing is.
///
/// ```
/// use board::{Board, Coat, PieceKind};
/// use workshop::{Workpiece, to_mask};
/// let mut board = Board { finish: vec![Coat::default()], ..Board::default() };
/// board.piece.kind = PieceKind::Peg;
/// assert!(to_mask(&Workpiece::of(&board)?)[0].starts_with("Plug the peg holes"));
/// # Ok::<(), board::BuildError>(())
/// ```
pub fn to_mask(workpiece: &Workpiece) -> Vec<String> {
    let board = workpiece.board();
    let goes = |parts: Parts| {
        let mut layers = board.finish.iter();
        layers.any(|coat| Parts::of(coat.place).has(parts))
    };
    let mut all = Vec::new();
    if board.piece.kind == PieceKind::Peg && goes(Parts::BORES) {
        all.push("Plug the peg holes with dowels or foam: a film of finish takes up the play that the pegs have.");
    }
    if board.piece.kind == PieceKind::Magnet
        && board
            .piece
            .magnet
            .is_some_and(|magnet| magnet.finish <= 0.0)
        && goes(Parts::BORES)
    {
        all.push(
            "Cover each ball or disc that is set in: the pull is figured without finish over it.",
        );
    }
    if let Some(base) = board.base.filter(|_| goes(Parts::UNDERSIDE)) {
        if board.screws.is_empty() {
            all.push(
                "Tape off where the base or its feet are glued: glue does not hold on finish.",
            );
        }
        if turns(&base) {
            all.push(
                "Keep finish out of the bearing: mount the turntable when the finish is hard.",
            );
        }
    }
    if workpiece.lid().size.is_some() && goes(Parts::UNDERSIDE) {
        all.push("Tape off where the lid rubs or slides, ledge and groove of the recess too.");
    }
    all.into_iter().map(ToOwned::to_owned).collect()
}

/// Whether the board turns on its base.
const fn turns(base: &Base) -> bool {
    matches!(base.footing, Footing::Round { .. })
}

#[cfg(test)]
mod tests {
    use super::*;
    use board::{Board, Coat, CoatKind, CoatPlace};

    #[test]
    fn only_what_finish_would_get_on_is_masked() {
        let mut board = Board {
            base: Some(Base::default()),
            finish: vec![Coat::default()],
            ..Board::default()
        };
        board.piece.kind = PieceKind::Peg;
        let masked = |board: &Board| to_mask(&Workpiece::of(board).unwrap());
        assert!(masked(&board).len() >= 2);
        board.finish[0].place = CoatPlace::Edge;
        assert!(masked(&board).is_empty());
        board.finish = vec![Coat {
            place: CoatPlace::Top,
            ..Coat::of(CoatKind::Lacquer, 1.0)
        }];
        assert_eq!(masked(&board).len(), 1);
        board.finish.clear();
        assert!(masked(&board).is_empty());
    }

    #[test]
    fn a_magnet_that_stays_bare_is_covered() {
        let mut board = Board {
            finish: vec![Coat::default()],
            ..Board::default()
        };
        board.piece.kind = PieceKind::Magnet;
        let masked = |board: &Board| to_mask(&Workpiece::of(board).unwrap()).len();
        assert_eq!(masked(&board), 0);
        board.piece.magnet = Some(board::Magnet {
            finish: 0.0,
            ..board::Magnet::default()
        });
        assert_eq!(masked(&board), 1);
    }
}
