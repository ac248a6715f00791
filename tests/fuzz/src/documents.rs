//! Random documents with every number in its range: made from the table of fields, so that a new field is tried without a
//! change here.

use board::{Board, Day, Field, HoleId, Kind, Quantity, Range, Rgb, Role, Value, Written, field};

use crate::Draw;

/// A document that differs from one of several in some fields.
///
/// Most differ in a few fields, so that most of the rest stays valid; one in eight differs in many.
pub fn document(draw: &mut Draw, from: &[Board]) -> Board {
    let mut board = draw.one(from).clone();
    let changes = match draw.below(8) {
        0 => 20 + draw.below(60),
        _ => 1 + draw.below(8),
    };
    for _ in 0..changes {
        change(draw, &mut board);
    }
    board
}

/// Changes one field that a board has.
fn change(draw: &mut Draw, board: &mut Board) {
    let fields: Vec<_> = field::fields_of(board).collect();
    let (field, entry, now) = draw.one(&fields).clone();
    let value = value(draw, field, &now);
    if field.check(&value, entry).is_ok() {
        field.set(board, entry, &value);
    }
}

/// A value that a field can have.
fn value(draw: &mut Draw, field: &Field, now: &Value) -> Value {
    let range = field.range();
    match field.kind {
        Kind::Auto(..) | Kind::Open(..) | Kind::Ticked(..) | Kind::AutoColor(_)
            if draw.once_in(3) =>
        {
            Value::Open
        }
        Kind::Number(_) | Kind::Auto(..) | Kind::Open(..) | Kind::Ticked(..) => {
            let now = match now {
                Value::Number(number) => *number,
                _ => range.min,
            };
            Value::Number(number(draw, range, now))
        }
        Kind::Choice => Value::Choice(draw.below(field.choices().len())),
        Kind::Color | Kind::AutoColor(_) => {
            let parts = draw.bits().to_le_bytes();
            Value::Color(Rgb::new(parts[0], parts[1], parts[2]))
        }
        Kind::Tick | Kind::Part => Value::Tick(draw.once_in(2)),
        Kind::Text(letters) => {
            let most = if draw.once_in(10) { letters.max } else { 8.0 };
            let count = draw.below(most as usize + 1);
            let letter = |_| *draw.one(LETTERS);
            Value::Text((0..count).map(letter).collect())
        }
        Kind::Written(form) => written(draw, form),
        Kind::Hole(numbers) => Value::Text(hole(draw, numbers).to_string()),
        Kind::Numbers { each, count, .. } => numbers(draw, each, count, 1),
        Kind::Corners { each, count } => numbers(draw, each, count, 2),
        Kind::Entries(count) => Value::Entries(draw.below(count.max.min(4.0) as usize + 1)),
    }
}

/// Letters that may cause trouble in files and on paper.
const LETTERS: &[char] = &[
    'a', 'B', '7', ' ', '-', '=', '+', '@', '"', '\'', '\\', '/', ',', ';', ':', '<', '&', '%',
    '(', ')', '\n', '\t', 'é', 'ß', '½', '板', '𝔸', '\u{202e}', '\u{7f}',
];

/// A number in a range: an end, next to an end, zero, near the current value, or any.
fn number(draw: &mut Draw, range: Range, now: f64) -> f64 {
    let (min, max) = (range.min, range.max.min(1e9));
    let wide = max - min;
    let number = match draw.below(10) {
        0 => min,
        1 => max,
        2 => 0.0,
        3 => -0.0,
        4 => min + f64::MIN_POSITIVE,
        5 => min + wide * 1e-9 * draw.share(),
        6 => min + wide * draw.share(),
        7 => min + wide * draw.share() * draw.share() * draw.share(),
        _ => now * (0.5 + draw.share()),
    };
    let number = if range.quantity == Quantity::Count {
        number.round()
    } else {
        number
    };
    if range.check(number).is_ok() {
        number
    } else {
        now
    }
}

/// A list of numbers, `each_time` per entry.
fn numbers(draw: &mut Draw, each: Range, count: Range, each_time: usize) -> Value {
    let count = match draw.below(20) {
        0 => count.max.min(400.0) as usize,
        _ => draw.below(count.max.min(6.0) as usize + 1),
    };
    let (mut list, mut now) = (Vec::new(), each.min.max(1.0));
    for _ in 0..count * each_time {
        now = number(draw, each, now);
        list.push(now);
    }
    Value::Numbers(list)
}

/// The name of a hole that may be on a board.
fn hole(draw: &mut Draw, numbers: Range) -> HoleId {
    if draw.once_in(8) {
        return HoleId::CENTER;
    }
    let role = *draw.one(&[Role::Track, Role::Home, Role::Start, Role::Extra]);
    let most = if draw.once_in(4) { numbers.max } else { 6.0 };
    HoleId::new(
        role,
        1 + draw.below(6) as u32,
        1 + draw.below(most as usize) as u32,
    )
}

/// A text in one of the special notations.
fn written(draw: &mut Draw, form: Written) -> Value {
    Value::Text(match form {
        Written::MaybeDay(_) if draw.once_in(2) => return Value::Open,
        Written::Day | Written::MaybeDay(_) => day(draw),
        Written::Zone => {
            (*draw.one(&["", "America/New_York", "Pacific/Kiritimati", "No/Where"])).into()
        }
        Written::Clock => format!("{:02}:{:02}", draw.below(24), draw.below(60)),
        Written::DaysOff(_) => {
            let days: Vec<_> = (0..draw.below(4)).map(|_| day(draw)).collect();
            days.join("; ")
        }
    })
}

/// A day in the current years, or occasionally any day.
fn day(draw: &mut Draw) -> String {
    let (first, years) = if draw.once_in(8) {
        (i32::from(Day::FIRST.date().year()), 190)
    } else {
        (2025, 4)
    };
    let year = first + i32::try_from(draw.below(years)).unwrap_or_default();
    format!(
        "{year:04}-{:02}-{:02}",
        1 + draw.below(12),
        1 + draw.below(28)
    )
}
