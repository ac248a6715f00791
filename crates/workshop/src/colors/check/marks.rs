//! Rule: each player's mark has room beside that player's start pocket.

use board::{MarksMade, Measure};
use geometry::Point;

use crate::Workpiece;
use crate::check::{Finding, Rule, Severity};
use crate::colors::mark_places;
use crate::colors::used::pocket_names;
use crate::finish::list;

pub const STATEMENT: &str = "Each player's mark lies on the flat top beside its start pocket, {1 mm} clear of every hole and of the roundover \
     (our own limit), and meets no other mark. A mark that finds no such place within {50 mm} of its pocket is not drawn.";

/// The smallest mark proposed, mm; a smaller one looks like a blemish in the wood. Our own choice.
const SMALLEST: f64 = 3.0;
/// Increment of the proposed sizes, mm.
const STEP: f64 = 0.5;

/// A finding that names the players whose marks have no room, and the size that would fit.
pub fn check(workpiece: &Workpiece) -> Option<Finding> {
    let made = workpiece.board().colors.marks?;
    let without = without_room(workpiece, made.size);
    if without.is_empty() {
        return None;
    }
    let message = if workpiece.layout().pocket.is_some() {
        let whose = whose(&without, workpiece.board().players);
        let verb = if without.len() == 1 { "does" } else { "do" };
        let help = help(workpiece, made);
        format!("{whose} {verb} not fit beside the start pocket; {help}")
    } else {
        "player marks go beside start pockets, but this board has none; plan start pockets or turn the marks off".into()
    };
    let holes = without
        .iter()
        .flat_map(|player| pocket_names(workpiece, *player));
    Some(Finding::new(Severity::Caution, Rule::MarkRoom, message).about(holes.collect()))
}

/// The players, counted from 1, whose mark of this size has no room, or meets another player's.
fn without_room(workpiece: &Workpiece, size: f64) -> Vec<u32> {
    let places = mark_places(workpiece, size);
    let meets = |at: usize, place: Point| {
        let mut others = places.iter().enumerate();
        others.any(|(other, it)| other != at && it.is_some_and(|it| it.distance(place) < size))
    };
    let players = places.iter().enumerate().zip(1_u32..);
    players
        .filter_map(|((at, place), player)| match place {
            Some(place) if !meets(at, *place) => None,
            _ => Some(player),
        })
        .collect()
}

/// The marks in a finding, worded as the start of a sentence.
fn whose(players: &[u32], of: u32) -> String {
    match players {
        [only] => format!("the mark of player {only}"),
        all if all.len() == of as usize => "the marks of all players".into(),
        some => {
            let names: Vec<String> = some.iter().map(ToString::to_string).collect();
            let names: Vec<&str> = names.iter().map(String::as_str).collect();
            format!("the marks of players {}", list(&names))
        }
    }
}

/// The remedy in words: a smaller mark that has room for every player, or else moved pockets.
fn help(workpiece: &Workpiece, made: MarksMade) -> String {
    match largest_with_room(workpiece, made.size) {
        Some(size) => format!(
            "make the marks {} or smaller, or move the pockets",
            Measure::mm(size).shown(workpiece.units())
        ),
        None => "move the pockets to where there is more wood, or make the board larger".into(),
    }
}

/// The largest mark below a size that every player has room for, by increments; `None` if not even the smallest fits.
fn largest_with_room(workpiece: &Workpiece, size: f64) -> Option<f64> {
    let has_room = |steps: u32| without_room(workpiece, f64::from(steps) * STEP).is_empty();
    let (mut fits, mut too_large) = ((SMALLEST / STEP) as u32, (size / STEP).ceil() as u32);
    if fits >= too_large || !has_room(fits) {
        return None;
    }
    while too_large - fits > 1 {
        let middle = u32::midpoint(fits, too_large);
        if has_room(middle) {
            fits = middle;
        } else {
            too_large = middle;
        }
    }
    Some(f64::from(fits) * STEP)
}

#[cfg(test)]
mod tests {
    use super::*;
    use board::Board;

    fn marked(size: f64) -> Board {
        let mut board = Board::default();
        board.colors.marks = Some(MarksMade {
            size,
            ..MarksMade::default()
        });
        board
    }

    fn of(board: &Board) -> Option<String> {
        check(&Workpiece::of(board).unwrap()).map(|found| found.message)
    }

    #[test]
    fn marks_not_made_or_with_room_give_no_finding() {
        assert_eq!(of(&Board::default()), None);
        assert_eq!(of(&marked(MarksMade::default().size)), None);
    }

    #[test]
    fn the_proposed_size_has_room() {
        let board = marked(200.0);
        let found = of(&board).unwrap();
        assert!(
            found.starts_with("The marks of all players do not fit"),
            "{found}"
        );
        let size = largest_with_room(&Workpiece::of(&board).unwrap(), 200.0).unwrap();
        assert!(found.contains("or smaller, or move the pockets"), "{found}");
        assert_eq!(of(&marked(size)), None);
    }

    #[test]
    fn a_board_without_pockets_is_advised_to_add_some() {
        let board = Board {
            start: 0,
            ..marked(10.0)
        };
        assert!(of(&board).unwrap().contains("this board has none"));
    }

    #[test]
    fn players_are_named_one_by_one_or_all_together() {
        assert_eq!(whose(&[3], 6), "the mark of player 3");
        assert_eq!(whose(&[1, 2, 5], 6), "the marks of players 1, 2 and 5");
        assert_eq!(whose(&[1, 2], 2), "the marks of all players");
    }
}
