//! Boards that tests generate from the table: random ones, and ones with every part.

use proptest::prelude::*;

use super::{Field, Kind, Value, Written, all_fields};
use crate::{Board, Day, HoleId, Quantity, Rgb, Role};

/// Any board with all values in range.
pub fn boards() -> impl Strategy<Value = Board> {
    prop::collection::vec(0.0..1.0_f64, 500).prop_map(|shares| {
        let mut shares = shares.into_iter().cycle();
        filled(|field| value_at(field, shares.next().unwrap()))
    })
}

/// Boards that together have every part, every kind of every choice, and entries in every list.
pub fn full_boards() -> Vec<Board> {
    let most_kinds = all_fields()
        .map(|field| field.choices().len())
        .max()
        .unwrap();
    let full = (0..most_kinds).map(|turn| {
        let mut numbered = 0.0;
        filled(|field| {
            numbered += 1.0;
            let count = field.choices().len();
            match field.kind {
                Kind::Choice => Value::Choice(turn % count),
                Kind::Entries(_) => Value::Entries(2),
                Kind::Numbers { .. } | Kind::Corners { .. } => value_at(field, 0.5),
                // A distinct value, so that no two fields can be confused.
                _ => value_at(field, 0.6 + numbered / 4000.0),
            }
        })
    });
    full.collect()
}

/// A board on which each field has the value chosen for it, from first to last: a chosen value may add fields that come after
/// it.
fn filled(mut choose: impl FnMut(&'static Field) -> Value) -> Board {
    /// The most entries in a list of a generated board: more would hide what is wrong with one.
    const MOST_ENTRIES: usize = 3;
    let mut board = Board::default();
    for field in all_fields() {
        for entry in 0..MOST_ENTRIES {
            if field.value(&board, entry).is_some() && (entry == 0 || field.is_of_entry()) {
                let value = choose(field);
                assert!(
                    field.set(&mut board, entry, &value),
                    "{}: {value:?}",
                    field.path
                );
            }
        }
    }
    board
}

/// The day at this fraction of all days there are.
fn day(share: f64) -> Day {
    let days = jiff::Span::new().days((share * 70_000.0) as i64);
    Day::of(Day::FIRST.date() + days).unwrap()
}

/// A value of a field at this fraction of its range: 0 is the minimum, the first, off or none.
pub fn value_at(field: &Field, share: f64) -> Value {
    let place = |count: usize| (share * count as f64) as usize % count;
    let number = |share: f64| {
        let range = field.range();
        let number = range.min + share * (range.max.min(1e6) - range.min);
        if range.quantity == Quantity::Count {
            number.round()
        } else {
            number.clamp(range.min, range.max)
        }
    };
    match field.kind {
        Kind::Number(_) => Value::Number(number(share)),
        Kind::Auto(..) | Kind::Open(..) | Kind::Ticked(..) | Kind::AutoColor(_) if share < 0.5 => {
            Value::Open
        }
        Kind::Auto(..) | Kind::Open(..) | Kind::Ticked(..) => {
            Value::Number(number(2.0 * share - 1.0))
        }
        Kind::Choice => Value::Choice(place(field.choices().len())),
        Kind::Color | Kind::AutoColor(_) => {
            let parts = [1.0, 16.0, 256.0].map(|turn| (share * turn * 255.0) as u32 as u8);
            Value::Color(Rgb::new(parts[0], parts[1], parts[2]))
        }
        Kind::Tick | Kind::Part => Value::Tick(share >= 0.5),
        Kind::Text(letters) => {
            let part = if letters.max > 10.0 { 5.0 } else { 1.0 };
            let count = number(share / part) as usize;
            Value::Text("Ünï \"\\\n½".chars().cycle().take(count).collect())
        }
        Kind::Written(Written::MaybeDay(_)) if share < 0.5 => Value::Open,
        Kind::Written(form) => Value::Text(match form {
            Written::Day | Written::MaybeDay(_) => day(share).to_string(),
            Written::Zone => {
                ["", "America/New_York", "Europe/Berlin", "Nowhere/Else"][place(4)].into()
            }
            Written::Clock => format!("{:02}:{:02}", place(24), place(60)),
            Written::DaysOff(_) => {
                let days = (0..place(5))
                    .map(|at| format!("{}/{}", day(share * at as f64 / 5.0), day(share)));
                days.collect::<Vec<_>>().join("; ")
            }
        }),
        Kind::Hole(_) if share == 0.0 => Value::Text(HoleId::CENTER.to_string()),
        Kind::Hole(_) => {
            let role = Role::ALL[place(4)];
            Value::Text(HoleId::new(role, 1 + place(24) as u32, number(share) as u32).to_string())
        }
        Kind::Numbers { .. } => Value::Numbers(
            (0..place(5))
                .map(|at| number(share * at as f64 / 5.0))
                .collect(),
        ),
        Kind::Corners { .. } => Value::Numbers(
            (0..2 * place(5))
                .map(|at| number(share * at as f64 / 10.0))
                .collect(),
        ),
        Kind::Entries(_) => Value::Entries(place(4)),
    }
}
