//! `ringwright set`: fields of a board changed by their paths in its file, all of them or none.

use std::io::Write;
use std::path::PathBuf;
use std::process::ExitCode;

use board::field::{self, all_fields};
use board::{Board, Field, Kind, Shop, Value, write_board};
use clap::Args;
use workshop::{Wishes, propose};

use super::read::board_of;
use super::{Failure, print_lines};
use crate::files::write_atomic;
use crate::host::Desktop;
use crate::shop::KeptShop;

/// Options of `ringwright set`.
#[derive(Debug, Args)]
pub struct Set {
    /// The board file
    file: PathBuf,
    /// Fields and their values, in pairs: a number in any unit of its kind (19, 3/4, 23 1/2 - 2*3/8), a word of a
    /// choice, auto, none for a part or an entry that is there (screws[1] none), default for the value of a new board
    #[arg(value_name = "PATH VALUE", required = true, allow_hyphen_values = true)]
    changes: Vec<String>,
}

impl Set {
    /// Changes the file, and prints the changes.
    ///
    /// # Errors
    /// Where the file cannot be read or written, a field is unknown, or a value is not one of its own; the file is then as
    /// it was.
    pub fn run(&self, out: &mut dyn Write, errors: &mut dyn Write) -> Result<ExitCode, Failure> {
        let before = board_of(&self.file, errors)?;
        let mut board = before.clone();
        let (pairs, rest) = self.changes.as_chunks();
        if let [path] = rest {
            return Err(format!("{path} has no value; type PATH VALUE, as in pitch 3/4").into());
        }
        let shop = KeptShop::load(&Desktop);
        // A failure to write to standard error is ignored: there is nowhere left to report it.
        let _ = shop
            .fault()
            .map(|fault| writeln!(errors, "ringwright: {fault}"));
        for [path, value] in pairs {
            change(&mut board, path, value, &shop.shop)?;
        }
        if board == before {
            return print_lines(out, &["already set".into()]);
        }
        write_atomic(&self.file, write_board(&board).as_bytes())?;
        let mut lines = field::changes(&before, &board);
        // A part that was added is one change; the values that were typed for it are said beside it.
        let begun = pairs.iter().filter_map(|[path, _]| {
            let (field, entry) = field::find(path)?;
            field::begun(&before, &board, field, entry)
        });
        lines.extend(begun);
        print_lines(out, &lines)
    }
}

/// Changes one field; a value for a member of a part or list adds that part or entry, which begins with the shop's values.
fn change(board: &mut Board, path: &str, typed: &str, shop: &Shop) -> Result<(), Failure> {
    let Some((field, entry)) = field::find(path) else {
        return take_out(board, path, typed);
    };
    let before = board.clone();
    field.begin(board, entry);
    shop.give_new(&before, board);
    if field.value(board, entry).is_none() {
        return Err(missing(board, path, field, entry));
    }
    let value = match usual(board, field, typed) {
        Some(value) => value,
        None => field
            .read(typed, board, entry)
            .map_err(|error| format!("{path}: {error}"))?,
    };
    let before = board.clone();
    field.set(board, entry, &value);
    shop.give_new(&before, board);
    Ok(())
}

/// The value of the field on a new board in the board's unit, if `typed` is the word for the default. `None` for a text or a
/// name, because `default` is itself a valid one, and for fields that choose their own first value.
fn usual(board: &Board, field: &Field, typed: &str) -> Option<Value> {
    let has = !matches!(
        field.kind,
        Kind::Text(_) | Kind::Hole(_) | Kind::Part | Kind::Ticked(..)
    );
    if !has || !typed.trim().eq_ignore_ascii_case("default") {
        return None;
    }
    let wishes = Wishes {
        units: Some(board.units),
        ..Wishes::default()
    };
    let new = propose(&wishes).ok()?;
    field.value(&field.brought(&new)?, 0)
}

/// Takes one entry out of a list.
fn take_out(board: &mut Board, path: &str, typed: &str) -> Result<(), Failure> {
    let (list, entry, named) = field::find_in_list(path).ok_or_else(|| unknown(path))?;
    if !typed.trim().eq_ignore_ascii_case("none") {
        return Err(format!(
            "{path}: \"{typed}\" is not a value for a list entry; type none to remove it"
        )
        .into());
    }
    if list.take_out(board, entry, named) {
        return Ok(());
    }
    let at = list.path_of(entry);
    let there = match (list.kind, list.value(board, entry)) {
        (Kind::Corners { .. }, Some(Value::Numbers(numbers))) => numbers.len() / 2,
        (_, Some(Value::Numbers(numbers))) => numbers.len(),
        (_, Some(Value::Entries(count))) => count,
        _ => 0,
    };
    let has = match there {
        0 => "has no entries".into(),
        1 => format!("has {at}[0] alone"),
        _ => format!("has {at}[0] to {at}[{}]", there - 1),
    };
    Err(format!("{path}: the list {has}").into())
}

/// The reason why a board has no such field, and the change that would bring it.
fn missing(board: &Board, path: &str, field: &Field, entry: usize) -> Failure {
    let way = match field.brought_by(board, entry) {
        Some((kind, word)) => format!("set {} to {word} first", kind.path_of(entry)),
        None => "add the next entry of its list first".into(),
    };
    format!("{path}: the board has no such field now; {way}").into()
}

/// The error that no field has the name, with the one that may be meant: by its path, by the name at its end, or by its
/// label.
pub fn unknown(path: &str) -> Failure {
    let typed = field::plain(&path.to_lowercase());
    let alike = |field: &&Field| {
        let plain = field::plain(field.path);
        let end = plain.rsplit('.').next().unwrap_or_default();
        let names = [&plain, end, &field.label.to_lowercase()];
        let alike = names.map(|name| strsim::normalized_damerau_levenshtein(name, &typed));
        (alike.into_iter().fold(0.0, f64::max) * 1e6) as u32
    };
    let nearest = all_fields()
        .max_by_key(alike)
        .map_or("", |field| field.path);
    format!("{path}: there is no such field; did you mean {nearest}?").into()
}
