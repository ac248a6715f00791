//! The crates that everything here is built from: their licenses, their sources, and their number.
//!
//! `.ci/deny` checks the same for every system, and also reads the license texts; this runs with the other tests.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    reason = "a test that cannot go on has failed"
)]

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::sync::LazyLock;

use serde_json::Value;
use spdx::{Expression, ParseMode};
use tests::crates::{members, metadata, program, text};
use tests::source::repository as root;

static METADATA: LazyLock<Value> = LazyLock::new(metadata);

/// Every crate that is not ours, including those of the tests.
fn libraries() -> impl Iterator<Item = &'static Value> {
    let packages = members(&METADATA, "packages").iter();
    packages.filter(|package| !package["source"].is_null())
}

/// The entries of a list in the configuration of `.ci/deny`.
fn listed(name: &str) -> Vec<String> {
    let settings = fs::read_to_string(root().join(".ci/deny.toml")).unwrap();
    let after = settings.split(&format!("\n{name} = [")).nth(1).unwrap();
    let list = after.split("\n]").next().unwrap();
    let lines = list.lines().map(str::trim);
    let entries = lines.filter(|line| line.starts_with('"'));
    entries
        .map(|line| line.trim_end_matches(',').trim_matches('"').to_owned())
        .collect()
}

/// Whether one of the licenses offered by an expression is allowed; a slash is an older way to write OR.
fn is_allowed(expression: &str, allowed: &[String]) -> bool {
    let parsed = Expression::parse_mode(expression, ParseMode::LAX);
    parsed.is_ok_and(|parsed| parsed.evaluate(|asked| allowed.contains(&asked.to_string())))
}

#[test]
fn every_crate_has_a_license_that_is_allowed() {
    let allowed = listed("allow");
    assert!(allowed.len() > 5, "{allowed:?}");
    let mut count = 0;
    for package in libraries() {
        let (name, license) = (text(package, "name"), text(package, "license"));
        assert!(is_allowed(license, &allowed), "{name}: {license}");
        count += 1;
    }
    assert!(count > 200, "{count}");
}

#[test]
fn an_expression_is_allowed_if_one_of_its_choices_is() {
    let allowed = ["MIT", "Zlib", "Apache-2.0 WITH LLVM-exception"].map(ToOwned::to_owned);
    for (expression, is_so) in [
        ("MIT", true),
        ("GPL-3.0-only", false),
        ("GPL-3.0-only OR MIT", true),
        ("GPL-3.0-only/MIT", true),
        ("GPL-3.0-only AND MIT", false),
        ("(GPL-3.0-only OR MIT) AND Zlib", true),
        ("GPL-3.0-only OR MIT AND Apache-2.0", false),
        ("MIT AND (Apache-2.0 OR Zlib)", true),
        ("Apache-2.0", false),
        ("Apache-2.0 WITH LLVM-exception", true),
        ("MIT WITH LLVM-exception", false),
        ("MIT)", false),
        ("(MIT", false),
        ("", false),
    ] {
        assert_eq!(is_allowed(expression, &allowed), is_so, "{expression}");
    }
}

/// Cargo's own registry is the only source; nobody keeps or checks a crate from elsewhere.
#[test]
fn every_crate_comes_from_one_registry() {
    let sources: BTreeSet<&str> = libraries().map(|package| text(package, "source")).collect();
    let is_registry = sources.iter().all(|source| source.starts_with("registry+"));
    assert!(sources.len() == 1 && is_registry, "{sources:?}");
}

#[test]
fn no_crate_comes_in_two_versions_without_a_listed_reason() {
    let skipped = listed("skip");
    let mut versions: BTreeMap<String, Vec<String>> = BTreeMap::new();
    for (name, version) in program() {
        versions.entry(name).or_default().push(version);
    }
    for (name, versions) in versions.into_iter().filter(|(_, found)| found.len() > 1) {
        let is_listed = |version: &&String| {
            skipped.iter().any(|skipped| {
                let (of, from) = skipped.split_once('@').unwrap();
                of == name && (*version == from || version.starts_with(&format!("{from}.")))
            })
        };
        let unlisted = versions
            .iter()
            .filter(|version| !is_listed(version))
            .count();
        assert!(unlisted <= 1, "{name}: {versions:?}");
    }
}

/// The number in the decisions is the one for Linux; anyone who adds a crate explains it there.
#[cfg(target_os = "linux")]
#[test]
fn the_program_has_as_many_crates_as_its_decisions_say() {
    let page = fs::read_to_string(root().join("docs/decisions/libraries.md")).unwrap();
    let number = page.split("is built from ").nth(1).unwrap();
    let number: usize = number.split(' ').next().unwrap().parse().unwrap();
    assert_eq!(program().len(), number);
}
