//! The page on findings for other programs names every rule and every mend.

use workshop::{Mend, Rule};

const PAGE: &str = include_str!("../../../docs/formats/findings.md");

fn named<T: serde::Serialize + core::fmt::Debug>(all: &[T]) {
    for one in all {
        let name = serde_json::to_string(one).unwrap_or_default();
        let name = name.trim_matches('"');
        assert!(
            PAGE.contains(&format!("`{name}`")),
            "{one:?}, in files {name}, is not on the page"
        );
    }
}

#[test]
fn every_rule_and_every_mend_is_on_the_page() {
    named(Rule::ALL);
    let offered = Mend::ALL.into_iter().filter(|mend| mend.is_offered());
    named(&offered.collect::<Vec<_>>());
}
