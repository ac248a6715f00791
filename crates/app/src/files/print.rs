//! Printing through the system: the programs that Unix systems have for it, without scaling.

use std::io::ErrorKind;
use std::path::Path;
use std::process::{Command, Stdio};

use board::{Paper, show_number};
use kurbo::Size;
use workshop::paper_of;

/// The way that a file went.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Printing {
    /// To the system's usual printer.
    Sent,
    /// To a viewer, from which it can be printed: the system has no program that prints.
    Shown,
}

/// Programs that take a file to the usual printer.
#[cfg(unix)]
const PRINTERS: [&str; 2] = ["lp", "lpr"];
#[cfg(not(unix))]
const PRINTERS: [&str; 0] = [];
/// True size, one side: attributes of the Internet Printing Protocol (print-scaling of PWG 5100.16, sides of RFC 8011).
const TRUE_SIZE: [&str; 4] = ["-o", "print-scaling=none", "-o", "sides=one-sided"];

/// Sends a file to the system's usual printer, at true size on one side of paper as large as its pages, in mm; returns whether there is a
/// program for that.
///
/// # Errors
/// A sentence with the words of the program, where it does not take the file.
pub fn print(path: &Path, page: Size) -> Result<bool, String> {
    print_by(&PRINTERS, path, page)
}

/// The option that asks for the paper, which else is the printer's usual one: its name by PWG 5101.1, or its size as CUPS takes it.
fn media(page: Size) -> String {
    let name = match paper_of(page) {
        Paper::A4 => "iso_a4_210x297mm",
        Paper::A3 => "iso_a3_297x420mm",
        Paper::Letter => "na_letter_8.5x11in",
        Paper::Legal => "na_legal_8.5x14in",
        Paper::Tabloid => "na_ledger_11x17in",
        Paper::Custom { width, height } => {
            let [width, height] = [width, height].map(|mm| show_number(mm, 2));
            return format!("media=Custom.{width}x{height}mm");
        }
    };
    format!("media={name}")
}

fn print_by(programs: &[&str], path: &Path, page: Size) -> Result<bool, String> {
    let media = media(page);
    for program in programs {
        let mut command = Command::new(program);
        let asked = command
            .args(TRUE_SIZE)
            .args(["-o", &media])
            .arg(path)
            .stdin(Stdio::null());
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

    const A4: Size = Size::new(210.0, 297.0);

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
        let printed = print_by(&["/nowhere/lp", &lp], Path::new("/out/my template.pdf"), A4);
        assert_eq!(printed, Ok(true));
        let seen = fs::read_to_string(seen).unwrap();
        let asked = "-o print-scaling=none -o sides=one-sided -o media=iso_a4_210x297mm /out/my template.pdf\n";
        assert_eq!(seen, asked);
    }

    #[test]
    fn paper_is_asked_for_by_its_name_or_its_size() {
        assert_eq!(media(Size::new(279.4, 215.9)), "media=na_letter_8.5x11in");
        assert_eq!(media(Size::new(700.0, 812.25)), "media=Custom.700x812.25mm");
    }

    #[test]
    fn what_the_system_says_is_told() {
        let folder = tempfile::tempdir().unwrap();
        let lp = program(
            folder.path(),
            "echo 'lp: no default destination' >&2; exit 1",
        );
        let error = print_by(&[&lp], Path::new("/out/a.pdf"), A4).unwrap_err();
        assert!(error.contains("(lp: no default destination)"), "{error}");
    }

    #[test]
    fn a_system_without_such_a_program_prints_nothing() {
        let printed = print_by(&["/nowhere/lp", "/nowhere/lpr"], Path::new("/a.pdf"), A4);
        assert_eq!(printed, Ok(false));
    }
}
