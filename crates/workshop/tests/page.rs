//! The page about the board file matches the program: its table is made from the table of fields.
//!
//! `UPDATE_PAGE=1 cargo test -p workshop --test page` rewrites it.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    reason = "a test that cannot go on has failed"
)]

use std::collections::BTreeSet;

use board::field::all_fields;
use board::{Board, Field, Kind, Range, Units, Value, Written, read_board, write_board};
use serde_json::Value as Json;
use workshop::{Wishes, propose};

const PAGE: &str = include_str!("../../../docs/formats/board-file.md");
const HEAD: &str = "| member of `board` | on screens | what | may be | default |\n| --- | --- | --- | --- | --- |\n";

/// The board that `ringwright new` writes when only the unit is given.
fn new_board(units: Units) -> Board {
    let wishes = Wishes {
        units: Some(units),
        ..Wishes::default()
    };
    propose(&wishes).unwrap()
}

/// The board as read from a file without the member; `None` if the member must not be missing.
fn without(board: &Board, path: &str) -> Option<Board> {
    let mut file: Json = serde_json::from_str(&write_board(board)).unwrap();
    let path = path.replace("[]", "[0]").replace('[', ".").replace(']', "");
    let mut names: Vec<&str> = path.split('.').collect();
    let name = names.pop().unwrap();
    let within = names.iter().fold(&mut file["board"], |json, name| {
        match name.parse::<usize>() {
            Ok(entry) => &mut json[entry],
            Err(_) => &mut json[*name],
        }
    });
    within.as_object_mut()?.remove(name)?;
    read_board(file.to_string().as_bytes()).ok()
}

/// The range of a number, with the unit of the file.
fn range(range: Range) -> String {
    let unit = range.quantity.symbol();
    format!("{} to {} {unit}", range.min, range.max)
        .trim_end()
        .replace(" °", "°")
}

/// The word in the file for no value: `null` or `"auto"`.
fn nothing(board: &Board, field: &Field) -> String {
    let mut board = board.clone();
    let open = [Value::Open, Value::Tick(false)]
        .iter()
        .any(|value| field.set(&mut board, 0, value));
    assert!(open, "{}", field.path);
    format!("`{}`", field.written(&board, 0).unwrap())
}

fn may_be(board: &Board, field: &Field) -> String {
    match field.kind {
        Kind::Number(numbers) => range(numbers),
        Kind::Auto(numbers, without) | Kind::Open(numbers, without) => format!(
            "{}, or {}: {without}",
            range(numbers),
            nothing(board, field)
        ),
        Kind::Ticked(numbers, _) => format!("{}, or {}", range(numbers), nothing(board, field)),
        Kind::Choice => {
            let words = field.words(board, 0);
            words
                .iter()
                .map(|word| format!("`{word}`"))
                .collect::<Vec<_>>()
                .join(", ")
        }
        Kind::Color => "`\"#rrggbb\"`".into(),
        Kind::AutoColor(without) => {
            format!("`\"#rrggbb\"`, or {}: {without}", nothing(board, field))
        }
        Kind::Tick => "`true`, `false`".into(),
        Kind::Part => format!("there, or {}", nothing(board, field)),
        Kind::Text(letters) => format!("{} letters", range(letters)),
        Kind::Hole(numbers) => format!("name of a hole, number {}", range(numbers)),
        Kind::Written(Written::Day) => "date as `2026-12-24`".into(),
        Kind::Written(Written::MaybeDay(without)) => format!(
            "date as `2026-12-24`, or {}: {without}",
            nothing(board, field)
        ),
        Kind::Written(Written::Clock) => "time of day as `08:00`".into(),
        Kind::Written(Written::Zone) => {
            "name of a time zone, or nothing: that of the computer".into()
        }
        Kind::Written(Written::DaysOff(count)) => format!(
            "list, at most {}, of dates as `2026-12-24` and spans as `2026-12-24/2027-01-02`",
            count.max
        ),
        Kind::Entries(count) if count.max.is_infinite() => "list".into(),
        Kind::Entries(count) => format!("list, at most {}", count.max),
        Kind::Numbers { each, count, .. } => {
            format!("list, at most {}, each {}", count.max, range(each))
        }
        Kind::Corners { each, count } => format!(
            "list of `[x, y]`, at most {}, each {}",
            count.max,
            range(each)
        ),
    }
}

/// The value on a new board, in mm and in inches, and the value of a missing member where that differs.
fn default(field: &Field, metric: &Board, us: &Board) -> String {
    let written = |board: &Board| {
        field
            .written(board, 0)
            .unwrap()
            .trim_end_matches(".0")
            .to_owned()
    };
    let inches = match field.value(us, 0) {
        Some(Value::Number(mm)) if written(us) != written(metric) => {
            format!("; US {}", field.range().quantity.shown(mm, Units::INCH))
        }
        _ => String::new(),
    };
    let missing = match without(metric, field.path) {
        Some(read) if written(&read) != written(metric) => {
            format!("; missing: `{}`", written(&read))
        }
        _ => String::new(),
    };
    format!("`{}`{inches}{missing}", written(metric))
}

/// The row of a field, after a row for its object where that is new and may be missing.
fn row(field: &Field, new: &[Board; 2], objects: &mut BTreeSet<&str>) -> String {
    let [metric, us] = [0, 1].map(|at| field.brought(&new[at]).unwrap());
    let within = field.path.rsplit_once('.').map_or("", |(within, _)| within);
    let is_new = !within.ends_with("[]")
        && all_fields().all(|field| field.path != within)
        && objects.insert(within);
    let object = if is_new && without(&metric, within).is_some() {
        format!("| `{within}` + | | | object | |\n")
    } else {
        String::new()
    };
    let plus = if without(&metric, field.path).is_some() {
        " +"
    } else {
        ""
    };
    let label = field.label.replace('#', "…");
    let (may_be, default) = (may_be(&metric, field), default(field, &metric, &us));
    format!(
        "{object}| `{}`{plus} | {label} | {} | {may_be} | {default} |\n",
        field.path,
        field.hint_in(Units::Mm)
    )
}

#[test]
fn the_table_of_the_page_matches_the_program() {
    let mut objects = BTreeSet::new();
    let new = [Units::Mm, Units::INCH].map(new_board);
    let table: String = all_fields()
        .map(|field| row(field, &new, &mut objects))
        .collect();
    let (before, rest) = PAGE
        .split_once(HEAD)
        .expect("the page has the head of the table");
    let (_, after) = rest.split_once("\n\n").unwrap();
    let page = format!("{before}{HEAD}{table}\n{after}");
    if std::env::var_os("UPDATE_PAGE").is_some() {
        let path = concat!(
            env!("CARGO_MANIFEST_DIR"),
            "/../../docs/formats/board-file.md"
        );
        std::fs::write(path, &page).unwrap();
    }
    let differing = page.lines().zip(PAGE.lines()).find(|(is, was)| is != was);
    assert_eq!(differing, None, "write the page anew with UPDATE_PAGE=1");
    assert_eq!(page.len(), PAGE.len());
}
