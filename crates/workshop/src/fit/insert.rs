//! The depth of a bore for the ball or disc in it: level with the top face, above or below it, or at a given pull.

use core::fmt::{self, Formatter};

use board::{Board, Bore, Measure, PieceKind, Units, show_length};

use crate::bores::holds::{gap_for_share, insert_below, insert_diameter, share_of_pull};
use crate::bores::profile::tip;

/// The position or the pull wanted for a ball or disc.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum InsertWish {
    /// Level with the top face.
    Flush,
    /// With its top this far above the top face, mm.
    Proud(f64),
    /// With its top this far below the top face, mm.
    Below(f64),
    /// At this distance from the magnet in the piece, mm, which includes the setback of the magnet and the finish.
    Gap(f64),
    /// With this much of the measured pull remaining, N.
    Pull(f64),
}

/// The reason why no depth meets the wish.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
pub enum InsertError {
    /// The bores have no ball or disc.
    #[error("only magnet pieces have a ball or disc in the hole")]
    NoInsert,
    /// The magnet was not measured.
    #[error("enter magnet data first, under Weight and magnets")]
    Unmeasured,
    /// It does not fit in the bore.
    #[error(fmt = too_wide)]
    TooWide {
        /// Its diameter, mm.
        insert: f64,
        /// Diameter of the bore, mm.
        bore: f64,
    },
    /// Even on the top face it does not stand that proud.
    #[error(fmt = too_proud)]
    TooProud {
        /// The height above the top face of a ball or disc that is not sunk at all, mm.
        most: f64,
    },
    /// Setback and finish alone exceed the gap.
    #[error(fmt = too_near)]
    TooNear {
        /// The gap of a flush ball or disc, mm.
        least: f64,
    },
    /// Even a flush ball or disc has less pull.
    #[error(fmt = too_weak)]
    TooWeak {
        /// The pull on a flush ball or disc, N.
        most: f64,
    },
    /// The bore would leave too little wood below it.
    #[error(fmt = too_deep)]
    TooDeep {
        /// The depth that is needed, mm.
        needs: f64,
        /// The depth that leaves the least floor, mm.
        most: f64,
    },
}

/// The depth of a bore at which the ball or disc of a magnet piece has the wanted position or pull, mm; everything else stays
/// unchanged.
///
/// A ball or disc moves down with the bottom it lies on, so the depth is the present one plus what is missing. The gap for a
/// pull is where the field on the axis of the magnet has fallen to the square root of its share ([`crate::magnet_hold`]).
///
/// ```
/// use board::{Board, PieceKind};
/// use workshop::{InsertWish, insert_depth};
/// let mut board = Board::default();
/// board.piece.kind = PieceKind::Magnet;
/// board.piece.shank = Some(10.0);
/// // A ball of 10 mm on the flat floor of a bore, half a millimeter below the top face.
/// let depth = insert_depth(&board, board.bores.track, InsertWish::Below(0.5))?;
/// assert!((depth - 10.5).abs() < 1e-12);
/// # Ok::<(), workshop::InsertError>(())
/// ```
///
/// # Errors
/// [`InsertError`] with the obstacle.
pub fn insert_depth(board: &Board, bore: Bore, wish: InsertWish) -> Result<f64, InsertError> {
    if board.piece.kind != PieceKind::Magnet {
        return Err(InsertError::NoInsert);
    }
    let insert = insert_diameter(&board.piece, bore);
    if insert > bore.diameter {
        return Err(InsertError::TooWide {
            insert,
            bore: bore.diameter,
        });
    }
    let depth = bore.depth + wanted_below(board, wish)? - insert_below(&board.piece, bore);
    let most = board.blank.thickness - board.limits.floor - tip(bore, board.bores.spur);
    if depth < 0.0 {
        let uncut = Bore { depth: 0.0, ..bore };
        Err(InsertError::TooProud {
            most: -insert_below(&board.piece, uncut),
        })
    } else if depth > most + ROUNDING {
        Err(InsertError::TooDeep { needs: depth, most })
    } else {
        Ok(depth)
    }
}

/// Rounding slack for a depth that exactly leaves the least floor, mm.
const ROUNDING: f64 = 1e-9;

/// Depth below the top face where its top should be, mm; negative if it should be above.
fn wanted_below(board: &Board, wish: InsertWish) -> Result<f64, InsertError> {
    let magnet = board.piece.magnet.ok_or(InsertError::Unmeasured);
    // The gap that remains when it is flush.
    let least = magnet.map(|magnet| magnet.set_back + magnet.finish);
    match wish {
        InsertWish::Flush => Ok(0.0),
        InsertWish::Proud(above) => Ok(-above),
        InsertWish::Below(below) => Ok(below),
        InsertWish::Gap(gap) => {
            let least = least?;
            if gap < least - ROUNDING {
                return Err(InsertError::TooNear { least });
            }
            Ok((gap - least).max(0.0))
        }
        InsertWish::Pull(pull) => {
            let (magnet, least) = (magnet?, least?);
            let gap = gap_for_share(&magnet, pull / magnet.pull);
            if gap < least - ROUNDING {
                let most = magnet.pull * share_of_pull(&magnet, least);
                return Err(InsertError::TooWeak { most });
            }
            Ok((gap - least).max(0.0))
        }
    }
}

/// Messages of errors with their lengths in the maker's unit.
macro_rules! told {
    ($($name:ident($($size:ident),+) $words:literal;)+) => {
        $(
            fn $name($($size: &f64,)+ f: &mut Formatter<'_>) -> fmt::Result {
                let units = Units::of(f);
                $(let $size = show_length(*$size, units);)+
                write!(f, $words)
            }
        )+
    };
}

told! {
    too_wide(insert, bore) "a ball or disc of {insert} does not go into a hole of {bore}";
    too_proud(most) "lying on the top face it stands out by {most}";
    too_near(least) "a flush one has a gap of {least} already: magnet set back, and finish";
    too_deep(needs, most) "it takes a hole {needs} deep; {most} is the deepest that leaves enough wood under it";
}

#[expect(
    clippy::trivially_copy_pass_by_ref,
    reason = "the error's derive passes its fields by reference"
)]
/// Writes the message about a magnet that never pulls this hard, with the most that it pulls, N.
fn too_weak(most: &f64, f: &mut Formatter<'_>) -> fmt::Result {
    let most = Measure::newtons(*most).shown(Units::of(f));
    write!(
        f,
        "even flush the pull is {most}; use a stronger magnet, or set it back less"
    )
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::bores::holds::magnet_hold;
    use board::{Bottom, Insert, Magnet};
    use proptest::prelude::*;
    use testkit::assert_near;

    fn board(insert: Insert, shank: f64) -> Board {
        let mut board = Board::default();
        board.blank.thickness = 40.0;
        board.piece.kind = PieceKind::Magnet;
        (board.piece.shank, board.piece.insert) = (Some(shank), insert);
        board.piece.magnet = Some(Magnet {
            set_back: 0.2,
            finish: 0.1,
            ..Magnet::default()
        });
        board
    }

    fn bore(bottom: Bottom) -> Bore {
        Bore {
            diameter: 10.0,
            depth: 4.0,
            bottom,
        }
    }

    /// The center of a ball of radius r in a cone of included angle A is r / sin(A/2) above the apex; a point of 118° is
    /// 0.3004303 of its diameter long (closed forms).
    #[test]
    fn depths_match_the_closed_forms() {
        let (ball, disc) = (
            board(Insert::Ball, 9.5),
            board(Insert::Disc { thickness: 2.0 }, 9.5),
        );
        let of = |board: &Board, bottom, wish| insert_depth(board, bore(bottom), wish).unwrap();
        assert_near!(of(&ball, Bottom::Flat, InsertWish::Flush), 9.5, 1e-12);
        assert_near!(
            of(&ball, Bottom::Forstner, InsertWish::Proud(0.4)),
            9.1,
            1e-12
        );
        assert_near!(of(&ball, Bottom::Ball, InsertWish::Below(1.0)), 10.5, 1e-12);
        let flush = 4.75 / 0.857_167_300_7 + 4.75 - 3.004_303_095;
        assert_near!(of(&ball, Bottom::Point118, InsertWish::Flush), flush, 1e-8);
        assert_near!(
            of(&disc, Bottom::Point118, InsertWish::Below(0.5)),
            2.5,
            1e-12
        );
        // Setback and finish take up 0.3 mm of a gap of 1 mm.
        assert_near!(of(&disc, Bottom::Flat, InsertWish::Gap(1.0)), 2.7, 1e-12);
    }

    /// The pull over a gap, by its formula: the squared field on the axis of the magnet divided by that at its face.
    #[test]
    fn the_depth_for_a_pull_is_the_deepest_of_a_scan() {
        let board = board(Insert::Disc { thickness: 2.0 }, 9.5);
        let magnet = board.piece.magnet.unwrap();
        let field = |gap: f64| {
            let part = |along: f64| along / (16.0 + along * along).sqrt();
            part(3.0 + gap) - part(gap)
        };
        let pull = |depth: f64| {
            let gap = (depth - 2.0).max(0.0) + 0.3;
            magnet.pull * (field(gap) / field(0.0)).powi(2)
        };
        for wanted in [0.2, 0.5, 1.0, 2.0] {
            let found = insert_depth(&board, bore(Bottom::Flat), InsertWish::Pull(wanted)).unwrap();
            let scan = (0..20_000).map(|step| f64::from(step) * 1e-3);
            let deepest = scan.rev().find(|depth| pull(*depth) >= wanted).unwrap();
            assert!(
                (0.0..1e-3).contains(&(found - deepest)),
                "{found} {deepest}"
            );
            assert_near!(pull(found), wanted, 1e-9);
        }
    }

    #[test]
    fn the_obstacle_is_reported_in_the_makers_unit() {
        let mut board = board(Insert::Ball, 9.5);
        let refused = |board: &Board, wish| {
            let error = insert_depth(board, bore(Bottom::Flat), wish).unwrap_err();
            board.units.say(&error)
        };
        assert_eq!(
            refused(&board, InsertWish::Pull(2.9)),
            "even flush the pull is 2.63 N; use a stronger magnet, or set it back less"
        );
        assert_eq!(
            refused(&board, InsertWish::Gap(0.2)),
            "a flush one has a gap of 0.3 mm already: magnet set back, and finish"
        );
        assert_eq!(
            refused(&board, InsertWish::Proud(9.6)),
            "lying on the top face it stands out by 9.5 mm"
        );
        board.blank.thickness = 12.0;
        assert_eq!(
            refused(&board, InsertWish::Flush),
            "it takes a hole 9.5 mm deep; 8 mm is the deepest that leaves enough wood under it"
        );
        board.units = Units::INCH;
        board.piece.shank = Some(12.7);
        let told = refused(&board, InsertWish::Flush);
        assert!(
            told.starts_with("a ball or disc of 1/2\" does not"),
            "{told}"
        );
        board.piece.magnet = None;
        board.piece.shank = None;
        assert!(refused(&board, InsertWish::Pull(1.0)).contains("magnet data"));
        board.piece.kind = PieceKind::Peg;
        assert!(refused(&board, InsertWish::Flush).contains("only magnet pieces"));
    }

    proptest! {
        #[test]
        fn the_insert_ends_up_in_the_wanted_position(
            kind in 0_usize..5,
            (shank, thickness) in (4.0..10.0_f64, 0.5..4.0_f64),
            is_ball: bool,
            below in -0.5..5.0_f64,
        ) {
            let insert = if is_ball { Insert::Ball } else { Insert::Disc { thickness } };
            let board = board(insert, shank);
            let mut bore = bore(Bottom::ALL[kind]);
            let wish = if below < 0.0 { InsertWish::Proud(-below) } else { InsertWish::Below(below) };
            bore.depth = insert_depth(&board, bore, wish).unwrap();
            prop_assert!((insert_below(&board.piece, bore) - below).abs() < 1e-9);
        }

        #[test]
        fn the_wanted_pull_remains(pull in 0.05..2.3_f64, kind in 0_usize..5) {
            let board = board(Insert::Ball, 9.0);
            let mut bore = bore(Bottom::ALL[kind]);
            bore.depth = insert_depth(&board, bore, InsertWish::Pull(pull)).unwrap();
            let held = magnet_hold(&board.piece, bore).unwrap();
            prop_assert!((held.pull - pull).abs() < 1e-8);
        }
    }
}
