//! Findings of the checks.

use board::{HoleName, Measure};
use serde::{Serialize, Serializer};

use super::Rule;
use crate::Mend;

/// Something the maker should know or mend.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Finding {
    /// Its weight for the maker.
    pub severity: Severity,
    /// The rule it is measured by.
    pub rule: Rule,
    /// The sentence, in the maker's units.
    pub message: String,
    /// The measure found, where there is one.
    pub measured: Option<Measure>,
    /// The measure that the rule needs.
    pub wanted: Option<Measure>,
    /// The holes it is about.
    #[serde(serialize_with = "names_as_text")]
    pub holes: Vec<HoleName>,
    /// The changes that mend it in one step.
    pub mends: Vec<Mend>,
}

impl Finding {
    /// A finding without measures, holes or mends.
    pub(crate) const fn new(severity: Severity, rule: Rule, message: String) -> Self {
        Self {
            severity,
            rule,
            message,
            measured: None,
            wanted: None,
            holes: Vec::new(),
            mends: Vec::new(),
        }
    }

    /// With what was measured, and what the rule wants.
    pub(crate) const fn measuring(mut self, measured: Measure, wanted: Measure) -> Self {
        self.measured = Some(measured);
        self.wanted = Some(wanted);
        self
    }

    /// About these holes, in table order, each once.
    pub(crate) fn about(mut self, mut holes: Vec<HoleName>) -> Self {
        holes.sort_by_key(|name| name.id());
        holes.dedup();
        self.holes = holes;
        self
    }

    /// Mended by any of these.
    pub(crate) fn mended_by(mut self, mends: &[Mend]) -> Self {
        self.mends = mends.to_vec();
        self
    }
}

/// The weight of a finding.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Severity {
    /// The board cannot be made or used like this.
    Stop,
    /// It can, but the maker should look twice.
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

/// Names of holes as a list of texts: a program that reads findings need not know how names are built.
pub fn names_as_text<S: Serializer>(names: &[HoleName], serializer: S) -> Result<S::Ok, S::Error> {
    serializer.collect_seq(names.iter().map(ToString::to_string))
}
