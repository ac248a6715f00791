//! `ringwright export`: templates and tables of a board.

use std::io::Write;
use std::path::PathBuf;
use std::process::ExitCode;
use std::sync::Arc;

use board::{Choice, HoleId};
use clap::Args;
use workshop::{Workpiece, stops};

use super::read::{board_of, workpiece_of};
use super::{Failure, printed};
use crate::exports::{Kind, Source};
use crate::files::write_all;
use crate::host::{Desktop, now, today};
use crate::printers::Printers;

/// Options of `ringwright export`.
#[derive(Debug, Args)]
pub struct Export {
    /// The board file
    file: PathBuf,
    /// Folder to write to; it is made if it is not there, but not the folders above it
    #[arg(long, value_name = "DIR")]
    out: PathBuf,
    /// Kinds of file to write, with commas between them; if not given, all that the board plans for but template-svg, fit-strip and printer-test
    #[arg(long, value_name = "KIND", value_delimiter = ',')]
    only: Vec<Kind>,
    /// Correct the template for this printer, which was measured in the window under Printer
    #[arg(long, value_name = "NAME")]
    printer: Option<String>,
    /// Cut the section through this hole; if not given, through the first player's turn-in space
    #[arg(long, value_name = "HOLE")]
    cut: Option<HoleId>,
    /// Pixels along the longer side of the proof, 200 to 6000
    #[arg(long, value_name = "PIXELS", default_value_t = picture::SIZES.1)]
    proof_size: u32,
    /// Replace files that are there
    #[arg(long)]
    force: bool,
    /// Make what takes more than a few seconds too, such as very large pictures
    #[arg(long)]
    large: bool,
}

impl Export {
    /// Writes the files and prints their paths.
    ///
    /// # Errors
    /// Where the board cannot be read, laid out or written; nothing is written if a file is there already.
    pub fn run(&self, out: &mut dyn Write, errors: &mut dyn Write) -> Result<ExitCode, Failure> {
        let board = board_of(&self.file, errors)?;
        let printer = match &self.printer {
            Some(name) => Some(Printers::load(&Desktop).named(name)?),
            None => None,
        };
        let workpiece = Arc::new(workpiece_of(&board, printer)?);
        let layout = workpiece.layout();
        if let Some(hole) = self.cut.filter(|hole| layout.hole(*hole).is_none()) {
            return Err(format!("--cut: this board has no hole {}", String::from(hole)).into());
        }
        let source = Source::new(workpiece.clone(), today())
            .at(now())
            .with_cut(self.cut)
            .with_proof(self.proof_size);
        let is_wanted = |kind: &Kind| match self.only.as_slice() {
            [] => kind.is_usual(&board),
            only => only.contains(kind),
        };
        let kinds = Kind::ALL.into_iter().filter(is_wanted);
        let effort = |kind: Kind| Some((kind, source.effort(kind)?));
        let mut large = kinds.clone().filter_map(effort);
        if let Some((kind, effort)) = large.find(|(_, effort)| effort.is_large && !self.large) {
            let (kind, words) = (kind.word(), effort.words);
            return Err(format!("{kind}: {words}; --large makes it").into());
        }
        let files: Result<Vec<_>, Failure> = kinds.map(|kind| made(&source, kind)).collect();
        let files = files?.concat();
        self.warn(&workpiece, errors);
        let paths = write_all(&self.out, &files, self.force)?;
        let mut lines = paths.iter().map(|path| writeln!(out, "{}", path.display()));
        printed(lines.try_for_each(|line| line.map_err(Failure::from)))?;
        Ok(ExitCode::SUCCESS)
    }

    /// Says before anything is written what the maker may not want.
    fn warn(&self, workpiece: &Workpiece, errors: &mut dyn Write) {
        let board = workpiece.board();
        // A failure to write to standard error is ignored: there is nowhere left to report it.
        if stops(workpiece.findings()) {
            let _ = writeln!(
                errors,
                "ringwright: this board has findings that stop it: `ringwright check {}` tells them",
                self.file.display()
            );
        }
        let sheets = workpiece.tiling().map_or(0, |tiling| tiling.tiles.len());
        if sheets > board.limits.sheets as usize {
            let _ = writeln!(
                errors,
                "ringwright: the template takes {sheets} sheets of {}, over the {} that are to be taped at most; larger paper, or plot-pdf at a print shop, takes fewer",
                board.template.paper.words(),
                board.limits.sheets
            );
        }
    }
}

/// The files of a kind; an error names the kind, which `--only` can leave out.
fn made(source: &Source, kind: Kind) -> Result<Vec<(String, Vec<u8>)>, Failure> {
    source.files(kind).map_err(|error| {
        let reason = source.board().units.say(&error);
        format!("{}: {reason}", kind.word()).into()
    })
}
