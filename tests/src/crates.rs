//! The crates that the program is built from, as cargo tells them, and whether their licenses are allowed.

#![allow(
    clippy::missing_panics_doc,
    reason = "a check that cargo tells nothing has nothing to check"
)]

use std::collections::BTreeSet;
use std::process::Command;

use serde_json::Value;

/// All packages and who uses whom, as cargo tells it for this machine.
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

/// Names and versions of the crates that the program is built from on this machine, ours and macros included; what only tests and
/// build scripts use is left out.
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

/// Whether a package is in the program and comes from elsewhere.
pub fn is_library(package: &Value, program: &BTreeSet<(String, String)>) -> bool {
    let named = ["name", "version"].map(|member| text(package, member).to_owned());
    program.contains(&named.into()) && !package["source"].is_null()
}

/// A text of what cargo tells; empty where it is not there.
pub fn text<'a>(value: &'a Value, member: &str) -> &'a str {
    value[member].as_str().unwrap_or_default()
}

/// A list of what cargo tells; empty where it is not there.
pub fn members<'a>(value: &'a Value, member: &str) -> &'a [Value] {
    value[member].as_array().map_or(&[], Vec::as_slice)
}

/// Whether one of the licenses that an expression offers is allowed (SPDX 2.3, annex D; a slash is an older way to write OR).
pub fn is_allowed(expression: &str, allowed: &[String]) -> bool {
    let spaced = expression
        .replace('(', " ( ")
        .replace(')', " ) ")
        .replace('/', " OR ");
    let mut words = spaced.split_whitespace().peekable();
    either(&mut words, allowed) && words.next().is_none()
}

type Words<'a> = core::iter::Peekable<core::str::SplitWhitespace<'a>>;

/// One or more parts with OR between them; every part is read, whether it still matters or not.
fn either(words: &mut Words, allowed: &[String]) -> bool {
    let mut is_so = both(words, allowed);
    while words.next_if_eq(&"OR").is_some() {
        is_so |= both(words, allowed);
    }
    is_so
}

/// One or more licenses with AND between them.
fn both(words: &mut Words, allowed: &[String]) -> bool {
    let mut is_so = license(words, allowed);
    while words.next_if_eq(&"AND").is_some() {
        is_so &= license(words, allowed);
    }
    is_so
}

/// A license, with its exception if it has one, or an expression in parentheses.
fn license(words: &mut Words, allowed: &[String]) -> bool {
    if words.next_if_eq(&"(").is_some() {
        let is_so = either(words, allowed);
        return words.next_if_eq(&")").is_some() && is_so;
    }
    let Some(name) = words.next() else {
        return false;
    };
    let is = |name: &str| allowed.iter().any(|allowed| allowed == name);
    if words.next_if_eq(&"WITH").is_none() {
        return is(name);
    }
    let exception = words.next().unwrap_or_default();
    is(&format!("{name} WITH {exception}"))
}
