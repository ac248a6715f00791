//! Boards generated from the table of fields: parts come and go, lists have zero to three entries, numbers are anywhere in
//! their ranges.

use board::{Board, Field, Kind, Quantity, Rgb, Value, field};

/// A generator of fractions from 0 to 1: the same seed gives the same sequence on every machine.
struct Shares(u64);

impl Shares {
    /// The next fraction, with the multiplier and increment of Knuth's MMIX, from memory.
    fn next(&mut self) -> f64 {
        self.0 = self
            .0
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        (self.0 >> 11) as f64 / (1_u64 << 53) as f64
    }
}

/// The board for a seed; boards that cannot be laid out are skipped.
pub fn board(number: u64) -> Board {
    const MOST_ENTRIES: usize = 3;
    let mut shares = Shares(number.wrapping_add(1));
    let mut board = Board {
        players: 1 + (number % 6) as u32,
        ..Board::default()
    };
    for field in field::all_fields().filter(|field| !is_left_alone(field)) {
        for entry in 0..MOST_ENTRIES {
            if field.value(&board, entry).is_some()
                && (entry == 0 || field.is_of_entry())
                && let Some(value) = value_at(field, shares.next())
            {
                field.set(&mut board, entry, &value);
            }
        }
    }
    board
}

/// Whether a field is left unchanged: the pattern and the edits, since most random ones cannot be laid out.
fn is_left_alone(field: &Field) -> bool {
    field::PATTERN_FIELDS.contains(&field) || field.path.starts_with("edits")
}

/// A value for a field at this fraction of its range; `None` leaves the field unchanged.
fn value_at(field: &Field, share: f64) -> Option<Value> {
    let range = field.range();
    let number = |share: f64| {
        let most = range.max.min(range.min + 60.0);
        let number = range.min + share * (most - range.min);
        match range.quantity {
            // A count of one or two is as likely as a larger one.
            Quantity::Count if share < 0.2 => range.min.max(1.0),
            Quantity::Count if share < 0.4 => range.min.max(2.0).min(range.max),
            Quantity::Count => number.round(),
            _ => number,
        }
    };
    let place = |count: usize| (share * count as f64) as usize % count;
    Some(match field.kind {
        Kind::Auto(..) | Kind::Open(..) | Kind::Ticked(..) | Kind::AutoColor(_) if share < 0.3 => {
            Value::Open
        }
        Kind::Number(_) | Kind::Auto(..) | Kind::Open(..) | Kind::Ticked(..) => {
            Value::Number(number(share))
        }
        Kind::Choice => Value::Choice(place(field.choices().len())),
        Kind::Color | Kind::AutoColor(_) => {
            let parts = [1.0, 16.0, 256.0].map(|turn| (share * turn * 255.0) as u32 as u8);
            Value::Color(Rgb::new(parts[0], parts[1], parts[2]))
        }
        Kind::Tick | Kind::Part => Value::Tick(share >= 0.3),
        Kind::Entries(_) => Value::Entries(place(4)),
        Kind::Text(_) if *field == field::SPECIES => {
            let all = workshop::species();
            Value::Text(all.get(place(all.len())).map_or("", |it| it.id).into())
        }
        Kind::Text(_)
        | Kind::Hole(_)
        | Kind::Written(_)
        | Kind::Numbers { .. }
        | Kind::Corners { .. } => return None,
    })
}
