//! The parts of a board that a layer of finish covers, as a set: where two layers meet depends on it.

use board::{Coat, CoatPlace};

/// A set of parts of the board.
///
/// Two layers meet where both lie and nothing between them does, so that color in the grooves and a topcoat over all are judged
/// in the grooves and beside them.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct Parts(u8);

impl Parts {
    /// No part.
    pub const NONE: Self = Self(0);
    /// The top face beside all that is colored on it.
    pub const TOP: Self = Self(1);
    /// The grooves.
    pub const GROOVES: Self = Self(1 << 1);
    /// Rings around holes.
    pub const RINGS: Self = Self(1 << 2);
    /// The players' fields.
    pub const SECTORS: Self = Self(1 << 3);
    /// Letters and marks.
    pub const MARKS: Self = Self(1 << 4);
    /// The edge.
    pub const EDGE: Self = Self(1 << 5);
    /// The underside.
    pub const UNDERSIDE: Self = Self(1 << 6);
    /// Walls and floors of the bores.
    pub const BORES: Self = Self(1 << 7);
    /// Every part by itself, in their order on sheets.
    pub const EACH: [Self; 8] = [
        Self::TOP,
        Self::GROOVES,
        Self::RINGS,
        Self::SECTORS,
        Self::MARKS,
        Self::BORES,
        Self::EDGE,
        Self::UNDERSIDE,
    ];

    /// The parts that a place covers. A coat on the top face also gets into its grooves and holes; masking is another matter.
    ///
    /// ```
    /// use board::CoatPlace;
    /// use workshop::Parts;
    /// assert!(Parts::of(CoatPlace::Top).has(Parts::GROOVES));
    /// assert!(!Parts::of(CoatPlace::Top).has(Parts::EDGE));
    /// ```
    pub const fn of(place: CoatPlace) -> Self {
        match place {
            CoatPlace::Whole => Self(u8::MAX),
            CoatPlace::TopAndEdge => Self(u8::MAX).without(Self::UNDERSIDE),
            CoatPlace::Top => Self(u8::MAX).without(Self::UNDERSIDE).without(Self::EDGE),
            CoatPlace::Edge => Self::EDGE,
            CoatPlace::Underside => Self::UNDERSIDE,
            CoatPlace::Grooves => Self::GROOVES,
            CoatPlace::Rings => Self::RINGS,
            CoatPlace::Sectors => Self::SECTORS,
            CoatPlace::Marks => Self::MARKS,
            CoatPlace::Bores => Self::BORES,
        }
    }

    /// These and those.
    #[must_use]
    pub const fn and(self, other: Self) -> Self {
        Self(self.0 | other.0)
    }

    /// The parts that are in both.
    #[must_use]
    pub const fn both(self, other: Self) -> Self {
        Self(self.0 & other.0)
    }

    /// These without those.
    #[must_use]
    pub const fn without(self, other: Self) -> Self {
        Self(self.0 & !other.0)
    }

    /// Whether all of those are in it.
    pub const fn has(self, other: Self) -> bool {
        self.0 & other.0 == other.0
    }

    /// Whether it is empty.
    pub const fn is_empty(self) -> bool {
        self.0 == 0
    }

    /// The parts in words: "on the whole board", "in the grooves and on letters and marks".
    ///
    /// ```
    /// use workshop::Parts;
    /// assert_eq!(Parts::GROOVES.and(Parts::MARKS).words(), "in the grooves and on letters and marks");
    /// ```
    pub fn words(self) -> String {
        for place in [CoatPlace::Whole, CoatPlace::TopAndEdge, CoatPlace::Top] {
            if self == Self::of(place) {
                return on(place).into();
            }
        }
        let is_in = |part: &&Self| self.has(**part);
        let words = Self::EACH.iter().filter(is_in).map(|part| part.word());
        crate::finish::list(&words.collect::<Vec<_>>())
    }

    /// The words of a single part.
    const fn word(self) -> &'static str {
        match self {
            Self::TOP => "on the top face",
            Self::GROOVES => "in the grooves",
            Self::RINGS => "on rings around holes",
            Self::SECTORS => "on sector fields",
            Self::MARKS => "on letters and marks",
            Self::EDGE => "on the edge",
            Self::UNDERSIDE => "on the underside",
            _ => "in the holes",
        }
    }
}

/// A place as a sentence has it: "on the top face".
pub const fn on(place: CoatPlace) -> &'static str {
    match place {
        CoatPlace::Whole => "on both faces and the edge",
        CoatPlace::TopAndEdge => "on the top face and the edge",
        CoatPlace::Top => "on the top face",
        other => Parts::of(other).word(),
    }
}

/// The sets of parts that have the same layers, each once, in the order of [`Parts::EACH`]: the columns of a section through the
/// finish.
pub fn columns(coats: &[Coat]) -> Vec<(Parts, Vec<usize>)> {
    let mut columns: Vec<(Parts, Vec<usize>)> = Vec::new();
    for part in Parts::EACH {
        let covers = |(_, coat): &(usize, &Coat)| Parts::of(coat.place).has(part);
        let layers = coats.iter().enumerate().filter(covers);
        let layers: Vec<usize> = layers.map(|(at, _)| at).collect();
        match columns.iter_mut().find(|column| column.1 == layers) {
            Some(column) => column.0 = column.0.and(part),
            None => columns.push((part, layers)),
        }
    }
    columns.retain(|(_, layers)| !layers.is_empty());
    columns
}

#[cfg(test)]
mod tests {
    use super::*;
    use board::CoatKind;

    #[test]
    fn every_place_is_a_part_or_several_and_has_words() {
        for place in CoatPlace::ALL {
            let parts = Parts::of(place);
            assert!(!parts.is_empty());
            assert_eq!(parts.words(), on(place), "{place:?}");
        }
        let all = Parts::EACH.into_iter().fold(Parts::NONE, Parts::and);
        assert_eq!(all, Parts::of(CoatPlace::Whole));
    }

    #[test]
    fn color_in_the_grooves_makes_a_column_of_its_own() {
        let sealer = Coat::of(CoatKind::DewaxedShellac, 2.0);
        let color = Coat {
            place: CoatPlace::Grooves,
            ..Coat::of(CoatKind::Acrylic, 2.0)
        };
        let columns = columns(&[sealer, color, Coat::of(CoatKind::WaterPolyurethane, 6.0)]);
        let layers: Vec<&[usize]> = columns.iter().map(|column| &column.1[..]).collect();
        assert_eq!(layers, [&[0, 2][..], &[0, 1, 2]]);
        assert_eq!(columns[1].0, Parts::GROOVES);
    }
}
