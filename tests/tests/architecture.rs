//! The contributors' page against the crates: what it says of them must hold.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    reason = "a test that cannot go on has failed"
)]

use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};

fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("..")
}

fn crates() -> BTreeSet<String> {
    let folders = fs::read_dir(root().join("crates")).unwrap();
    folders
        .map(|folder| folder.unwrap().file_name().to_string_lossy().into_owned())
        .collect()
}

/// The names of a crate's dependencies, those of its tests left out.
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
fn the_code_map_names_every_crate_and_no_other() {
    let page = fs::read_to_string(root().join("DEVELOPERS.md")).unwrap();
    let rows = page
        .lines()
        .filter_map(|line| line.strip_prefix("| `")?.split('`').next());
    let named: BTreeSet<String> = rows.map(ToOwned::to_owned).collect();
    assert_eq!(named, crates());
}

#[test]
fn each_crate_uses_only_those_before_it() {
    let order = ["geometry", "board", "workshop", "drawing", "export", "app"];
    for (place, name) in order.iter().enumerate() {
        for later in &order[place + 1..] {
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
    for name in ["geometry", "board", "workshop", "drawing", "export"] {
        for window in ["egui", "eframe", "egui_plot", "rfd", "tempfile", "jiff"] {
            assert!(!dependencies(name).contains(window), "{name} uses {window}");
        }
    }
}

#[test]
fn only_host_and_files_touch_the_world() {
    for name in crates() {
        for file in sources(&root().join("crates").join(&name).join("src")) {
            let text = fs::read_to_string(&file).unwrap();
            let own = text.split("#[cfg(test)]").next().unwrap_or_default();
            let worldly =
                own.contains("std::fs") || own.contains("rfd::") || own.contains("jiff::");
            let allowed =
                name == "app" && (file.ends_with("src/host.rs") || file.ends_with("src/files.rs"));
            assert!(
                !worldly || allowed || name == "testkit",
                "{} touches the world",
                file.display()
            );
        }
    }
}

fn sources(folder: &Path) -> Vec<PathBuf> {
    let mut found = Vec::new();
    for entry in fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.is_dir() {
            found.extend(sources(&path));
        } else if path.extension().is_some_and(|ending| ending == "rs") {
            found.push(path);
        }
    }
    found
}

#[test]
fn every_bench_that_is_named_is_there() {
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
fn pages_link_to_files_that_are_there() {
    for page in ["README.md", "DEVELOPERS.md"] {
        let text = fs::read_to_string(root().join(page)).unwrap();
        for link in text
            .split("](")
            .skip(1)
            .filter_map(|rest| rest.split(')').next())
        {
            if !link.contains("://") {
                assert!(root().join(link).exists(), "{page} links to {link}");
            }
        }
    }
}
