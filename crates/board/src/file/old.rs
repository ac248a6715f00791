//! Members that files had before: what a maker typed in them goes to where it is now.
//!
//! The filling had a number of boards of its own, beside that of the order. The order has the only one now, and a board that is filled
//! with others needs a place to lie while the resin cures, as the calendar has it too.

use std::borrow::Cow;

use serde_json::Value;

use crate::Schedule;

/// Where the number of boards to fill stood in a file.
const FILLED: &str = "boards";
/// The most that it could be.
const MOST: u64 = 50;

/// The text of a file with nothing in it that is elsewhere now; most texts stay as they are.
///
/// A value that is no number of boards is left where it is, so that the reader names it.
pub fn brought_up_to_date(text: &str) -> Cow<'_, str> {
    let changed = serde_json::from_str(text).ok().and_then(filled_as_ordered);
    changed.map_or(Cow::Borrowed(text), Cow::Owned)
}

/// The file with the number of boards to fill as the least that are ordered and have room to dry; none where it has no such number.
fn filled_as_ordered(mut file: Value) -> Option<String> {
    let filling = file.pointer_mut("/board/filling")?.as_object_mut()?;
    let boards = filling.get(FILLED)?.as_u64()?;
    if !(1..=MOST).contains(&boards) {
        return None;
    }
    filling.remove(FILLED);
    let board = file.get_mut("board")?.as_object_mut()?;
    let schedule = board
        .entry("schedule")
        .or_insert_with(|| Value::Object(serde_json::Map::new()));
    let usual = Schedule::default();
    for (name, usual) in [("boards", usual.boards), ("drying", usual.drying)] {
        let members = schedule.as_object_mut()?;
        let known = members
            .get(name)
            .map_or(Some(usual.into()), Value::as_u64)?;
        if boards > known {
            members.insert(name.into(), boards.into());
        }
    }
    serde_json::to_string_pretty(&file).ok()
}

#[cfg(test)]
mod tests {
    use serde_json::{Value, json};

    use crate::{Board, Filling, read_board, write_board};

    /// The file of a board with resin, with some boards to fill as files had them, and some ordered.
    fn old(filled: &Value, ordered: Option<u32>) -> String {
        let mut board = Board {
            filling: Some(Filling::default()),
            ..Board::default()
        };
        board.schedule.boards = ordered.unwrap_or(1);
        let mut file: Value = serde_json::from_str(&write_board(&board)).unwrap();
        file["board"]["filling"]["boards"] = filled.clone();
        if ordered.is_none() {
            file["board"].as_object_mut().unwrap().remove("schedule");
        }
        file.to_string()
    }

    #[test]
    fn boards_to_fill_are_boards_ordered() {
        for (filled, ordered, boards, drying) in [
            (1, None, 1, 4),
            (3, None, 3, 4),
            (6, Some(1), 6, 6),
            (2, Some(5), 5, 4),
        ] {
            let read = read_board(old(&json!(filled), ordered).as_bytes()).unwrap();
            assert_eq!(
                (read.schedule.boards, read.schedule.drying),
                (boards, drying)
            );
            assert_eq!(read.filling, Some(Filling::default()));
        }
    }

    #[test]
    fn what_is_no_number_of_boards_is_named() {
        for wrong in [json!(0), json!(51), json!("two"), json!(null)] {
            let error = read_board(old(&wrong, Some(2)).as_bytes()).unwrap_err();
            assert!(error.to_string().contains("boards"), "{error}");
        }
    }
}
