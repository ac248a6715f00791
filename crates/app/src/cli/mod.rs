//! The program without a window: write, check and export boards from a command line.

mod check;
mod export;
mod get;
mod new;
mod plain;
mod read;
mod report;
mod set;

use std::ffi::OsString;
use std::io::Write;
use std::path::PathBuf;
use std::process::ExitCode;

use board::in_a_row;
use clap::error::ErrorKind;
use clap::{CommandFactory as _, Parser, Subcommand};

use crate::files::{FilesError, plain_reason};
use plain::Plain;

/// Lay out a round game board, find problems before you cut, and print its drilling template at true size
#[derive(Debug, Parser)]
#[command(name = "ringwright", version, args_conflicts_with_subcommands = true, after_help = EXAMPLES)]
pub struct Cli {
    #[command(subcommand)]
    command: Option<Command>,
    /// Board file to open in the window
    file: Option<PathBuf>,
}

const EXAMPLES: &str = "\
Examples:
  ringwright                                   open the window on a sample board
  ringwright new --players 4 --pattern arms walnut.json
  ringwright get walnut.json pitch
  ringwright set walnut.json pitch 3/4 blank.thickness '1 1/4 - 1/16'
  ringwright check walnut.json
  ringwright export walnut.json --out templates
  ringwright export walnut.json --out templates --only template-pdf,csv

Print templates at 100 %, not fitted to the page, and measure the bars before drilling.";

#[derive(Debug, Subcommand)]
enum Command {
    /// Write a new board; options left out get sensible defaults
    New(new::New),
    /// Show the fields of a board, each with its range
    Get(get::Get),
    /// Change fields of a board: all of them, or none if one is refused
    Set(set::Set),
    /// List problems; exits with 1 if any stops the board
    Check(check::Check),
    /// Write templates and tables of a board; exits with 1 if a kind could not be made and the rest was written
    Export(export::Export),
}

impl Cli {
    /// The request of a command line, or what is wrong with it.
    ///
    /// Without a command the first word is a file to open; where more words follow it, a command was meant, and the error says
    /// which it may be.
    ///
    /// # Errors
    /// The error of the command line, ready to be printed.
    pub fn of(words: &[OsString]) -> Result<Self, clap::Error> {
        Self::try_parse_from(words).map_err(|error| match misspelled(words) {
            Some(message) => Self::command().error(ErrorKind::InvalidSubcommand, message),
            None => error,
        })
    }
}

/// The sentence on a first word that is no command, where more words follow it; none for an option and for what looks like a file.
fn misspelled(words: &[OsString]) -> Option<String> {
    let [_, first, _, ..] = words else {
        return None;
    };
    let typed = first.to_str()?;
    let commands = Cli::command();
    let names: Vec<&str> = commands
        .get_subcommands()
        .map(clap::Command::get_name)
        .collect();
    if typed.starts_with('-') || typed.contains(['.', '/', '\\']) || names.contains(&typed) {
        return None;
    }
    let likeness =
        |name: &&&str| (strsim::normalized_damerau_levenshtein(name, typed) * 1e6) as u32;
    let nearest = names.iter().max_by_key(likeness)?;
    Some(if likeness(&nearest) >= 500_000 {
        format!("no such command: {typed}; did you mean {nearest}?")
    } else {
        format!("no such command: {typed}; there are {}", in_a_row(&names))
    })
}

/// A command that failed, as a sentence.
type Failure = Box<dyn std::error::Error>;

/// The request of a command line.
#[derive(Debug)]
pub enum Asked {
    /// The window, on a file or on a sample board.
    Window(Option<PathBuf>),
    /// A command; it has run, and this is how it ended.
    Done(ExitCode),
}

/// Exit code of a command that could not do its work.
const FAILED: u8 = 2;

/// Runs the command of a command line, if it is one.
pub fn run(cli: Cli, out: &mut dyn Write, errors: &mut dyn Write) -> Asked {
    let Some(command) = cli.command else {
        return Asked::Window(cli.file);
    };
    let (out, errors) = (&mut Plain(out), &mut Plain(errors));
    let ended = match command {
        Command::New(new) => new.run(out, errors),
        Command::Get(get) => get.run(out, errors),
        Command::Set(set) => set.run(out, errors),
        Command::Check(check) => check.run(out, errors),
        Command::Export(export) => export.run(out, errors),
    };
    Asked::Done(ended.unwrap_or_else(|failure| {
        // A failure to write to standard error is ignored: there is nowhere left to report it.
        let _ = writeln!(errors, "ringwright: {failure}{}", way_out(&*failure));
        ExitCode::from(FAILED)
    }))
}

/// The result of printing. A closed pipe is not an error: the reader stopped reading, as `head` does.
fn printed(result: Result<(), Failure>) -> Result<(), Failure> {
    let Err(failure) = result else { return Ok(()) };
    match failure.downcast_ref::<std::io::Error>() {
        Some(error) if error.kind() == std::io::ErrorKind::BrokenPipe => Ok(()),
        Some(error) => {
            let reason = plain_reason(error, "there is nothing to write to");
            Err(format!("the output cannot be printed: {reason}").into())
        }
        None => Err(failure),
    }
}

/// Prints lines, one below the other.
fn print_lines(out: &mut dyn Write, lines: &[String]) -> Result<ExitCode, Failure> {
    printed(
        lines
            .iter()
            .try_for_each(|line| Ok(writeln!(out, "{line}")?)),
    )?;
    Ok(ExitCode::SUCCESS)
}

/// The option that would help, where there is one.
fn way_out(failure: &(dyn std::error::Error + 'static)) -> &'static str {
    match failure.downcast_ref() {
        Some(FilesError::Exists(_)) => "; --force replaces it",
        _ => "",
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::io::{Error, ErrorKind};

    #[test]
    fn a_misspelled_command_is_answered_with_the_one_that_may_be_meant() {
        let told = |line: &str| {
            let words: Vec<OsString> = line.split(' ').map(OsString::from).collect();
            Cli::of(&words).err().map(|error| error.to_string())
        };
        let said = told("ringwright chek my.json").unwrap();
        assert!(
            said.contains("no such command: chek; did you mean check?"),
            "{said}"
        );
        let said = told("ringwright frobnicate my.json").unwrap();
        assert!(said.contains("there are new, get, set, check"), "{said}");
        assert!(told("ringwright my.json").is_none() && told("ringwright check my.json").is_none());
        assert!(
            !told("ringwright my.json --bogus")
                .unwrap()
                .contains("no such command")
        );
    }

    #[test]
    fn a_full_disk_is_told_plainly_and_a_closed_pipe_not_at_all() {
        let of = |kind: ErrorKind| printed(Err(Error::from(kind).into()));
        assert!(of(ErrorKind::BrokenPipe).is_ok());
        let full = of(ErrorKind::StorageFull).unwrap_err().to_string();
        assert_eq!(full, "the output cannot be printed: the disk is full");
    }
}
