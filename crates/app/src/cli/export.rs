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
use crate::exports::{Kind, LeftOut, Made, Source};
use crate::files::write_all;
use crate::host::{Desktop, now, today};
use crate::printers::Printers;

/// Options of `ringwright export`.
#[derive(Debug, Args)]
pub struct Export {
    /// The board file
    file: PathBuf,
    /// Folder to write to; created if missing, but not the folders above it
    #[arg(long, value_name = "DIR")]
    out: PathBuf,
    /// Kinds of file to write, separated by commas; by default all that the board plans for, except template-svg, fit-strip and printer-test
    #[arg(long, value_name = "KIND", value_delimiter = ',')]
    only: Vec<Kind>,
    /// Correct the template for this printer, measured in the window under Template, Printer
    #[arg(long, value_name = "NAME")]
    printer: Option<String>,
    /// Cut the section through this hole; by default through the first player's turn-in space
    #[arg(long, value_name = "HOLE")]
    cut: Option<HoleId>,
    /// Pixels along the longer side of the proof, 200 to 6000
    #[arg(long, value_name = "PIXELS", default_value_t = picture::SIZES.1)]
    proof_size: u32,
    /// Replace existing files
    #[arg(long)]
    force: bool,
    /// Also make files that take more than a few seconds, such as very large pictures
    #[arg(long)]
    large: bool,
}

/// Exit code of an export that has written some kinds and left out others.
const INCOMPLETE: u8 = 1;

impl Export {
    /// Writes the files and prints their paths; ends with 1 if a kind could not be made.
    ///
    /// # Errors
    /// Where the board cannot be read, laid out or written, or no kind can be made; nothing is written if a file is there already.
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
        let kinds: Vec<Kind> = Kind::ALL.into_iter().filter(is_wanted).collect();
        let effort = |kind: &Kind| Some((*kind, source.effort(*kind)?));
        let mut large = kinds.iter().filter_map(effort);
        if let Some((kind, effort)) = large.find(|(_, effort)| effort.is_large && !self.large) {
            let (kind, words) = (kind.word(), effort.words);
            return Err(format!("{kind}: {words}; add --large to make it").into());
        }
        let Made {
            files, left_out, ..
        } = source.made(&kinds).unwrap_or_default();
        self.warn(&workpiece, errors);
        if files.is_empty() && !left_out.is_empty() {
            return Err(self.told(&left_out).into());
        }
        let paths = write_all(&self.out, &files, self.force)?;
        let mut lines = paths.iter().map(|path| writeln!(out, "{}", path.display()));
        printed(lines.try_for_each(|line| line.map_err(Failure::from)))?;
        if left_out.is_empty() {
            return Ok(ExitCode::SUCCESS);
        }
        // A failure to write to standard error is ignored: there is nowhere left to report it.
        let _ = writeln!(errors, "ringwright: {}", self.told(&left_out));
        Ok(ExitCode::from(INCOMPLETE))
    }

    /// Every kind that was left out, with why, and for each thing that it lacks the command that brings it.
    fn told(&self, left_out: &[LeftOut]) -> String {
        let file = quoted(&self.file.display().to_string());
        let of_kind = |one: &LeftOut| {
            let mut lines = vec![format!("not written: {}: {}", one.kind.word(), one.why)];
            lines.extend(one.lacks.iter().filter_map(|lack| {
                let settings = lack.settings.iter();
                let settings = settings.map(|(path, value)| format!("{} {value}", quoted(path)));
                let settings = settings.collect::<Vec<_>>().join(" ");
                let is_there = !settings.is_empty();
                is_there.then(|| format!("  {}: ringwright set {file} {settings}", lack.words))
            }));
            lines.join("\n")
        };
        left_out.iter().map(of_kind).collect::<Vec<_>>().join("\n")
    }

    /// Warns of problems before any file is written.
    fn warn(&self, workpiece: &Workpiece, errors: &mut dyn Write) {
        let board = workpiece.board();
        // A failure to write to standard error is ignored: there is nowhere left to report it.
        if stops(workpiece.findings()) {
            let _ = writeln!(
                errors,
                "ringwright: this board has findings that stop it: `ringwright check {}` lists them",
                quoted(&self.file.display().to_string())
            );
        }
        let sheets = workpiece.tiling().map_or(0, |tiling| tiling.tiles.len());
        if sheets > board.limits.sheets as usize {
            let _ = writeln!(
                errors,
                "ringwright: the template takes {sheets} sheets of {}, more than your limit of {}; use larger paper, or plot-pdf \
                 at a print shop",
                board.template.paper.words(),
                board.limits.sheets
            );
        }
    }
}

/// A word of a command line, in quotes where a shell would take a part of it for something else.
fn quoted(word: &str) -> String {
    let is_plain = |letter: char| letter.is_alphanumeric() || "._-/\\:".contains(letter);
    if word.chars().all(is_plain) {
        return word.into();
    }
    let is_special = |letter: char| cfg!(unix) && "\\\"$`".contains(letter);
    let mut quoted = String::from("\"");
    for letter in word.chars() {
        if is_special(letter) {
            quoted.push('\\');
        }
        quoted.push(letter);
    }
    quoted + "\""
}

#[cfg(test)]
mod tests {
    use super::*;

    // POSIX shells, Shell Command Language, 2.2.3 (from memory): within double quotes a backslash keeps a quote, a dollar sign, a
    // grave accent and itself as they are.
    #[test]
    #[cfg(unix)]
    fn a_shell_reads_a_quoted_word_as_it_was() {
        assert_eq!(quoted("boards/walnut.json"), "boards/walnut.json");
        for word in [
            "$5 board.json",
            "a`b\"c.json",
            "back\\slash d.json",
            "bits[0].feed",
        ] {
            let echoed = std::process::Command::new("sh")
                .args(["-c", &format!("printf %s {}", quoted(word))])
                .output()
                .unwrap();
            assert_eq!(String::from_utf8(echoed.stdout).unwrap(), word);
        }
    }
}
