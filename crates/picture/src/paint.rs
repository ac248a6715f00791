//! The colors of pieces, rings, bores and grooves, as tones of light.
//!
//! The document and module `colors` of crate `workshop` determine which part has which color; here the medium determines how
//! much of the wood shows through.

use board::{BorePart, Medium, Rgb};
use workshop::{HoleTint, Tint, Workpiece};

use crate::tone::Tone;

/// A color together with its medium.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Paint {
    /// Its tone.
    pub tone: Tone,
    /// The share of the wood that it covers; the rest tints the wood itself.
    cover: f32,
    /// Its gloss, 0 to 1.
    pub gloss: f64,
}

impl Paint {
    /// The paint of a color; coverage and gloss are from memory.
    pub fn of(tint: Tint) -> Self {
        let (cover, gloss) = match tint.medium {
            Medium::Paint => (1.0, 0.3),
            Medium::Dye => (0.12, 0.0),
            Medium::Stain => (0.5, 0.0),
            Medium::Inlay => (1.0, 0.12),
            Medium::Resin => (1.0, 1.0),
        };
        Self {
            tone: tone(tint.color),
            cover,
            gloss,
        }
    }

    /// The tone of wood with this paint.
    pub fn over(&self, wood: Tone) -> Tone {
        // Dye lets the figure show through: the wood filters the light once more.
        let bright = wood.brightness().max(0.02).sqrt() * 1.35;
        (self.tone * bright).mix(self.tone, self.cover)
    }
}

/// The colors of a bore.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct BorePaint {
    /// Color around its mouth on the top face, with the width of the ring, mm.
    pub ring: Option<(Paint, f64)>,
    /// Color of its wall and floor.
    pub inside: Option<Paint>,
    /// Color of the resin in it.
    pub resin: Option<Paint>,
}

impl BorePaint {
    /// The colors of a bore from the document's colors for its hole.
    pub fn of(given: Option<HoleTint>, ring: f64) -> Self {
        let Some(given) = given else {
            return Self::default();
        };
        let paint = Paint::of(given.tint);
        match given.on {
            BorePart::Ring => Self {
                ring: Some((paint, ring)),
                ..Self::default()
            },
            BorePart::Inside => Self {
                inside: Some(paint),
                ..Self::default()
            },
            BorePart::Filling => Self {
                resin: Some(paint),
                ..Self::default()
            },
        }
    }
}

/// The tone of a color in the document.
pub fn tone(color: Rgb) -> Tone {
    Tone::of(color.parts())
}

/// The tone of a player's pieces; a middle gray for pieces of no player.
pub fn player(workpiece: &Workpiece, player: u32) -> Tone {
    let look = (player as usize)
        .checked_sub(1)
        .and_then(|place| workpiece.players().get(place));
    look.map_or(Tone::gray(0.3), |look| {
        let bare = tone(look.color);
        // Black glass must still show its shape.
        Tone(bare.0.map(|part| part.max(0.012)))
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn paint_covers_the_wood_and_dye_lets_it_show_through() {
        let over = |medium, wood| {
            let color = Rgb::new(0, 114, 178);
            Paint::of(Tint { color, medium })
                .over(Tone::gray(wood))
                .brightness()
        };
        assert_eq!(over(Medium::Paint, 0.5), over(Medium::Paint, 0.1));
        assert!(over(Medium::Dye, 0.5) > 1.5 * over(Medium::Dye, 0.1));
    }
}
