//! The document as a file: JSON with a format number.
//!
//! The layout of each format number is frozen once released; a file with an older number is read with the structures of its
//! time and brought up to date. A file with a newer number is refused and left unchanged.

mod old;
#[cfg(test)]
mod rich;
mod shape;
#[cfg(test)]
mod tests;

pub use old::article_now;
use serde::de::DeserializeSeed as _;
use serde::{Deserialize, Serialize};
use shape::Beside;

use crate::{Board, OutOfRange, out_of_range};

/// The format number that this program writes, and the newest it reads.
pub const FORMAT: u32 = 1;
/// The largest file that is read, in bytes; a board takes a few thousand.
pub const LARGEST_FILE: usize = 16 * 1024 * 1024;

/// The reasons why a file cannot be read as a board.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum FileError {
    /// Too large for a board.
    #[error(
        "the file has {bytes} bytes, over the {LARGEST_FILE} a board file may have; it is no board file"
    )]
    TooLarge {
        /// Its size.
        bytes: usize,
    },
    /// Empty.
    #[error("the file is empty; it is no board file")]
    Empty,
    /// Not text.
    #[error("the file is no text: byte {at} is not UTF-8; it is no board file")]
    NotText {
        /// Number of bytes of valid text before that.
        at: usize,
    },
    /// Ends in the middle.
    #[error("the file ends too early, at line {line}, column {column}; part of it is missing")]
    Truncated {
        /// Line, from 1.
        line: usize,
        /// Column, from 1.
        column: usize,
    },
    /// Not JSON.
    #[error("the file is not JSON at line {line}, column {column}: {reason}")]
    NotJson {
        /// Line, from 1.
        line: usize,
        /// Column, from 1.
        column: usize,
        /// What the JSON reader expected.
        reason: String,
    },
    /// JSON, but not a board.
    #[error("the file is JSON but no board file: it has no whole \"format\" number of 1 or more")]
    NoFormat,
    /// Written by a newer program.
    #[error(
        "the file has format {found}; this Ringwright reads formats up to {FORMAT}, so a newer one wrote it; nothing was changed"
    )]
    Newer {
        /// Its format number.
        found: u64,
    },
    /// A field that is missing, unknown, or of the wrong kind.
    #[error("the board file is wrong at line {line}, column {column}, in {field}: {reason}")]
    Field {
        /// The path to the field.
        field: String,
        /// Line, from 1.
        line: usize,
        /// Column, from 1.
        column: usize,
        /// What is wrong with it.
        reason: String,
    },
    /// Numbers outside their ranges.
    #[error("the board file has numbers that no board can have: {}", listed(.0))]
    OutOfRange(Vec<OutOfRange>),
}

/// All numbers out of range, so that a maker need not load the file once for each.
fn listed(faults: &[OutOfRange]) -> String {
    let shown: Vec<String> = faults.iter().take(5).map(ToString::to_string).collect();
    let more = faults.len() - shown.len();
    let rest = if more > 0 {
        format!("; and {more} more")
    } else {
        String::new()
    };
    shown.join("; ") + &rest
}

/// The text of a board's file, ending in a line break; equal boards give equal text.
///
/// ```
/// use board::{Board, read_board, write_board};
/// let board = Board { title: "Six lobes".into(), ..Board::default() };
/// let text = write_board(&board);
/// assert_eq!(read_board(text.as_bytes()).unwrap(), board);
/// ```
pub fn write_board(board: &Board) -> String {
    // Serializing a board cannot fail: its keys are text, and serde_json writes any number.
    let mut text = serde_json::to_string_pretty(&Written::of(board)).unwrap_or_default();
    text.push('\n');
    text
}

/// Reads a board from the bytes of its file.
///
/// # Errors
/// [`FileError`] with what is wrong and where.
///
/// ```
/// use board::{Board, read_board, write_board};
/// let board = Board::default();
/// assert_eq!(read_board(write_board(&board).as_bytes()), Ok(board));
/// ```
pub fn read_board(bytes: &[u8]) -> Result<Board, FileError> {
    open_board(bytes).map(|opened| opened.board)
}

/// A board read from a file, with remarks on how it was read.
#[derive(Debug, Clone, PartialEq)]
pub struct Opened {
    /// The board.
    pub board: Board,
    /// A sentence for each thing that an older file said twice.
    pub remarks: Vec<String>,
}

/// Reads a board from the bytes of its file, with remarks if the file is an older one.
///
/// # Errors
/// The errors of [`read_board`].
///
/// ```
/// use board::{Board, open_board, write_board};
/// let opened = open_board(write_board(&Board::default()).as_bytes())?;
/// assert!(opened.remarks.is_empty());
/// # Ok::<(), board::FileError>(())
/// ```
pub fn open_board(bytes: &[u8]) -> Result<Opened, FileError> {
    let text = text_of(bytes)?;
    match format_of(text)? {
        0 => Err(FileError::NoFormat),
        1 => {
            let (text, remarks) = old::brought_up_to_date(text);
            let board = read_format_1(&text)?;
            Ok(Opened { board, remarks })
        }
        found => Err(FileError::Newer { found }),
    }
}

#[derive(Serialize)]
/// A board as written to a file, after the name and number of the format.
struct Written<'a> {
    format: u32,
    board: &'a Board,
}

impl<'a> Written<'a> {
    /// The board in the newest format.
    const fn of(board: &'a Board) -> Self {
        Self {
            format: FORMAT,
            board,
        }
    }
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
/// The members of a format 1 file.
struct Format1 {
    #[serde(rename = "format")]
    _format: u32,
    board: Board,
}

/// The text of a file, without a byte order mark at its beginning.
fn text_of(bytes: &[u8]) -> Result<&str, FileError> {
    if bytes.len() > LARGEST_FILE {
        return Err(FileError::TooLarge { bytes: bytes.len() });
    }
    let text = str::from_utf8(bytes).map_err(|error| FileError::NotText {
        at: error.valid_up_to(),
    })?;
    let text = text.strip_prefix('\u{feff}').unwrap_or(text);
    if text.trim().is_empty() {
        Err(FileError::Empty)
    } else {
        Ok(text)
    }
}

/// The format number, read before anything else in the file is checked.
fn format_of(text: &str) -> Result<u64, FileError> {
    let value: serde_json::Value = serde_json::from_str(text).map_err(|error| not_json(&error))?;
    value
        .get("format")
        .and_then(serde_json::Value::as_u64)
        .ok_or(FileError::NoFormat)
}

/// The reason why a text is not JSON, with line and column.
fn not_json(error: &serde_json::Error) -> FileError {
    let (line, column) = (error.line(), error.column());
    if error.is_eof() {
        return FileError::Truncated { line, column };
    }
    FileError::NotJson {
        line,
        column,
        reason: reason(error),
    }
}

/// The most characters of a path and of a reason in a message: a broken file may have names of any length.
const MOST_OF_PATH: usize = 80;
const MOST_OF_REASON: usize = 300;

/// The beginning of a text, with a mark if it was cut.
fn shortened(text: &str, most: usize) -> String {
    match text.char_indices().nth(most) {
        Some((end, _)) => format!("{}…", &text[..end]),
        None => text.into(),
    }
}

/// The error's message in a maker's words, without its position, which has its own fields.
fn reason(error: &serde_json::Error) -> String {
    let message = error.to_string();
    let place = format!(" at line {} column {}", error.line(), error.column());
    let message = message.strip_suffix(&place).unwrap_or(&message);
    let mut plain = shortened(message, MOST_OF_REASON);
    for (theirs, ours) in PLAIN_WORDS {
        plain = plain.replace(theirs, ours);
    }
    for theirs in ["expected struct ", "expected internally tagged enum "] {
        if let Some((found, _)) = plain.split_once(theirs) {
            // A list of the wrong length was read as an object's members in order.
            let found = if found.starts_with("invalid length") {
                "wrong kind: list, "
            } else {
                found
            };
            return format!("{found}expected an object");
        }
    }
    plain
}

/// The JSON reader's technical words, and their plain equivalents.
const PLAIN_WORDS: [(&str, &str); 11] = [
    ("invalid type: floating point", "wrong kind: number"),
    ("invalid type: integer", "wrong kind: number"),
    ("invalid type: map", "wrong kind: object"),
    ("invalid type: sequence", "wrong kind: list"),
    ("invalid type: string", "wrong kind: text"),
    ("invalid type", "wrong kind"),
    ("unknown variant", "unknown word"),
    ("expected u32", "expected a whole number of 0 or more"),
    ("expected f64", "expected a number"),
    ("expected a string", "expected text"),
    ("expected a sequence", "expected a list"),
];

/// Reads the board in a format 1 file and checks its ranges.
fn read_format_1(text: &str) -> Result<Board, FileError> {
    let mut reader = serde_json::Deserializer::from_str(text);
    let file: Format1 = serde_path_to_error::deserialize(&mut reader).map_err(wrong_field)?;
    has_the_shape_of(&file.board, text)?;
    let faults = out_of_range(&file.board);
    if faults.is_empty() {
        Ok(file.board)
    } else {
        Err(FileError::OutOfRange(faults))
    }
}

/// Refuses a text whose members or JSON types differ from what the program would write for the board read from it.
fn has_the_shape_of(board: &Board, text: &str) -> Result<(), FileError> {
    let written = serde_json::to_value(Written::of(board)).unwrap_or_default();
    let mut reader = serde_json::Deserializer::from_str(text);
    let mut track = serde_path_to_error::Track::new();
    let tracked = serde_path_to_error::Deserializer::new(&mut reader, &mut track);
    let read = Beside(&written).deserialize(tracked);
    read.map_err(|error| wrong_field(serde_path_to_error::Error::new(track.path(), error)))
}

/// The wrong member, by its path in the file, with its position.
fn wrong_field(error: serde_path_to_error::Error<serde_json::Error>) -> FileError {
    let field = match error.path().to_string().as_str() {
        "." => "the outermost object".into(),
        path => shortened(path, MOST_OF_PATH),
    };
    let inner = error.into_inner();
    let reason = match reason(&inner) {
        // The text is known to be JSON here, so only one of a few words can have been expected.
        bare if bare == "expected value" => "wrong kind, expected text".into(),
        said => said,
    };
    FileError::Field {
        field,
        line: inner.line(),
        column: inner.column(),
        reason,
    }
}
