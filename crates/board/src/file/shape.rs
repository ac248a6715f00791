//! The shape of a file, compared with what the program would write for the board read from it.
//!
//! Derived readers accept more than writers write: a list for an object, `{"mm": null}` for `"mm"`, and any additional members
//! beside the `kind` of a variant without members. A value typed there would be silently lost.

use core::fmt;

use serde::de::{Deserialize, DeserializeSeed, Deserializer, Error, MapAccess, SeqAccess, Visitor};
use serde_json::{Map, Value};

/// Reads a value again, comparing it with the one the program would write, and refuses a different JSON type.
pub struct Beside<'a>(pub &'a Value);

impl<'de> DeserializeSeed<'de> for Beside<'_> {
    type Value = ();

    fn deserialize<D: Deserializer<'de>>(self, reader: D) -> Result<(), D::Error> {
        match self.0 {
            Value::Object(members) => reader.deserialize_map(Members(members)),
            Value::Array(items) => reader.deserialize_seq(Items(items)),
            Value::String(_) => String::deserialize(reader).map(drop),
            Value::Number(_) => f64::deserialize(reader).map(drop),
            Value::Bool(_) => bool::deserialize(reader).map(drop),
            Value::Null => Deserialize::deserialize(reader),
        }
    }
}

struct Members<'a>(&'a Map<String, Value>);

impl<'de> Visitor<'de> for Members<'_> {
    type Value = ();

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("an object")
    }

    fn visit_map<A: MapAccess<'de>>(self, mut map: A) -> Result<(), A::Error> {
        while let Some(name) = map.next_key::<String>()? {
            let Some(value) = self.0.get(&name) else {
                let known: Vec<String> = self.0.keys().map(|known| format!("`{known}`")).collect();
                let known = known.join(", ");
                let words = format!("unknown field `{name}`, expected {known}");
                return Err(A::Error::custom(words));
            };
            map.next_value_seed(Beside(value))?;
        }
        Ok(())
    }
}

struct Items<'a>(&'a [Value]);

impl<'de> Visitor<'de> for Items<'_> {
    type Value = ();

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("a list")
    }

    fn visit_seq<A: SeqAccess<'de>>(self, mut list: A) -> Result<(), A::Error> {
        let mut items = self.0.iter();
        let mut read = || {
            items
                .next()
                .map(|item| list.next_element_seed(Beside(item)))
        };
        while read().transpose()?.is_some() {}
        Ok(())
    }
}

#[cfg(test)]
mod tests {
    use super::super::rich::rich_boards;
    use super::super::tests::edited;
    use crate::{Board, FileError, read_board, write_board};

    /// The text with the object that starts at the end of a line replaced by a list of its members' values, which derived
    /// readers accept for the object.
    fn listed(text: &str, line: usize) -> String {
        let indent = |line: &str| line.len() - line.trim_start().len();
        let lines: Vec<&str> = text.lines().collect();
        let outer = indent(lines[line]);
        let mut within = line + 1..lines.len();
        let end = within.find(|at| indent(lines[*at]) == outer).unwrap();
        let mut listed: Vec<String> = lines.iter().map(ToString::to_string).collect();
        listed[line] = lines[line].replace('{', "[");
        listed[end] = lines[end].replace('}', "]");
        for at in line + 1..end {
            if let Some((_, value)) = lines[at].split_once(": ")
                && indent(lines[at]) == outer + 2
            {
                listed[at] = value.into();
            }
        }
        listed.join("\n")
    }

    #[test]
    fn a_list_in_place_of_any_object_is_refused_with_its_position() {
        for text in rich_boards().iter().map(write_board) {
            let objects = text.lines().enumerate().skip(2);
            let objects = objects.filter(|(_, line)| line.ends_with('{'));
            for (at, begins) in objects {
                let read = read_board(listed(&text, at).as_bytes());
                let Err(FileError::Field {
                    field,
                    line,
                    reason,
                    ..
                }) = read
                else {
                    panic!("{begins} as a list: {read:?}")
                };
                let name = begins.split('"').nth(1).unwrap_or("]");
                assert!(field.ends_with(name), "{begins} is told of as {field}");
                let said = match name {
                    "paper" => "wrong kind, expected text",
                    _ => "wrong kind: list, expected an object",
                };
                assert_eq!((line, reason.as_str()), (at + 1, said), "{field}");
            }
        }
    }

    /// Only the first members, where the others have defaults, or none at all.
    #[test]
    fn a_short_list_is_refused_as_an_object_too() {
        for (place, list) in [
            ("jig", "[1]"),
            ("jig", "[]"),
            ("blank", "[550, 20, 5]"),
            ("blank", "[550]"),
            ("errors", "[]"),
        ] {
            let mut file =
                serde_json::from_str::<super::Value>(&write_board(&Board::default())).unwrap();
            file["board"][place] = serde_json::from_str(list).unwrap();
            let error = read_board(file.to_string().as_bytes()).unwrap_err();
            let said = format!("in board.{place}: wrong kind: list, expected an object");
            assert!(error.to_string().ends_with(&said), "{error}");
        }
    }

    /// Other shapes that derived readers would accept, with what they replace: a word for an object, and unknown members; each
    /// with the field and the reason.
    const OTHERWISE: [(&str, &str, &str); 9] = [
        (
            r#""mm""#,
            r#"{"mm": null}"#,
            "units: wrong kind: object, expected text",
        ),
        (
            r#""auto""#,
            r#"{"auto": null}"#,
            "pocket.bearing_deg: wrong kind: object, expected text",
        ),
        (
            r#""a4""#,
            r#"{"a4": null}"#,
            "template.paper: wrong kind: object, expected text",
        ),
        (
            r#""a4""#,
            r#"{"custom": [254, 508]}"#,
            "template.paper.custom: wrong kind: list, expected an object",
        ),
        (
            r#""a4""#,
            r#"["a4"]"#,
            "template.paper: wrong kind, expected text",
        ),
        (
            r#""forstner""#,
            r#"{"forstner": null}"#,
            "center.bore.bottom: wrong kind: object, expected text",
        ),
        (
            r#""ring""#,
            r#""ring", "depth": 0.2"#,
            "pattern: unknown field `depth`, expected `kind`",
        ),
        (
            r#""ring""#,
            r#""ring", "kind": "ring""#,
            "pattern: duplicate field `kind`",
        ),
        (
            r#""whole""#,
            r#""whole", "count": 3"#,
            "panel.build: unknown field `count`, expected `kind`",
        ),
    ];

    #[test]
    fn shapes_the_program_would_not_write_are_refused() {
        for (replaced, by, told) in OTHERWISE {
            let error = edited(replaced, by).unwrap_err().to_string();
            let told = format!(", in board.{told}");
            assert!(error.ends_with(&told), "{by}: {error}");
        }
    }
}
