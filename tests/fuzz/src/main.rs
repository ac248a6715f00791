//! `cargo run --release -p fuzz -- documents --minutes 600`: random cases for any length of time.

use std::io::Write as _;
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::process::ExitCode;
use std::time::{Duration, Instant};

use app::exports::Kind;
use board::{Board, read_board, write_board};
use fuzz::{
    Cost, bytes_case, corpus_bytes, corpus_typed, document, document_case, extremes, measure,
    seeds, typed_case,
};

/// Parts of a case that take longer are printed.
const SLOW: Duration = Duration::from_secs(2);

const USAGE: &str =
    "usage: fuzz bytes|typed|documents [--minutes N] [--seed FIRST] [--cases N] [--show]
       fuzz measure [--part PART] [NAME or board file] ...";

fn main() -> ExitCode {
    let words: Vec<String> = std::env::args().skip(1).collect();
    if words.first().is_some_and(|word| word == "measure") {
        return measured(&words[1..]);
    }
    let option = |name: &str, usual: u64| {
        let at = words.iter().position(|word| word == name)?;
        words.get(at + 1)?.parse().ok().or(Some(usual))
    };
    let minutes = option("--minutes", 1).unwrap_or(1);
    let first = option("--seed", 0).unwrap_or(0);
    let cases = option("--cases", u64::MAX).unwrap_or(u64::MAX);
    let end = Instant::now() + Duration::from_secs(60 * minutes);
    let boards: Vec<Board> = seeds().into_iter().map(|(_, board)| board).collect();
    let (bytes, typed) = (corpus_bytes(), corpus_typed());
    let mut faults = 0;
    for seed in (first..).take(cases.try_into().unwrap_or(usize::MAX)) {
        let mut cost = Cost::new();
        let ended = catch_unwind(AssertUnwindSafe(|| {
            match words.first().map(String::as_str) {
                Some("bytes") => Some(bytes_case(seed, &bytes)),
                Some("typed") => Some(typed_case(seed, &boards, &typed)),
                Some("documents") => {
                    let case = document_case(seed, &boards, &Kind::ALL, &mut cost);
                    Some(case.map_err(|(_, fault)| fault))
                }
                _ => None,
            }
        }));
        tell_slow(seed, &cost);
        let fault = match ended {
            Ok(None) => {
                say(USAGE);
                return ExitCode::from(2);
            }
            Ok(Some(Ok(()))) => None,
            Ok(Some(Err(fault))) => Some(fault),
            Err(_) => Some("a panic".into()),
        };
        if let Some(fault) = fault {
            faults += 1;
            say(&format!("seed {seed}: {fault}"));
        }
        if Instant::now() > end {
            say(&format!(
                "{} cases from seed {first}, {faults} faults",
                seed - first + 1
            ));
            break;
        }
    }
    if words.iter().any(|word| word == "--show") {
        let mut draw = fuzz::Draw::new(first);
        say(&write_board(&document(&mut draw, &boards)));
    }
    ExitCode::from(u8::from(faults > 0))
}

/// Prints the slow parts of a case.
fn tell_slow(seed: u64, cost: &Cost) {
    for (part, took) in cost.iter().filter(|(_, took)| *took > SLOW) {
        let seconds = took.as_secs_f64();
        say(&format!("seed {seed}: {part} takes {seconds:.1} s"));
    }
}

/// Prints the time and memory of each part of some documents at the limits of their ranges, or of board files; without names,
/// of all documents at the limits.
fn measured(words: &[String]) -> ExitCode {
    let (only, names) = match words {
        [option, part, names @ ..] if option == "--part" => (Some(part), names),
        names => (None, names),
    };
    let files = names.iter().filter_map(|name| {
        let board = read_board(&std::fs::read(name).ok()?).ok()?;
        Some((name.as_str(), board))
    });
    let from = seeds();
    let extremes = extremes(&from);
    let is_wanted =
        |name: &str| names.is_empty() || names.iter().any(|wanted| name.starts_with(wanted));
    let extremes = extremes.into_iter().filter(|(name, _)| is_wanted(name));
    for (name, board) in files.chain(extremes) {
        say(&format!("{name}:"));
        let is_wanted = |part: &str| only.is_none_or(|only| part == only);
        measure(&board, &is_wanted, |taken| {
            say(&format!(
                "  {:18} {:8.3} s {:7.2} s of processors {:8.1} MB",
                taken.part,
                taken.time.as_secs_f64(),
                taken.busy.as_secs_f64(),
                taken.memory as f64 / 1e6
            ));
        });
    }
    ExitCode::SUCCESS
}

/// Prints progress; a failure to print is ignored, because it does not affect the run.
fn say(words: &str) {
    let _ = writeln!(std::io::stdout(), "{words}");
}
