//! Texts of the commands: their help, and their errors for wrong calls.

use std::path::{Path, PathBuf};

use app::cli::{Cli, run};
use app::exports::{Kind, Moment, Source};
use board::{Board, field, write_board};
use clap::{CommandFactory as _, Parser as _};

use crate::{Said, keep};

/// A folder for the files of this test.
fn folder() -> PathBuf {
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join("words");
    std::fs::create_dir_all(&folder).unwrap();
    folder
}

/// Collects the help of the program and of each command: its own, and that of its options and their choices.
pub fn help(said: &mut Said) {
    let program = Cli::command();
    of_command(said, &program);
    for command in program.get_subcommands() {
        of_command(said, command);
    }
}

fn of_command(said: &mut Said, command: &clap::Command) {
    let place = format!("help {}", command.get_name());
    let about = command.get_about().into_iter();
    for help in about.chain(command.get_arguments().filter_map(clap::Arg::get_help)) {
        keep(said, &place, &help.to_string());
    }
    for option in command.get_arguments() {
        for choice in option.get_possible_values() {
            let help = choice.get_help().map(ToString::to_string);
            keep(said, &place, help.as_deref().unwrap_or_default());
        }
    }
}

/// Collects the lines printed for wrong calls, and those of a check.
pub fn errors(said: &mut Said) {
    let folder = folder();
    let file = |name: &str| folder.join(name).display().to_string();
    broken(said);
    let path = file("board.json");
    std::fs::write(&path, write_board(&Board::default())).unwrap();
    for call in [
        &["check", "/nowhere/board.json"][..],
        &["get", &path, "pich"],
        &["get", &path, "recess.depth"],
        &["set", &path, "pitch"],
        &["set", &path, "pitch", "banana"],
        &["set", &path, "recess.depth", "12"],
        &["set", &path, "screws[7]", "none"],
        &["new", &path],
        &[
            "new",
            &file("new.json"),
            "--no-shop",
            "--pattern",
            "arms",
            "--spaces",
            "13",
        ],
        &["new", &file("new.json"), "--no-shop", "--pitch", "banana"],
        &[
            "new",
            &file("new.json"),
            "--no-shop",
            "--depth",
            "0.2",
            "--pattern",
            "ring",
        ],
        &["new", &file("new.json"), "--no-shop", "--board", "3 in"],
        &["export", &path, "--out", &file("out"), "--only", "gcode"],
        &["export", &path, "--out", &file("out"), "--cut", "T9-1"],
        &["export", &path, "--out", &file("out"), "--printer", "none"],
        &[
            "export",
            &path,
            "--out",
            &file("out"),
            "--only",
            "proof",
            "--proof-size",
            "6000",
        ],
    ] {
        of_call(said, call);
    }
    of_call(said, &["check", &path]);
}

/// Collects the errors for files that are not boards.
fn broken(said: &mut Said) {
    let folder = folder();
    let file = |name: &str| folder.join(name).display().to_string();
    for (name, text) in [
        ("broken.json", "{"),
        ("other.json", "[1, 2]"),
        (
            "newer.json",
            "{\"format\": \"ringwright-board\", \"version\": 999}",
        ),
    ] {
        std::fs::write(file(name), text).unwrap();
        of_call(said, &["check", &file(name)]);
    }
}

/// Collects the output of one call, without the paths of this machine.
fn of_call(said: &mut Said, call: &[&str]) {
    let (mut out, mut errors) = (Vec::new(), Vec::new());
    let place = format!("command {}", call[0]);
    match Cli::try_parse_from([&["ringwright"], call].concat()) {
        Ok(cli) => {
            run(cli, &mut out, &mut errors);
        }
        Err(error) => errors = error.to_string().into_bytes(),
    }
    let folder = folder().display().to_string();
    for bytes in [out, errors] {
        let text = String::from_utf8(bytes).unwrap().replace(&folder, "");
        for line in text.lines() {
            // The number of spaces in printed columns and indents varies.
            let words: Vec<&str> = line.split_whitespace().collect();
            keep(said, &place, &words.join(" "));
        }
    }
}

/// Collects the words of every field: its label, its tooltip, and the errors for wrong input.
pub fn fields(said: &mut Said, board: &Board) {
    let typed = ["banana", "", "1e99", "-1", "5 fathoms", "1 +"];
    for field in field::all_fields() {
        keep(said, "field", &field.label(0));
        keep(said, "tooltip", &field.hint_in(board.units));
        let is_there = field.value(board, 0).is_some();
        for typed in typed.into_iter().filter(|_| is_there) {
            if let Err(error) = field.read(typed, board, 0) {
                keep(said, "error beside a field", &board.units.say(&error));
            }
        }
    }
}

/// Collects the names of all exports, and the reasons why some cannot be made for a board.
pub fn exports(said: &mut Said, board: &Board) {
    let moment = Moment {
        year: 2026,
        month: 11,
        day: 25,
    };
    let Ok(source) = Source::of(board, moment) else {
        return;
    };
    for kind in Kind::ALL {
        keep(said, "export", kind.label());
        keep(said, "export", kind.purpose());
        keep(said, "export", kind.missing(board).unwrap_or_default());
        for lack in source.lacks(kind) {
            keep(said, "export", &lack.words);
        }
    }
}
