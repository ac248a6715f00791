//! The differences between two documents, which name undo steps and list the changes made by a fix or a command.

use super::{Field, Value, fields_of};
use crate::range::spoken;
use crate::{Board, Measure, Units};

/// A field whose values differ between two boards.
#[derive(Debug, Clone, PartialEq)]
pub struct Difference {
    /// The field.
    pub field: &'static Field,
    /// The entry of a list that it belongs to, from 0.
    pub entry: usize,
    /// The value before.
    pub before: Value,
    /// The value after.
    pub after: Value,
}

/// The fields that both boards have and that differ, in the order of the document. If a list's length changed, only the list is
/// listed; if a part or a kind was added or removed, none of its fields are.
///
/// ```
/// use board::{Board, Value, field};
/// let before = Board::default();
/// let after = Board { players: 4, ..before.clone() };
/// let [one] = &field::differences(&before, &after)[..] else { panic!() };
/// assert_eq!((one.field, &one.after), (&field::PLAYERS, &Value::Number(4.0)));
/// ```
pub fn differences(before: &Board, after: &Board) -> Vec<Difference> {
    let mut found: Vec<Difference> = Vec::new();
    for (field, entry, now) in fields_of(after) {
        let of_changed_list = |list: &Difference| {
            matches!(list.after, Value::Entries(_))
                && field
                    .path
                    .strip_prefix(list.field.path)
                    .is_some_and(|rest| rest.starts_with("[]"))
        };
        let Some(was) = field.value(before, entry) else {
            continue;
        };
        if was != now && !found.iter().any(of_changed_list) {
            found.push(Difference {
                field,
                entry,
                before: was,
                after: now,
            });
        }
    }
    found
}

/// The name of a step from one board to another, for use within a sentence; `None` if they are the same.
///
/// ```
/// use board::{Board, field};
/// let before = Board::default();
/// let mut after = Board { pitch: 20.0, ..before.clone() };
/// assert_eq!(field::step_name(&before, &after).as_deref(), Some("hole spacing"));
/// after.players = 4;
/// assert_eq!(field::step_name(&before, &after).as_deref(), Some("2 fields"));
/// ```
pub fn step_name(before: &Board, after: &Board) -> Option<String> {
    match differences(before, after).as_slice() {
        [] => None,
        [one] => Some(spoken(&one.field.label(one.entry))),
        several => Some(format!("{} fields", several.len())),
    }
}

/// The fields that differ, each with its old and new value, in the unit of the new board; one that differs by less than is shown is
/// left out.
///
/// ```
/// use board::{Board, field};
/// let before = Board::default();
/// let after = Board { pitch: 20.0, ..before.clone() };
/// assert_eq!(field::changes(&before, &after), ["hole spacing 19 mm → 20 mm"]);
/// ```
pub fn changes(before: &Board, after: &Board) -> Vec<String> {
    let said = |field: &Field, value: &Value| said(field, value, after.units);
    let line = |one: Difference| {
        let name = spoken(&one.field.label(one.entry));
        let (old, new) = (said(one.field, &one.before), said(one.field, &one.after));
        (old != new).then(|| format!("{name} {old} → {new}"))
    };
    let all = differences(before, after).into_iter();
    all.filter_map(line).collect()
}

/// A field and its value, where it belongs to a part or an entry that the board did not have before; none elsewhere.
///
/// ```
/// use board::{Board, Grooves, field};
/// let before = Board::default();
/// let after = Board { grooves: Some(Grooves::default()), ..before.clone() };
/// let said = field::begun(&before, &after, &field::GROOVE_WIDTH, 0);
/// assert_eq!(said.as_deref(), Some("groove width 2 mm"));
/// assert_eq!(field::begun(&after, &after, &field::GROOVE_WIDTH, 0), None);
/// ```
pub fn begun(before: &Board, after: &Board, field: &Field, entry: usize) -> Option<String> {
    if field.value(before, entry).is_some() {
        return None;
    }
    let value = field.value(after, entry)?;
    let name = spoken(&field.label(entry));
    Some(format!("{name} {}", said(field, &value, after.units)))
}

/// A value as a report shows it.
fn said(field: &Field, value: &Value, units: Units) -> String {
    match value {
        Value::Number(number) => Measure::new(field.range().quantity, *number).shown(units),
        other => field.shown(other, units),
    }
}
