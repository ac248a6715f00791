//! The first draft of a board: usual sizes, and sizes that suit the wishes.

use board::{
    Blank, Board, Bore, Bores, Bottom, Center, Choice, CircleJig, Insert, Piece, PieceKind, Pocket,
    Stock, field,
};
use geometry::{Angle, Pattern, PocketShape};

use super::neat::{Neat, Sizes};
use super::wishes::Wishes;
use crate::blank::thickness::planed_off;
use crate::bores::profile::deepest;
use crate::bores::seat::{MarbleSeat, marble_seat};

/// Intended gap between pieces, mm.
const PIECE_GAP: f64 = 3.0;
/// Intended wood between bores beyond the limit, mm.
const SPARE_WEB: f64 = 1.0;
/// The thickest board that is chosen because of its bores, as a multiple of the usual one.
const THICKEST: f64 = 2.0;

/// The sizes of pieces and bores to try, the best first: the usual ones, or those that suit the wished one. Smaller ones follow
/// if the sizes are open and a given pitch or board may require them.
pub fn sizes(wishes: &Wishes, neat: &Neat) -> Vec<Sizes> {
    let usual = match (wishes.piece_diameter, wishes.bore) {
        (None, None) => neat.usual,
        (Some(piece), None) => Sizes {
            piece,
            bore: neat.bore_for(piece),
        },
        (piece, Some(bore)) => Sizes {
            piece: piece.unwrap_or_else(|| neat.piece_for(bore)),
            bore,
        },
    };
    let is_free = wishes.bore.is_none() && wishes.piece_diameter.is_none();
    let is_tight = wishes.pitch.is_some() || wishes.diameter.is_some();
    let smaller: &[Sizes] = if is_free && is_tight {
        &neat.smaller
    } else {
        &[]
    };
    [&[usual], smaller].concat()
}

/// The board with every wish; pitch and diameter are not fitted to each other yet where they are open.
pub fn draft(wishes: &Wishes, neat: &Neat, sizes: Sizes) -> Board {
    let plain = neat.plain.clone();
    let kind = wishes.piece.unwrap_or(PieceKind::Marble);
    let (bore, thickness, insert) = bore(neat, kind, sizes, &plain);
    let pattern = wishes.pattern.unwrap_or(Pattern::Ring);
    let pitch = (sizes.piece + PIECE_GAP).max(bore.diameter + plain.limits.web + SPARE_WEB);
    let pitch = neat.pitch_step.up(pitch).min(field::PITCH.range().max);
    let players = wishes.players.unwrap_or(plain.players);
    let title = wishes.title.clone();
    let mut board = Board {
        title: title.unwrap_or_else(|| usual_title(players, pattern)),
        units: plain.units,
        players,
        pattern,
        spaces: wishes
            .spaces
            .unwrap_or_else(|| spaces_for(pattern, plain.spaces)),
        home: wishes.home.unwrap_or(plain.home),
        start: wishes.start.unwrap_or(plain.start),
        pitch: wishes.pitch.unwrap_or(pitch),
        rotation: wishes.rotation.unwrap_or(0.0),
        pocket: Pocket {
            shape: PocketShape::Row,
            bearing: None,
            radius: None,
        },
        center: center(wishes.center, bore, neat),
        bores: Bores {
            spur: plain.bores.spur,
            ..Bores::all(bore)
        },
        piece: Piece {
            kind,
            diameter: sizes.piece,
            insert,
            ..plain.piece
        },
        blank: Blank {
            diameter: wishes.diameter.unwrap_or(field::BOARD_DIAMETER.range().max),
            thickness,
            roundover: neat.roundover,
        },
        stock: stock(&plain, thickness, neat),
        jig: CircleJig {
            pin: neat.pin_for(bore.diameter),
            ..plain.jig
        },
        ..plain
    };
    if wishes.home.is_none() {
        shorten_lane(&mut board);
    }
    board
}

/// A bore about a third as deep as it is wide, the thickness of the board, and the ball or disc in the bore. The bore is deep
/// enough for a marble to rest on the rim, or for the ball of a magnet piece to lie flush, in a thicker board where necessary.
/// No board is made more than twice as thick because of its bores: beyond that, a magnet piece gets a disc in a shallow bore.
fn bore(neat: &Neat, kind: PieceKind, sizes: Sizes, plain: &Board) -> (Bore, f64, Insert) {
    let usual = neat.depth_step.up(sizes.bore / 3.0).max(neat.depth);
    let bore = Bore {
        diameter: sizes.bore,
        depth: usual.min(0.6 * neat.thickness),
        bottom: Bottom::Forstner,
    };
    let wanted = match (kind, marble_seat(bore, sizes.piece)) {
        (PieceKind::Marble, MarbleSeat::OnFloor { wants, .. }) => {
            bore.depth.max(neat.depth_step.up(wants))
        }
        (PieceKind::Magnet, _) => neat.depth_step.up(sizes.bore),
        _ => return (bore, neat.thickness, Insert::Ball),
    };
    let deep = Bore {
        depth: wanted,
        ..bore
    };
    let wanted = deepest(deep, plain.bores.spur) + plain.limits.floor;
    let thickness = neat.thickness.max(neat.thickness_step.up(wanted));
    if thickness <= THICKEST * neat.thickness {
        return (deep, thickness, Insert::Ball);
    }
    match kind {
        PieceKind::Magnet => {
            let (depth, thickness) = (neat.depth, neat.depth);
            let insert = Insert::Disc { thickness };
            (Bore { depth, ..bore }, neat.thickness, insert)
        }
        PieceKind::Marble | PieceKind::Peg => (bore, neat.thickness, Insert::Ball),
    }
}

/// A blank thick enough to plane the board out of it.
fn stock(plain: &Board, thickness: f64, neat: &Neat) -> Stock {
    let rough = neat
        .thickness_step
        .up(thickness + planed_off(&plain.panel.build));
    Stock {
        thickness: plain.stock.thickness.max(rough),
        ..plain.stock.clone()
    }
}

/// A title that names players and pattern, until the maker has a better one.
fn usual_title(players: u32, pattern: Pattern) -> String {
    format!("Board for {players}, {}", pattern.words())
}

/// The usual spaces per player, or more where the arms are so wide that the usual number is too small.
fn spaces_for(pattern: Pattern, usual: u32) -> u32 {
    match pattern {
        Pattern::Arms { across } => usual.max(across.saturating_add(13) & !1),
        Pattern::Ring | Pattern::Lobes { .. } | Pattern::Polygon => usual,
    }
}

/// The wished kind of center, otherwise a playing hole, in sizes that suit the bores.
fn center(wished: Option<Center>, bore: Bore, neat: &Neat) -> Center {
    match wished {
        Some(Center::Nothing) => Center::Nothing,
        Some(Center::Pivot { .. }) => Center::Pivot {
            diameter: neat.pin_for(bore.diameter),
            depth: neat.pivot_depth,
        },
        Some(Center::Hole { .. }) | None => Center::Hole {
            bore,
            pilot: neat.pin_for(bore.diameter),
        },
    }
}

/// Shortens the home lane until it leaves one pitch of room around the center pin.
fn shorten_lane(board: &mut Board) {
    let Ok(track) = geometry::track(board.pattern, board.players, board.spaces, board.pitch) else {
        return;
    };
    let turn_in = geometry::turn_in(board.spaces) as usize;
    let Some(start) = track.get(turn_in - 1).map(|space| space.y) else {
        return;
    };
    // Lanes meet at the pin like spokes: neighbors' last holes must be a pitch apart too.
    let half_sector = Angle::turn_part(1, 2 * i64::from(board.players.max(2)));
    let least = board.pitch * (0.5 / half_sector.sin()).max(1.0);
    while board.home > 0 && start - f64::from(board.home) * board.pitch < least {
        board.home -= 1;
    }
}
