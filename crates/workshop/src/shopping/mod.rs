//! The shopping list and the cut list: everything that a document needs for a number of boards.
//!
//! An amount is the quantity used; the purchase is that amount in the units in which it is sold: whole packs, whole board feet,
//! thousandths of a cubic meter. Leftovers are listed, since they are money on a shelf. Tools are listed too, once for any
//! number of boards, and stay in the shop.

mod colors;
mod hardware;
mod lumber;
mod masking;
mod parts;
mod supplies;
#[cfg(test)]
mod tests;
mod tools;
mod wood;

use board::{Board, Measure, Units, show_number};

use crate::Workpiece;

pub use lumber::{SoldThickness, board_feet, cubic_meters, tallied_board_feet};
pub use parts::{CutFrom, CutPart, PartOutline, PartSize, cut_list};

/// The number of boards that a document is for.
///
/// ```
/// let mut board = board::Board::default();
/// board.schedule.boards = 3;
/// assert_eq!(workshop::boards_of(&board), 3);
/// ```
pub fn boards_of(board: &Board) -> u32 {
    board.schedule.boards.max(1)
}

/// A shelf of the shop: the kinds of things that are bought together.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Shelf {
    /// Lumber, panels, plywood.
    Wood,
    /// Game pieces, balls, magnets.
    Pieces,
    /// Screws, bearings, feet.
    Hardware,
    /// Resin, glue, finish, abrasives.
    Supplies,
    /// Paper, tape, hardboard.
    Templates,
    /// Drills, bits, bushings, which stay in the shop.
    Tools,
}

impl Shelf {
    /// Every shelf, in the order lists show them.
    pub const ALL: [Self; 6] = [
        Self::Wood,
        Self::Pieces,
        Self::Hardware,
        Self::Supplies,
        Self::Templates,
        Self::Tools,
    ];

    /// Its name.
    pub const fn label(self) -> &'static str {
        match self {
            Self::Wood => "Wood",
            Self::Pieces => "Game pieces",
            Self::Hardware => "Hardware",
            Self::Supplies => "Resin, glue, finish, abrasives",
            Self::Templates => "Templates",
            Self::Tools => "Drills, bits and bushings",
        }
    }
}

/// The unit in which an amount is counted or measured.
///
/// Amounts are plain numbers: pieces, board feet, cubic meters or milliliters.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum SoldBy {
    /// By the piece.
    Piece,
    /// By the board foot.
    BoardFoot,
    /// By the cubic meter, to a thousandth.
    CubicMeter,
    /// By volume, ml.
    Volume,
}

impl SoldBy {
    /// An amount in words, in the maker's units.
    ///
    /// ```
    /// use board::Units;
    /// use workshop::SoldBy;
    /// assert_eq!(SoldBy::BoardFoot.shown(12.0, Units::INCH), "12 bd ft");
    /// assert_eq!(SoldBy::Volume.shown(473.0, Units::Mm), "473 ml");
    /// ```
    pub fn shown(self, amount: f64, units: Units) -> String {
        match self {
            Self::Piece => show_number(amount, 0),
            Self::BoardFoot => format!("{} bd ft", show_number(amount, 1)),
            Self::CubicMeter => format!("{} m³", show_number(amount, 3)),
            Self::Volume => Measure::milliliters(amount).shown(units),
        }
    }

    /// The unit of the bare number, for files.
    pub const fn unit(self) -> &'static str {
        match self {
            Self::Piece => "pieces",
            Self::BoardFoot => "bd_ft",
            Self::CubicMeter => "m3",
            Self::Volume => "ml",
        }
    }

    /// Number of parts into which a pack is divided for sale: cubic meters are sold by the thousandth, everything else in whole
    /// packs.
    const fn parts(self) -> u32 {
        match self {
            Self::CubicMeter => 1000,
            Self::Piece | Self::BoardFoot | Self::Volume => 1,
        }
    }
}

/// An article to buy.
#[derive(Debug, Clone, PartialEq)]
pub struct ToBuy {
    /// The name under which its price is stored: the same for the same article on any board, with sizes in mm.
    pub article: String,
    /// Its name in the maker's units.
    pub name: String,
    /// The purpose, where several lines have the same article, or the source of the number.
    pub note: String,
    /// The shelf it is on.
    pub shelf: Shelf,
    /// The unit in which it is counted.
    pub sold: SoldBy,
    /// The amount used.
    pub need: f64,
    /// The amount in a pack, which has one price: as typed with the price, otherwise the usual one.
    pub pack: f64,
    /// Whether the shop has it, so that none need be bought.
    pub owned: bool,
}

/// Rounding slack for a pack that is exactly enough, as a share of it.
const HAIR: f64 = 1e-9;

impl ToBuy {
    /// A number of articles sold by the piece, with packs of one and no note.
    ///
    /// The caller changes the pack or the note where necessary.
    const fn pieces(shelf: Shelf, article: String, name: String, need: f64) -> Self {
        Self {
            article,
            name,
            note: String::new(),
            shelf,
            sold: SoldBy::Piece,
            need,
            pack: 1.0,
            owned: false,
        }
    }

    /// The number of parts of a pack that are bought, and how many parts make a pack. Everything except lumber by the cubic
    /// meter is bought in whole packs.
    ///
    /// ```
    /// use workshop::{Workpiece, shopping};
    /// let list = shopping(&Workpiece::of(&board::Board::default())?, 1);
    /// let marbles = list.iter().find(|line| line.article.starts_with("marble")).unwrap();
    /// assert_eq!(marbles.bought(), (5, 1));
    /// # Ok::<(), board::BuildError>(())
    /// ```
    pub fn bought(&self) -> (u64, u64) {
        let parts = self.sold.parts();
        if self.owned {
            return (0, parts.into());
        }
        let wanted = self.need / self.pack * f64::from(parts);
        ((wanted - HAIR).ceil().max(0.0) as u64, parts.into())
    }

    /// The amount bought.
    ///
    /// It is never less than the amount used, except for things the shop has, which are not bought.
    pub fn amount(&self) -> f64 {
        let (parts, of) = self.bought();
        parts as f64 / of as f64 * self.pack
    }

    /// The amount left over; 0 if it is only rounding.
    pub fn left(&self) -> f64 {
        let left = if self.owned {
            0.0
        } else {
            self.amount() - self.need
        };
        if left > HAIR * self.pack { left } else { 0.0 }
    }

    /// The amount to buy, in words: `5 packs of 25`, `12 bd ft`, `1`; for things the shop has, words to that effect.
    pub fn to_buy(&self, units: Units) -> String {
        if self.owned {
            return "in the shop".into();
        }
        let (packs, parts) = self.bought();
        let single = parts > 1 || matches!(self.sold, SoldBy::BoardFoot) || self.is_single();
        if single {
            return self.sold.shown(self.amount(), units);
        }
        let pack = self.sold.shown(self.pack, units);
        match self.sold {
            SoldBy::Volume => format!("{packs} × {pack}"),
            _ => crate::job::counted(packs, "pack of ", "packs of ") + &pack,
        }
    }

    /// Whether a pack is a single piece.
    fn is_single(&self) -> bool {
        self.sold == SoldBy::Piece && (self.pack - 1.0).abs() < HAIR
    }
}

/// Everything to buy for this many boards, shelf by shelf.
///
/// ```
/// use workshop::{Shelf, Workpiece, shopping};
/// let list = shopping(&Workpiece::of(&board::Board::default())?, 2);
/// assert!(list.iter().any(|line| line.shelf == Shelf::Wood));
/// assert!(list.is_sorted_by_key(|line| line.shelf));
/// # Ok::<(), board::BuildError>(())
/// ```
pub fn shopping(workpiece: &Workpiece, boards: u32) -> Vec<ToBuy> {
    let mut list = wood::lines(workpiece, boards);
    list.extend(hardware::lines(workpiece, boards));
    list.extend(supplies::lines(workpiece, boards));
    list.extend(colors::lines(workpiece, boards));
    list.extend(tools::lines(workpiece));
    list.retain(|line| line.need > 0.0);
    let prices = &workpiece.board().price;
    for line in &mut list {
        if let Some(known) = prices.of(&line.article) {
            line.pack = known.pack.unwrap_or(line.pack);
            line.owned |= known.owned;
        }
    }
    list.sort_by_key(|line| line.shelf);
    list
}

/// A size in mm for article names, to a hundredth.
///
/// It is in mm on every board, so that a change of unit does not lose the price.
fn in_name(mm: f64) -> String {
    show_number(mm, 2)
}
