//! Checks the crates against the project's rules, and the contributors' page against the crates.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    reason = "a test that cannot go on has failed"
)]

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::{Path, PathBuf};
use std::sync::LazyLock;

use tests::source::{Source, repository as root, sources};

/// The crates of the program, each using only those before it.
const ORDER: [&str; 7] = [
    "geometry", "board", "workshop", "drawing", "picture", "export", "app",
];
/// The crates that only turn values into values.
const PURE: [&str; 6] = [
    "geometry", "board", "workshop", "drawing", "picture", "export",
];

fn crates() -> BTreeSet<String> {
    folders(&root().join("crates"))
}

fn folders(folder: &Path) -> BTreeSet<String> {
    let entries = fs::read_dir(folder).unwrap().map(Result::unwrap);
    let folders = entries.filter(|entry| entry.path().is_dir());
    folders
        .map(|folder| folder.file_name().to_string_lossy().into_owned())
        .collect()
}

/// The files of the program, and those of its unit tests.
static PROGRAM: LazyLock<Vec<Source>> =
    LazyLock::new(|| ORDER.into_iter().flat_map(sources).collect());

/// The names of a crate's dependencies, without those of its tests.
fn dependencies(name: &str) -> BTreeSet<String> {
    let text = fs::read_to_string(root().join("crates").join(name).join("Cargo.toml")).unwrap();
    let part = text
        .split("[dependencies]")
        .nth(1)
        .unwrap()
        .split("\n[")
        .next()
        .unwrap();
    let names = part
        .lines()
        .filter_map(|line| line.split(['=', '.', ' ']).next())
        .filter(|name| !name.is_empty());
    names.map(ToOwned::to_owned).collect()
}

#[test]
fn the_code_map_names_exactly_the_crates_there_are() {
    let page = fs::read_to_string(root().join("DEVELOPERS.md")).unwrap();
    let page = page.split("### Rooms").next().unwrap();
    let rows = page
        .lines()
        .filter_map(|line| line.strip_prefix("| `")?.split('`').next());
    let named: BTreeSet<String> = rows.map(ToOwned::to_owned).collect();
    assert_eq!(named, crates());
}

/// A room for each subject: the page names the workshop's rooms and no others, and the drawings, the controls and the guide's
/// chapter for a subject share its name.
#[test]
fn every_subject_has_its_own_room_and_chapter() {
    let page = fs::read_to_string(root().join("DEVELOPERS.md")).unwrap();
    let table = page.split("### Rooms").nth(1).unwrap();
    let table = table.split("Beside the rooms").next().unwrap();
    let rows = table
        .lines()
        .filter_map(|line| line.strip_prefix("| `")?.split('`').next());
    let rooms: BTreeSet<String> = rows.map(ToOwned::to_owned).collect();
    let indexes =
        ["caution", "check", "fit", "job", "mend", "section", "sums"].map(ToOwned::to_owned);
    let workshop = folders(&root().join("crates/workshop/src"));
    let all: BTreeSet<String> = rooms.iter().cloned().chain(indexes).collect();
    assert_eq!(workshop, all);
    let guide = root().join("docs/guide");
    for room in &rooms {
        assert!(
            guide.join(format!("{room}.md")).is_file(),
            "no chapter {room}"
        );
    }
}

#[test]
fn each_crate_uses_only_those_before_it() {
    for (place, name) in ORDER.iter().enumerate() {
        for later in &ORDER[place + 1..] {
            assert!(!dependencies(name).contains(*later), "{name} uses {later}");
        }
        assert!(
            !dependencies(name).contains("testkit"),
            "{name} uses testkit outside its tests"
        );
    }
}

#[test]
fn only_the_app_knows_windows() {
    for name in PURE {
        for window in ["egui", "eframe", "egui_plot", "rfd", "tempfile"] {
            assert!(!dependencies(name).contains(window), "{name} uses {window}");
        }
    }
}

#[test]
fn only_host_and_files_touch_the_world() {
    // The program itself reads the words it was called with.
    let may = [
        "crates/app/src/host.rs",
        "crates/app/src/files/",
        "crates/app/src/main.rs",
    ];
    let worldly = [
        "fs::",
        "env::",
        "rfd::",
        "::now(",
        "TimeZone::system",
        "TimeZone::try_system",
        "directories::",
        "tempfile::",
        "Instant",
        "SystemTime",
    ];
    for source in PROGRAM.iter() {
        if may.iter().any(|part| source.path.starts_with(part)) {
            continue;
        }
        for (number, line) in source.own() {
            let touched = worldly.into_iter().find(|word| line.code.contains(word));
            assert_eq!(touched, None, "{}:{number}", source.path);
        }
    }
}

/// The parts of the window, each a file or a folder, by name, with what each imports from the others.
fn imports_of_the_app() -> BTreeMap<String, BTreeSet<String>> {
    let mut imports: BTreeMap<String, BTreeSet<String>> = BTreeMap::new();
    for source in PROGRAM.iter() {
        let Some(path) = source.path.strip_prefix("crates/app/src/") else {
            continue;
        };
        let part = path.split(['/', '.']).next().unwrap_or_default();
        let of_part = imports.entry(part.to_owned()).or_default();
        for (_, line) in source.own() {
            let named = line.code.split("crate::").skip(1);
            let names = named.filter_map(|rest| rest.split(|c: char| !is_of_a_name(c)).next());
            of_part.extend(names.filter(|name| *name != part).map(ToOwned::to_owned));
        }
    }
    imports
}

fn is_of_a_name(letter: char) -> bool {
    letter == '_' || letter.is_ascii_alphanumeric()
}

#[test]
fn the_parts_of_the_window_have_no_import_cycles() {
    let mut left = imports_of_the_app();
    assert!(left.len() > 20 && left["window"].contains("view"));
    // Crates without remaining imports are removed, until none can be.
    while let Some(free) = left
        .iter()
        .find(|(_, named)| !named.iter().any(|name| left.contains_key(name)))
        .map(|(part, _)| part.clone())
    {
        left.remove(&free);
    }
    assert!(left.is_empty(), "a circle among {left:?}");
}

/// Clippy enforces the same, including the limit of 60 lines per function, but could be silenced.
#[test]
fn no_file_of_the_program_unwraps_or_silences_a_rule() {
    let refused = [
        ".unwrap()",
        ".expect(",
        "panic!(",
        "clippy::unwrap_used",
        "clippy::expect_used",
        "clippy::too_many",
    ];
    for source in PROGRAM.iter() {
        for (number, line) in source.own() {
            let found = refused.into_iter().find(|word| line.code.contains(word));
            assert_eq!(found, None, "{}:{number}", source.path);
        }
    }
}

#[test]
fn every_file_belongs_to_its_crate() {
    let read = PROGRAM.iter().map(|source| root().join(&source.path));
    let read: BTreeSet<PathBuf> = read.collect();
    let folders = ORDER.map(|name| root().join("crates").join(name).join("src"));
    let there = folders.iter().flat_map(|folder| files(folder, "rs"));
    let there: BTreeSet<PathBuf> = there.collect();
    let apart: Vec<&PathBuf> = read.symmetric_difference(&there).collect();
    assert!(apart.is_empty(), "{apart:?}");
}

#[test]
fn no_file_is_longer_than_600_lines() {
    let folders = ["crates", "tests"].map(|folder| root().join(folder));
    for file in folders.iter().flat_map(|folder| files(folder, "rs")) {
        let lines = fs::read_to_string(&file).unwrap().lines().count();
        assert!(lines <= 600, "{} has {lines} lines", file.display());
    }
}

/// The share of comments among the lines of the pure crates, not counting blank lines and tests.
#[test]
fn a_fifth_of_the_pure_crates_is_comments() {
    for name in PURE {
        let prefix = format!("crates/{name}/");
        let sources = PROGRAM
            .iter()
            .filter(|source| source.path.starts_with(&prefix));
        let lines = sources.flat_map(Source::own);
        let lines = lines.map(|(_, line)| line.text.trim_start());
        let (comments, code): (Vec<&str>, Vec<&str>) = lines
            .filter(|line| !line.is_empty())
            .partition(|line| line.starts_with("//"));
        let share = comments.len() as f64 / (comments.len() + code.len()) as f64;
        assert!(share >= 0.2, "{name}: {:.1} % are docs", 100.0 * share);
    }
}

fn files(folder: &Path, ending: &str) -> Vec<PathBuf> {
    let mut found = Vec::new();
    for entry in fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.is_dir() {
            found.extend(files(&path, ending));
        } else if path.extension().is_some_and(|own| own == ending) {
            found.push(path);
        }
    }
    found
}

#[test]
fn every_bench_that_is_named_exists() {
    let page = fs::read_to_string(root().join("DEVELOPERS.md")).unwrap();
    let line = page
        .lines()
        .find(|line| line.contains("cargo bench"))
        .unwrap();
    for name in line
        .split("-p ")
        .skip(1)
        .filter_map(|rest| rest.split('`').next())
    {
        assert!(
            root().join("crates").join(name).join("benches").is_dir(),
            "{name} has no benches"
        );
    }
}

#[test]
fn pages_link_to_existing_files() {
    let mut pages = files(&root().join("docs"), "md");
    pages.extend(["README.md", "DEVELOPERS.md"].map(|page| root().join(page)));
    for page in pages {
        let text = fs::read_to_string(&page).unwrap();
        let links = text.split("](").skip(1);
        for link in links.filter_map(|rest| rest.split([')', '#']).next()) {
            let from = page.parent().unwrap();
            assert!(
                link.contains("://") || from.join(link).exists(),
                "{} links to {link}",
                page.display()
            );
        }
    }
}
