//! A sound board from a few wishes: what is not wished for is chosen.
//!
//! The choices are common practice, no source: a marble rests on a bore three quarters as wide, pieces stand
//! 3 mm apart, and the board is the smallest neat one that keeps the limits on webs and rim.

use geometry::{Pattern, PocketShape};

use crate::{
    Blank, Board, Bore, Bores, Bottom, BuildError, Center, CircleJig, Layout, Piece, PieceKind,
    Pocket, Units, layout, ranges,
};

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
/// Nothing wished for is changed: where the wishes cannot be had on a sound board, the findings say so.
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
    let mut board = first_draft(wishes, &neat);
    if wishes.home.is_none() {
        shorten_lane(&mut board);
    }
    if wishes.pitch.is_none() {
        widen_pitch(&mut board, &neat)?;
    }
    // Whatever cannot be built is told before sizes are looked for.
    let rough = layout_on(&board, 5000.0)?;
    match (wishes.diameter, wishes.pitch) {
        (None, _) => fit_board(&mut board, &neat, &rough),
        (Some(_), None) => fit_pitch(&mut board, &neat)?,
        (Some(_), Some(_)) => {}
    }
    if let Some((shape, _)) = best_shape(&board) {
        board.pocket.shape = shape;
    }
    layout(&board)?;
    Ok(board)
}

/// What is wished for is held to its range before anything is chosen to suit it.
fn check_wishes(wishes: &Wishes) -> Result<(), BuildError> {
    let wished = [
        (ranges::PITCH, wishes.pitch),
        (ranges::BOARD, wishes.diameter),
        (ranges::BORE_DIAMETER, wishes.bore),
        (ranges::ROTATION, wishes.rotation),
    ];
    for (range, wish) in wished {
        wish.map_or(Ok(()), |value| range.check(value))?;
    }
    Ok(())
}

/// Lengths that are neat in a unit, mm.
struct Neat {
    units: Units,
    marble: f64,
    bore: f64,
    pin: f64,
    /// Least depth of a bore, and the steps that depths come in.
    depth: f64,
    depth_step: f64,
    thickness: f64,
    roundover: f64,
    /// Steps that a chosen pitch and a chosen board come in.
    pitch_step: f64,
    fine_pitch_step: f64,
    board_step: f64,
}

impl Neat {
    /// The jig's pin; a thinner one where a small playing hole would swallow its pilot.
    fn pin_for(&self, bore: Bore) -> f64 {
        self.pin.min(bore.diameter / 2.0).max(ranges::PIN.min)
    }

    fn of(units: Units) -> Self {
        const INCH: f64 = 25.4;
        match units {
            Units::Mm => Self {
                units,
                marble: 16.0,
                bore: 12.0,
                pin: 6.0,
                depth: 5.0,
                depth_step: 0.5,
                thickness: 20.0,
                roundover: 5.0,
                pitch_step: 0.5,
                fine_pitch_step: 0.1,
                board_step: 10.0,
            },
            Units::Inch => Self {
                units,
                marble: 5.0 / 8.0 * INCH,
                bore: INCH / 2.0,
                pin: INCH / 4.0,
                depth: 3.0 / 16.0 * INCH,
                depth_step: INCH / 16.0,
                thickness: 0.75 * INCH,
                roundover: 3.0 / 16.0 * INCH,
                pitch_step: INCH / 16.0,
                fine_pitch_step: INCH / 64.0,
                board_step: INCH / 4.0,
            },
        }
    }
}

/// The least multiple of a step that is not under a length, and the greatest not over it.
fn round_up(length: f64, step: f64) -> f64 {
    (length / step - 1e-9).ceil() * step
}

fn round_down(length: f64, step: f64) -> f64 {
    (length / step + 1e-9).floor() * step
}

/// Gap between pieces that is aimed at, mm.
const PIECE_GAP: f64 = 3.0;
/// Wood between bores that is aimed at over the limit, mm.
const SPARE_WEB: f64 = 1.0;

fn first_draft(wishes: &Wishes, neat: &Neat) -> Board {
    let plain = Board::default();
    let kind = wishes.piece.unwrap_or(PieceKind::Marble);
    let diameter = wishes.bore.unwrap_or(neat.bore);
    // A marble rests on a bore three quarters as wide; the foot of a peg or magnet piece spreads as much.
    let piece = wishes.bore.map_or(neat.marble, |bore| {
        round_up(bore * 4.0 / 3.0, neat.pitch_step)
    });
    let bore = Bore {
        diameter,
        depth: neat
            .depth
            .max(round_up(diameter / 3.0, neat.depth_step))
            .min(0.6 * neat.thickness),
        bottom: Bottom::Forstner,
    };
    let pattern = wishes.pattern.unwrap_or(Pattern::Ring);
    let pitch = (piece + PIECE_GAP).max(diameter + plain.limits.web + SPARE_WEB);
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
        pitch: wishes
            .pitch
            .unwrap_or_else(|| round_up(pitch, neat.pitch_step)),
        rotation: wishes.rotation.unwrap_or(0.0),
        pocket: Pocket {
            shape: PocketShape::Row,
            bearing: None,
            radius: None,
        },
        center: center(wishes.center.unwrap_or(CenterKind::Hole), bore, neat),
        bores: Bores {
            track: bore,
            home: bore,
            start: bore,
        },
        piece: Piece {
            kind,
            diameter: piece,
        },
        blank: Blank {
            diameter: wishes.diameter.unwrap_or(5000.0),
            thickness: neat.thickness,
            roundover: neat.roundover,
        },
        jig: CircleJig {
            pin: neat.pin_for(bore),
        },
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
            diameter: neat.pin_for(bore),
            depth: 10.0,
        },
        CenterKind::Hole => Center::Hole {
            bore,
            pilot: neat.pin_for(bore),
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
    let points: Vec<_> = layout_on(
        &Board {
            start: 0,
            ..board.clone()
        },
        5000.0,
    )?
    .holes
    .iter()
    .map(|hole| geometry::Circle::new(hole.center, 0.0))
    .collect();
    let Some(closest) = geometry::smallest_web(&points).filter(|closest| closest.mm > 0.0) else {
        return Ok(());
    };
    let least = (board.bores.track.diameter + board.limits.web)
        .max(board.piece.diameter + board.limits.piece_gap);
    let pitch = board.pitch * least / closest.mm;
    board.pitch = board.pitch.max(round_up(pitch, neat.pitch_step));
    Ok(())
}

fn layout_on(board: &Board, diameter: f64) -> Result<Layout, BuildError> {
    layout(&Board {
        blank: Blank {
            diameter,
            ..board.blank
        },
        ..board.clone()
    })
}

/// Sets the smallest neat board that keeps the limits, or the one that holds the track if none does.
fn fit_board(board: &mut Board, neat: &Neat, rough: &Layout) {
    let pattern_holes = rough
        .holes
        .iter()
        .filter(|hole| hole.name.id().role() != crate::Role::Start);
    let outermost = pattern_holes
        .map(|hole| hole.center.to_vec2().length() + hole.bore.radius())
        .fold(0.0, f64::max);
    let least = round_up(
        2.0 * (outermost + board.limits.rim + board.blank.roundover),
        neat.board_step,
    );
    let most = least + 2.0 * board.pitch * f64::from(board.start + 3);
    let steps = ((most - least) / neat.board_step) as u32;
    board.blank.diameter = least;
    for step in 0..=steps {
        let diameter = least + f64::from(step) * neat.board_step;
        let tried = Board {
            blank: Blank {
                diameter,
                ..board.blank
            },
            ..board.clone()
        };
        if best_shape(&tried).is_some_and(|(_, keeps)| keeps) {
            board.blank.diameter = diameter;
            return;
        }
    }
}

/// Sets the largest neat pitch that keeps the limits on the given board, or the one at which the track alone
/// fits if none does.
fn fit_pitch(board: &mut Board, neat: &Neat) -> Result<(), BuildError> {
    let reach = geometry::reach(board.pattern, board.players, board.spaces)?;
    let room = board.blank.flat_radius() - board.limits.rim - board.bores.track.radius();
    let most = round_down(room / reach, neat.fine_pitch_step).max(neat.fine_pitch_step);
    let least = board.bores.track.diameter + board.limits.web;
    let steps = ((most - least) / neat.fine_pitch_step).max(0.0) as u32;
    board.pitch = most;
    for step in 0..=steps {
        let pitch = most - f64::from(step) * neat.fine_pitch_step;
        if best_shape(&Board {
            pitch,
            ..board.clone()
        })
        .is_some_and(|(_, keeps)| keeps)
        {
            board.pitch = pitch;
            return Ok(());
        }
    }
    Ok(())
}

/// The pocket shape with the most wood around it, the first of equals; whether it keeps the limits.
fn best_shape(board: &Board) -> Option<(PocketShape, bool)> {
    let shapes = [
        PocketShape::Row,
        PocketShape::Block,
        PocketShape::Ring,
        PocketShape::Arc,
    ];
    let mut best: Option<(PocketShape, f64)> = None;
    for shape in shapes {
        let tried = Board {
            pocket: Pocket {
                shape,
                ..board.pocket
            },
            ..board.clone()
        };
        let Ok(layout) = layout(&tried) else { continue };
        let spare = spare(&tried, &layout);
        if best.is_none_or(|(_, most)| spare > most + 1e-6) {
            best = Some((shape, spare));
        }
    }
    best.map(|(shape, spare)| (shape, spare >= -1e-9))
}

/// By how much the tightest web or rim margin exceeds its limit, mm; negative where it falls short.
fn spare(board: &Board, layout: &Layout) -> f64 {
    let web = geometry::smallest_web(&layout.mouths()).map_or(f64::INFINITY, |web| web.mm);
    let flat = board.blank.flat_radius();
    let outermost = layout
        .holes
        .iter()
        .map(|hole| hole.center.to_vec2().length() + hole.bore.radius())
        .fold(0.0, f64::max);
    (web - board.limits.web).min(flat - outermost - board.limits.rim)
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

    #[test]
    fn every_proposal_keeps_its_limits() {
        for pattern in [
            Pattern::Ring,
            Pattern::Lobes { depth: 0.15 },
            Pattern::Polygon,
            Pattern::Arms { across: 3 },
        ] {
            for players in [2, 3, 4, 5, 6, 8, 12] {
                if pattern == Pattern::Polygon && players == 2 {
                    continue;
                }
                let board = propose(&wish(players, pattern)).unwrap();
                let spare = spare(&board, &layout(&board).unwrap());
                assert!(spare >= -1e-9, "{pattern:?} for {players}: {spare}");
            }
        }
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
    fn on_a_given_board_the_pitch_is_the_largest_that_keeps_the_limits() {
        let board = propose(&Wishes {
            diameter: Some(450.0),
            ..Wishes::default()
        })
        .unwrap();
        assert_eq!(board.blank.diameter, 450.0);
        assert!(spare(&board, &layout(&board).unwrap()) >= -1e-9);
        let wider = Board {
            pitch: board.pitch + 0.1,
            ..board.clone()
        };
        let shapes_fail = best_shape(&wider).is_none_or(|(_, keeps)| !keeps);
        assert!(shapes_fail, "{} could be wider", board.pitch);
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
