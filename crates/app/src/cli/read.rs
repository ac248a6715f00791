//! Reading a board file for a command, and working out its results.

use std::io::Write;
use std::path::Path;

use board::{Board, LARGEST_FILE, open_board};

use workshop::{Correction, Workpiece};

use super::Failure;
use crate::files::read_limited;
use crate::host::this_day;

/// The board of a file; where an older file said a thing in two ways, the one that was taken is reported.
///
/// # Errors
/// A sentence with the file's path at its end.
pub fn board_of(path: &Path, errors: &mut dyn Write) -> Result<Board, Failure> {
    let bytes = read_limited(path, LARGEST_FILE as u64)?;
    let opened = open_board(&bytes).map_err(|error| format!("{error}: {}", path.display()))?;
    for remark in &opened.remarks {
        // A failure to write to standard error is ignored: the board is read all the same.
        let _ = writeln!(errors, "ringwright: {remark}");
    }
    Ok(opened.board)
}

/// The workpiece of a board, with all that takes longer worked out; its template is corrected for a printer where one is
/// named.
///
/// # Errors
/// Where the board cannot be laid out.
pub fn workpiece_of(board: &Board, printer: Option<Correction>) -> Result<Workpiece, Failure> {
    let mut workpiece =
        Workpiece::printed(board, printer).map_err(|error| board.units.say(&error))?;
    if let Some(today) = this_day() {
        workpiece = workpiece.on(today);
    }
    // A command is stopped from outside.
    let _ = workpiece.work_out(&|| false);
    Ok(workpiece)
}
