//! The table of fields and the document match: every member of a file has a row, and every row has a member.

use std::collections::{BTreeMap, BTreeSet};

use proptest::prelude::*;
use serde_json::Value as Json;

use super::made::{boards, full_boards, value_at};
use super::*;
use crate::Units;

/// Every number, text and checkbox of a board's file by its path; for an empty list or null, the path itself.
fn leaves(board: &Board) -> BTreeMap<String, Json> {
    fn walk(path: String, value: Json, found: &mut BTreeMap<String, Json>) {
        match value {
            Json::Object(members) => {
                for (name, value) in members {
                    let within = if path.is_empty() {
                        name
                    } else {
                        format!("{path}.{name}")
                    };
                    walk(within, value, found);
                }
            }
            Json::Array(entries) if !entries.is_empty() => {
                for (at, value) in entries.into_iter().enumerate() {
                    walk(format!("{path}[{at}]"), value, found);
                }
            }
            other => {
                found.insert(path, other);
            }
        }
    }
    let mut found = BTreeMap::new();
    walk(
        String::new(),
        serde_json::to_value(board).unwrap(),
        &mut found,
    );
    found
}

/// The rows that a place in a file belongs to: its own, or that of the list of numbers that contains it.
fn rows_of(leaf: &str) -> Vec<&'static Field> {
    let (mut collapsed, mut within) = (String::new(), false);
    for letter in leaf.chars() {
        within = (within && letter != ']') || letter == '[';
        if !within || letter == '[' {
            collapsed.push(letter);
        }
    }
    let list = collapsed.trim_end_matches("[]");
    let is_list = |field: &Field| {
        matches!(
            field.kind,
            Kind::Numbers { .. } | Kind::Corners { .. } | Kind::Written(Written::DaysOff(_))
        )
    };
    let is_it = |field: &&Field| {
        field.path == leaf || field.path == collapsed || (field.path == list && is_list(field))
    };
    all_fields().filter(is_it).collect()
}

#[test]
fn every_member_of_a_file_has_exactly_one_row() {
    for board in full_boards() {
        for leaf in leaves(&board).keys() {
            let rows: Vec<&str> = rows_of(leaf).iter().map(|field| field.path).collect();
            assert_eq!(rows.len(), 1, "{leaf} has the rows {rows:?}");
        }
    }
}

#[test]
fn every_row_matches_a_member_of_a_file() {
    let boards = full_boards();
    for field in all_fields() {
        let has =
            |board: &Board| field.value(board, 0).is_some() || field.value(board, 1).is_some();
        assert!(boards.iter().any(has), "{} is on no board", field.path);
    }
}

/// A value written through the row is at its path, and nothing else changes except what depends on it.
#[test]
fn a_row_reads_and_writes_exactly_the_place_named_by_its_path() {
    for board in full_boards() {
        let was = leaves(&board);
        for field in all_fields() {
            let entry = usize::from(field.is_of_entry() && field.value(&board, 1).is_some());
            let Some(before) = field.value(&board, entry) else {
                continue;
            };
            let path = field.path_of(entry);
            for share in [0.2, 0.9] {
                let mut changed = board.clone();
                let value = value_at(field, share);
                if value == before {
                    continue;
                }
                assert!(field.set(&mut changed, entry, &value), "{path}");
                assert_eq!(field.value(&changed, entry), Some(value.clone()), "{path}");
                let is = leaves(&changed);
                let differing = was
                    .keys()
                    .chain(is.keys())
                    .filter(|leaf| was.get(*leaf) != is.get(*leaf));
                for leaf in differing {
                    let within = path.trim_end_matches(".kind");
                    assert!(leaf.starts_with(within), "{path} changed {leaf}");
                }
                if let Value::Number(number) = value {
                    assert_eq!(is[&path].as_f64(), Some(number), "{path}");
                }
            }
        }
    }
}

#[test]
fn rows_are_found_by_path_and_labels_are_unique() {
    let mut labels = BTreeSet::new();
    for field in all_fields() {
        let entry = if field.is_of_entry() { 3 } else { 0 };
        let (found, at) = find(&field.path_of(entry)).unwrap();
        assert_eq!((found.path, at), (field.path, entry));
        assert!(labels.insert(field.label(0)), "{} is twice", field.label(0));
    }
    assert_eq!(
        find("filling.pot_life").unwrap().0.path,
        "filling.pot_life_min"
    );
    for wrong in [
        "",
        "pitsch",
        "screws[].count",
        "screws[x].count",
        "screws.count",
        "recess.at_mm[2]",
    ] {
        assert!(find(wrong).is_none(), "{wrong}");
    }
}

/// A limit offered by a message is accepted when it is typed.
#[test]
fn the_ends_of_a_range_are_accepted_as_shown() {
    for units in Units::ALL {
        let board = Board {
            units,
            ..full_boards().remove(0)
        };
        for field in all_fields() {
            let (Kind::Number(range)
            | Kind::Auto(range, _)
            | Kind::Open(range, _)
            | Kind::Ticked(range, _)) = field.kind
            else {
                continue;
            };
            let texts = |end| {
                [
                    range.quantity.shown(end, units),
                    range.quantity.typed(end, units),
                ]
            };
            for shown in [range.min, range.max].map(texts).concat() {
                let read = field.read(&shown, &board, 0);
                let path = field.path;
                let Ok(Value::Number(read)) = read else {
                    panic!("{path} refuses its end {shown}: {read:?}");
                };
                assert!(range.check(read).is_ok(), "{path} {shown}");
                let again = texts(read);
                // An end is accepted as such, not because of rounding.
                let plain = |text: &str| text.trim_start_matches("≈ ").to_owned();
                let is_it = again.iter().any(|text| plain(text) == plain(&shown));
                assert!(is_it, "{path}: {shown} is shown as {again:?}");
            }
        }
    }
}

#[test]
fn labels_and_hints_are_phrases() {
    for field in all_fields() {
        for words in [field.label(0), field.hint.into()] {
            assert!(!words.ends_with('.') && words.trim() == words, "{words}");
            let first = words.chars().next();
            let begins = first.is_none_or(|first| !first.is_lowercase() || words.starts_with("x "));
            assert!(begins, "{words}");
        }
    }
}

#[test]
fn hints_and_examples_never_mix_unit_systems() {
    let others: [(Units, &[&str]); 2] = [
        (Units::Mm, &[" in", "\"", " °F", " lb"]),
        (Units::INCH, &[" mm", " °C", " g/ml"]),
    ];
    for field in all_fields() {
        for (units, foreign) in others {
            let mut words = field.hint_in(units);
            if let Kind::Numbers { example, .. } = field.kind {
                words += &units.spell(example);
            }
            let has = |unit: &&&str| (0..10).any(|digit| words.contains(&format!("{digit}{unit}")));
            assert_eq!(foreign.iter().find(has), None, "{}: {words}", field.path);
            assert!(!words.contains(['{', '}', '|']), "{words}");
        }
    }
}

#[test]
fn a_number_out_of_range_is_reported_with_its_list_entry() {
    let mut board = full_boards().remove(0);
    assert_eq!(out_of_range(&board), []);
    for field in all_fields() {
        let Kind::Number(range) = field.kind else {
            continue;
        };
        let entry = usize::from(field.is_of_entry());
        if !field.set(
            &mut board,
            entry,
            &Value::Number(range.max.mul_add(2.0, 1.0)),
        ) {
            continue;
        }
        let told: Vec<String> = out_of_range(&board)
            .iter()
            .map(ToString::to_string)
            .collect();
        assert_eq!(told.len(), 1, "{told:?}");
        let name = field.label(entry).to_lowercase();
        assert!(
            told[0].to_lowercase().starts_with(&format!("{name}: ")),
            "{told:?}"
        );
        assert!(field.set(&mut board, entry, &Value::Number(range.min)));
    }
}

#[test]
fn differences_are_listed_with_old_and_new_values_in_the_makers_unit() {
    let before = full_boards().remove(0);
    let mut after = before.clone();
    after.units = Units::INCH;
    after.finish[1].dries = 36.0;
    after.pocket.radius = None;
    let told = changes(&before, &after);
    let dried = before.finish[1].dries;
    assert!(
        told.contains(&"units millimeters → inches, to 1/64".into()),
        "{told:?}"
    );
    let drying =
        |told: &&String| told.starts_with("layer 2 drying time ") && told.ends_with(" → 36 h");
    assert!(
        dried != 36.0 && told.iter().any(|told| drying(&told)),
        "{told:?}"
    );
    assert!(
        told.iter().any(|told| told.ends_with(" → auto")),
        "{told:?}"
    );
    assert_eq!(step_name(&before, &after).as_deref(), Some("3 fields"));
    assert_eq!(step_name(&before, &before), None);
}

/// Entries after a removed one are not listed as changed, and neither are the fields of a removed part.
#[test]
fn adding_or_removing_a_list_entry_or_a_part_is_one_difference() {
    let before = full_boards().remove(0);
    let mut after = before.clone();
    after.screws.remove(0);
    assert_eq!(
        step_name(&before, &after).as_deref(),
        Some("circles of screws")
    );
    after = before.clone();
    after.recess = None;
    assert_eq!(step_name(&before, &after).as_deref(), Some("rout a recess"));
    after = before.clone();
    after.pattern = geometry::Pattern::Arms { across: 5 };
    assert_eq!(step_name(&before, &after).as_deref(), Some("track shape"));
}

proptest! {
    #[test]
    fn different_boards_have_a_different_field(one in boards(), other in boards()) {
        prop_assert_ne!(&one, &other);
        prop_assert!(!differences(&one, &other).is_empty());
    }
}
