//! Cautions where hands, eyes, ears, lungs and small children are at risk.
//!
//! Reminders, not advice: the tool's manual, local codes and licensed practice come first, and every place that shows a
//! caution says so.

use board::{Board, Coat, CoatKind, Medium, PieceKind};

use crate::colors::steps::kind_of;
use crate::filling::steps::may_be_sealed;
use crate::finish::coat_data;

mod at_work;
mod words;

pub(crate) use at_work::at_work;
use words::text_of;

/// The sentence before every list of cautions.
pub const FIRST: &str =
    "A reminder, not advice: the tool's manual, local codes and licensed practice come first.";

/// The cautions about eyes, dust and noise, which every tool needs, in one line for places that print other cautions in full.
pub const PROTECTION: &str = "Eyes, dust and noise: wear safety glasses, a respirator that fits and hearing protection, and collect dust at the tool.";

/// The subject of a caution, in the order lists show them: machines first, then what all of them need.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Caution {
    /// Drilling with a press.
    DrillPress,
    /// Routing, by hand or along a template.
    Router,
    /// Sawing, and the circle jig on the saw.
    TableSaw,
    /// Sawing on a band saw.
    BandSaw,
    /// Sawing with a circular saw, a track saw or a jig saw.
    HandSaw,
    /// Machine jointing and planing.
    Jointer,
    /// Mortises for loose tenons.
    Mortise,
    /// Machines that move by themselves.
    Cnc,
    /// Chips and splashes.
    Eyes,
    /// Wood dust.
    Dust,
    /// Noise.
    Noise,
    /// Resin and its dust.
    Resin,
    /// Rags with drying oil.
    OilyRags,
    /// Solvent vapor.
    Solvents,
    /// Pieces small enough to be swallowed.
    SmallParts,
    /// Magnets that come loose.
    Magnets,
}

impl Caution {
    /// Every caution, in the order lists show them.
    pub const ALL: [Self; 16] = [
        Self::DrillPress,
        Self::Router,
        Self::TableSaw,
        Self::BandSaw,
        Self::HandSaw,
        Self::Jointer,
        Self::Mortise,
        Self::Cnc,
        Self::Eyes,
        Self::Dust,
        Self::Noise,
        Self::Resin,
        Self::OilyRags,
        Self::Solvents,
        Self::SmallParts,
        Self::Magnets,
    ];

    /// The name of its subject in a word or two.
    pub const fn label(self) -> &'static str {
        text_of(self).label
    }

    /// The caution itself, in sentences.
    pub const fn words(self) -> &'static str {
        text_of(self).words
    }

    /// Where it comes from.
    pub const fn source(self) -> &'static str {
        text_of(self).source
    }

    /// The caution as printed on paper and in lists: "Router: Clamp the work. ... (source)".
    ///
    /// ```
    /// use workshop::Caution;
    /// assert!(Caution::Noise.in_full().starts_with("Noise: Wear hearing protection"));
    /// assert!(Caution::Noise.in_full().ends_with("exchange)"));
    /// ```
    pub fn in_full(self) -> String {
        format!("{}: {} ({})", self.label(), self.words(), self.source())
    }

    /// Whether making this board involves the caution.
    pub fn concerns(self, board: &Board) -> bool {
        match self {
            Self::DrillPress
            | Self::TableSaw
            | Self::BandSaw
            | Self::HandSaw
            | Self::Jointer
            | Self::Eyes
            | Self::Dust
            | Self::Noise
            | Self::SmallParts => true,
            Self::Mortise => board.panel.tenons.is_some(),
            Self::Router => {
                board.colors.uses(Medium::Inlay)
                    || board.router.is_some()
                    || board.recess.is_some()
                    || board.blank.roundover > 0.0
            }
            Self::Cnc => board.machine.is_some(),
            Self::Resin => board.filling.is_some(),
            Self::OilyRags => {
                let is_oily = |coat: &Coat| coat_data(coat.kind).is_oily;
                board.finish.iter().any(is_oily)
                    || colored_with(board).any(|kind| coat_data(kind).is_oily)
            }
            Self::Solvents => {
                let has_vapor = |coat: &Coat| coat_data(coat.kind).has_vapor;
                board.finish.iter().any(has_vapor)
                    || colored_with(board).any(|kind| coat_data(kind).has_vapor)
                    || may_be_sealed(board)
            }
            Self::Magnets => board.piece.kind == PieceKind::Magnet,
        }
    }
}

/// The kinds of coats that color the wood of a board, by the table of finishes.
fn colored_with(board: &Board) -> impl Iterator<Item = CoatKind> {
    let media = Medium::ALL.into_iter();
    let media = media.filter(|medium| board.colors.uses(*medium));
    media.filter_map(kind_of)
}

#[cfg(test)]
mod tests {
    use super::*;
    use board::{Filling, Machine};

    #[test]
    fn a_caution_is_shown_where_the_work_needs_it() {
        let mut board = Board::default();
        let told = |board: &Board| {
            Caution::ALL
                .into_iter()
                .filter(|caution| caution.concerns(board))
                .count()
        };
        let plain = told(&board);
        board.machine = Some(Machine::default());
        board.filling = Some(Filling::default());
        board.finish = vec![Coat::default()];
        board.piece.kind = PieceKind::Magnet;
        assert_eq!(told(&board), plain + 5);
    }

    /// The shellac that seals open pores is thinned with alcohol, for every finish.
    #[test]
    fn sealing_before_resin_warns_of_vapor() {
        let mut board = Board {
            filling: Some(Filling::default()),
            ..Board::default()
        };
        assert!(Caution::Solvents.concerns(&board));
        board.wood = Some(board::Wood {
            species: "sugar-maple".into(),
            ..board::Wood::default()
        });
        assert!(!Caution::Solvents.concerns(&board));
        board.wood = Some(board::Wood {
            species: "red-oak".into(),
            ..board::Wood::default()
        });
        assert!(Caution::Solvents.concerns(&board));
        board.filling = None;
        assert!(!Caution::Solvents.concerns(&board));
    }

    /// NIOSH: 480 minutes divided by two to the power of a third of the decibels above 85.
    #[test]
    fn the_stated_minutes_follow_the_formula() {
        let minutes = |level: f64| 480.0 / libm::exp2((level - 85.0) / 3.0);
        testkit::assert_near!(minutes(100.0), 15.0, 1e-9);
        assert!(Caution::Noise.words().contains("15 minutes at 100 dBA"));
    }
}
