//! The bound that keeps bores from being wider: the wood around them, or the piece that rests in them.

use core::fmt;

use board::{Board, Bore, HoleName, PieceKind, Units, field, show_length};

use super::Limit;
use crate::bores::seat::{MarbleSeat, marble_seat};

/// The bound on the width of bores; lengths in mm.
#[derive(Debug, Clone, PartialEq)]
pub enum BoreBound {
    /// Wood between bores, or between a bore and the rim.
    Wood {
        /// The limit that is reached.
        limit: Limit,
        /// The hole or the two holes where it is reached.
        holes: Vec<HoleName>,
    },
    /// A marble that sinks as far as allowed.
    Sinks {
        /// Diameter of the marble.
        piece: f64,
        /// The share of it that may sink.
        share: f64,
    },
    /// A marble that would stand on the floor of a bore this deep.
    Floor {
        /// Diameter of the marble.
        piece: f64,
        /// The depth of the bore.
        depth: f64,
    },
    /// A shank, ball or disc with as much play as allowed.
    Play {
        /// The play.
        play: f64,
    },
}

/// The words that follow `wider,`: the problem a wider bore would cause.
impl fmt::Display for BoreBound {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let length = |mm| show_length(mm, Units::of(f));
        let said = match self {
            Self::Wood { limit, holes } => {
                let names: Vec<String> = holes.iter().map(ToString::to_string).collect();
                format!("{} falls short at {}", limit.label(), names.join(" and "))
            }
            Self::Sinks { piece, share } => format!(
                "a marble of {} sinks by more than {:.0} %",
                length(*piece),
                100.0 * share
            ),
            Self::Floor { piece, depth } => format!(
                "a marble of {} stands on the floor of a hole {} deep; drill deeper for more",
                length(*piece),
                length(*depth)
            ),
            Self::Play { play } => format!("the piece has more than {} of play", length(*play)),
        };
        f.write_str(&said)
    }
}

/// The widest mouth at which the piece still sits properly in an otherwise unchanged bore, by the rule about seats, mm; `None`
/// if the piece is made to fit.
///
/// A marble on a mouth of diameter d sinks by the share s of its own diameter D where d = 2 D √(s (1 - s)).
pub fn widest_for_piece(board: &Board, bore: Bore) -> Option<(f64, BoreBound)> {
    let (piece, limits) = (board.piece.diameter, &board.limits);
    if board.piece.kind != PieceKind::Marble {
        let play = limits.piece_play;
        return Some((board.piece.shank? + play, BoreBound::Play { play }));
    }
    // A mouth as wide as the marble no longer carries it: the marble falls in.
    let share = limits.seat_most.clamp(0.0, LARGEST_SHARE);
    let widest = 2.0 * piece * (share * (1.0 - share)).sqrt();
    let sinks = BoreBound::Sinks { piece, share };
    let rests = |diameter| {
        let wide = Bore { diameter, ..bore };
        matches!(marble_seat(wide, piece), MarbleSeat::OnRim { .. })
    };
    let least = field::BORE_DIAMETER.min;
    if rests(widest) || !rests(least) {
        return Some((widest, sinks));
    }
    let depth = bore.depth;
    Some((
        last(least, widest, rests),
        BoreBound::Floor { piece, depth },
    ))
}

/// The largest share of a marble that may sink under any limit: near one half, it falls in.
const LARGEST_SHARE: f64 = 0.49;

/// The last size that works, to 1e-9 mm, between one that does and one that does not.
fn last(does: f64, does_not: f64, works: impl Fn(f64) -> bool) -> f64 {
    let (mut does, mut does_not) = (does, does_not);
    while does_not - does > 1e-9 {
        let middle = f64::midpoint(does, does_not);
        if works(middle) {
            does = middle;
        } else {
            does_not = middle;
        }
    }
    does
}

#[cfg(test)]
mod tests {
    use super::*;
    use board::{Bottom, INCH};
    use testkit::assert_near;

    fn bound(board: &Board, bore: Bore) -> (f64, String) {
        let (mm, bound) = widest_for_piece(board, bore).unwrap();
        (mm, board.units.say(&bound))
    }

    /// A 5/8 in marble that sinks by 45 %: 2 · 15.875 · √(0.45 · 0.55) = 15.7954 mm, less than its own 15.875 mm.
    #[test]
    fn the_share_of_a_marble_that_may_sink_bounds_its_bore() {
        let mut board = Board::begun(Units::INCH);
        let bore = Bore {
            diameter: 10.0,
            depth: 12.0,
            bottom: Bottom::Flat,
        };
        let (mm, words) = bound(&board, bore);
        assert_near!(mm, 15.795_4, 1e-4);
        assert_eq!(words, "a marble of 5/8\" sinks by more than 45 %");
        let MarbleSeat::OnRim { sinks, .. } = marble_seat(
            Bore {
                diameter: mm,
                ..bore
            },
            5.0 / 8.0 * INCH,
        ) else {
            panic!("not on its rim")
        };
        assert_near!(sinks, 0.45 * 5.0 / 8.0 * INCH, 1e-9);
        board.limits.seat_most = 1.0;
        assert!(bound(&board, bore).0 < board.piece.diameter);
    }

    /// On a mouth of 2 √(5 · 11) mm a marble of 16 mm sinks by 5 mm, as deep as the bore.
    #[test]
    fn a_shallow_bore_bounds_it_sooner() {
        let board = Board::default();
        let bore = Bore {
            diameter: 10.0,
            depth: 5.0,
            bottom: Bottom::Flat,
        };
        let (mm, words) = bound(&board, bore);
        assert_near!(mm, 2.0 * 55.0_f64.sqrt(), 1e-8);
        assert!(
            words.contains("stands on the floor of a hole 5 mm deep"),
            "{words}"
        );
    }

    #[test]
    fn play_bounds_the_bore_of_a_shank_and_nothing_that_of_one_made_to_fit() {
        let mut board = Board::default();
        board.piece.kind = PieceKind::Peg;
        assert_eq!(widest_for_piece(&board, board.bores.track), None);
        board.piece.shank = Some(8.0);
        let (mm, words) = bound(&board, board.bores.track);
        assert_near!(mm, 8.0 + board.limits.piece_play, 1e-12);
        assert!(words.ends_with("of play"), "{words}");
    }
}
