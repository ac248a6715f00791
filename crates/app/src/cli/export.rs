//! `ringwright export`: templates and tables of a board.

use std::io::Write;
use std::path::PathBuf;
use std::process::ExitCode;

use clap::Args;

use workshop::stops;

use super::read::board_of;
use super::{Failure, printed};
use crate::derived::Derived;
use crate::exports::{Kind, file_of};
use crate::files::write_all;
use crate::host::today;

/// Options of `ringwright export`.
#[derive(Debug, Args)]
pub struct Export {
    /// The board file
    file: PathBuf,
    /// Folder to write to; it is made if it is not there, but not the folders above it
    #[arg(long, value_name = "DIR")]
    out: PathBuf,
    /// Kinds of file to write, with commas between them; all if not given
    #[arg(long, value_name = "KIND", value_delimiter = ',')]
    only: Vec<Kind>,
    /// Replace files that are there
    #[arg(long)]
    force: bool,
}

impl Export {
    /// Writes the files and prints their paths.
    ///
    /// # Errors
    /// Where the board cannot be read, laid out or written; nothing is written if a file is there already.
    pub fn run(&self, out: &mut dyn Write, errors: &mut dyn Write) -> Result<ExitCode, Failure> {
        let board = board_of(&self.file)?;
        let derived = Derived::of(&board)?;
        let kinds = Kind::ALL
            .into_iter()
            .filter(|kind| self.only.is_empty() || self.only.contains(kind));
        let moment = today();
        let files: Result<Vec<_>, _> = kinds
            .map(|kind| file_of(kind, &board, &derived, moment))
            .collect();
        let paths = write_all(&self.out, &files?, self.force)?;
        let mut lines = paths.iter().map(|path| writeln!(out, "{}", path.display()));
        printed(lines.try_for_each(|line| line.map_err(Failure::from)))?;
        if stops(&derived.findings) {
            // If standard error is closed there is no one left to tell.
            let _ = writeln!(
                errors,
                "ringwright: this board has findings that stop it: `ringwright check {}` tells them",
                self.file.display()
            );
        }
        Ok(ExitCode::SUCCESS)
    }
}
