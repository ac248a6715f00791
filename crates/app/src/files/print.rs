//! Printing through the system: the programs that Unix systems have for it, without scaling.

use std::io::ErrorKind;
use std::path::Path;
use std::process::{Command, Stdio};

/// The way that a file went.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Printing {
    /// To the system's usual printer.
    Sent,
    /// To a viewer, from which it can be printed: the system has no program that prints.
    Shown,
}

/// Programs that take a file to the usual printer, and the options that print it at true size: those of the Internet Printing
/// Protocol (PWG 5100.16, print-scaling).
#[cfg(unix)]
const PRINTERS: [&str; 2] = ["lp", "lpr"];
#[cfg(not(unix))]
const PRINTERS: [&str; 0] = [];
const TRUE_SIZE: [&str; 2] = ["-o", "print-scaling=none"];

/// Sends a file to the system's usual printer at true size; returns whether there is a program for that.
///
/// # Errors
/// A sentence with the words of the program, where it does not take the file.
pub fn print(path: &Path) -> Result<bool, String> {
    print_by(&PRINTERS, path)
}

fn print_by(programs: &[&str], path: &Path) -> Result<bool, String> {
    for program in programs {
        let mut command = Command::new(program);
        let asked = command.args(TRUE_SIZE).arg(path).stdin(Stdio::null());
        match asked.output() {
            Ok(ended) if ended.status.success() => return Ok(true),
            Ok(ended) => {
                let words = String::from_utf8_lossy(&ended.stderr);
                let first = words.lines().next().unwrap_or_default();
                return Err(refused(first));
            }
            Err(error) if error.kind() == ErrorKind::NotFound => {}
            Err(error) => return Err(refused(&error.to_string())),
        }
    }
    Ok(false)
}

fn refused(words: &str) -> String {
    format!(
        "the system did not print it ({words}); open the file and print it from its viewer at 100 %"
    )
}

#[cfg(test)]
#[cfg(unix)]
mod tests {
    use std::fs;
    use std::os::unix::fs::PermissionsExt as _;

    use super::*;

    /// A program that runs a script.
    fn program(folder: &Path, script: &str) -> String {
        let path = folder.join("lp");
        fs::write(&path, format!("#!/bin/sh\n{script}\n")).unwrap();
        fs::set_permissions(&path, fs::Permissions::from_mode(0o755)).unwrap();
        path.display().to_string()
    }

    #[test]
    fn a_file_goes_to_the_first_program_there_is_without_scaling() {
        let folder = tempfile::tempdir().unwrap();
        let seen = folder.path().join("seen");
        let lp = program(
            folder.path(),
            &format!("echo \"$@\" > '{}'", seen.display()),
        );
        let printed = print_by(&["/nowhere/lp", &lp], Path::new("/out/my template.pdf"));
        assert_eq!(printed, Ok(true));
        let seen = fs::read_to_string(seen).unwrap();
        assert_eq!(seen, "-o print-scaling=none /out/my template.pdf\n");
    }

    #[test]
    fn what_the_system_says_is_told() {
        let folder = tempfile::tempdir().unwrap();
        let lp = program(
            folder.path(),
            "echo 'lp: no default destination' >&2; exit 1",
        );
        let error = print_by(&[&lp], Path::new("/out/a.pdf")).unwrap_err();
        assert!(error.contains("(lp: no default destination)"), "{error}");
    }

    #[test]
    fn a_system_without_such_a_program_prints_nothing() {
        let printed = print_by(&["/nowhere/lp", "/nowhere/lpr"], Path::new("/a.pdf"));
        assert_eq!(printed, Ok(false));
    }
}
