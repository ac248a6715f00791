//! The crates that the program is built from, according to cargo.

#![allow(
    clippy::missing_panics_doc,
    reason = "a check that cargo tells nothing has nothing to check"
)]

use std::collections::BTreeSet;
use std::process::Command;

use serde_json::Value;

/// All packages and their dependencies, according to cargo for this machine.
pub fn metadata() -> Value {
    let host = Command::new("rustc")
        .args(["--print", "host-tuple"])
        .output()
        .expect("rustc can be run");
    let host = String::from_utf8(host.stdout).expect("rustc writes text");
    let told = Command::new("cargo")
        .args(["metadata", "--locked", "--format-version", "1"])
        .args(["--filter-platform", host.trim()])
        .output()
        .expect("cargo can be run");
    serde_json::from_slice(&told.stdout).expect("cargo writes JSON")
}

/// Names and versions of the crates that the program is built from on this machine, including ours and macros; crates used only
/// by tests and build scripts are left out.
pub fn program() -> BTreeSet<(String, String)> {
    let told = Command::new("cargo")
        .args(["tree", "--locked", "--package", "app", "--edges", "normal"])
        .args(["--prefix", "none"])
        .output()
        .expect("cargo can be run");
    let told = String::from_utf8(told.stdout).expect("cargo writes text");
    let named = told.lines().filter_map(|line| {
        let mut words = line.split(' ');
        let name = words.next()?.to_owned();
        Some((name, words.next()?.strip_prefix('v')?.to_owned()))
    });
    named.collect()
}

/// Whether a package is in the program and is not ours.
pub fn is_library(package: &Value, program: &BTreeSet<(String, String)>) -> bool {
    let named = ["name", "version"].map(|member| text(package, member).to_owned());
    program.contains(&named.into()) && !package["source"].is_null()
}

/// A text from cargo's metadata; empty if it is missing.
pub fn text<'a>(value: &'a Value, member: &str) -> &'a str {
    value[member].as_str().unwrap_or_default()
}

/// A list from cargo's metadata; empty if it is missing.
pub fn members<'a>(value: &'a Value, member: &str) -> &'a [Value] {
    value[member].as_array().map_or(&[], Vec::as_slice)
}
