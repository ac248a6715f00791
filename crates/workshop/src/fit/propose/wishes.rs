//! A maker's wishes for a new board.

use core::fmt;

use board::{Center, OutOfRange, PieceKind, Range, Units, field, show_length};
use geometry::Pattern;

use crate::check::counted;

/// A maker's wishes for a new board; everything left out is chosen.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Wishes {
    /// Title.
    pub title: Option<String>,
    /// Unit of the lengths shown, and the unit in which chosen lengths are neat.
    pub units: Option<Units>,
    /// Players.
    pub players: Option<u32>,
    /// Shape of the track.
    pub pattern: Option<Pattern>,
    /// Track spaces per player.
    pub spaces: Option<u32>,
    /// Home-lane holes per player.
    pub home: Option<u32>,
    /// Start-pocket holes per player.
    pub start: Option<u32>,
    /// The kind of hole at the center pin; its sizes are chosen.
    pub center: Option<Center>,
    /// Pitch, mm.
    pub pitch: Option<f64>,
    /// Diameter of the board, mm.
    pub diameter: Option<f64>,
    /// Diameter of the bores, mm.
    pub bore: Option<f64>,
    /// Rotation, degrees.
    pub rotation: Option<f64>,
    /// Kind of piece.
    pub piece: Option<PieceKind>,
    /// Largest diameter of the pieces, mm.
    pub piece_diameter: Option<f64>,
}

/// A number among the wishes.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Wish {
    /// Home-lane holes per player.
    Home,
    /// Start-pocket holes per player.
    Start,
    /// Track spaces per player.
    Spaces,
    /// Players.
    Players,
    /// Pitch.
    Pitch,
    /// Diameter of the bores.
    Bore,
    /// Largest diameter of the pieces.
    Piece,
    /// Diameter of the board.
    Diameter,
}

impl Wish {
    /// Every number that decides whether a board can be made, in the order in which replacements are offered.
    pub const ALL: [Self; 8] = [
        Self::Home,
        Self::Start,
        Self::Spaces,
        Self::Players,
        Self::Pitch,
        Self::Bore,
        Self::Piece,
        Self::Diameter,
    ];

    /// The range of the number in the document.
    pub(super) const fn range(self) -> Range {
        match self {
            Self::Home => field::HOME.range(),
            Self::Start => field::START.range(),
            Self::Spaces => field::SPACES.range(),
            Self::Players => field::PLAYERS.range(),
            Self::Pitch => field::PITCH.range(),
            Self::Bore => field::BORE_DIAMETER,
            Self::Piece => field::PIECE_DIAMETER.range(),
            Self::Diameter => field::BOARD_DIAMETER.range(),
        }
    }
}

/// A value that would work in place of a wish; lengths in mm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Offer {
    /// The wish that it replaces.
    pub wish: Wish,
    /// The value that would work.
    pub value: f64,
}

impl fmt::Display for Offer {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let length = show_length(self.value, Units::of(f));
        let count = self.value as usize;
        f.write_str(&match self.wish {
            Wish::Home => counted(count, "home hole") + " per player",
            Wish::Start => counted(count, "start hole") + " per player",
            Wish::Spaces => counted(count, "space") + " per player",
            Wish::Players => counted(count, "player"),
            Wish::Pitch => format!("a hole spacing of {length}"),
            Wish::Bore => format!("holes of {length}"),
            Wish::Piece => format!("pieces of {length}"),
            Wish::Diameter => format!("a board of {length}"),
        })
    }
}

impl Wishes {
    /// The number wished for.
    pub fn number(&self, wish: Wish) -> Option<f64> {
        match wish {
            Wish::Home => self.home.map(f64::from),
            Wish::Start => self.start.map(f64::from),
            Wish::Spaces => self.spaces.map(f64::from),
            Wish::Players => self.players.map(f64::from),
            Wish::Pitch => self.pitch,
            Wish::Bore => self.bore,
            Wish::Piece => self.piece_diameter,
            Wish::Diameter => self.diameter,
        }
    }

    /// The wishes with the offers in place of their own values.
    #[must_use]
    pub fn with(&self, offers: &[Offer]) -> Self {
        let mut wishes = self.clone();
        for offer in offers {
            wishes.set(offer.wish, Some(offer.value));
        }
        wishes
    }

    /// Sets a number, or leaves it open; counts are whole.
    pub(super) fn set(&mut self, wish: Wish, value: Option<f64>) {
        let count = value.map(|value| value as u32);
        match wish {
            Wish::Home => self.home = count,
            Wish::Start => self.start = count,
            Wish::Spaces => self.spaces = count,
            Wish::Players => self.players = count,
            Wish::Pitch => self.pitch = value,
            Wish::Bore => self.bore = value,
            Wish::Piece => self.piece_diameter = value,
            Wish::Diameter => self.diameter = value,
        }
    }

    /// Checks each wish against its range, before anything is chosen to suit it.
    pub(super) fn check(&self) -> Result<(), OutOfRange> {
        let numbers = Wish::ALL.map(|wish| (wish.range(), self.number(wish)));
        let rotation = (field::ROTATION.range(), self.rotation);
        for (range, wished) in numbers.into_iter().chain([rotation]) {
            wished.map_or(Ok(()), |value| range.check(value))?;
        }
        Ok(())
    }
}
