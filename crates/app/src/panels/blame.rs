//! Which field a board that cannot be laid out is to be mended in.

use board::BuildError;
use egui::{RichText, Ui};
use geometry::Error;

use crate::current::Current;
use crate::theme::Tokens;

/// A field that can be to blame.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Blamed {
    /// Players.
    Players,
    /// Depth of the lobes.
    LobeDepth,
    /// Width of the arms.
    Across,
    /// Spaces a player.
    Spaces,
    /// Pitch.
    Pitch,
    /// Home holes.
    Home,
    /// Start holes.
    Start,
    /// Radius of the start pocket.
    PocketRadius,
}

/// Below a field: why the board cannot be laid out, if that is to be mended here.
pub fn blame_ui(ui: &mut Ui, current: &Current, field: Blamed) {
    let error = current.error().filter(|error| blamed(error) == Some(field));
    if let Some(error) = error {
        let color = Tokens::of(ui).stop;
        let words = error.shown_in(current.units());
        ui.label(RichText::new(format!("▲ {words}")).color(color).small());
    }
}

/// The field to blame, where it is one.
const fn blamed(error: &BuildError) -> Option<Blamed> {
    let BuildError::Geometry(error) = error else {
        return None;
    };
    match error {
        Error::Players { .. } | Error::FewPlayers { .. } => Some(Blamed::Players),
        Error::Spaces { .. }
        | Error::FewSpaces { .. }
        | Error::OddSpaces { .. }
        | Error::ShortArms { .. } => Some(Blamed::Spaces),
        Error::Pitch { .. } => Some(Blamed::Pitch),
        Error::LobeDepth { .. } => Some(Blamed::LobeDepth),
        Error::ArmWidth { .. } => Some(Blamed::Across),
        Error::LongLane { .. } => Some(Blamed::Home),
        Error::TightArc { .. } => Some(Blamed::PocketRadius),
        Error::EmptyPocket => Some(Blamed::Start),
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use board::{Board, layout};
    use geometry::Pattern;

    #[test]
    fn what_cannot_be_laid_out_is_blamed_on_a_field() {
        let plain = Board::default();
        let arms = Pattern::Arms { across: 3 };
        let cases = [
            (
                Board {
                    home: 40,
                    ..plain.clone()
                },
                Blamed::Home,
            ),
            (
                Board {
                    pattern: arms,
                    spaces: 13,
                    ..plain.clone()
                },
                Blamed::Spaces,
            ),
            (
                Board {
                    pattern: Pattern::Arms { across: 4 },
                    ..plain.clone()
                },
                Blamed::Across,
            ),
            (
                Board {
                    pattern: Pattern::Polygon,
                    players: 2,
                    ..plain
                },
                Blamed::Players,
            ),
        ];
        for (board, field) in cases {
            let error = layout(&board).unwrap_err();
            assert_eq!(blamed(&error), Some(field), "{error}");
        }
    }
}
