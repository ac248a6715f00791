//! A sound board from a few wishes: what is not wished for is chosen.
//!
//! The choices are common practice, no source: pieces stand 3 mm apart, the board is the smallest neat one that
//! keeps the limits on webs, rim and room for pieces, and where pitch or board leave no room for the usual
//! pieces, smaller ones are taken.

mod fit;
mod neat;

use geometry::{Pattern, PocketShape};

use crate::{
    Blank, Board, Bore, Bores, Bottom, BuildError, Center, CircleJig, Piece, PieceKind, Pocket,
    Units, field, layout,
};
use fit::{
    closeness, fit_board, fit_pitch, fit_pocket, keeps_limits, least_distance, pattern_spare,
};
use neat::{Neat, Sizes};

/// What a maker asks of a new board; what is left out is chosen.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Wishes {
    /// Title.
    pub title: Option<String>,
    /// Unit in which lengths are shown, and in which chosen lengths are neat.
    pub units: Option<Units>,
    /// Players.
    pub players: Option<u32>,
    /// Shape of the track.
    pub pattern: Option<Pattern>,
    /// Track spaces a player.
    pub spaces: Option<u32>,
    /// Home-lane holes a player.
    pub home: Option<u32>,
    /// Start-pocket holes a player.
    pub start: Option<u32>,
    /// What is at the center pin.
    pub center: Option<CenterKind>,
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

/// What can be at the center pin, without its sizes.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum CenterKind {
    /// No hole.
    Nothing,
    /// A pivot for the circle jig.
    Pivot,
    /// A playing hole with a pilot.
    Hole,
}

/// A board with everything that is wished for, and the rest chosen so that it can be made.
///
/// Nothing wished for is changed. Where the wishes cannot be had on a sound board, the nearest board is made and
/// the findings say what is wrong with it.
///
/// # Errors
/// [`BuildError`] where the wishes contradict each other; it names the nearest values that work.
///
/// ```
/// use board::{Wishes, layout, propose};
/// let board = propose(&Wishes { players: Some(4), ..Wishes::default() })?;
/// assert!(layout(&board).is_ok());
/// # Ok::<(), board::BuildError>(())
/// ```
pub fn propose(wishes: &Wishes) -> Result<Board, BuildError> {
    check_wishes(wishes)?;
    let neat = Neat::of(wishes.units.unwrap_or_default());
    let (mut board, mut keeps) = settled(wishes, &neat, usual(wishes, &neat))?;
    if may_be_smaller(wishes) {
        for &smaller in &neat.smaller {
            if keeps {
                break;
            }
            // Smaller bores bring a board nearer only while its own pattern is too tight for them.
            let is_tight = pattern_spare(&board)? < 0.0;
            let (other, other_keeps) = settled(wishes, &neat, smaller)?;
            if other_keeps || is_tight {
                board = other;
            }
            keeps = other_keeps;
        }
    }
    fit_pocket(&mut board);
    // Whatever cannot be built is told here.
    layout(&board)?;
    Ok(board)
}

/// What is wished for is held to its range before anything is chosen to suit it.
fn check_wishes(wishes: &Wishes) -> Result<(), BuildError> {
    let wished = [
        (field::PITCH.range(), wishes.pitch),
        (field::BOARD_DIAMETER.range(), wishes.diameter),
        (field::BORE_DIAMETER, wishes.bore),
        (field::PIECE_DIAMETER.range(), wishes.piece_diameter),
        (field::ROTATION.range(), wishes.rotation),
    ];
    for (range, wish) in wished {
        wish.map_or(Ok(()), |value| range.check(value))?;
    }
    Ok(())
}

/// The usual piece and bore, or those that suit the one that is wished for.
fn usual(wishes: &Wishes, neat: &Neat) -> Sizes {
    match (wishes.piece_diameter, wishes.bore) {
        (None, None) => neat.usual,
        (Some(piece), None) => Sizes {
            piece,
            bore: neat.bore_for(piece),
        },
        (piece, Some(bore)) => Sizes {
            piece: piece.unwrap_or_else(|| neat.piece_for(bore)),
            bore,
        },
    }
}

/// Whether pieces are free to be smaller, and may have to be for a given pitch or board.
fn may_be_smaller(wishes: &Wishes) -> bool {
    let is_free = wishes.bore.is_none() && wishes.piece_diameter.is_none();
    is_free && (wishes.pitch.is_some() || wishes.diameter.is_some())
}

/// A board for pieces and bores of some size, with lane, pitch and diameter chosen where they are free; whether
/// it keeps its limits with some shape of pocket.
fn settled(wishes: &Wishes, neat: &Neat, sizes: Sizes) -> Result<(Board, bool), BuildError> {
    let mut board = first_draft(wishes, neat, sizes);
    if wishes.home.is_none() {
        shorten_lane(&mut board);
    }
    if wishes.pitch.is_none() {
        widen_pitch(&mut board, neat)?;
    }
    let keeps = match (wishes.diameter, wishes.pitch) {
        (None, _) => fit_board(&mut board, neat)?,
        (Some(_), None) => fit_pitch(&mut board, neat)?,
        (Some(_), Some(_)) => keeps_limits(&board),
    };
    Ok((board, keeps))
}

/// Gap between pieces that is aimed at, mm.
const PIECE_GAP: f64 = 3.0;
/// Wood between bores that is aimed at over the limit, mm.
const SPARE_WEB: f64 = 1.0;

fn first_draft(wishes: &Wishes, neat: &Neat, sizes: Sizes) -> Board {
    let plain = Board::default();
    let kind = wishes.piece.unwrap_or(PieceKind::Marble);
    let diameter = sizes.bore;
    let bore = Bore {
        diameter,
        depth: neat
            .depth
            .max(neat.depth_step.up(diameter / 3.0))
            .min(0.6 * neat.thickness),
        bottom: Bottom::Forstner,
    };
    let pattern = wishes.pattern.unwrap_or(Pattern::Ring);
    let pitch = (sizes.piece + PIECE_GAP).max(diameter + plain.limits.web + SPARE_WEB);
    let players = wishes.players.unwrap_or(6);
    Board {
        title: wishes
            .title
            .clone()
            .unwrap_or_else(|| title(players, pattern)),
        units: neat.units,
        players,
        pattern,
        spaces: wishes.spaces.unwrap_or_else(|| spaces_for(pattern)),
        home: wishes.home.unwrap_or(4),
        start: wishes.start.unwrap_or(4),
        pitch: wishes.pitch.unwrap_or_else(|| neat.pitch_step.up(pitch)),
        rotation: wishes.rotation.unwrap_or(0.0),
        pocket: Pocket {
            shape: PocketShape::Row,
            bearing: None,
            radius: None,
        },
        center: center(wishes.center.unwrap_or(CenterKind::Hole), bore, neat),
        bores: Bores::all(bore),
        piece: Piece {
            kind,
            diameter: sizes.piece,
            ..Piece::default()
        },
        blank: Blank {
            diameter: wishes.diameter.unwrap_or(field::BOARD_DIAMETER.range().max),
            thickness: neat.thickness,
            roundover: neat.roundover,
        },
        jig: CircleJig::with_pin(neat.pin_for(diameter)),
        ..plain
    }
}

fn title(players: u32, pattern: Pattern) -> String {
    let shape = match pattern {
        Pattern::Ring => "ring",
        Pattern::Lobes { .. } => "lobes",
        Pattern::Polygon => "polygon",
        Pattern::Arms { .. } => "arms",
    };
    format!("Board for {players}, {shape}")
}

/// Fourteen spaces a player; more where the arms are so wide that fourteen would leave them short.
fn spaces_for(pattern: Pattern) -> u32 {
    match pattern {
        Pattern::Arms { across } => 14.max(across.saturating_add(11) & !1),
        Pattern::Ring | Pattern::Lobes { .. } | Pattern::Polygon => 14,
    }
}

fn center(kind: CenterKind, bore: Bore, neat: &Neat) -> Center {
    match kind {
        CenterKind::Nothing => Center::Nothing,
        CenterKind::Pivot => Center::Pivot {
            diameter: neat.pin_for(bore.diameter),
            depth: neat.pivot_depth,
        },
        CenterKind::Hole => Center::Hole {
            bore,
            pilot: neat.pin_for(bore.diameter),
        },
    }
}

/// Shortens the home lane until it leaves a pitch of room around the center pin.
fn shorten_lane(board: &mut Board) {
    let Ok(track) = geometry::track(board.pattern, board.players, board.spaces, board.pitch) else {
        return;
    };
    let turn_in = geometry::turn_in(board.spaces) as usize;
    let Some(start) = track.get(turn_in - 1).map(|space| space.y) else {
        return;
    };
    // Lanes meet at the pin like spokes: neighbors' last holes must be a pitch apart too.
    let half_sector = geometry::Angle::turn_part(1, 2 * i64::from(board.players.max(2)));
    let least = board.pitch * (0.5 / half_sector.sin()).max(1.0);
    while board.home > 0 && start - f64::from(board.home) * board.pitch < least {
        board.home -= 1;
    }
}

/// Widens the pitch where a pattern brings holes nearer to each other than its neighbors along the track are.
fn widen_pitch(board: &mut Board, neat: &Neat) -> Result<(), BuildError> {
    if let Some(closeness) = closeness(board)? {
        let least = neat.pitch_step.up(least_distance(board) / closeness);
        board.pitch = board.pitch.max(least);
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;
    use testkit::assert_near;

    fn wish(players: u32, pattern: Pattern) -> Wishes {
        Wishes {
            players: Some(players),
            pattern: Some(pattern),
            ..Wishes::default()
        }
    }

    /// With the shape of pocket that the board has.
    fn keeps(board: &Board) -> bool {
        fit::spare(board, &layout(board).unwrap()) >= -1e-9
    }

    #[test]
    fn every_proposal_keeps_its_limits() {
        for pattern in [
            Pattern::Ring,
            Pattern::Lobes { depth: 0.15 },
            Pattern::Polygon,
            Pattern::Arms { across: 3 },
        ] {
            for players in 2..=12 {
                for spaces in [None, Some(6), Some(8), Some(10), Some(18), Some(24)] {
                    let wishes = Wishes {
                        spaces,
                        ..wish(players, pattern)
                    };
                    match propose(&wishes) {
                        Ok(board) => assert!(keeps(&board), "{pattern:?}, {wishes:?}"),
                        Err(error) => assert!(
                            pattern == Pattern::Polygon && players == 2,
                            "{pattern:?}, {wishes:?}: {error}"
                        ),
                    }
                }
            }
        }
    }

    #[test]
    fn every_piece_has_room_beside_the_next_where_spaces_are_few() {
        for (players, spaces, pattern) in [
            (8, 4, Pattern::Ring),
            (4, 6, Pattern::Ring),
            (6, 6, Pattern::Lobes { depth: 0.15 }),
        ] {
            let wishes = Wishes {
                spaces: Some(spaces),
                ..wish(players, pattern)
            };
            let board = propose(&wishes).unwrap();
            let holes = layout(&board).unwrap().holes;
            for (at, hole) in holes.iter().enumerate() {
                for other in &holes[..at] {
                    let apart = hole.center.distance(other.center);
                    assert!(
                        apart >= 16.0 + 2.0 - 1e-6,
                        "{} and {}: {apart}",
                        hole.name,
                        other.name
                    );
                }
            }
        }
    }

    #[test]
    fn where_pitch_or_board_leave_no_room_pieces_and_bores_are_smaller() {
        for units in [Units::Mm, Units::Inch] {
            let usual = Neat::of(units).usual;
            for (pitch, diameter) in [
                (Some(10.0), None),
                (Some(14.0), Some(460.0)),
                (None, Some(300.0)),
                (None, Some(450.0)),
            ] {
                let wishes = Wishes {
                    units: Some(units),
                    pitch,
                    diameter,
                    ..Wishes::default()
                };
                let board = propose(&wishes).unwrap();
                assert!(board.bores.track.diameter < usual.bore, "{wishes:?}");
                assert!(board.piece.diameter < usual.piece, "{wishes:?}");
                assert!(keeps(&board), "{wishes:?}");
            }
            let roomy = Wishes {
                units: Some(units),
                diameter: Some(700.0),
                ..Wishes::default()
            };
            assert_eq!(propose(&roomy).unwrap().piece.diameter, usual.piece);
        }
    }

    #[test]
    fn what_cannot_be_had_is_left_to_the_findings_with_the_nearest_board() {
        // No pieces are small enough for 133 holes on so small a board: the smallest come nearest.
        let small = Wishes {
            diameter: Some(60.0),
            ..Wishes::default()
        };
        let board = propose(&small).unwrap();
        assert!(!keeps(&board));
        assert_eq!(board.blank.diameter, 60.0);
        assert_eq!(
            Some(board.piece.diameter),
            Neat::of(Units::Mm).smaller.last().map(|last| last.piece)
        );
        // Smaller pieces would not bring a track inside the rim that its pitch has put outside.
        let tight = Wishes {
            pitch: Some(19.0),
            diameter: Some(300.0),
            ..Wishes::default()
        };
        let board = propose(&tight).unwrap();
        assert_eq!(
            (board.pitch, board.blank.diameter, board.piece.diameter),
            (19.0, 300.0, 16.0)
        );
    }

    #[test]
    fn piece_and_bore_suit_each_other_where_only_one_is_wished_for() {
        let sized = |piece_diameter, bore| {
            let board = propose(&Wishes {
                bore,
                piece_diameter,
                ..Wishes::default()
            })
            .unwrap();
            (board.piece.diameter, board.bores.track.diameter)
        };
        assert_eq!(sized(Some(20.0), None), (20.0, 15.0));
        assert_eq!(sized(None, Some(9.0)), (12.0, 9.0));
        assert_eq!(sized(Some(14.0), Some(12.0)), (14.0, 12.0));
        let wide = Wishes {
            piece_diameter: Some(1000.0),
            ..Wishes::default()
        };
        assert!(matches!(propose(&wide), Err(BuildError::Range(_))));
    }

    #[test]
    fn six_players_with_a_center_hole_make_133_holes() {
        let board = propose(&Wishes::default()).unwrap();
        assert_eq!(layout(&board).unwrap().holes.len(), 133);
        assert_near!(board.pitch, 19.0, 1e-9);
    }

    #[test]
    fn inch_boards_come_in_neat_inches() {
        let board = propose(&Wishes {
            units: Some(Units::Inch),
            ..Wishes::default()
        })
        .unwrap();
        for length in [
            board.pitch,
            board.blank.diameter,
            board.piece.diameter,
            board.blank.thickness,
        ] {
            let parts = length / 25.4 * 16.0;
            assert_near!(parts, parts.round(), 1e-6);
        }
    }

    #[test]
    fn small_bores_get_a_thinner_pin_and_large_ones_stay_in_the_board() {
        for bore in [3.0, 6.0, 8.0, 100.0] {
            let board = propose(&Wishes {
                bore: Some(bore),
                ..Wishes::default()
            })
            .unwrap();
            assert!(board.center.pilot().unwrap() >= board.jig.pin);
            assert!(board.center.pilot().unwrap() < bore);
            assert!(board.bores.track.depth < board.blank.thickness);
        }
    }

    #[test]
    fn what_is_wished_for_is_not_changed() {
        let wishes = Wishes {
            players: Some(4),
            spaces: Some(18),
            home: Some(5),
            start: Some(5),
            pitch: Some(21.3),
            diameter: Some(700.0),
            bore: Some(13.0),
            rotation: Some(45.0),
            ..Wishes::default()
        };
        let board = propose(&wishes).unwrap();
        assert_eq!(
            (board.players, board.spaces, board.home, board.start),
            (4, 18, 5, 5)
        );
        assert_eq!(
            (board.pitch, board.blank.diameter, board.rotation),
            (21.3, 700.0, 45.0)
        );
        assert_eq!(board.bores.track.diameter, 13.0);
    }

    #[test]
    fn a_short_track_gets_a_short_lane_and_an_odd_one_on_arms_an_error() {
        let board = propose(&Wishes {
            players: Some(2),
            spaces: Some(8),
            ..Wishes::default()
        })
        .unwrap();
        assert!(board.home < 4);
        let odd = Wishes {
            spaces: Some(13),
            ..wish(4, Pattern::Arms { across: 3 })
        };
        assert!(matches!(propose(&odd), Err(BuildError::Geometry(_))));
    }
}
