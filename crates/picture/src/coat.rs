//! The look that a finish gives the wood: how much it darkens the wood, and its gloss.
//!
//! Oil fills the pores near the surface, so that less light is scattered back: the wood becomes darker and more saturated, as
//! if it were wet. A film does the same and is glossy as well. Water-based films are clear; oil and shellac are yellowish.

use board::{Board, CoatKind, CoatPlace};

use crate::tone::Tone;

/// The look of a finished surface; all values are shares, from memory.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Sheen {
    /// Deepening of the tone, up to that of wet wood.
    pub deep: f32,
    /// Gloss: 0 for bare wood, 1 for a wet look.
    pub gloss: f64,
    /// Yellowing by the film or the oil.
    pub amber: f32,
}

impl Sheen {
    /// Bare wood, planed and sanded.
    pub const BARE: Self = Self {
        deep: 0.0,
        gloss: 0.06,
        amber: 0.0,
    };

    /// The look of a board with its coats: the last one determines the gloss, and the first that soaks in deepens the tone.
    pub fn of(board: &Board) -> Self {
        let is_seen = |place| {
            matches!(
                place,
                CoatPlace::Whole | CoatPlace::TopAndEdge | CoatPlace::Top
            )
        };
        let coats = board.finish.iter().filter(|coat| is_seen(coat.place));
        coats.fold(Self::BARE, |so_far, coat| {
            let new = Self::of_coat(coat.kind);
            Self {
                deep: so_far.deep.max(new.deep),
                gloss: new.gloss,
                amber: so_far.amber.max(new.amber),
            }
        })
    }

    /// The look that one coat gives, by its kind.
    const fn of_coat(kind: CoatKind) -> Self {
        let (deep, gloss, amber) = match kind {
            // Color on the wood is shown as plain color; it has no gloss and does not darken the wood beside it.
            CoatKind::Dye | CoatKind::Stain => (0.0, 0.06, 0.0),
            CoatKind::PaintPen | CoatKind::Enamel | CoatKind::Acrylic => (0.0, 0.3, 0.0),
            CoatKind::Oil => (0.42, 0.14, 0.5),
            CoatKind::OilWax => (0.38, 0.24, 0.4),
            CoatKind::OilVarnish => (0.42, 0.4, 0.55),
            CoatKind::Shellac => (0.36, 0.6, 0.7),
            CoatKind::DewaxedShellac => (0.32, 0.6, 0.45),
            CoatKind::SandingSealer => (0.26, 0.4, 0.15),
            CoatKind::Lacquer => (0.28, 0.7, 0.15),
            CoatKind::WipingVarnish => (0.38, 0.6, 0.5),
            CoatKind::OilPolyurethane => (0.4, 0.85, 0.6),
            CoatKind::WaterPolyurethane => (0.18, 0.7, 0.0),
            CoatKind::Wax => (0.2, 0.26, 0.2),
        };
        Self { deep, gloss, amber }
    }

    /// The tone of wood under this finish.
    pub fn over(&self, wood: Tone) -> Tone {
        let [red, green, blue] = wood.0;
        let deepen = |part: f32, weight: f32| part * (1.0 - self.deep * weight * (1.0 - part));
        let warm = 0.12 * self.amber;
        Tone([
            deepen(red, 0.55),
            deepen(green, 0.8) * (1.0 - 0.25 * warm),
            deepen(blue, 1.0) * (1.0 - warm),
        ])
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use board::Coat;

    fn coated(kinds: &[CoatKind]) -> Sheen {
        let coat = |kind: &CoatKind| Coat {
            kind: *kind,
            ..Coat::default()
        };
        Sheen::of(&Board {
            finish: kinds.iter().map(coat).collect(),
            ..Board::default()
        })
    }

    #[test]
    fn oil_darkens_without_gloss_and_a_film_is_glossy() {
        let wood = Tone([0.4, 0.25, 0.14]);
        let (bare, oil) = (coated(&[]), coated(&[CoatKind::Oil]));
        assert_eq!(bare.over(wood), wood);
        assert!(oil.over(wood).brightness() < 0.9 * wood.brightness());
        let film = coated(&[CoatKind::Oil, CoatKind::OilPolyurethane]);
        assert!(film.gloss > 3.0 * oil.gloss);
        assert!(film.deep >= oil.deep);
    }
}
