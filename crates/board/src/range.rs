//! What each number of the document may be: one table for the file, the window and the commands.

use crate::{Board, Units, show_length, show_number};

/// What a number measures.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Quantity {
    /// A length; in mm inside, shown in the maker's unit.
    Length,
    /// An angle in degrees.
    Degrees,
    /// A whole number of things.
    Count,
    /// A share, without unit.
    Share,
}

/// What one number may be, both ends included.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Range {
    /// What the number is called on screens and in messages.
    pub name: &'static str,
    /// What it measures.
    pub quantity: Quantity,
    /// The least it may be.
    pub min: f64,
    /// The most it may be.
    pub max: f64,
}

/// A number outside its range; lengths in mm.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
#[error("{} is {value}{}; it may be {} to {}{}", range.name, unit(range.quantity), range.min, range.max, unit(range.quantity))]
pub struct OutOfRange {
    /// What it may be.
    pub range: Range,
    /// What it is.
    pub value: f64,
}

impl OutOfRange {
    /// The sentence of the error with lengths in a maker's unit.
    ///
    /// ```
    /// use board::{Units, ranges};
    /// let fault = ranges::BOARD.check(8890.0).unwrap_err();
    /// assert_eq!(fault.shown_in(Units::Inch), "board diameter is 350\"; it may be 0.0394\" to 196.8504\"");
    /// ```
    pub fn shown_in(&self, units: Units) -> String {
        let Range {
            name,
            quantity,
            min,
            max,
        } = self.range;
        let show = |value| match quantity {
            Quantity::Length => show_length(value, units),
            _ => show_number(value, 4) + unit(quantity),
        };
        format!(
            "{name} is {}; it may be {} to {}",
            show(self.value),
            show(min),
            show(max)
        )
    }
}

const fn unit(quantity: Quantity) -> &'static str {
    match quantity {
        Quantity::Length => " mm",
        Quantity::Degrees => "°",
        Quantity::Count | Quantity::Share => "",
    }
}

impl Range {
    const fn new(name: &'static str, quantity: Quantity, min: f64, max: f64) -> Self {
        Self {
            name,
            quantity,
            min,
            max,
        }
    }

    /// Whether a number is in the range.
    ///
    /// # Errors
    /// [`OutOfRange`] where it is not, or is no number.
    pub fn check(self, value: f64) -> Result<(), OutOfRange> {
        let inside = (self.min..=self.max).contains(&value);
        if inside {
            Ok(())
        } else {
            Err(OutOfRange { range: self, value })
        }
    }
}

/// The ranges themselves, named for what they bound.
pub mod ranges {
    use super::{
        Quantity::{Count, Degrees, Length, Share},
        Range,
    };

    /// Letters of the title.
    pub const TITLE: Range = Range::new("letters of the title", Count, 0.0, 120.0);
    /// Players.
    pub const PLAYERS: Range = Range::new("players", Count, 1.0, *geometry::PLAYERS.end() as f64);
    /// Track spaces a player.
    pub const SPACES: Range = Range::new(
        "spaces a player",
        Count,
        1.0,
        *geometry::SPACES.end() as f64,
    );
    /// Home-lane holes a player.
    pub const HOME: Range = Range::new(
        "home holes a player",
        Count,
        0.0,
        geometry::MOST_HOLES as f64,
    );
    /// Start-pocket holes a player.
    pub const START: Range = Range::new(
        "start holes a player",
        Count,
        0.0,
        geometry::MOST_HOLES as f64,
    );
    /// Depth of lobes.
    pub const LOBE_DEPTH: Range = Range::new(
        "depth of the lobes",
        Share,
        *geometry::LOBE_DEPTH.start(),
        *geometry::LOBE_DEPTH.end(),
    );
    /// Columns of an arm.
    pub const ACROSS: Range = Range::new(
        "holes across an arm",
        Count,
        *geometry::ARM_WIDTH.start() as f64,
        *geometry::ARM_WIDTH.end() as f64,
    );
    /// Pitch.
    pub const PITCH: Range = Range::new(
        "pitch",
        Length,
        *geometry::PITCH.start(),
        *geometry::PITCH.end(),
    );
    /// Rotation of the whole pattern.
    pub const ROTATION: Range = Range::new("rotation", Degrees, -360.0, 360.0);
    /// Bearing of the middle of a start pocket from the player's axis.
    pub const POCKET_BEARING: Range =
        Range::new("bearing of the start pocket", Degrees, -180.0, 180.0);
    /// Distance of the middle of a start pocket from the center pin.
    pub const POCKET_RADIUS: Range = Range::new("radius of the start pocket", Length, 0.0, 5000.0);
    /// Diameter of a bore.
    pub const BORE_DIAMETER: Range = Range::new("bore diameter", Length, 0.1, 500.0);
    /// Depth of a bore.
    pub const BORE_DEPTH: Range = Range::new("bore depth", Length, 0.0, 500.0);
    /// Diameter of the pilot or pivot at the center pin.
    pub const PILOT: Range = Range::new("pilot diameter", Length, 0.1, 100.0);
    /// Diameter of a piece.
    pub const PIECE: Range = Range::new("piece diameter", Length, 0.1, 500.0);
    /// Diameter of the board.
    pub const BOARD: Range = Range::new("board diameter", Length, 1.0, 5000.0);
    /// Thickness of the board.
    pub const THICKNESS: Range = Range::new("board thickness", Length, 0.5, 500.0);
    /// Roundover of the top edge.
    pub const ROUNDOVER: Range = Range::new("roundover", Length, 0.0, 200.0);
    /// Diameter of the circle jig's pin.
    pub const PIN: Range = Range::new("pin of the circle jig", Length, 0.1, 100.0);
    /// Any limit of the checks that is a length.
    pub const LIMIT: Range = Range::new("limit", Length, 0.0, 200.0);
    /// Sheets the maker cares to tape together.
    pub const SHEETS: Range = Range::new("most sheets", Count, 1.0, 400.0);
    /// A side of custom paper.
    pub const PAPER: Range = Range::new("side of the paper", Length, 30.0, 5000.0);
    /// Margin of the printer.
    pub const MARGIN: Range = Range::new("printer margin", Length, 0.0, 100.0);
    /// What neighboring sheets share.
    pub const OVERLAP: Range = Range::new("overlap of sheets", Length, 0.0, 100.0);
    /// Number of a hole that an edit is about.
    pub const HOLE_NUMBER: Range =
        Range::new("number of a hole changed by hand", Count, 1.0, 9999.0);
    /// How far an edit moves a hole, or where it adds one.
    pub const OFFSET: Range = Range::new("offset of a hole", Length, -5000.0, 5000.0);
}

/// Every number of the document that is out of its range, in the order of the document.
pub fn out_of_range(board: &Board) -> Vec<OutOfRange> {
    let mut found = Vec::new();
    let mut check = |range: Range, value: f64| found.extend(range.check(value).err());
    pattern_numbers(board, &mut check);
    wood_numbers(board, &mut check);
    template_numbers(board, &mut check);
    edit_numbers(board, &mut check);
    found
}

fn pattern_numbers(board: &Board, check: &mut impl FnMut(Range, f64)) {
    check(ranges::TITLE, board.title.chars().count() as f64);
    check(ranges::PLAYERS, f64::from(board.players));
    check(ranges::SPACES, f64::from(board.spaces));
    check(ranges::HOME, f64::from(board.home));
    check(ranges::START, f64::from(board.start));
    match board.pattern {
        geometry::Pattern::Lobes { depth } => check(ranges::LOBE_DEPTH, depth),
        geometry::Pattern::Arms { across } => check(ranges::ACROSS, f64::from(across)),
        geometry::Pattern::Ring | geometry::Pattern::Polygon => {}
    }
    check(ranges::PITCH, board.pitch);
    check(ranges::ROTATION, board.rotation);
    board
        .pocket
        .bearing
        .into_iter()
        .for_each(|bearing| check(ranges::POCKET_BEARING, bearing));
    board
        .pocket
        .radius
        .into_iter()
        .for_each(|radius| check(ranges::POCKET_RADIUS, radius));
}

fn wood_numbers(board: &Board, check: &mut impl FnMut(Range, f64)) {
    let roles = [board.bores.track, board.bores.home, board.bores.start];
    for bore in roles.into_iter().chain(board.center.bore()) {
        bore_numbers(bore, check);
    }
    board
        .center
        .pilot()
        .into_iter()
        .for_each(|pilot| check(ranges::PILOT, pilot));
    check(ranges::PIECE, board.piece.diameter);
    check(ranges::BOARD, board.blank.diameter);
    check(ranges::THICKNESS, board.blank.thickness);
    check(ranges::ROUNDOVER, board.blank.roundover);
    check(ranges::PIN, board.jig.pin);
    for limit in [
        board.limits.web,
        board.limits.rim,
        board.limits.piece_gap,
        board.limits.pin_play,
    ] {
        check(ranges::LIMIT, limit);
    }
    check(ranges::SHEETS, f64::from(board.limits.sheets));
}

fn bore_numbers(bore: crate::Bore, check: &mut impl FnMut(Range, f64)) {
    check(ranges::BORE_DIAMETER, bore.diameter);
    check(ranges::BORE_DEPTH, bore.depth);
}

fn template_numbers(board: &Board, check: &mut impl FnMut(Range, f64)) {
    if let crate::Paper::Custom { width, height } = board.template.paper {
        check(ranges::PAPER, width);
        check(ranges::PAPER, height);
    }
    check(ranges::MARGIN, board.template.margin);
    check(ranges::OVERLAP, board.template.overlap);
}

fn offsets(offsets: [f64; 2], check: &mut impl FnMut(Range, f64)) {
    for offset in offsets {
        check(ranges::OFFSET, offset);
    }
}

fn edit_numbers(board: &Board, check: &mut impl FnMut(Range, f64)) {
    for edit in &board.edits {
        if edit.hole != crate::HoleId::CENTER {
            check(ranges::HOLE_NUMBER, f64::from(edit.hole.number()));
        }
        match edit.change {
            crate::Change::Move { u, v } => offsets([u, v], check),
            crate::Change::Add { u, v, bore } => {
                offsets([u, v], check);
                bore_numbers(bore, check);
            }
            crate::Change::Bore { bore } => bore_numbers(bore, check),
            crate::Change::Drop => {}
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_board_one_starts_from_is_in_range() {
        assert_eq!(out_of_range(&Board::default()), []);
    }

    #[test]
    fn not_a_number_is_out_of_every_range() {
        assert!(ranges::PITCH.check(f64::NAN).is_err());
        assert!(ranges::ROTATION.check(f64::INFINITY).is_err());
        assert!(ranges::PITCH.check(0.1).is_ok());
    }

    #[test]
    fn each_number_out_of_range_is_named_with_what_it_may_be() {
        let mut board = Board {
            pitch: -3.0,
            ..Board::default()
        };
        board.blank.thickness = 1e9;
        let found: Vec<String> = out_of_range(&board)
            .iter()
            .map(ToString::to_string)
            .collect();
        assert_eq!(
            found,
            [
                "pitch is -3 mm; it may be 0.1 to 1000 mm",
                "board thickness is 1000000000 mm; it may be 0.5 to 500 mm"
            ]
        );
    }
}
