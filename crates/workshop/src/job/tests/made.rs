//! Random boards made from the table of fields: every part, choice and list comes and goes, and numbers are within their
//! ranges.

use board::{Board, Field, Kind, Quantity, Rgb, Value, field};
use proptest::prelude::*;

/// Any board that can be laid out. The pattern and the hand edits stay unchanged: no operation depends on them, and most random
/// ones could not be laid out.
pub fn boards() -> impl Strategy<Value = Board> {
    prop::collection::vec(0.0..1.0_f64, 400).prop_filter_map("cannot be laid out", |shares| {
        let board = filled(&shares);
        board::layout(&board).is_ok().then_some(board)
    })
}

/// A board on which each field has the value of its share, from the first field to the last.
fn filled(shares: &[f64]) -> Board {
    const MOST_ENTRIES: usize = 3;
    let mut shares = shares.iter().copied().cycle();
    let mut board = Board::default();
    for field in field::all_fields().filter(|field| !is_left_alone(field)) {
        for entry in 0..MOST_ENTRIES {
            if field.value(&board, entry).is_some() && (entry == 0 || field.is_of_entry()) {
                let share = shares.next().unwrap_or_default();
                if let Some(value) = value_at(field, share) {
                    assert!(field.set(&mut board, entry, &value), "{}", field.path);
                }
            }
        }
    }
    board
}

fn is_left_alone(field: &Field) -> bool {
    let pattern = field::PATTERN_FIELDS.contains(&field);
    pattern || field.path.starts_with("edits")
}

/// A value for a field by its share of the range; none leaves the field unchanged.
fn value_at(field: &Field, share: f64) -> Option<Value> {
    let range = field.range();
    let number = |share: f64| {
        let most = range.max.min(range.min + 200.0);
        let number = range.min + share * (most - range.min);
        match range.quantity {
            Quantity::Count => number.round(),
            _ => number,
        }
    };
    let place = |count: usize| (share * count as f64) as usize % count;
    Some(match field.kind {
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
        Kind::Entries(_) => Value::Entries(place(4)),
        Kind::Text(_) if *field == field::SPECIES => {
            let all = crate::species();
            Value::Text(
                all.get(place(all.len() + 1))
                    .map_or("driftwood", |it| it.id)
                    .into(),
            )
        }
        Kind::Text(_)
        | Kind::Hole(_)
        | Kind::Written(_)
        | Kind::Numbers { .. }
        | Kind::Corners { .. } => return None,
    })
}
