//! Killed at any moment: a program that edits, keeps its work aside and saves is started, killed, and looked after by the next one.
//!
//! The test starts itself again in two parts, since nothing but a process of its own can be killed: one works until it is killed,
//! the other opens like the next window and prints what it found. `RINGWRIGHT_KILLS=1000 cargo test -p app --lib killed` does it
//! more often.

use std::io::{BufRead as _, BufReader};
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};
use std::sync::Arc;
use std::sync::atomic::Ordering;
use std::time::Duration;

use board::{Board, LARGEST_FILE, read_board, write_board};

use super::Rescue;
use crate::host::{Desktop, Host};
use crate::session::Session;

/// The variable that names the folder to work in, for the part that is started.
const FOLDER: &str = "RINGWRIGHT_KILLED_IN";
/// The variable for the number of kills.
const KILLS: &str = "RINGWRIGHT_KILLS";
/// The default number of kills.
const USUAL: u32 = 100;

/// The folder, in the part that is started; none in the test itself.
fn folder() -> Option<PathBuf> {
    std::env::var_os(FOLDER).map(PathBuf::from)
}

/// The board after so many edits.
fn edited(times: u32) -> Board {
    Board {
        title: format!("edit {times}"),
        pitch: 10.0 + f64::from(times % 1000) / 100.0,
        ..Board::default()
    }
}

/// The part that is killed: it edits without end, keeps each edit aside, saves every third, and says so.
#[test]
fn works_until_it_is_killed() {
    let Some(folder) = folder() else { return };
    let host: Arc<dyn Host> = Arc::new(Desktop);
    let mut session = Session::new(Board::default());
    let mut rescue = Rescue::new(&*host);
    for times in 1.. {
        session.board = edited(times);
        while rescue.keep(&host, &session) || rescue.writing.load(Ordering::Acquire) {
            std::thread::yield_now();
        }
        say("kept", times);
        if times % 3 == 0 {
            let text = write_board(&session.board);
            host.write(&folder.join("board.json"), text.as_bytes())
                .unwrap();
            say("saved", times);
        }
    }
}

/// The next window: it prints what it found, and discards it.
#[test]
fn looks_at_what_was_left() {
    if folder().is_none() {
        return;
    }
    let mut rescue = Rescue::new(&Desktop);
    let found = rescue.found(&Desktop);
    for broken in &found.broken {
        say(&format!("broken {}", broken.display()), 0);
    }
    for board in &found.boards {
        let times = board.board.title.strip_prefix("edit ").unwrap();
        let times = times.parse().unwrap();
        assert_eq!(board.board, edited(times));
        say("found", times);
        rescue.given_up(&Desktop, board);
    }
}

/// Says a word and a number on a line of its own, at once.
fn say(word: &str, number: u32) {
    println!("\n{word} {number}");
}

/// Starts one of the parts.
fn started(part: &str, folder: &Path) -> Command {
    let mut command = Command::new(std::env::current_exe().unwrap());
    command
        .args(["--exact", &format!("rescue::killed::{part}"), "--nocapture"])
        .env(FOLDER, folder)
        .env("XDG_CONFIG_HOME", folder.join("settings"))
        .stdout(Stdio::piped())
        .stderr(Stdio::null());
    command
}

/// The number behind a word on a line.
fn number_after(line: &str, word: &str) -> Option<u32> {
    line.strip_prefix(word)?.trim().parse().ok()
}

/// Kills the part that works a moment after its first edit; returns its last edit kept, and its last edit saved.
fn killed(folder: &Path, moment: Duration) -> (u32, u32) {
    let mut child = started("works_until_it_is_killed", folder).spawn().unwrap();
    let mut lines = BufReader::new(child.stdout.take().unwrap()).lines();
    let mut last = (0, 0);
    let mut note = |line: &str| {
        last.0 = number_after(line, "kept").unwrap_or(last.0);
        last.1 = number_after(line, "saved").unwrap_or(last.1);
        last.0
    };
    while note(&lines.next().unwrap().unwrap()) == 0 {}
    // Its output is read while it waits, so that a full pipe does not block it.
    let killer = std::thread::spawn(move || {
        std::thread::sleep(moment);
        child.kill().unwrap();
        child.wait().unwrap();
    });
    let mut rest: Vec<String> = lines.map_while(Result::ok).collect();
    // The last line may be cut.
    rest.pop();
    for line in &rest {
        note(line);
    }
    killer.join().unwrap();
    last
}

#[test]
fn a_kill_at_any_moment_tears_no_file_and_loses_no_edit_that_was_kept() {
    let kills = std::env::var(KILLS)
        .ok()
        .and_then(|kills| kills.parse().ok());
    let folder = tempfile::tempdir().unwrap();
    for round in 0..kills.unwrap_or(USUAL) {
        // Moments all over the first 20 ms: writings begin and end several times in them.
        let moment = Duration::from_micros(u64::from(round * 7919 % 20_000));
        let (kept, saved) = killed(folder.path(), moment);
        let found = started("looks_at_what_was_left", folder.path())
            .output()
            .unwrap();
        let found = String::from_utf8(found.stdout).unwrap();
        assert!(
            !found.lines().any(|line| line.starts_with("broken")),
            "{found}"
        );
        let found: Vec<u32> = found
            .lines()
            .filter_map(|line| number_after(line, "found"))
            .collect();
        // The edit that was being written may have come through.
        assert!(
            found.len() == 1 && (kept..=kept + 2).contains(&found[0]),
            "{kept} {found:?}"
        );
        let file = folder.path().join("board.json");
        if saved > 0 {
            let bytes = crate::files::read_limited(&file, LARGEST_FILE as u64).unwrap();
            assert!(read_board(&bytes).is_ok(), "a torn file after {saved}");
        }
    }
}
