//! Proven schedules of coats for a maker to begin with.

use board::{Board, Coat, CoatKind, CoatPlace};

use CoatKind::{
    Acrylic, DewaxedShellac, Oil, OilWax, Shellac, WaterPolyurethane, Wax, WipingVarnish,
};

/// A ready-made schedule.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum FinishPreset {
    /// Oil that soaks in, and wax.
    OilAndWax,
    /// Hardwax oil alone.
    HardwaxOil,
    /// Wiping varnish, satin.
    WipingVarnish,
    /// Shellac and wax.
    ShellacAndWax,
    /// Wood sealed, color on top, all under water-based polyurethane.
    SealedColor,
}

impl FinishPreset {
    /// Every schedule, in the order lists show them.
    pub const ALL: [Self; 5] = [
        Self::OilAndWax,
        Self::HardwaxOil,
        Self::WipingVarnish,
        Self::ShellacAndWax,
        Self::SealedColor,
    ];

    /// The words on its button.
    pub const fn label(self) -> &'static str {
        match self {
            Self::OilAndWax => "Oil and wax",
            Self::HardwaxOil => "Hardwax oil",
            Self::WipingVarnish => "Wiping varnish, satin",
            Self::ShellacAndWax => "Shellac and wax",
            Self::SealedColor => "Sealed color under water-based",
        }
    }

    /// The tooltip of its button: when to use it.
    pub const fn tooltip(self) -> &'static str {
        match self {
            Self::OilAndWax => "Wiped on and off, easily repaired; little against spills",
            Self::HardwaxOil => "Two thin coats, easily repaired; no other finish over it",
            Self::WipingVarnish => {
                "Four thin coats on a rag, without brush marks; good against spills"
            }
            Self::ShellacAndWax => "Dry in a day; a spilled drink with alcohol dissolves it",
            Self::SealedColor => {
                "Dewaxed shellac keeps color from running, polyurethane keeps it from wearing off"
            }
        }
    }

    /// Its layers; color goes in the grooves where the board has any, and on letters and marks otherwise.
    ///
    /// ```
    /// use board::Board;
    /// use workshop::{FinishPreset, finish_holds};
    /// assert!(finish_holds(&FinishPreset::OilAndWax.coats(&Board::default())));
    /// ```
    pub fn coats(self, board: &Board) -> Vec<Coat> {
        let layer = |kind, coats, dries| Coat {
            coats,
            ..Coat::of(kind, dries)
        };
        match self {
            // Each coat is wiped dry, so that a day is enough between them.
            Self::OilAndWax => vec![layer(Oil, 3, 24.0), layer(Wax, 1, 1.0)],
            // Nothing else goes over its wax.
            Self::HardwaxOil => vec![layer(OilWax, 2, 12.0)],
            // Four thin coats are about as thick as one that is brushed.
            Self::WipingVarnish => vec![layer(WipingVarnish, 4, 24.0)],
            // Shellac is hard before wax, which its alcohol would lift.
            Self::ShellacAndWax => vec![layer(Shellac, 3, 2.0), layer(Wax, 1, 1.0)],
            Self::SealedColor => {
                let place = if board.grooves.is_some() {
                    CoatPlace::Grooves
                } else {
                    CoatPlace::Marks
                };
                let color = Coat {
                    place,
                    ..layer(Acrylic, 2, 24.0)
                };
                vec![
                    layer(DewaxedShellac, 2, 2.0),
                    color,
                    layer(WaterPolyurethane, 4, 6.0),
                ]
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::finish::{check, is_sound};
    use crate::{Severity, Workpiece};

    #[test]
    fn every_ready_made_schedule_passes_the_check() {
        for grooves in [None, Some(board::Grooves::default())] {
            for preset in FinishPreset::ALL {
                let mut board = Board {
                    grooves,
                    ..Board::default()
                };
                board.finish = preset.coats(&board);
                assert!(is_sound(&board.finish), "{preset:?}");
                let found = check::check(&Workpiece::of(&board).unwrap());
                let quiet = found.iter().all(|found| found.severity == Severity::Note);
                assert!(quiet, "{preset:?}: {found:#?}");
            }
        }
    }
}
