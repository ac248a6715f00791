//! The players' colors and marks: those chosen, otherwise those of the set.

use board::{Board, Mark, MarkShape, Rgb, SET};

/// The resolved color and mark of one player.
#[derive(Debug, Clone, PartialEq)]
pub struct PlayerLook {
    /// Which player, from 1.
    pub player: u32,
    /// The color.
    pub color: Rgb,
    /// Whether the color is that of the set.
    pub is_of_set: bool,
    /// The mark; never [`Mark::Auto`], which is resolved already.
    pub mark: Mark,
}

/// The look of a player, counted from 1.
///
/// The colors of the set repeat after the last one, with another kind of mark: first shapes, then their outlines, then shapes
/// in a ring, so that no mark repeats.
///
/// Colors of the set come again after the last one, with another mark: first shapes, then their outlines, then shapes in a
/// ring, so that no mark comes twice.
///
/// ```
/// use board::{Board, Mark, MarkShape, SET};
/// use workshop::player_look;
/// let board = Board::default();
/// let [first, ninth] = [1, 9].map(|player| player_look(&board, player));
/// assert_eq!((first.color, ninth.color), (SET[0], SET[0]));
/// assert_eq!(first.mark, Mark::Solid { shape: MarkShape::Dot });
/// assert_eq!(ninth.mark, Mark::Outlined { shape: MarkShape::Dot });
/// ```
pub fn player_look(board: &Board, player: u32) -> PlayerLook {
    let place = player.saturating_sub(1) as usize;
    let chosen = board.colors.players.get(place).cloned().unwrap_or_default();
    PlayerLook {
        player,
        is_of_set: chosen.color.is_none(),
        color: chosen.color.unwrap_or_else(|| of_set(place)),
        mark: match chosen.mark {
            Mark::Auto => mark_of_set(place),
            mark => mark,
        },
    }
}

/// The set's color for an index counted from 0.
fn of_set(place: usize) -> Rgb {
    SET.get(place % SET.len()).copied().unwrap_or(Rgb::BLACK)
}

/// The set's mark for an index counted from 0.
fn mark_of_set(place: usize) -> Mark {
    let shapes = MarkShape::ALL;
    let shape = shapes
        .get(place % shapes.len())
        .copied()
        .unwrap_or(MarkShape::Dot);
    match place / shapes.len() % 3 {
        0 => Mark::Solid { shape },
        1 => Mark::Outlined { shape },
        _ => Mark::Ringed { shape },
    }
}

/// A mark in words.
///
/// It is empty where the mark is left to the program and not resolved yet.
pub fn mark_name(mark: &Mark) -> String {
    match mark {
        Mark::Auto => String::new(),
        Mark::Solid { shape } => shape.label().into(),
        Mark::Outlined { shape } => format!("{}, outlined", shape.label()),
        Mark::Ringed { shape } => format!("{} in a ring", shape.label()),
        Mark::Letters { text } => text.clone(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_most_players_on_a_board_all_have_different_marks() {
        let board = Board::default();
        let marks: Vec<Mark> = (1..=24)
            .map(|player| player_look(&board, player).mark)
            .collect();
        for (at, mark) in marks.iter().enumerate() {
            assert!(!marks[..at].contains(mark), "{mark:?}");
        }
    }
}
