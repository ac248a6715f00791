//! Members and names from older files: their values move to where they are now.
//!
//! The filling used to have its own number of boards, besides that of the order. Now only the order has one, and a board that
//! is filled together with others needs a place to lie while the resin cures, which the calendar requires too.

use std::borrow::Cow;

use serde_json::Value;

use crate::Schedule;

/// The name of the member with the number of boards to fill.
const FILLED: &str = "boards";
/// The largest number it could be.
const MOST: u64 = 50;

/// Old prefixes of article names, and their replacements.
const RENAMED: [(&str, &str); 1] = [("flat-bit-", "straight-bit-")];

/// The current name of an article.
///
/// ```
/// assert_eq!(board::article_now("flat-bit-6.35"), "straight-bit-6.35");
/// assert_eq!(board::article_now("wood-glue"), "wood-glue");
/// ```
pub fn article_now(name: &str) -> Cow<'_, str> {
    let renamed = RENAMED.iter().find_map(|(old, new)| {
        let rest = name.strip_prefix(old)?;
        Some(format!("{new}{rest}"))
    });
    renamed.map_or(Cow::Borrowed(name), Cow::Owned)
}

/// The text of a file brought up to date, with remarks on what was moved; most texts are unchanged.
///
/// A value that is not a number of boards is left in place, so that the reader reports it.
pub fn brought_up_to_date(text: &str) -> (Cow<'_, str>, Vec<String>) {
    let mut remarks = Vec::new();
    let changed = serde_json::from_str(text).ok().and_then(|mut file| {
        let filled = filled_as_ordered(&mut file, &mut remarks);
        let renamed = renamed(&mut file);
        (filled.is_some() || renamed.is_some()).then_some(file)
    });
    let written = changed.and_then(|file: Value| serde_json::to_string_pretty(&file).ok());
    (written.map_or(Cow::Borrowed(text), Cow::Owned), remarks)
}

/// Uses the number of boards to fill as the minimum number of boards ordered and of drying places; `None` if the file has no
/// such number.
fn filled_as_ordered(file: &mut Value, remarks: &mut Vec<String>) -> Option<()> {
    let filling = file.pointer_mut("/board/filling")?.as_object_mut()?;
    let boards = filling.get(FILLED)?.as_u64()?;
    if !(1..=MOST).contains(&boards) {
        return None;
    }
    filling.remove(FILLED);
    let board = file.get_mut("board")?.as_object_mut()?;
    let ordered = board.get("schedule").and_then(|known| known.get("boards"));
    let ordered = ordered.map_or(Some(u64::from(Schedule::default().boards)), Value::as_u64);
    if let Some(ordered) = ordered.filter(|ordered| *ordered != boards) {
        remarks.push(format!(
            "This file had {} to fill and {ordered} ordered: {} taken for both. Change it under Hand over, Calendar.",
            crate::several(boards as usize, "board"),
            several_are(boards.max(ordered)),
        ));
    }
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
    Some(())
}

/// A number with its verb: “1 is”, “2 are”.
fn several_are(count: u64) -> String {
    format!("{count} {}", if count == 1 { "is" } else { "are" })
}

/// Renames the articles of prices to their current names; `None` if there are no prices. If both names have a price, the one
/// under the newer name is kept.
fn renamed(file: &mut Value) -> Option<()> {
    let articles = file.pointer_mut("/board/price/articles")?.as_array_mut()?;
    let mut found = None;
    let known: Vec<String> = articles.iter().filter_map(name_of).collect();
    articles.retain(|article| {
        let old = name_of(article).unwrap_or_default();
        let now = article_now(&old);
        let is_twice = now != old && known.iter().any(|name| *name == *now);
        if is_twice {
            found = Some(());
        }
        !is_twice
    });
    for article in articles {
        let old = name_of(article).unwrap_or_default();
        let now = article_now(&old);
        if now != old
            && let Some(name) = article.get_mut("article")
        {
            *name = Value::String(now.into_owned());
            found = Some(());
        }
    }
    found
}

fn name_of(article: &Value) -> Option<String> {
    Some(article.get("article")?.as_str()?.to_owned())
}

#[cfg(test)]
mod tests {
    use serde_json::{Value, json};

    use crate::{ArticlePrice, Board, Filling, open_board, read_board, write_board};

    /// The file of a board with resin, with a number of boards to fill as old files had it, and optionally a number ordered.
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
    fn the_number_of_boards_to_fill_becomes_the_number_ordered() {
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
    fn an_invalid_number_of_boards_is_reported() {
        for wrong in [json!(0), json!(51), json!("two"), json!(null)] {
            let error = read_board(old(&wrong, Some(2)).as_bytes()).unwrap_err();
            assert!(error.to_string().contains("boards"), "{error}");
        }
    }

    #[test]
    fn a_remark_says_which_number_is_used_if_a_file_had_two() {
        let told = |filled, ordered| {
            let opened = open_board(old(&json!(filled), ordered).as_bytes()).unwrap();
            opened.remarks
        };
        assert!(told(1, None).is_empty() && told(4, Some(4)).is_empty());
        assert!(told(3, None)[0].contains("3 boards to fill and 1 ordered: 3 are taken"));
        assert!(told(1, Some(5))[0].contains("1 board to fill and 5 ordered: 5 are taken"));
    }

    #[test]
    fn the_price_of_an_article_with_an_old_name_is_kept() {
        let mut board = Board::default();
        let priced = |article: &str, price| ArticlePrice {
            article: article.into(),
            price: Some(price),
            ..ArticlePrice::default()
        };
        board.price.articles = vec![
            priced("flat-bit-12.7", 9.5),
            priced("wood-glue", 6.0),
            priced("flat-bit-6", 4.0),
            priced("straight-bit-6", 5.0),
        ];
        let read = read_board(write_board(&board).as_bytes()).unwrap();
        assert_eq!(
            read.price.articles,
            [
                priced("straight-bit-12.7", 9.5),
                priced("wood-glue", 6.0),
                priced("straight-bit-6", 5.0)
            ]
        );
    }
}
