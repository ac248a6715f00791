//! Reading a board file for a command.

use std::path::Path;

use board::{Board, LARGEST_FILE, read_board};

use super::Failure;
use crate::files::read_limited;

/// The board of a file.
///
/// # Errors
/// A sentence with the file's path at its end.
pub fn board_of(path: &Path) -> Result<Board, Failure> {
    let bytes = read_limited(path, LARGEST_FILE as u64)?;
    read_board(&bytes).map_err(|error| format!("{error}: {}", path.display()).into())
}
