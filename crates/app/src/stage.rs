//! The stages of the work, in their order: which controls are at hand.

use workshop::Rule;

/// A stage of the work.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Stage {
    /// Players, pattern, bores, limits.
    #[default]
    LayOut,
    /// The blank, and how it is joined.
    Wood,
    /// The prints, and their accuracy.
    Template,
    /// Jigs and machines that drill.
    Drill,
    /// The work at the bench: storage, grooves, filling.
    Bench,
    /// Colors and coats.
    Finish,
    /// The order: how many boards, and when.
    HandOver,
}

impl Stage {
    /// Every stage, in the order of the work.
    pub const ALL: [Self; 7] = [
        Self::LayOut,
        Self::Wood,
        Self::Template,
        Self::Drill,
        Self::Bench,
        Self::Finish,
        Self::HandOver,
    ];

    /// The word on its tab.
    pub const fn label(self) -> &'static str {
        match self {
            Self::LayOut => "Lay out",
            Self::Wood => "Wood",
            Self::Template => "Template",
            Self::Drill => "Drill",
            Self::Bench => "Bench",
            Self::Finish => "Finish",
            Self::HandOver => "Hand over",
        }
    }

    /// The stage at which a finding of a rule is mended.
    pub const fn of_rule(rule: Rule) -> Self {
        match rule {
            Rule::Web
            | Rule::Rim
            | Rule::Roundover
            | Rule::Pieces
            | Rule::Reach
            | Rule::Players
            | Rule::Edits => Self::LayOut,
            Rule::Seam
            | Rule::Stock
            | Rule::Planer
            | Rule::Joinery
            | Rule::Wood
            | Rule::Base
            | Rule::Carry => Self::Wood,
            Rule::Joints
            | Rule::Sheets
            | Rule::TemplateWeb
            | Rule::Bushing
            | Rule::RouterBit
            | Rule::OwnedRouter
            | Rule::SectorJig
            | Rule::Risk => Self::Template,
            Rule::Floor
            | Rule::Inside
            | Rule::Pilot
            | Rule::Seat
            | Rule::Spin
            | Rule::OwnedBits
            | Rule::Throat
            | Rule::Readings
            | Rule::WrongHoles => Self::Drill,
            Rule::GrooveBores
            | Rule::GrooveSides
            | Rule::GrooveRim
            | Rule::GrooveDepth
            | Rule::Storage
            | Rule::Lid
            | Rule::Filling => Self::Bench,
            Rule::PlayerColors
            | Rule::ColorOnWood
            | Rule::ColorMedium
            | Rule::MarkRoom
            | Rule::Finish => Self::Finish,
            Rule::Price | Rule::Calendar => Self::HandOver,
        }
    }

    /// The controls found there, in words.
    pub const fn tooltip(self) -> &'static str {
        match self {
            Self::LayOut => "Players, pattern, lanes, pieces, limits of the checks",
            Self::Wood => "The species and the blank, how it is joined, screws and base",
            Self::Template => "What is printed, and how true it comes out",
            Self::Drill => "Bores, jigs and machines, and the order of drilling",
            Self::Bench => "Storage, grooves, filling",
            Self::Finish => "Colors of players and board, coats of finish",
            Self::HandOver => "The order: number of boards, dates, price",
        }
    }
}
