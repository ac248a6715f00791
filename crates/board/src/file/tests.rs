//! The file contains exactly what the program writes, and reads back unchanged.

use std::collections::{BTreeMap, BTreeSet};

use proptest::prelude::*;
use proptest::strategy::ValueTree as _;
use proptest::test_runner::TestRunner;
use serde_json::Value;

use super::rich::{rich_boards, value_of};
use super::*;
use crate::field::made::boards;

pub fn edited(change: &str, with: &str) -> Result<Board, FileError> {
    let text = write_board(&Board::default());
    assert!(text.contains(change), "{change} is not in the file");
    read_board(text.replacen(change, with, 1).as_bytes())
}

#[test]
fn a_name_of_any_length_gives_a_short_error() {
    let long = "ß".repeat(100_000);
    let broken = [
        edited("\"pitch_mm\"", &format!("\"{long}\"")),
        edited("\"ring\"", &format!("\"{long}\"")),
    ];
    for error in broken {
        let said = error.unwrap_err().to_string();
        assert!(said.chars().count() < 500, "{}", said.len());
    }
}

#[test]
fn a_byte_order_mark_is_ignored() {
    let text = format!("\u{feff}{}", write_board(&Board::default()));
    assert_eq!(read_board(text.as_bytes()), Ok(Board::default()));
}

#[test]
fn the_format_number_comes_first() {
    assert!(write_board(&Board::default()).starts_with("{\n  \"format\": 1,"));
}

#[test]
fn a_newer_file_is_refused_as_newer() {
    assert_eq!(
        edited("\"format\": 1", "\"format\": 7"),
        Err(FileError::Newer { found: 7 })
    );
    // Even if a newer format has fields that this program does not know.
    assert_eq!(
        read_board(b"{\"format\": 2, \"boards\": []}"),
        Err(FileError::Newer { found: 2 })
    );
}

#[test]
fn a_file_without_a_valid_format_is_refused() {
    for text in [
        "{}",
        "[]",
        "3",
        "null",
        "{\"format\": \"1\"}",
        "{\"format\": 0}",
        "{\"format\": -1}",
        "{\"format\": 1.5}",
    ] {
        assert_eq!(
            read_board(text.as_bytes()),
            Err(FileError::NoFormat),
            "{text}"
        );
    }
    assert_eq!(read_board(b" \n"), Err(FileError::Empty));
}

#[test]
fn a_file_cut_off_anywhere_is_reported_as_truncated() {
    let text = write_board(&Board::default());
    for end in (1..text.trim_end().len()).step_by(7) {
        assert!(
            matches!(
                read_board(&text.as_bytes()[..end]),
                Err(FileError::Truncated { .. })
            ),
            "cut at {end}"
        );
    }
}

#[test]
fn a_wrong_field_is_reported_with_its_position() {
    let Err(FileError::Field {
        field,
        line,
        reason,
        ..
    }) = edited("\"pitch_mm\": 19.0", "\"pitch_mm\": \"wide\"")
    else {
        panic!("was read")
    };
    assert_eq!(field, "board.pitch_mm");
    assert!(line > 5 && reason.contains("wide"), "{line}: {reason}");
    let unknown = edited("\"pitch_mm\"", "\"pitsch_mm\"")
        .unwrap_err()
        .to_string();
    assert!(unknown.contains("pitsch_mm"), "{unknown}");
    let twice = edited(
        "\"pitch_mm\": 19.0",
        "\"pitch_mm\": 19.0, \"pitch_mm\": 20.0",
    )
    .unwrap_err()
    .to_string();
    assert!(twice.contains("duplicate"), "{twice}");
}

#[test]
fn errors_are_worded_for_makers() {
    for (players, said) in [
        ("-3", "whole number of 0 or more"),
        ("6.5", "wrong kind: number `6.5`"),
        ("\"6\"", "wrong kind: text"),
        ("{}", "wrong kind: object"),
    ] {
        let error = edited("\"players\": 6", &format!("\"players\": {players}"));
        let error = error.unwrap_err().to_string();
        assert!(error.contains("in board.players"), "{error}");
        assert!(error.contains(said), "{error}");
    }
    let word = edited("\"ring\"", "\"hexagon\"").unwrap_err().to_string();
    assert!(word.contains("unknown word `hexagon`"), "{word}");
    let list = read_board(b"{\"format\": 1, \"board\": []}");
    assert!(
        list.unwrap_err()
            .to_string()
            .ends_with("expected an object")
    );
    let outermost = edited("\"format\": 1,", "\"format\": 1, \"format\": 1,");
    let outermost = outermost.unwrap_err().to_string();
    assert!(
        outermost.contains("in the outermost object: duplicate"),
        "{outermost}"
    );
}

#[test]
fn all_numbers_out_of_range_are_reported() {
    let text = write_board(&Board::default())
        .replace("\"pitch_mm\": 19.0", "\"pitch_mm\": -19.0")
        .replace("\"thickness_mm\": 20.0", "\"thickness_mm\": 2000.0");
    let error = read_board(text.as_bytes()).unwrap_err();
    let said = error.to_string();
    assert!(matches!(error, FileError::OutOfRange(faults) if faults.len() == 2));
    assert!(
        said.contains("Hole spacing") && said.contains("Board thickness"),
        "{said}"
    );
    assert!(edited("\"pitch_mm\": 19.0", "\"pitch_mm\": 1e999").is_err());
}

#[test]
fn a_file_without_a_recess_has_none_planned() {
    let text = write_board(&Board::default())
        .replace("\"recess\": null,", "")
        .replace("\"filling\": null,", "")
        .replace("\"finish\": [],", "");
    assert!(!text.contains("recess") && !text.contains("filling") && !text.contains("finish"));
    assert_eq!(read_board(text.as_bytes()), Ok(Board::default()));
}

#[test]
fn garbage_is_refused_without_a_panic() {
    assert!(matches!(
        read_board(&[0x7b, 0xff, 0xfe]),
        Err(FileError::NotText { at: 1 })
    ));
    assert!(matches!(
        read_board(&vec![b' '; LARGEST_FILE + 1]),
        Err(FileError::TooLarge { .. })
    ));
    assert!(matches!(
        read_board("[".repeat(100_000).as_bytes()),
        Err(FileError::NotJson { .. })
    ));
}

/// The values of each member of a board: its words unchanged, numbers and lists too, bores under one name.
fn members(name: &str, value: &Value, found: &mut BTreeMap<String, BTreeSet<String>>) {
    match value {
        Value::Object(members) => {
            let name = if members.contains_key("bottom") && members.len() == 3 {
                "a bore"
            } else {
                name
            };
            for (member, value) in members {
                self::members(&format!("{name}.{member}"), value, found);
            }
        }
        Value::Array(items) if !items.is_empty() => {
            let name = format!("{name}[]");
            for item in items {
                members(&name, item, found);
            }
        }
        _ => {
            let name = name.trim_end_matches("[]").to_owned();
            found.entry(name).or_default().insert(value.to_string());
        }
    }
}

fn members_of(boards: &[Board]) -> BTreeMap<String, BTreeSet<String>> {
    let mut found = BTreeMap::new();
    for board in boards {
        members("board", &value_of(board), &mut found);
    }
    found
}

/// Words known to the program, with the members they are in, leaving out the maker's own texts.
fn words(members: &BTreeMap<String, BTreeSet<String>>) -> BTreeSet<(&str, &str)> {
    let own = |name: &str| {
        let holes = [".hole", ".from", ".to"];
        let texts = ["board.title", "board.wood.species"];
        let lines = ["maker", "address", "contact", "customer", "not_included"];
        texts.contains(&name)
            || name.ends_with(".mark.text")
            || name.starts_with("board.schedule.")
            || name.ends_with(".article")
            || lines
                .iter()
                .any(|line| name == format!("board.price.{line}"))
            || holes.iter().any(|hole| name.ends_with(hole))
    };
    let all = members.iter().flat_map(|(name, values)| {
        let values = values.iter().map(String::as_str);
        values.map(|value| (name.as_str(), value))
    });
    let is_word =
        |value: &str| value != "[]" && !value.starts_with("\"#") && value.parse::<f64>().is_err();
    all.filter(|(name, value)| !own(name) && is_word(value))
        .collect()
}

#[test]
fn random_boards_and_the_rich_boards_cover_every_member_of_the_document() {
    let mut runner = TestRunner::deterministic();
    let strategy = boards();
    let any = std::iter::repeat_with(|| strategy.new_tree(&mut runner).unwrap().current());
    let any = members_of(&any.take(300).collect::<Vec<_>>());
    let rich = members_of(&rich_boards());
    assert!(any.len() > 200, "{any:?}");
    assert!(words(&any).is_superset(&words(&rich)));
    // Every bit of a rich board has a feed, so that the program can be written.
    let missing: Vec<_> = words(&any).difference(&words(&rich)).copied().collect();
    assert_eq!(missing, [("board.machine.bits[].feed_mm_min", "null")]);
    assert!(any.keys().eq(rich.keys()));
    for (name, values) in &any {
        let within = |other: &String| {
            let rest = other.strip_prefix(name.as_str());
            rest.is_some_and(|rest| rest.starts_with(['.', '[']))
        };
        assert!(
            values.len() > 1 || any.keys().any(within),
            "{name} is always {values:?}"
        );
    }
}

proptest! {
    #[test]
    fn a_written_board_reads_back_to_the_last_digit(board in boards()) {
        prop_assert_eq!(read_board(write_board(&board).as_bytes()), Ok(board));
    }
}
