//! The type of findings that the checks report.

use board::{HoleName, Measure, Units, as_sentence};
use serde::{Serialize, Serializer};

use super::Rule;
use crate::Mend;

/// Something the maker should know or fix.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Finding {
    /// Its severity.
    pub severity: Severity,
    /// The rule it comes from.
    pub rule: Rule,
    /// The sentence, in the maker's units.
    pub message: String,
    /// The measured value, if there is one.
    pub measured: Option<Measure>,
    /// The value that the rule needs.
    pub wanted: Option<Measure>,
    /// The holes it concerns.
    #[serde(serialize_with = "names_as_text")]
    pub holes: Vec<HoleName>,
    /// The changes that fix it in one step each.
    pub mends: Vec<Mend>,
    /// The rule about the other thing, where two are in each other's way and either can be moved.
    #[serde(skip)]
    pub meets: Option<Rule>,
}

impl Finding {
    /// A finding without measures, holes or fixes. Its message becomes a sentence.
    pub(crate) fn new(severity: Severity, rule: Rule, message: String) -> Self {
        Self {
            severity,
            rule,
            message: as_sentence(message),
            measured: None,
            wanted: None,
            holes: Vec::new(),
            mends: Vec::new(),
            meets: None,
        }
    }

    /// The measured value and the needed one, each only where the message does not contain it, so that no number is read twice.
    ///
    /// ```
    /// let mut board = board::Board::default();
    /// board.blank.diameter -= 50.0;
    /// let workpiece = workshop::Workpiece::of(&board)?;
    /// let told = workpiece.findings().iter().filter_map(|found| found.measures(board.units));
    /// assert!(told.clone().count() > 0);
    /// assert!(told.into_iter().all(|line| line.starts_with("now ") || line.starts_with("needs ")));
    /// # Ok::<(), board::BuildError>(())
    /// ```
    pub fn measures(&self, units: Units) -> Option<String> {
        let (measured, wanted) = (self.measured?, self.wanted?);
        let [is, needs] = measured.shown_beside(wanted, units);
        // A negative value is stated as an overlap, without its sign.
        let is_said = [is.clone(), is.replace('-', "")]
            .iter()
            .any(|number| has_number(&self.message, number));
        let is = (!is_said).then(|| format!("now {is}"));
        let needs = (!has_number(&self.message, &needs)).then(|| format!("needs {needs}"));
        let parts: Vec<String> = is.into_iter().chain(needs).collect();
        (!parts.is_empty()).then(|| parts.join(", "))
    }

    /// The finding with the measured value and the limit of the rule.
    pub(crate) const fn measuring(mut self, measured: Measure, wanted: Measure) -> Self {
        self.measured = Some(measured);
        self.wanted = Some(wanted);
        self
    }

    /// The finding with these holes, in table order, each once.
    pub(crate) fn about(mut self, mut holes: Vec<HoleName>) -> Self {
        // Most lists come in that order, and there may be thousands of holes.
        if !holes.is_sorted_by_key(|name| name.id()) {
            holes.sort_unstable_by_key(|name| name.id());
        }
        holes.dedup();
        self.holes = holes;
        self
    }

    /// The finding with the rule about the other thing that can be moved, where there is one.
    pub(crate) const fn meeting(mut self, other: Option<Rule>) -> Self {
        self.meets = other;
        self
    }

    /// The finding with the changes that fix it.
    pub(crate) fn mended_by(mut self, mends: &[Mend]) -> Self {
        self.mends = mends.to_vec();
        self
    }
}

/// The severity of a finding.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Severity {
    /// The board cannot be made or used like this.
    Stop,
    /// It can, but the maker should check.
    Caution,
    /// Good to know.
    Note,
}

impl Severity {
    /// The word that screens and reports use.
    pub const fn label(self) -> &'static str {
        match self {
            Self::Stop => "stop",
            Self::Caution => "caution",
            Self::Note => "note",
        }
    }
}

/// Whether a sentence contains a number other than as the end of a longer one, as 2 mm is in 12 mm and 1/2" in 3 1/2".
fn has_number(sentence: &str, number: &str) -> bool {
    let number = number.trim_start_matches("≈ ");
    sentence.match_indices(number).any(|(at, _)| {
        let before = sentence.get(..at).unwrap_or_default();
        let goes_on = before.ends_with(|last| ".,/-−".contains(last));
        !goes_on
            && !before
                .trim_end()
                .ends_with(|last: char| last.is_ascii_digit())
    })
}

/// Names of holes as a list of strings: a program that reads findings need not know how names are built.
pub fn names_as_text<S: Serializer>(names: &[HoleName], serializer: S) -> Result<S::Ok, S::Error> {
    serializer.collect_seq(names.iter().map(ToString::to_string))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_numbers_missing_from_the_message_are_shown_below_it() {
        let told = |message: &str, measured: f64, wanted: f64| {
            Finding::new(Severity::Note, Rule::Web, message.into())
                .measuring(Measure::mm(measured), Measure::mm(wanted))
                .measures(Units::Mm)
        };
        assert_eq!(told("2 mm left of 3 mm", 2.0, 3.0), None);
        let needs = Some("needs 3 mm".into());
        assert_eq!(told("2 mm left", 2.0, 3.0), needs);
        let now = Some("now 2 mm".into());
        assert_eq!(told("12 mm wide, of the 3 mm", 2.0, 3.0), now);
        let both = Some("now 2 mm, needs 3 mm".into());
        assert_eq!(told("too thin, 0.2 mm", 2.0, 3.0), both);
    }
}
