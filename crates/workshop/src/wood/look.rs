//! The look of each species, in `assets/wood/looks.json`: the tones of heartwood and sapwood, and the figure made by rings and
//! pores.
//!
//! Every number here is from memory, for freshly planed wood in daylight: no two trees look alike, and a picture made from
//! these numbers shows a species and not a board.

use std::sync::LazyLock;

use board::{Board, Rgb};
use serde::Deserialize;

/// The look of a species, as numbers from which a picture can be made.
///
/// A board's figure comes from the rings of its trunk: their spacing and straightness determine its shape, and the difference
/// of tone within a ring how clearly it shows. Pores are short dark strokes along the grain, in rows where the wood is
/// ring-porous.
#[derive(Debug, Clone, Copy, PartialEq, Deserialize)]
pub struct Look {
    /// Tone of the heartwood.
    pub heart: Rgb,
    /// Tone of the sapwood.
    pub sap: Rgb,
    /// Radius in the trunk at which the heartwood ends, mm; 0 for species sold for their sapwood.
    pub heart_radius: f64,
    /// Usual ring spacing, mm.
    pub ring: f64,
    /// Difference of tone between earlywood and latewood, as a share.
    pub contrast: f64,
    /// The kind and position of its pores.
    pub pores: Pores,
    /// Darkness of the pores' streaks on a planed face, as a share.
    pub streaks: f64,
    /// Straightness of the grain: 1 where rings are cut as straight lines, 0 if they wander widely.
    pub straight: f64,
}

/// The kind of a wood's pores, which determines where in a ring they are.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Pores {
    /// Wide pores in the earlywood, in rows.
    RingPorous,
    /// Wide pores in the earlywood that get smaller through the ring.
    SemiRingPorous,
    /// Small pores everywhere.
    Diffuse,
    /// None: a softwood.
    Softwood,
}

/// The look of a species by its id; a plain pale wood like maple for an unknown id.
///
/// ```
/// use workshop::{look, Pores};
/// let (walnut, maple) = (look("black-walnut"), look("sugar-maple"));
/// assert!(walnut.heart.red < maple.sap.red);
/// assert_eq!(look("white-oak").pores, Pores::RingPorous);
/// assert_eq!(look("of no table"), workshop::NEUTRAL_WOOD);
/// ```
pub fn look(id: &str) -> Look {
    let row = TABLE.iter().find(|row| row.id == id);
    row.map_or(NEUTRAL, |row| row.look)
}

impl Look {
    /// Whether the species is sold for its sapwood.
    pub const fn is_sapwood(&self) -> bool {
        self.heart_radius < SAWN_AROUND
    }

    /// The mean tone of its boards, planed and under a clear finish.
    pub const fn tone(&self) -> Rgb {
        if self.is_sapwood() {
            self.sap
        } else {
            self.heart
        }
    }
}

/// Radius below which the heartwood is sawn around, mm: boards of such a tree are sapwood.
const SAWN_AROUND: f64 = 95.0;

/// The mean tone of a species by its id; that of a light hardwood for an unknown id. From memory.
///
/// ```
/// use workshop::tone;
/// let [maple, walnut] = ["sugar-maple", "black-walnut"].map(tone);
/// assert!(maple.red > walnut.red && maple.blue > walnut.blue);
/// assert_eq!(tone("driftwood"), tone(""));
/// ```
pub fn tone(species: &str) -> Rgb {
    look(species).tone()
}

/// The tone of a board's wood; that of a light hardwood if none is chosen.
///
/// It is sRGB, for planed wood under a clear finish.
pub fn tone_of(board: &Board) -> Rgb {
    tone(board.wood.as_ref().map_or("", |wood| &wood.species))
}

/// A plain pale wood, shown where no species is chosen.
pub const NEUTRAL: Look = Look {
    heart: Rgb::new(0xdc, 0xbc, 0x90),
    sap: Rgb::new(0xe3, 0xc6, 0x9c),
    heart_radius: 0.0,
    ring: 2.6,
    contrast: 0.14,
    pores: Pores::Diffuse,
    streaks: 0.1,
    straight: 0.55,
};

// The table is compiled in and a test reads it, so that reading cannot fail.
static TABLE: LazyLock<Vec<Row<'static>>> = LazyLock::new(|| {
    serde_json::from_str::<Table<'static>>(TEXT).map_or_else(|_| Vec::new(), |table| table.looks)
});

/// The text of the table of looks, which is kept in a file of its own.
const TEXT: &str = include_str!("../../../../assets/wood/looks.json");

/// The table in the form of its file.
///
/// The tests of this module check the file: it has a row for every species.
#[derive(Deserialize)]
struct Table<'a> {
    /// A row for each species.
    #[serde(borrow)]
    looks: Vec<Row<'a>>,
}

/// One species.
#[derive(Deserialize)]
struct Row<'a> {
    /// The id of the species, as in documents.
    id: &'a str,
    /// Its numbers.
    #[serde(flatten)]
    look: Look,
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::species;

    #[test]
    fn every_species_of_the_table_has_a_look_of_its_own() {
        let ids: Vec<&str> = TABLE.iter().map(|row| row.id).collect();
        for species in species() {
            let count = ids.iter().filter(|id| **id == species.id).count();
            assert_eq!(count, 1, "{}", species.id);
        }
        assert_eq!(ids.len(), species().len());
    }

    #[test]
    fn shares_are_between_0_and_1_and_sapwood_is_paler() {
        for row in TABLE.iter() {
            let look = row.look;
            for share in [look.contrast, look.streaks, look.straight] {
                assert!((0.0..=1.0).contains(&share), "{}", row.id);
            }
            assert!(look.ring > 1.0 && look.heart_radius >= 0.0, "{}", row.id);
            let sum = |tone: Rgb| {
                tone.parts()
                    .iter()
                    .map(|&part| u32::from(part))
                    .sum::<u32>()
            };
            assert!(
                sum(look.heart) > 100 && sum(look.heart) < sum(look.sap),
                "{}",
                row.id
            );
        }
    }

    /// Wood is brown: more red than green, and more green than blue.
    #[test]
    fn every_tone_is_a_brown() {
        for row in TABLE.iter() {
            for tone in [row.look.heart, row.look.sap] {
                assert!(
                    tone.red > tone.green && tone.green > tone.blue,
                    "{}",
                    row.id
                );
            }
        }
    }
}
