//! The tone of each species: the color that planed wood has on the whole, without its figure.

use board::{Board, Rgb};

/// The tone where no species is chosen, or one that the table does not have: that of a light hardwood.
const PLAIN: Rgb = Rgb::new(0xe3, 0xc6, 0x9c);

/// The mean tone of planed heartwood (of species that are used for their sapwood, of that), under a clear finish; from memory.
const TONES: [(&str, Rgb); 38] = [
    ("red-alder", Rgb::new(0xd2, 0xa4, 0x78)),
    ("apple", Rgb::new(0xc0, 0x8c, 0x64)),
    ("black-ash", Rgb::new(0xb8, 0x94, 0x6a)),
    ("white-ash", Rgb::new(0xe2, 0xcc, 0xa8)),
    ("quaking-aspen", Rgb::new(0xee, 0xe0, 0xc4)),
    ("american-basswood", Rgb::new(0xec, 0xda, 0xb8)),
    ("american-beech", Rgb::new(0xdc, 0xb6, 0x8c)),
    ("paper-birch", Rgb::new(0xe8, 0xd0, 0xa8)),
    ("sweet-birch", Rgb::new(0xc8, 0x9c, 0x70)),
    ("yellow-birch", Rgb::new(0xdc, 0xbc, 0x90)),
    ("butternut", Rgb::new(0xbc, 0x92, 0x66)),
    ("black-cherry", Rgb::new(0xb0, 0x6c, 0x44)),
    ("douglas-fir", Rgb::new(0xd6, 0x9c, 0x68)),
    ("american-elm", Rgb::new(0xb8, 0x90, 0x64)),
    ("white-fir", Rgb::new(0xec, 0xd8, 0xb4)),
    ("hackberry", Rgb::new(0xda, 0xc4, 0x94)),
    ("pecan-hickory", Rgb::new(0xc4, 0x98, 0x6c)),
    ("true-hickory", Rgb::new(0xcc, 0xa4, 0x78)),
    ("honeylocust", Rgb::new(0xc2, 0x86, 0x5a)),
    ("black-locust", Rgb::new(0xb4, 0x94, 0x50)),
    ("mahogany", Rgb::new(0x9a, 0x56, 0x38)),
    ("bigleaf-maple", Rgb::new(0xe0, 0xbe, 0x92)),
    ("black-maple", Rgb::new(0xe6, 0xca, 0xa0)),
    ("red-maple", Rgb::new(0xe2, 0xc4, 0x9a)),
    ("silver-maple", Rgb::new(0xe4, 0xc8, 0xa0)),
    ("sugar-maple", Rgb::new(0xec, 0xd2, 0xaa)),
    ("red-oak", Rgb::new(0xcc, 0x9e, 0x74)),
    ("white-oak", Rgb::new(0xc6, 0xa4, 0x74)),
    ("persimmon", Rgb::new(0xe4, 0xd2, 0xae)),
    ("eastern-white-pine", Rgb::new(0xf0, 0xd8, 0xa8)),
    ("southern-yellow-pine", Rgb::new(0xe4, 0xba, 0x78)),
    ("sassafras", Rgb::new(0xc2, 0x98, 0x62)),
    ("sweetgum", Rgb::new(0xb4, 0x80, 0x5c)),
    ("american-sycamore", Rgb::new(0xd0, 0xa4, 0x7c)),
    ("teak", Rgb::new(0xa8, 0x78, 0x40)),
    ("black-tupelo", Rgb::new(0xd8, 0xc2, 0x9a)),
    ("black-walnut", Rgb::new(0x6a, 0x46, 0x2c)),
    ("yellow-poplar", Rgb::new(0xce, 0xc0, 0x86)),
];

/// The mean tone of a species, by its id in the table of species; a light hardwood's for any other. From memory.
///
/// ```
/// use workshop::tone;
/// let [maple, walnut] = ["sugar-maple", "black-walnut"].map(tone);
/// assert!(maple.red > walnut.red && maple.blue > walnut.blue);
/// assert_eq!(tone("driftwood"), tone(""));
/// ```
pub fn tone(species: &str) -> Rgb {
    let row = TONES.iter().find(|(id, _)| *id == species);
    row.map_or(PLAIN, |(_, tone)| *tone)
}

/// The tone of a board's wood; a light hardwood's where none is chosen.
pub fn tone_of(board: &Board) -> Rgb {
    tone(board.wood.as_ref().map_or("", |wood| &wood.species))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::species;

    #[test]
    fn every_species_has_its_tone_and_no_tone_is_of_another() {
        let ids: Vec<&str> = species().iter().map(|row| row.id).collect();
        assert_eq!(TONES.map(|(id, _)| id).to_vec(), ids);
    }

    /// Wood is brown: more red than green, and more green than blue.
    #[test]
    fn every_tone_is_that_of_wood() {
        for (id, tone) in TONES {
            assert!(tone.red > tone.green && tone.green > tone.blue, "{id}");
        }
    }
}
