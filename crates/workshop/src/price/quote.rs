//! The board described for the customer, who does not know about bores and pitch.

use board::{BaseHold, Footing, PieceKind, show_length};

use crate::job::counted;
use crate::wood::species_of;
use crate::{Workpiece, topcoat};

/// The parts of the order, one line each.
///
/// ```
/// use workshop::{Workpiece, described};
/// let lines = described(&Workpiece::of(&board::Board::default())?);
/// assert_eq!(lines[0], "Round game board for 6 players, 640 mm across and 20 mm thick");
/// # Ok::<(), board::BuildError>(())
/// ```
pub fn described(workpiece: &Workpiece) -> Vec<String> {
    let board = workpiece.board();
    let length = |mm| show_length(mm, board.units);
    let mut lines = vec![format!(
        "Round game board for {}, {} across and {} thick",
        counted(board.players, "player", "players"),
        length(board.blank.diameter),
        length(board.blank.thickness)
    )];
    let species = board.wood.as_ref().and_then(|wood| species_of(wood).ok());
    lines.extend(species.map(|species| format!("Wood: {}", species.spoken())));
    lines.push(game(workpiece));
    lines.push(pieces(workpiece));
    if board.grooves.is_some() {
        lines.push("Grooves routed into the top".into());
    }
    if board.filling.is_some() {
        lines.push("Holes filled with resin".into());
    }
    lines.extend(storage(workpiece));
    lines.extend(base(workpiece));
    lines.extend(finish(workpiece));
    lines
}

/// The phrase about the holes of the game.
fn game(workpiece: &Workpiece) -> String {
    let board = workpiece.board();
    format!(
        "{} on the track, {} in each home lane and {} in each start pocket",
        counted(board.players * board.spaces, "space", "spaces"),
        board.home,
        board.start
    )
}

/// The phrase about the pieces that come with it.
fn pieces(workpiece: &Workpiece) -> String {
    let board = workpiece.board();
    let count = crate::recess::pieces(board);
    let (one, many) = match board.piece.kind {
        PieceKind::Marble => ("marble", "marbles"),
        PieceKind::Peg => ("peg", "pegs"),
        PieceKind::Magnet => ("magnet piece", "magnet pieces"),
    };
    let across = show_length(board.piece.diameter, board.units);
    format!("{}, {across} across", counted(count, one, many))
}

/// The phrase about the storage in the underside with its lid; none without a recess.
fn storage(workpiece: &Workpiece) -> Option<String> {
    workpiece.board().recess?;
    let lid = workpiece.lid().size.map_or("", |_| " with a lid");
    Some(format!("Storage for the pieces in the underside{lid}"))
}

/// The phrase about the base; none without one.
fn base(workpiece: &Workpiece) -> Option<String> {
    let base = workpiece.board().base?;
    Some(match (base.footing, base.hold) {
        (Footing::Feet { count, .. }, _) => format!("On {}", counted(count, "foot", "feet")),
        (Footing::Round { .. }, BaseHold::Loose) => "On a turntable".into(),
        (Footing::Round { .. }, _) => "On a round base".into(),
    })
}

/// The phrase about the topcoat, which the customer sees and cares for; coats below it are the shop's concern.
fn finish(workpiece: &Workpiece) -> Option<String> {
    let top = topcoat(workpiece.board())?;
    Some(format!("Finish: {}", top.label()))
}
