//! The field in which a board that cannot be laid out can be fixed.

use board::{BuildError, Field, field};
use egui::{RichText, Ui};
use geometry::Error;

use crate::current::Current;
use crate::theme::Tokens;

/// The reason why the board cannot be laid out, below the field that can fix it.
pub fn blame_ui(ui: &mut Ui, current: &Current, field: &Field) {
    let is_it = |error: &&BuildError| blamed(error).is_some_and(|blamed| blamed == field);
    let error = current.error().filter(is_it);
    if let Some(error) = error {
        let color = Tokens::of(ui).stop;
        let words = current.units().say(&error);
        ui.label(RichText::new(format!("▲ {words}")).color(color).small());
    }
}

/// The field that can fix an error; `None` where no single field can.
fn blamed(error: &BuildError) -> Option<&'static Field> {
    let BuildError::Geometry(error) = error else {
        return None;
    };
    match error {
        Error::Players { .. } | Error::FewPlayers { .. } => Some(&field::PLAYERS),
        Error::Spaces { .. }
        | Error::FewSpaces { .. }
        | Error::OddSpaces { .. }
        | Error::ShortArms { .. } => Some(&field::SPACES),
        Error::Pitch { .. } => Some(&field::PITCH),
        Error::LobeDepth { .. } => Some(&field::LOBE_DEPTH),
        Error::ArmWidth { .. } => Some(&field::ACROSS),
        Error::LongLane { .. } => Some(&field::HOME),
        Error::TightArc { .. } => Some(&field::POCKET_RADIUS),
        Error::EmptyPocket => Some(&field::START),
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
                &field::HOME,
            ),
            (
                Board {
                    pattern: arms,
                    spaces: 13,
                    ..plain.clone()
                },
                &field::SPACES,
            ),
            (
                Board {
                    pattern: Pattern::Arms { across: 4 },
                    ..plain.clone()
                },
                &field::ACROSS,
            ),
            (
                Board {
                    pattern: Pattern::Polygon,
                    players: 2,
                    ..plain
                },
                &field::PLAYERS,
            ),
        ];
        for (board, field) in cases {
            let error = layout(&board).unwrap_err();
            assert_eq!(blamed(&error), Some(field), "{error}");
        }
    }
}
