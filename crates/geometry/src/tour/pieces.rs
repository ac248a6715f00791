//! The pieces into which a closed route falls where legs go, and the rings that they form where other legs come.

/// Pieces of a route that is laid out along spots 0, 1, ...
///
/// Each piece has a first and a last spot, which are the same where both legs of a place go. The ends of pieces are
/// numbered: first and last of piece 0, first and last of piece 1, and so on.
#[derive(Default)]
pub(super) struct Pieces {
    /// Number of spots.
    spots: u32,
    /// The last spot of each piece. Piece 0 also has the spots after the last cut.
    cuts: Vec<u32>,
    /// The end to which each end is joined.
    joined: Vec<u32>,
    /// The ring that each piece belongs to.
    rings: Vec<u32>,
    /// Number of spots of each ring; none of one that has become part of another.
    sizes: Vec<u32>,
}

const NONE: u32 = u32::MAX;

/// Up to so many cuts are counted faster than halved.
const FEW: usize = 12;

impl Pieces {
    /// Cuts a route of so many spots at legs, which are named by the spots of both ends.
    pub(super) fn cut(&mut self, spots: u32, legs: impl Iterator<Item = (u32, u32)>) {
        self.spots = spots;
        self.cuts.clear();
        self.cuts.extend(legs.map(|(one, other)| {
            let (low, high) = (one.min(other), one.max(other));
            if low + 1 == high { low } else { high }
        }));
        self.cuts.sort_unstable();
        self.joined.clear();
        self.joined.resize(2 * self.cuts.len(), NONE);
    }

    /// Joins the ends of pieces at two spots.
    pub(super) fn join(&mut self, one: u32, other: u32) {
        let one = self.free_end(one);
        // Both ends may be at the same spot: the first must be taken before the second is looked for.
        self.tie(one, one);
        let other = self.free_end(other);
        self.tie(one, other);
        self.tie(other, one);
    }

    /// Follows the pieces around, now that every end is joined; returns the number of rings.
    pub(super) fn close(&mut self) -> usize {
        self.rings.clear();
        self.rings.resize(self.cuts.len(), NONE);
        self.sizes.clear();
        for piece in 0..self.cuts.len() as u32 {
            if self.ring_of_piece(piece) == NONE {
                self.close_ring(2 * piece);
            }
        }
        self.sizes.len()
    }

    fn close_ring(&mut self, from: u32) {
        let ring = self.sizes.len() as u32;
        let (mut end, mut size) = (from, 0);
        while let Some(of) = self.rings.get_mut(end as usize / 2)
            && *of == NONE
        {
            *of = ring;
            size += self.size(end / 2);
            end = self.joined_to(end ^ 1);
        }
        self.sizes.push(size);
    }

    /// The ring with the fewest spots, their number, and one of them.
    pub(super) fn smallest(&self) -> Option<(u32, u32, u32)> {
        let left = (0..).zip(&self.sizes).filter(|(_, size)| **size > 0);
        let (ring, size) = left.min_by_key(|(_, size)| **size)?;
        let piece = self.rings.iter().position(|of| *of == ring)?;
        Some((ring, *size, *self.cuts.get(piece)?))
    }

    /// The ring at a spot.
    pub(super) fn ring(&self, spot: u32) -> u32 {
        self.ring_of_piece(self.piece(spot))
    }

    /// Makes one ring part of another.
    pub(super) fn merge(&mut self, ring: u32, into: u32) {
        for of in self.rings.iter_mut().filter(|of| **of == ring) {
            *of = into;
        }
        let size = self.sizes.get_mut(ring as usize).map(core::mem::take);
        if let Some(into) = self.sizes.get_mut(into as usize) {
            *into += size.unwrap_or_default();
        }
    }

    fn piece(&self, spot: u32) -> u32 {
        let before = if self.cuts.len() <= FEW {
            self.cuts.iter().map(|cut| u32::from(*cut < spot)).sum()
        } else {
            self.cuts.partition_point(|cut| *cut < spot) as u32
        };
        if before as usize == self.cuts.len() {
            0
        } else {
            before
        }
    }

    fn cut_at(&self, piece: u32) -> u32 {
        self.cuts.get(piece as usize).copied().unwrap_or_default()
    }

    /// The first spot of a piece.
    fn first(&self, piece: u32) -> u32 {
        let before = piece.checked_sub(1).map(|before| self.cut_at(before));
        let first = before.or(self.cuts.last().copied()).unwrap_or_default() + 1;
        if first == self.spots { 0 } else { first }
    }

    fn size(&self, piece: u32) -> u32 {
        let (first, last) = (self.first(piece), self.cut_at(piece));
        if first <= last {
            last - first + 1
        } else {
            last + self.spots - first + 1
        }
    }

    /// The end of a piece at a spot; where both its ends are there, the one not joined yet.
    fn free_end(&self, spot: u32) -> u32 {
        let piece = self.piece(spot);
        let first = 2 * piece;
        if spot == self.first(piece) && self.joined_to(first) == NONE {
            first
        } else {
            first + 1
        }
    }

    fn joined_to(&self, end: u32) -> u32 {
        self.joined.get(end as usize).copied().unwrap_or(NONE)
    }

    fn tie(&mut self, end: u32, to: u32) {
        if let Some(joined) = self.joined.get_mut(end as usize) {
            *joined = to;
        }
    }

    fn ring_of_piece(&self, piece: u32) -> u32 {
        self.rings.get(piece as usize).copied().unwrap_or(NONE)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn pieces(cuts: &[(u32, u32)], joints: &[(u32, u32)]) -> (Pieces, usize) {
        let mut pieces = Pieces::default();
        pieces.cut(10, cuts.iter().copied());
        for (one, other) in joints {
            pieces.join(*one, *other);
        }
        let rings = pieces.close();
        (pieces, rings)
    }

    #[test]
    fn two_legs_exchanged_turn_a_piece_around_or_part_it() {
        let cuts = [(2, 3), (7, 6)];
        let (_, rings) = pieces(&cuts, &[(2, 6), (3, 7)]);
        assert_eq!(rings, 1);
        let (pieces, rings) = pieces(&cuts, &[(2, 7), (3, 6)]);
        assert_eq!(rings, 2);
        let (ring, size, spot) = pieces.smallest().unwrap();
        assert_eq!((size, spot), (4, 6));
        assert!((0..10).all(|spot| (pieces.ring(spot) == ring) == (3..7).contains(&spot)));
    }

    #[test]
    fn the_leg_from_the_last_spot_to_the_first_is_one_like_others() {
        let (pieces, rings) = pieces(&[(9, 0), (4, 5)], &[(0, 4), (5, 9)]);
        assert_eq!(rings, 2);
        assert!((0..10).all(|spot| (pieces.ring(spot) == pieces.ring(0)) == (spot < 5)));
    }

    #[test]
    fn a_place_that_loses_both_legs_is_a_piece_of_its_own() {
        // Spot 4 goes between 8 and 9.
        let (_, rings) = pieces(&[(3, 4), (4, 5), (8, 9)], &[(3, 5), (8, 4), (4, 9)]);
        assert_eq!(rings, 1);
    }

    #[test]
    fn merged_rings_are_one() {
        let (mut pieces, rings) = pieces(&[(0, 9), (1, 2), (4, 5)], &[(0, 1), (2, 4), (5, 9)]);
        assert_eq!(rings, 3);
        let (ring, size, _) = pieces.smallest().unwrap();
        assert_eq!(size, 2);
        pieces.merge(ring, pieces.ring(7));
        assert_eq!(pieces.ring(1), pieces.ring(7));
        assert_eq!(pieces.smallest().map(|(_, size, _)| size), Some(3));
    }
}
