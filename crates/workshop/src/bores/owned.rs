//! The maker's own bits compared with the bores of a board.
//!
//! An empty list means that nothing was typed, and allows no conclusion. Twist drills come in so many sizes that no list of
//! them is kept, so a bore with a drill point needs no bit from the list.

use board::{Board, Bore, Bottom, INCH, Tools, Units, show_setting};

use super::check::seat::takes;

/// Sizes this close count as equal, mm: no bit drills closer to its nominal size than that.
const SAME: f64 = 0.01;

/// The maker's bit for a bore.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum OwnedBit {
    /// A bit of exactly this size.
    Same,
    /// The nearest bit, mm, with which the piece still sits properly in the bore.
    Near(f64),
    /// Every bit is too wide or too narrow for the piece to sit properly.
    Unsuited,
}

/// The maker's bits that leave this bottom, mm; empty if none are listed.
///
/// ```
/// use board::{Bottom, Tools};
/// use workshop::owned_bits;
/// let tools = Tools { forstner: vec![10.0, 12.0], ..Tools::default() };
/// assert_eq!(owned_bits(&tools, Bottom::Forstner), [10.0, 12.0]);
/// assert!(owned_bits(&tools, Bottom::Ball).is_empty());
/// ```
pub fn owned_bits(tools: &Tools, bottom: Bottom) -> &[f64] {
    match bottom {
        Bottom::Forstner => &tools.forstner,
        Bottom::Flat => &tools.straight,
        Bottom::Ball => &tools.round_nose,
        Bottom::Point118 | Bottom::Point135 => &[],
    }
}

/// The maker's bit for a bore in which a piece sits; `None` if no bits of its kind are listed.
///
/// A bit fits where a marble sinks by a share that the limits allow, or a shank, ball or disc goes in with no more than the
/// play that was set. A bore that is merely too shallow for its marble can be drilled deeper, and so does not rule out a bit.
///
/// ```
/// use board::{Board, Tools};
/// use workshop::{OwnedBit, owned_bit};
/// let mut board = Board::default();
/// let bore = board.bores.track;
/// assert_eq!(owned_bit(&board, bore), None);
/// board.tools = Tools { forstner: vec![8.0, 12.7, 22.0], ..Tools::default() };
/// assert_eq!(owned_bit(&board, bore), Some(OwnedBit::Near(12.7)));
/// ```
pub fn owned_bit(board: &Board, bore: Bore) -> Option<OwnedBit> {
    let bits = owned_bits(&board.tools, bore.bottom);
    if bits.is_empty() {
        return None;
    }
    let off = |bit: &f64| (bit - bore.cutter()).abs();
    if bits.iter().any(|bit| off(bit) <= SAME) {
        return Some(OwnedBit::Same);
    }
    let suited = bits
        .iter()
        .filter(|bit| takes(board, bore.by_cutter(**bit)));
    let nearest = suited.min_by(|one, other| off(one).total_cmp(&off(other)));
    Some(nearest.map_or(OwnedBit::Unsuited, |bit| OwnedBit::Near(*bit)))
}

/// Whether a list has a size, within the tolerance for equal sizes.
///
/// An empty list has none: callers first check whether anything is listed.
pub fn has_size(list: &[f64], size: f64) -> bool {
    list.iter().any(|owned| (owned - size).abs() <= SAME)
}

/// Tolerance within which a size counts as a round number of a unit, mm: 12.3 mm is not 31/64 in.
const EXACT: f64 = 0.001;

/// The size of a bit as the trade names it, in the unit in which it is a round number; the board's own unit is tried first.
///
/// ```
/// use board::Units;
/// assert_eq!(workshop::bit_name(12.7, Units::Mm), "1/2\"");
/// assert_eq!(workshop::bit_name(12.0, Units::INCH), "12 mm");
/// assert_eq!(workshop::bit_name(12.3, Units::Mm), "12.3 mm");
/// ```
pub fn bit_name(diameter: f64, units: Units) -> String {
    let is_round = |parts: f64| {
        let counted = diameter * parts;
        (counted - counted.round()).abs() <= EXACT * parts
    };
    let (halves, sixty_fourths) = (is_round(2.0), is_round(64.0 / INCH));
    let named_in = match units {
        Units::Mm if !halves && sixty_fourths => Units::INCH,
        Units::Inch(_) if halves && !sixty_fourths => Units::Mm,
        own => own,
    };
    show_setting(diameter, named_in)
}

#[cfg(test)]
mod tests {
    use super::*;
    use board::PieceKind;
    use proptest::prelude::*;

    fn owning(forstner: &[f64]) -> Board {
        let tools = Tools {
            forstner: forstner.to_vec(),
            ..Tools::default()
        };
        Board {
            tools,
            ..Board::default()
        }
    }

    /// A marble of 16 mm falls into a bore of 16 mm, stands too high on one of 9 mm, and sits on the rim of one of 10 or 14 mm.
    #[test]
    fn the_nearest_bit_that_seats_the_piece_is_used() {
        for (bits, wanted) in [
            (&[12.0][..], OwnedBit::Same),
            (&[11.995], OwnedBit::Same),
            (&[10.0, 15.0, 9.0], OwnedBit::Near(10.0)),
            (&[9.0, 14.0], OwnedBit::Near(14.0)),
            (&[6.0, 16.0, 20.0], OwnedBit::Unsuited),
        ] {
            let board = owning(bits);
            assert_eq!(
                owned_bit(&board, board.bores.track),
                Some(wanted),
                "{bits:?}"
            );
        }
    }

    #[test]
    fn a_peg_needs_a_bit_no_narrower_than_its_shank() {
        let mut board = owning(&[11.0, 12.4, 13.0]);
        board.piece.kind = PieceKind::Peg;
        board.piece.shank = Some(12.0);
        let found = owned_bit(&board, board.bores.track);
        assert_eq!(found, Some(OwnedBit::Near(12.4)));
    }

    #[test]
    fn a_bore_with_a_point_needs_no_listed_bit() {
        let mut board = owning(&[12.0]);
        board.bores.track.bottom = Bottom::Point118;
        assert_eq!(owned_bit(&board, board.bores.track), None);
    }

    #[test]
    fn sizes_are_named_in_the_unit_where_they_are_round() {
        for (size, units, name) in [
            (9.525, Units::INCH, "3/8\""),
            (9.525, Units::Mm, "3/8\""),
            (15.0, Units::INCH, "15 mm"),
            (15.0, Units::Mm, "15 mm"),
            (12.5, Units::Mm, "12.5 mm"),
        ] {
            assert_eq!(bit_name(size, units), name);
        }
    }

    proptest! {
        /// Of the bits that fit, none is nearer.
        #[test]
        fn no_fitting_bit_is_nearer(bits in proptest::collection::vec(5.0..25.0_f64, 1..8)) {
            let board = owning(&bits);
            let bore = board.bores.track;
            if let Some(OwnedBit::Near(near)) = owned_bit(&board, bore) {
                prop_assert!(takes(&board, bore.by_cutter(near)));
                for bit in bits.iter().filter(|bit| takes(&board, bore.by_cutter(**bit))) {
                    prop_assert!((bit - bore.diameter).abs() >= (near - bore.diameter).abs());
                }
            }
        }
    }
}
