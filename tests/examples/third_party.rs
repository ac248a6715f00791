//! The licenses of every library in the program, with their texts, written to the file that is named: for packages.
//!
//! `cargo run -p tests --example third_party -- target/third-party.txt`
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::print_stdout,
    reason = "a tool for contributors, which ends where it cannot go on"
)]

use std::collections::{BTreeMap, BTreeSet};
use std::fmt::Write as _;
use std::fs;
use std::path::Path;
use std::process::Command;

use serde_json::Value;

/// Beginnings of the names of files that hold a license or what goes with it.
const LICENSES: [&str; 5] = ["license", "licence", "copying", "notice", "unlicense"];

fn main() {
    let path = std::env::args().nth(1).expect("name the file to write");
    let metadata = metadata();
    let used = used_by(&metadata, "app");
    let mut told = String::from(
        "Libraries in Ringwright, each with its version and license. The texts that they carry follow below.\n\n",
    );
    let mut texts: BTreeMap<String, Vec<String>> = BTreeMap::new();
    let packages = metadata["packages"].as_array().unwrap();
    let mut count = 0;
    for package in packages.iter().filter(|package| is_library(package, &used)) {
        let name = format!("{} {}", text(package, "name"), text(package, "version"));
        let license = match text(package, "license") {
            "" => "see its text",
            license => license,
        };
        writeln!(told, "{name}: {license}").unwrap();
        let folder = Path::new(text(package, "manifest_path")).parent().unwrap();
        for words in license_texts(folder) {
            texts.entry(words).or_default().push(name.clone());
        }
        count += 1;
    }
    for (words, names) in &texts {
        let line = "-".repeat(72);
        write!(told, "\n{line}\n{}\n{line}\n\n{words}\n", names.join(", ")).unwrap();
    }
    fs::write(&path, told).unwrap();
    println!("{count} libraries, {} texts: {path}", texts.len());
}

/// All packages and who uses whom, as cargo tells it for this machine.
fn metadata() -> Value {
    let host = Command::new("rustc")
        .args(["--print", "host-tuple"])
        .output();
    let host = String::from_utf8(host.unwrap().stdout).unwrap();
    let asked = [
        "metadata",
        "--locked",
        "--format-version",
        "1",
        "--filter-platform",
    ];
    let told = Command::new("cargo").args(asked).arg(host.trim()).output();
    serde_json::from_slice(&told.unwrap().stdout).unwrap()
}

/// The packages that a package is built of, by their ids: what only tests and build scripts use is left out.
fn used_by(metadata: &Value, name: &str) -> BTreeSet<String> {
    let nodes = metadata["resolve"]["nodes"].as_array().unwrap();
    let nodes: BTreeMap<&str, &Value> = nodes.iter().map(|node| (text(node, "id"), node)).collect();
    let packages = metadata["packages"].as_array().unwrap();
    let first = packages
        .iter()
        .find(|package| text(package, "name") == name)
        .unwrap();
    let mut waiting = vec![text(first, "id")];
    let mut used = BTreeSet::new();
    while let Some(id) = waiting.pop() {
        if used.insert(id.to_owned()) {
            let parts = nodes[id]["deps"].as_array().unwrap().iter();
            let needed = parts.filter(|part| {
                let mut kinds = part["dep_kinds"].as_array().unwrap().iter();
                kinds.any(|kind| kind["kind"].is_null())
            });
            waiting.extend(needed.map(|part| text(part, "pkg")));
        }
    }
    used
}

/// Whether a package is used and comes from elsewhere.
fn is_library(package: &Value, used: &BTreeSet<String>) -> bool {
    used.contains(text(package, "id")) && !package["source"].is_null()
}

fn text<'a>(value: &'a Value, member: &str) -> &'a str {
    value[member].as_str().unwrap_or_default()
}

/// The texts in a package's own folder.
fn license_texts(folder: &Path) -> Vec<String> {
    let entries = fs::read_dir(folder)
        .unwrap()
        .map(|entry| entry.unwrap().path());
    let mut paths: Vec<_> = entries
        .filter(|path| {
            let name = path.file_name().unwrap().to_string_lossy().to_lowercase();
            path.is_file() && LICENSES.iter().any(|word| name.starts_with(word))
        })
        .collect();
    paths.sort();
    let read = |path: &std::path::PathBuf| fs::read_to_string(path).ok();
    let texts = paths.iter().filter_map(read);
    texts
        .map(|words| words.trim().replace("\r\n", "\n"))
        .collect()
}
