//! What differs between two documents, in words: what a mend has done.

use board::{Board, Build, Measure};

/// The numbers that a mend may change, with what they were and are, in the unit of the board that came out.
///
/// ```
/// let before = board::Board::default();
/// let after = board::Board { pitch: 20.0, ..before.clone() };
/// assert_eq!(workshop::changes(&before, &after), ["pitch 19 mm → 20 mm"]);
/// ```
pub fn changes(before: &Board, after: &Board) -> Vec<String> {
    let units = after.units;
    let (before, after) = (numbers(before), numbers(after));
    let pairs = before.into_iter().zip(after);
    pairs
        .filter(|((_, before), (_, after))| before != after)
        .map(|((name, before), (_, after))| {
            let said =
                |value: Option<Measure>| value.map_or_else(|| "auto".into(), |it| it.shown(units));
            format!("{name} {} → {}", said(before), said(after))
        })
        .collect()
}

/// The numbers, always the same ones in the same order.
fn numbers(board: &Board) -> [(&'static str, Option<Measure>); 15] {
    let mm = |length| Some(Measure::mm(length));
    let strips = match board.panel.build {
        Build::Strips { count } => count,
        _ => 0,
    };
    let center = board.center.bore().map_or(0.0, |bore| bore.depth);
    let drying = board.finish.iter().map(|coat| coat.dries).sum();
    let filling = board.filling.map_or(0.0, |filling| filling.batch);
    [
        ("pitch", mm(board.pitch)),
        ("board", mm(board.blank.diameter)),
        ("rim margin", mm(board.limits.rim)),
        ("spaces", Some(Measure::count(board.spaces))),
        ("piece", mm(board.piece.diameter)),
        ("track bores", mm(board.bores.track.diameter)),
        ("track bores deep", mm(board.bores.track.depth)),
        ("home bores deep", mm(board.bores.home.depth)),
        ("start bores deep", mm(board.bores.start.depth)),
        ("center bore deep", mm(center)),
        ("pilot", board.center.pilot().map(Measure::mm)),
        ("rotation", Some(Measure::degrees(board.rotation))),
        ("strips", Some(Measure::count(strips))),
        ("batch", Some(Measure::milliliters(filling))),
        ("drying in all", Some(Measure::hours(drying))),
    ]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Mend;
    use board::Units;

    #[test]
    fn what_a_mend_found_is_told_in_the_makers_unit() {
        let mut board = Board::default();
        board.blank.diameter = 500.0;
        board.units = Units::Inch;
        let mended = Mend::FitBoard.applied(&board).unwrap();
        let told = changes(&board, &mended);
        assert_eq!(told.len(), 1, "{told:?}");
        assert!(told[0].starts_with("board 19.685\" → "), "{told:?}");
    }

    #[test]
    fn nothing_changed_is_nothing_told() {
        assert!(changes(&Board::default(), &Board::default()).is_empty());
    }
}
