//! The stages of the work, in their order; each has its controls.

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

    /// The controls found there, in words.
    pub const fn tooltip(self) -> &'static str {
        match self {
            Self::LayOut => "Players, pattern, lanes, pieces, minimum sizes",
            Self::Wood => "The species and the blank, how it is joined, screws and base",
            Self::Template => "Printed templates, and how accurate they are",
            Self::Drill => "Hole sizes, jigs and machines, and the order of drilling",
            Self::Bench => "Storage, grooves, filling",
            Self::Finish => "Colors of players and board, coats of finish",
            Self::HandOver => "The order: number of boards, dates, price",
        }
    }
}
