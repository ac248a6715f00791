//! Storage in the underside: the place of the recess, and the number of pieces it holds.

pub mod check;
pub mod fitted;
pub mod lid_cut;
pub mod lid_held;
pub mod lid_moves;
pub mod lid_size;
pub mod section;
pub mod sizes;
pub mod steps;
pub mod sums;

use board::{Board, Piece, PieceKind, Recess, RecessShape};
use core::f64::consts::PI;
use geometry::{Point, Prism, RoundRect};

use crate::bores::profile::ball_volume;

/// Share of a volume that poured marbles fill: random loose packing, 0.55 to 0.6; from memory.
const LOOSE: f64 = 0.55;
/// Share of a volume that lying pegs fill; from memory.
const LOOSE_PEGS: f64 = 0.47;
/// The densest packing of equal balls, π / √18; no arrangement is denser.
const DENSEST: f64 = 0.740_480_489_693_061;
/// Rounding slack for a whole number.
const HAIR: f64 = 1e-9;

/// The pieces that a recess holds.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Storage {
    /// Pieces to store.
    pub pieces: u32,
    /// Number of pieces that it holds, approximately: laid in rows or lying loose, whichever is more.
    pub holds: u32,
    /// Upper bound on the number of pieces.
    pub at_most: u32,
    /// Height between the lid and the wood above it, mm; negative if the lid is too thick.
    pub room: f64,
}

/// The outline of a recess, seen from above: a circle, or straight sides with corners as round as the bit leaves them.
pub fn recess_outline(recess: &Recess) -> RoundRect {
    let [x, y] = recess.at;
    outline_of(recess.shape, Point::new(x, y))
}

/// The outline of a recess about its center; a circle is a rectangle whose round corners meet.
const fn outline_of(shape: RecessShape, middle: Point) -> RoundRect {
    RoundRect::new(middle, shape.sides(), shape.corner())
}

/// The body cut from a board of a thickness for a recess of this outline and depth from the underside.
pub const fn prism(outline: RoundRect, depth: f64, thickness: f64) -> Prism {
    Prism {
        outline,
        top: thickness - depth,
        bottom: thickness,
    }
}

/// The storage of a board; `None` if no recess is planned.
pub fn storage(board: &Board) -> Option<Storage> {
    let recess = board.recess?;
    let room = recess.depth - recess.lid;
    let holds = holds(recess.shape, room, &board.piece);
    Some(Storage {
        pieces: pieces(board),
        holds,
        // A bound by volume means nothing if not even one piece fits.
        at_most: if holds == 0 {
            0
        } else {
            at_most(recess.shape, room, &board.piece)
        },
        room,
    })
}

/// Number of pieces that fill the start pockets, or the home lanes where these have more holes, plus the spare ones.
pub fn pieces(board: &Board) -> u32 {
    let each = board.start.max(board.home);
    let spare = board.recess.map_or(0, |recess| recess.spare);
    board.players.saturating_mul(each).saturating_add(spare)
}

/// Number of pieces that a recess holds: marbles loose or in rows, others upright in rows or lying.
fn holds(shape: RecessShape, room: f64, piece: &Piece) -> u32 {
    match piece.kind {
        PieceKind::Marble => balls(shape, room, piece.diameter),
        PieceKind::Peg | PieceKind::Magnet => {
            let standing = upright(shape, piece.diameter) * whole(room / piece.height);
            lying(shape, room, piece).max(count(standing))
        }
    }
}

/// Number of balls. Poured balls leave more room along the walls, so a strip of a quarter of their diameter is not counted.
/// Less than a second layer counts as one.
fn balls(shape: RecessShape, room: f64, diameter: f64) -> u32 {
    let rows = upright(shape, diameter) * whole(room / diameter);
    if rows < 1.0 {
        return 0;
    }
    let volume = inner_area(shape, diameter / 4.0) * layered(room, diameter);
    count(rows.max((LOOSE * volume / ball_volume(diameter)).floor()))
}

/// Number of lying pegs or magnet pieces, in rows or poured in.
fn lying(shape: RecessShape, room: f64, piece: &Piece) -> u32 {
    let (thick, long) = (piece.diameter, piece.height);
    let rows = boxes(shape, long, thick).max(boxes(shape, thick, long)) * whole(room / thick);
    if rows < 1.0 {
        return 0;
    }
    let volume = inner_area(shape, thick / 4.0) * layered(room, thick);
    let each = PI / 4.0 * thick * thick * long;
    count(rows.max((LOOSE_PEGS * volume / each).floor()))
}

/// The height that counts for loose pieces.
fn layered(room: f64, thick: f64) -> f64 {
    if room < 2.0 * thick { thick } else { room }
}

/// A number that no arrangement exceeds: by volume, for balls at the densest possible packing.
fn at_most(shape: RecessShape, room: f64, piece: &Piece) -> u32 {
    let volume = outline_of(shape, Point::ORIGIN).area() * room.max(0.0);
    let each = match piece.kind {
        PieceKind::Marble => ball_volume(piece.diameter) / DENSEST,
        PieceKind::Peg | PieceKind::Magnet => {
            PI / 4.0 * piece.diameter * piece.diameter * piece.height
        }
    };
    count(whole(volume / each))
}

/// The area of an outline less a strip along its walls, mm².
fn inner_area(shape: RecessShape, strip: f64) -> f64 {
    let inner = outline_of(shape, Point::ORIGIN).less(strip);
    inner.map_or(0.0, |inner| inner.area())
}

/// Number of circles of a diameter that fit in rows.
fn upright(shape: RecessShape, diameter: f64) -> f64 {
    let outline = outline_of(shape, Point::ORIGIN);
    // Their centers keep half a diameter from the wall.
    let Some(inner) = outline.less(diameter / 2.0) else {
        return 0.0;
    };
    most_rows(2.0 * outline.halves()[1], diameter, |middle| {
        let reach = inner.half_chord(middle);
        reach.map_or(0.0, |reach| whole(2.0 * reach / diameter) + 1.0)
    })
}

/// Number of rectangles that fit in rows, with `long` along the rows.
fn boxes(shape: RecessShape, long: f64, wide: f64) -> f64 {
    let outline = outline_of(shape, Point::ORIGIN);
    most_rows(2.0 * outline.halves()[1], wide, |middle| {
        let reach = outline.half_chord(middle.abs() + wide / 2.0);
        reach.map_or(0.0, |reach| whole(2.0 * reach / long))
    })
}

/// The better of two ways to lay rows across an outline: as many rows as fit, or one less.
fn most_rows(across: f64, wide: f64, in_row: impl Fn(f64) -> f64) -> f64 {
    let most = whole(across / wide) as u32;
    let laid = |rows: u32| -> f64 {
        let middle = |row: u32| (f64::from(row) - f64::from(rows.saturating_sub(1)) / 2.0) * wide;
        (0..rows).map(|row| in_row(middle(row))).sum()
    };
    laid(most).max(laid(most.saturating_sub(1)))
}

/// The whole part of a value that rounding may have left slightly too low; 0 for negative values.
fn whole(ratio: f64) -> f64 {
    (ratio + HAIR).floor().max(0.0)
}

/// A count; a number too large for it becomes the largest count.
const fn count(number: f64) -> u32 {
    number as u32
}

#[cfg(test)]
mod tests {
    use super::*;

    const ROUND: fn(f64) -> RecessShape = |diameter| RecessShape::Round { diameter };

    fn marbles(shape: RecessShape, room: f64) -> u32 {
        let piece = Piece {
            diameter: 10.0,
            ..Piece::default()
        };
        holds(shape, room, &piece)
    }

    /// The smallest circles that hold n circles of diameter 1 (from memory), which no estimate may exceed.
    #[test]
    fn a_recess_too_small_for_any_piece_has_a_bound_of_0() {
        let board = Board {
            recess: Some(board::Recess {
                shape: ROUND(200.0),
                depth: 12.0,
                ..board::Recess::default()
            }),
            ..Board::default()
        };
        let storage = storage(&board).unwrap();
        assert_eq!((storage.holds, storage.at_most), (0, 0), "{storage:?}");
    }

    #[test]
    fn the_estimate_for_one_layer_in_a_circle_always_fits() {
        let smallest = [
            (1, 1.0),
            (2, 2.0),
            (3, 2.154_7),
            (4, 2.414_2),
            (5, 2.701_3),
            (7, 3.0),
            (8, 3.304_8),
            (9, 3.613),
            (10, 3.813),
            (11, 3.923_8),
            (12, 4.029_6),
            (13, 4.236),
            (14, 4.328_4),
            (15, 4.521_3),
            (16, 4.615_4),
            (17, 4.792),
            (19, 4.863_7),
            (20, 5.122_3),
        ];
        for pair in smallest.windows(2) {
            let ((fits, _), (_, next)) = (pair[0], pair[1]);
            let most = marbles(ROUND(10.0 * next - 0.01), 15.0);
            assert!(most <= fits, "{most} of {fits} under {next}");
        }
        assert_eq!(marbles(ROUND(10.0), 10.0), 1);
        assert_eq!(marbles(ROUND(30.0), 10.0), 5);
    }

    #[test]
    fn a_recess_lower_or_narrower_than_a_marble_holds_none() {
        assert_eq!(marbles(ROUND(200.0), 9.99), 0);
        assert_eq!(marbles(ROUND(9.99), 50.0), 0);
        assert_eq!(marbles(ROUND(200.0), -3.0), 0);
        let slot = |width| RecessShape::Straight {
            length: 1000.0,
            width,
            corner: 0.0,
        };
        assert_eq!(marbles(slot(9.99), 10.0), 0);
        assert_eq!(marbles(slot(10.0), 10.0), 100);
    }

    #[test]
    fn a_deep_recess_is_filled_loosely() {
        // 0.55 of the volume 99.5 mm across and 100 mm high, divided by that of a marble of 10 mm.
        let shape = ROUND(104.5);
        let wanted = 0.55 * PI / 4.0 * 99.5 * 99.5 * 100.0 / (PI * 1000.0 / 6.0);
        assert_eq!(marbles(shape, 100.0), wanted as u32);
        let piece = Piece {
            diameter: 10.0,
            ..Piece::default()
        };
        assert!(at_most(shape, 100.0, &piece) > marbles(shape, 100.0));
    }

    #[test]
    fn pegs_lie_or_stand() {
        let piece = Piece {
            kind: PieceKind::Peg,
            diameter: 10.0,
            height: 30.0,
            ..Piece::default()
        };
        let shape = RecessShape::Straight {
            length: 60.0,
            width: 20.0,
            corner: 0.0,
        };
        assert_eq!(holds(shape, 10.0, &piece), 4);
        assert_eq!(holds(shape, 30.0, &piece), 12);
        assert_eq!(holds(shape, 9.0, &piece), 0);
    }

    #[test]
    fn round_corners_take_room_only_from_pieces_less_round() {
        let marbles = |corner| {
            let shape = RecessShape::Straight {
                length: 40.0,
                width: 40.0,
                corner,
            };
            marbles(shape, 15.0)
        };
        assert_eq!([0.0, 5.0].map(marbles), [16, 16]);
        // A marble in the corner of the grid would overlap the wood; the outer rows hold three.
        assert_eq!(marbles(6.0), 14);
        assert_eq!(marbles(20.0), self::marbles(ROUND(40.0), 15.0));
        let pegs = |corner| {
            let piece = Piece {
                kind: PieceKind::Peg,
                diameter: 10.0,
                height: 20.0,
                ..Piece::default()
            };
            let shape = RecessShape::Straight {
                length: 40.0,
                width: 30.0,
                corner,
            };
            holds(shape, 10.0, &piece)
        };
        // Three rows of two; with round corners the outer rows hold one.
        assert_eq!((pegs(0.0), pegs(1.0)), (6, 4));
    }

    #[test]
    fn absurd_sizes_are_still_counted() {
        let piece = Piece {
            diameter: 0.1,
            ..Piece::default()
        };
        assert_eq!(holds(ROUND(5000.0), 500.0, &piece), u32::MAX);
    }
}
