//! The licenses of every library in the program, with their texts, written to the given file, for use in packages.
//!
//! `cargo run -p tests --example third_party -- target/third-party.txt`
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::print_stdout,
    reason = "a tool for contributors, which ends where it cannot go on"
)]

use std::collections::BTreeMap;
use std::fmt::Write as _;
use std::fs;
use std::path::Path;

use tests::crates::{is_library, metadata, program, text};

/// Prefixes of the names of files that contain a license or a notice.
const LICENSES: [&str; 5] = ["license", "licence", "copying", "notice", "unlicense"];

fn main() {
    let path = std::env::args().nth(1).expect("name the file to write");
    let (metadata, used) = (metadata(), program());
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
