//! Cautions where hands, eyes, ears, lungs and small children are at risk.
//!
//! Reminders, not advice: the tool's manual, local codes and licensed practice come first, and every place that shows a
//! caution says so.

use board::{Board, Coat, CoatKind, Medium, PieceKind};

use crate::colors::steps::kind_of;
use crate::filling::steps::may_be_sealed;
use crate::finish::coat_data;

/// The words that come before every caution here.
pub const FIRST: &str =
    "A reminder, not advice: the tool's manual, local codes and licensed practice come first.";

/// The subject of a caution.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Caution {
    /// Drilling with a press.
    DrillPress,
    /// Routing, by hand or along a template.
    Router,
    /// Sawing, and the circle jig on the saw.
    TableSaw,
    /// Machines that move by themselves.
    Cnc,
    /// Dust of wood.
    Dust,
    /// Noise.
    Noise,
    /// Resin, and its dust.
    Resin,
    /// Rags with oil that dries.
    OilyRags,
    /// Vapor of solvents.
    Solvents,
    /// Pieces that go into a mouth.
    SmallParts,
    /// Magnets that come loose.
    Magnets,
}

impl Caution {
    /// Every caution, in the order lists show them.
    pub const ALL: [Self; 11] = [
        Self::DrillPress,
        Self::Router,
        Self::TableSaw,
        Self::Cnc,
        Self::Dust,
        Self::Noise,
        Self::Resin,
        Self::OilyRags,
        Self::Solvents,
        Self::SmallParts,
        Self::Magnets,
    ];

    /// Its subject, in a word or two.
    pub const fn label(self) -> &'static str {
        match self {
            Self::DrillPress => "Drill press",
            Self::Router => "Router",
            Self::TableSaw => "Table saw",
            Self::Cnc => "CNC machine",
            Self::Dust => "Wood dust",
            Self::Noise => "Noise",
            Self::Resin => "Resin",
            Self::OilyRags => "Oily rags",
            Self::Solvents => "Solvents",
            Self::SmallParts => "Small parts and balls",
            Self::Magnets => "Magnets",
        }
    }

    /// The caution itself, in sentences.
    pub const fn words(self) -> &'static str {
        match self {
            Self::DrillPress => {
                "Clamp the blank, keep sleeves and hair away, let the bit stop before clearing chips."
            }
            Self::Router => {
                "Clamp the work and the template. Feed against the bit's rotation, with the guard on, the shank fully in \
                 the collet, and under the bit's rated speed. Unplug the router before changing bits."
            }
            Self::TableSaw => {
                "Least blade above the work, guard on, push stick near the blade, stand out of its line, and adjust \
                 nothing while it turns; a disc that is turned on a pin is pushed, never pulled."
            }
            Self::Cnc => {
                "Prove every program in the air first, with the spindle off; keep the stop button in reach and hands \
                 out while it moves."
            }
            Self::Dust => {
                "Draw the dust of wood off at the tool and wear a mask that fits: over 8 hours NIOSH and ACGIH hold to 1 mg a cubic \
                 meter, 0.5 for western red cedar; oak and beech dust are known to cause cancer."
            }
            Self::Noise => {
                "Wear hearing protection: NIOSH allows 8 hours at 85 dBA and half as long for every 3 dB more, so \
                 15 minutes at 100 dBA."
            }
            Self::Resin => {
                "Gloves, eye protection and fresh air, and the maker's data sheet: uncured resin makes the skin \
                 allergic, for good. Large cups get hot. Sand it only when it is fully cured, with a dust mask."
            }
            Self::OilyRags => {
                "Rags with drying oil heat up by themselves and catch fire. Spread them flat outdoors to dry, or keep \
                 them under water in a metal can with a tight lid, and follow local rules for throwing them away."
            }
            Self::Solvents => {
                "Vapor from mineral spirits, alcohol and lacquer thinner burns and harms. Open the windows; keep away \
                 flame, sparks and pilot lights; wear gloves and a respirator with the cartridges named on the label."
            }
            Self::SmallParts => {
                "Marbles, pegs and small balls choke small children. Keep them out of reach, and mark the age on the \
                 board."
            }
            Self::Magnets => {
                "Two swallowed magnets can kill. Fix each so that it cannot come out, or do without."
            }
        }
    }

    /// Where it comes from.
    pub const fn source(self) -> &'static str {
        match self {
            Self::DrillPress | Self::Cnc => "common practice, no source",
            Self::Router => "OSHA 3157 (1999), routers",
            Self::TableSaw => "OSHA 3157 (1999), table saws; the pin: common practice, no source",
            Self::Dust => {
                "NIOSH recommended exposure limit; ACGIH threshold limit values, wood dusts"
            }
            Self::Noise => "NIOSH criteria for noise, 85 dBA and 3 dB exchange",
            Self::Resin | Self::OilyRags | Self::Solvents => {
                "common practice, no source; see the maker's data sheet"
            }
            Self::SmallParts => "16 CFR 1501, 16 CFR 1500.19, EN 71-1",
            Self::Magnets => "16 CFR 1262, EN 71-1",
        }
    }

    /// Whether the work on a board comes to it.
    pub fn concerns(self, board: &Board) -> bool {
        match self {
            Self::DrillPress | Self::TableSaw | Self::Dust | Self::Noise | Self::SmallParts => true,
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

/// The stuff that the wood of a board is colored with, by the table of finishes.
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
    fn a_caution_stands_where_the_work_comes_to_it() {
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

    /// The shellac that seals open pores is thinned with alcohol, whatever the finish.
    #[test]
    fn sealing_under_resin_has_vapor() {
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

    /// NIOSH: 480 minutes over two to the power of a third of the decibels over 85.
    #[test]
    fn the_minutes_told_are_those_of_the_formula() {
        let minutes = |level: f64| 480.0 / libm::exp2((level - 85.0) / 3.0);
        testkit::assert_near!(minutes(100.0), 15.0, 1e-9);
        assert!(Caution::Noise.words().contains("15 minutes at 100 dBA"));
    }
}
