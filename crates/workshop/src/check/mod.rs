//! Findings: everything the maker should know or fix before wood is cut, with one rule per file.
//!
//! A finding is a value and not an error: a board with findings is laid out, shown and printed all the same, and all findings
//! are reported at once, worst first. A rule reads only the workpiece, gives the measured value and the limit in one unit, and
//! names its holes, so that the window can point at them. A value exactly at its limit passes.

mod carry;
mod edits;
mod finding;
pub(crate) mod pairs;
pub mod players;
pub(crate) mod reach;
mod rim;
mod roundover;
mod rule;
mod web;

pub(crate) use finding::names_as_text;
pub use finding::{Finding, Severity};
pub use rule::Rule;
pub(crate) use rule::check;

/// Whether any finding is a stop.
///
/// A board with only cautions can be made; whether it should be is for the maker to decide.
pub fn stops(findings: &[Finding]) -> bool {
    findings
        .iter()
        .any(|finding| finding.severity == Severity::Stop)
}

/// The names of the rules that stop a board, for the top of every sheet that someone could cut from; `None` if there are no
/// stops.
///
/// ```
/// use board::Board;
/// use workshop::{Workpiece, stopped_by};
/// let crowded = Board { pitch: 11.0, ..Board::default() };
/// let rules = stopped_by(Workpiece::of(&crowded)?.findings()).unwrap();
/// assert_eq!(rules, "wood between holes, room for pieces");
/// assert_eq!(stopped_by(Workpiece::of(&Board::default())?.findings()), None);
/// # Ok::<(), board::BuildError>(())
/// ```
pub fn stopped_by(findings: &[Finding]) -> Option<String> {
    /// Number of holes named in one finding; the rest are counted.
    const TOLD: usize = 4;
    let stops = findings
        .iter()
        .filter(|finding| finding.severity == Severity::Stop);
    let mut rules: Vec<&str> = stops.map(|stop| stop.rule.label()).collect();
    // Findings of one rule are consecutive.
    rules.dedup();
    let more = rules.len().saturating_sub(TOLD);
    rules.truncate(TOLD);
    let told = rules.join(", ");
    match (rules.is_empty(), more) {
        (true, _) => None,
        (false, 0) => Some(told),
        (false, more) => Some(format!("{told} and {more} more")),
    }
}

/// Rounding slack for a length that is exactly at its limit, mm.
pub(crate) const HAIR: f64 = 1e-9;

pub(crate) use board::several as counted;

#[cfg(test)]
mod tests {
    use super::*;
    use board::{Board, Paper, Template};

    use crate::Workpiece;

    #[test]
    fn rules_are_stated_in_the_makers_units() {
        use board::Units;
        let others: [(Units, &[&str]); 2] = [
            (Units::Mm, &[" in ", "\"", " °F", " lb"]),
            (Units::INCH, &[" mm", " °C", " N ", " kg"]),
        ];
        for rule in Rule::ALL {
            for (units, foreign) in others {
                let words = rule.statement(units);
                let has =
                    |unit: &&&str| (0..10).any(|digit| words.contains(&format!("{digit}{unit}")));
                assert_eq!(foreign.iter().find(has), None, "{words}");
                assert!(!words.contains(['{', '}', '|']), "{words}");
            }
        }
    }

    /// On an inch board the defaults are inch sizes in their own right, and not converted metric ones.
    #[test]
    fn a_rule_names_the_default_of_its_field() {
        use board::{Units, Value, field};
        let limits = [
            (Rule::Web, &field::LEAST_WEB),
            (Rule::Rim, &field::LEAST_RIM),
            (Rule::Floor, &field::LEAST_FLOOR),
            (Rule::Inside, &field::LEAST_INSIDE),
            (Rule::Seam, &field::LEAST_SEAM),
            (Rule::Pieces, &field::LEAST_GAP),
            (Rule::Seat, &field::MOST_PLAY),
            (Rule::Pilot, &field::MOST_PIN_PLAY),
            (Rule::TemplateWeb, &field::LEAST_TEMPLATE),
            (Rule::Reach, &field::LEAST_HANDS),
            (Rule::Reach, &field::REACH),
            (Rule::Base, &field::LEAST_TIP),
            (Rule::Planer, &field::PLANER),
            (Rule::Stock, &field::TRIM),
        ];
        for units in [Units::Mm, Units::INCH] {
            let wishes = crate::Wishes {
                units: Some(units),
                ..crate::Wishes::default()
            };
            let board = crate::propose(&wishes).unwrap();
            for (rule, field) in limits {
                let Some(Value::Number(held)) = field.value(&board, 0) else {
                    panic!("{} is no number", field.path)
                };
                let default = field.range().quantity.shown(held, units);
                let words = rule.statement(units);
                assert!(
                    words.contains(&default),
                    "{}, {default}: {words}",
                    field.path
                );
            }
        }
    }

    #[test]
    fn the_default_board_has_no_stop() {
        let board = Board::default();
        let findings = check(&Workpiece::of(&board).unwrap());
        assert!(!stops(&findings), "{findings:#?}");
    }

    #[test]
    fn a_template_that_cannot_be_cut_is_a_finding() {
        let board = Board {
            template: Template {
                paper: Paper::Custom {
                    width: 40.0,
                    height: 60.0,
                },
                margin: 20.0,
                ..Template::default()
            },
            ..Board::default()
        };
        let findings = check(&Workpiece::of(&board).unwrap());
        let uncut = findings.iter().find(|found| found.rule == Rule::Sheets);
        assert!(uncut.unwrap().message.contains("leave nothing of paper"));
    }

    #[test]
    fn the_worst_comes_first() {
        let board = Board {
            pitch: 12.5,
            ..Board::default()
        };
        let findings = check(&Workpiece::of(&board).unwrap());
        assert!(findings.len() > 1);
        assert!(findings.is_sorted_by_key(|finding| finding.severity));
    }
}
