//! The sections of the controls: at which stage each stands, whether it starts unfolded, and which rules are about it.

use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};
use workshop::Rule;

use crate::stage::Stage;

macro_rules! sections {
    ($($(#[$doc:meta])* $section:ident, $title:literal, $stage:ident, $opens:literal;)+) => {
        /// A section of the controls.
        #[derive(Debug, Clone, Copy, PartialEq, Eq)]
        pub enum Section {
            $($(#[$doc])* $section,)+
        }

        impl Section {
            /// Every section, stage by stage, in the order that they stand in.
            pub const ALL: &[Self] = &[$(Self::$section,)+];

            /// The words of its header; no two sections have the same.
            pub const fn title(self) -> &'static str {
                match self {
                    $(Self::$section => $title,)+
                }
            }

            /// The stage that it stands at.
            pub const fn stage(self) -> Stage {
                match self {
                    $(Self::$section => Stage::$stage,)+
                }
            }

            /// Whether it is unfolded until the maker folds it.
            pub const fn opens(self) -> bool {
                match self {
                    $(Self::$section => $opens,)+
                }
            }
        }
    };
}

sections! {
    /// Title, units and sizes of the finished board.
    Board, "Board", LayOut, true;
    /// Players, track, spaces, hole spacing.
    Pattern, "Pattern", LayOut, true;
    /// Home lanes and start pockets.
    Lanes, "Home and start", LayOut, false;
    /// The pieces.
    Pieces, "Pieces", LayOut, true;
    /// The hole at the center pin.
    Center, "Center", LayOut, false;
    /// Weight and magnets of the pieces.
    Weight, "Weight and magnets", LayOut, false;
    /// Changes to single holes.
    Holes, "Edit holes", LayOut, false;
    /// The limits of the checks.
    Limits, "Minimum sizes", LayOut, false;
    /// The species.
    Species, "Species", Wood, true;
    /// The blank.
    Blank, "Blank", Wood, true;
    /// Joints of the blank.
    Joining, "Joining", Wood, false;
    /// Screws from below.
    Screws, "Screws in the underside", Wood, false;
    /// The air through the year.
    Seasons, "Seasonal movement", Wood, false;
    /// Turntable or feet, and the way to the table.
    Base, "Base", Wood, false;
    /// Paper and marks.
    Template, "Template", Template, true;
    /// The printer and its errors.
    Printer, "Printer", Template, true;
    /// Templates of hardboard.
    Hardboard, "Hardboard", Template, false;
    /// Errors of the work.
    Accuracy, "Accuracy", Template, false;
    /// The bores.
    Bores, "Bores", Drill, true;
    /// Jigs that are set by hand, and the order of drilling.
    Jig, "Jig and order", Drill, true;
    /// The maker's bits.
    Tools, "Bits you own", Drill, false;
    /// The CNC machine.
    Machine, "Machine", Drill, false;
    /// Distances measured, and holes that went wrong.
    Repair, "Repair", Drill, false;
    /// V-grooves.
    Grooves, "Grooves", Bench, true;
    /// The recess and its lid.
    Storage, "Storage recess", Bench, true;
    /// Resin.
    Filling, "Filling", Bench, false;
    /// Colors of the players.
    Players, "Players' colors", Finish, true;
    /// Colors of the board.
    Colors, "Colors of the board", Finish, false;
    /// Coats of finish.
    Coats, "Finish coats", Finish, true;
    /// The order, and its days.
    Calendar, "Calendar", HandOver, true;
    /// The maker's hours.
    Hours, "Your hours", HandOver, false;
    /// The maker's own times.
    Times, "Own times", HandOver, false;
    /// The operations that are done.
    Done, "Work done", HandOver, false;
    /// The shopping list, and the price.
    Price, "Shopping and price", HandOver, true;
    /// The quote.
    Quote, "Quote", HandOver, false;
}

impl Section {
    /// The sections of a stage, from the top.
    pub fn of_stage(stage: Stage) -> impl Iterator<Item = Self> {
        let is_there = move |section: &Self| section.stage() == stage;
        Self::ALL.iter().copied().filter(is_there)
    }

    /// The section in which a finding of a rule is fixed.
    pub const fn of_rule(rule: Rule) -> Self {
        match rule {
            Rule::Rim | Rule::Roundover | Rule::Reach => Self::Board,
            Rule::Web => Self::Pattern,
            Rule::Pieces | Rule::Players => Self::Pieces,
            Rule::Pilot => Self::Center,
            Rule::Edits => Self::Holes,
            Rule::Wood => Self::Species,
            Rule::Stock => Self::Blank,
            Rule::Seam | Rule::Planer | Rule::Joinery => Self::Joining,
            Rule::Base | Rule::Carry => Self::Base,
            Rule::Joints | Rule::Sheets => Self::Template,
            Rule::TemplateWeb
            | Rule::Bushing
            | Rule::RouterBit
            | Rule::OwnedRouter
            | Rule::SectorJig => Self::Hardboard,
            Rule::Risk => Self::Accuracy,
            Rule::Floor | Rule::Inside | Rule::Seat | Rule::Spin | Rule::OwnedBits => Self::Bores,
            Rule::Throat => Self::Jig,
            Rule::Readings | Rule::WrongHoles => Self::Repair,
            Rule::GrooveBores | Rule::GrooveSides | Rule::GrooveRim | Rule::GrooveDepth => {
                Self::Grooves
            }
            Rule::Storage | Rule::Lid => Self::Storage,
            Rule::Filling => Self::Filling,
            Rule::PlayerColors | Rule::MarkRoom => Self::Players,
            Rule::ColorOnWood | Rule::ColorMedium => Self::Colors,
            Rule::Finish => Self::Coats,
            Rule::Price => Self::Price,
            Rule::Calendar => Self::Calendar,
        }
    }
}

/// The sections that the maker has folded or unfolded, by their titles; the others are as they start.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
#[serde(transparent)]
pub struct Folds(BTreeMap<String, bool>);

impl Folds {
    /// Whether a section is unfolded.
    pub fn is_open(&self, section: Section) -> bool {
        let kept = self.0.get(section.title()).copied();
        kept.unwrap_or(section.opens())
    }

    /// Folds or unfolds a section.
    pub fn set(&mut self, section: Section, open: bool) {
        if self.is_open(section) != open {
            self.0.insert(section.title().into(), open);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::BTreeSet;

    #[test]
    fn every_stage_starts_with_some_sections_unfolded_and_some_folded() {
        for stage in Stage::ALL {
            let opened = Section::of_stage(stage).filter(|section| section.opens());
            let (open, all) = (opened.count(), Section::of_stage(stage).count());
            assert!((1..=3).contains(&open) && open < all, "{stage:?}");
        }
    }

    #[test]
    fn no_two_sections_share_a_title() {
        let titles: BTreeSet<&str> = Section::ALL.iter().map(|section| section.title()).collect();
        assert_eq!(titles.len(), Section::ALL.len());
    }

    #[test]
    fn only_what_the_maker_has_changed_is_kept() {
        let mut folds = Folds::default();
        folds.set(Section::Board, true);
        assert_eq!(folds, Folds::default());
        folds.set(Section::Joining, true);
        folds.set(Section::Board, false);
        let kept = serde_json::to_string(&folds).unwrap();
        assert_eq!(kept, r#"{"Board":false,"Joining":true}"#);
        assert_eq!(serde_json::from_str::<Folds>(&kept).unwrap(), folds);
        assert!(folds.is_open(Section::Joining) && !folds.is_open(Section::Board));
    }
}
