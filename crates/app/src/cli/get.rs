//! `ringwright get`: the fields of a board, by their paths in its file.

use std::io::Write;
use std::path::PathBuf;
use std::process::ExitCode;

use board::field::{self, fields_of};
use board::{Board, Field, Kind, Value};
use clap::Args;

use super::read::board_of;
use super::set::unknown;
use super::{Failure, print_lines};

/// Options of `ringwright get`.
#[derive(Debug, Args)]
pub struct Get {
    /// The board file
    file: PathBuf,
    /// The fields whose values to print; without any, every field with its value and its range
    #[arg(value_name = "PATH")]
    paths: Vec<String>,
}

impl Get {
    /// Prints the fields.
    ///
    /// # Errors
    /// Where the file cannot be read, or has no such field.
    pub fn run(&self, out: &mut dyn Write, errors: &mut dyn Write) -> Result<ExitCode, Failure> {
        let board = board_of(&self.file, errors)?;
        let mut lines = Vec::new();
        for path in &self.paths {
            lines.push(value_at(path, &board)?);
        }
        if lines.is_empty() {
            lines = table(&board);
        }
        print_lines(out, &lines)
    }
}

/// The value of one field, as `set` takes it.
fn value_at(path: &str, board: &Board) -> Result<String, Failure> {
    let (field, entry) = field::find(path).ok_or_else(|| unknown(path))?;
    let value = field.value(board, entry);
    let value = value.ok_or_else(|| format!("{path}: the board has no such field now"))?;
    Ok(shown(field, entry, &value, board))
}

/// Every field, its value, and its range, in columns.
fn table(board: &Board) -> Vec<String> {
    let rows: Vec<[String; 3]> = fields_of(board)
        .map(|(field, entry, value)| {
            let may_be = field.may_be(board, entry);
            [
                field.path_of(entry),
                shown(field, entry, &value, board),
                may_be,
            ]
        })
        .collect();
    let widest = |column: usize| {
        let widths = rows.iter().map(|row| row[column].chars().count());
        widths.max().unwrap_or_default().min(40)
    };
    let (paths, values) = (widest(0), widest(1));
    let line =
        |[path, value, may_be]: &[String; 3]| format!("{path:paths$}  {value:values$}  {may_be}");
    rows.iter().map(line).collect()
}

/// A value in the board's unit; of a choice the word of the file.
fn shown(field: &Field, entry: usize, value: &Value, board: &Board) -> String {
    match field.kind {
        Kind::Choice => field.written(board, entry).unwrap_or_default(),
        _ => field.shown(value, board.units),
    }
}
