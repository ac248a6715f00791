//! Pieces of the game, balls and discs for the bores, screws, feet and bearings.

use board::{
    Base, BaseHold, Board, Footing, INCH, Insert, Piece, PieceKind, ScrewCircle, Units, show_length,
};

use super::{Shelf, ToBuy, in_name};
use crate::base::screw::Screw;
use crate::job::counted;
use crate::recess::lid_held::{BUTTON, Buttons, buttons, peg};
use crate::{Workpiece, bit_name, insert_diameter};

/// Balls or discs in a pack; common practice, no source; a pack size typed with the price replaces it.
const BALLS: f64 = 25.0;
/// Magnets in a pack; common practice, no source.
const MAGNETS: f64 = 10.0;
/// Screws in a box; common practice, no source.
const SCREWS: f64 = 100.0;

/// Pieces, balls, magnets, screws, feet and bearings for this many boards.
///
/// Spares are bought only if storage is planned for them: packs leave some over anyway.
pub fn lines(workpiece: &Workpiece, boards: u32) -> Vec<ToBuy> {
    let board = workpiece.board();
    let mut all = pieces(board, boards);
    all.extend(inserts(workpiece, boards));
    all.extend(magnets(board, boards));
    all.extend(board.screws.iter().map(|ring| screws(board, ring, boards)));
    all.extend(
        board
            .base
            .and_then(|base| screws_of_base(board, &base, boards)),
    );
    all.extend(board.base.and_then(|base| footing(board, &base, boards)));
    all.extend(lid(workpiece, boards));
    all
}

/// The turn buttons of a lid with their screws, or the dowel that keeps a sliding lid in.
fn lid(workpiece: &Workpiece, boards: u32) -> Vec<ToBuy> {
    let units = workpiece.units();
    if let Some([across, _]) = peg(workpiece) {
        return vec![ToBuy {
            note: "the peg of the lid".into(),
            ..ToBuy::pieces(
                Shelf::Hardware,
                format!("dowel-{}", in_name(across)),
                format!("Dowel, {}", show_length(across, units)),
                f64::from(boards),
            )
        }];
    }
    let Some(buttons) = buttons(workpiece) else {
        return Vec::new();
    };
    let count = f64::from(buttons.count) * f64::from(boards);
    let screw = Buttons::screw(units);
    let most = buttons.deepest + BUTTON;
    let length = sold_length(most.min(LONGEST), units);
    vec![
        ToBuy {
            note: "to hold the lid".into(),
            ..ToBuy::pieces(
                Shelf::Hardware,
                "turn-button".into(),
                "Turn buttons".into(),
                count,
            )
        },
        ToBuy {
            note: format!(
                "for the turn buttons; no longer than {}",
                workpiece.at_most(most)
            ),
            pack: SCREWS,
            ..wood_screws(screw, length, units, count)
        },
    ]
}

/// The pieces of each player, and spare ones of any color.
///
/// A player has as many pieces as the larger of start pocket and home lane holds, as everywhere in the program.
fn pieces(board: &Board, boards: u32) -> Vec<ToBuy> {
    let each = board.start.max(board.home);
    let spare = board.recess.map_or(0, |recess| recess.spare);
    let of = |count: u32, note: String| ToBuy {
        note,
        ..ToBuy::pieces(
            Shelf::Pieces,
            article_of(&board.piece),
            name_of(&board.piece, board.units),
            f64::from(count) * f64::from(boards),
        )
    };
    let players = (1..=board.players).map(|player| of(each, format!("player {player}")));
    players.chain([of(spare, "spare".into())]).collect()
}

/// The name under which the price of a piece is stored.
///
/// It has the kind and the size in mm, so that a price typed once applies to any board with the same piece.
fn article_of(piece: &Piece) -> String {
    let across = in_name(piece.diameter);
    match piece.kind {
        PieceKind::Marble => format!("marble-{across}"),
        PieceKind::Peg => format!("peg-{across}x{}", in_name(piece.height)),
        PieceKind::Magnet => format!("magnet-piece-{across}x{}", in_name(piece.height)),
    }
}

/// A piece with its size in the maker's unit.
fn name_of(piece: &Piece, units: Units) -> String {
    let length = |mm| show_length(mm, units);
    match piece.kind {
        PieceKind::Marble => format!("Marbles, {}", length(piece.diameter)),
        PieceKind::Peg => format!(
            "Pegs, {} × {}",
            length(piece.diameter),
            length(piece.height)
        ),
        PieceKind::Magnet => format!(
            "Magnet pieces, {} × {}",
            length(piece.diameter),
            length(piece.height)
        ),
    }
}

/// Balls or discs for the bores, one for each that holds a magnet piece, by diameter.
///
/// Bores of the same diameter are one line with the number of their holes. Only magnet pieces need any.
fn inserts(workpiece: &Workpiece, boards: u32) -> Vec<ToBuy> {
    let board = workpiece.board();
    if board.piece.kind != PieceKind::Magnet {
        return Vec::new();
    }
    let mut sizes: Vec<(f64, u32)> = Vec::new();
    for hole in workpiece.seats() {
        let across = insert_diameter(&board.piece, hole.bore);
        match sizes.iter_mut().find(|(mm, _)| *mm == across) {
            Some((_, count)) => *count += 1,
            None => sizes.push((across, 1)),
        }
    }
    let line = |(across, count): (f64, u32)| {
        let length = |mm| show_length(mm, board.units);
        let (article, name) = match board.piece.insert {
            Insert::Ball => (
                format!("steel-ball-{}", in_name(across)),
                format!("Steel balls, {}", length(across)),
            ),
            Insert::Disc { thickness } => (
                format!("steel-disc-{}x{}", in_name(across), in_name(thickness)),
                format!("Steel discs, {} × {}", length(across), length(thickness)),
            ),
        };
        ToBuy {
            note: format!("in {} of each board", counted(count, "hole", "holes")),
            pack: BALLS,
            ..ToBuy::pieces(
                Shelf::Pieces,
                article,
                name,
                f64::from(count) * f64::from(boards),
            )
        }
    };
    sizes.into_iter().map(line).collect()
}

/// A magnet for each piece.
///
/// Its size is known only once the maker has measured one; until then the list says that it is to be chosen.
fn magnets(board: &Board, boards: u32) -> Option<ToBuy> {
    if board.piece.kind != PieceKind::Magnet {
        return None;
    }
    let (article, name) = match board.piece.magnet {
        Some(magnet) => (
            format!(
                "magnet-{}x{}",
                in_name(magnet.diameter),
                in_name(magnet.thickness)
            ),
            format!(
                "Magnets, {} × {}",
                show_length(magnet.diameter, board.units),
                show_length(magnet.thickness, board.units)
            ),
        ),
        None => ("magnet".into(), "Magnets, size to be chosen".into()),
    };
    let pieces = crate::recess::pieces(board);
    Some(ToBuy {
        note: "one in each piece".into(),
        pack: MAGNETS,
        ..ToBuy::pieces(
            Shelf::Pieces,
            article,
            name,
            f64::from(pieces) * f64::from(boards),
        )
    })
}

/// Lengths of wood screws sold by the inch, in 32nds of an inch; from memory.
const INCHES: [u32; 11] = [6, 8, 10, 12, 16, 20, 24, 28, 32, 40, 48];
/// Lengths of wood screws sold by the millimeter, mm; from memory.
const METRIC: [u32; 11] = [10, 12, 16, 20, 25, 30, 35, 40, 45, 50, 60];
/// The longest screw for a turn button, mm: 5/8 in; common practice, no source.
const LONGEST: f64 = 16.0;
/// Thickness of the plate of a turntable's bearing, mm; common practice, no source: measure it.
const PLATE: f64 = 1.5;
/// Wood below the head of a screw in a foot or a base, as a share of the height, with the head sunk into the rest; common
/// practice, no source.
const UNDER_HEAD: f64 = 0.5;

/// Screws of a circle: the longest sold that do not go deeper than their holes.
///
/// A screw that is too long breaks through the top face; one that is too short only holds less.
fn screws(board: &Board, ring: &ScrewCircle, boards: u32) -> ToBuy {
    let through = match board.base {
        Some(base) if is_bearing(&base) => PLATE,
        Some(base) => base.height * UNDER_HEAD,
        None => PLATE,
    };
    let length = sold_length(ring.depth + through, board.units);
    let shown = |mm| show_length(mm, board.units);
    let screw = Screw::of(ring, board.units);
    let count = f64::from(ring.count) * f64::from(boards);
    ToBuy {
        note: format!(
            "for holes {} deep, through {}; no longer",
            shown(ring.depth),
            shown((through * 10.0).round() / 10.0)
        ),
        pack: SCREWS,
        ..wood_screws(screw, length, board.units, count)
    }
}

/// The longest screw sold that is no longer than a length, mm; the shortest one where all are longer.
fn sold_length(most: f64, units: Units) -> f64 {
    let sold: Vec<f64> = match units {
        Units::Inch(_) => INCHES
            .iter()
            .map(|parts| f64::from(*parts) * INCH / 16.0)
            .collect(),
        Units::Mm => METRIC.iter().map(|mm| f64::from(*mm)).collect(),
    };
    let length = sold.iter().rev().find(|mm| **mm <= most + 0.01);
    length.or(sold.first()).copied().unwrap_or(most)
}

/// Wood screws of a length, mm.
fn wood_screws(screw: Screw, length: f64, units: Units, count: f64) -> ToBuy {
    ToBuy::pieces(
        Shelf::Hardware,
        format!("wood-screw-{}x{}", in_name(screw.diameter), in_name(length)),
        format!(
            "Wood screws, {} × {}",
            screw.name(units),
            show_length(length, units)
        ),
        count,
    )
}

/// Screws for feet or a bearing, where none are typed for the underside: one for a foot, and four for a bearing, which has as many
/// holes; none for a base that is glued on.
///
/// Their size follows from the part that is bought.
fn screws_of_base(board: &Board, base: &Base, boards: u32) -> Option<ToBuy> {
    let (count, one) = match base.footing {
        Footing::Feet { count, .. } => (count, "one for each foot"),
        Footing::Round { .. } => (4, "four for the bearing"),
    };
    let is_needed = base.hold == BaseHold::Loose && board.screws.is_empty();
    is_needed.then(|| ToBuy {
        note: format!("{one}; they must end below the holes, and may come with it"),
        pack: SCREWS,
        ..ToBuy::pieces(
            Shelf::Hardware,
            "base-screw".into(),
            "Wood screws for the base, size to be chosen".into(),
            f64::from(count) * f64::from(boards),
        )
    })
}

/// Whether a base is a turntable bearing: round, and not glued.
///
/// A round base that is glued on is a wooden disc, and is on the cut list.
fn is_bearing(base: &Base) -> bool {
    matches!(base.footing, Footing::Round { .. }) && base.hold == BaseHold::Loose
}

/// Sizes of flat turntable bearings, in inches (trade pages).
const BEARINGS: [f64; 5] = [3.0, 4.0, 6.0, 9.0, 12.0];

/// Feet, or the bearing of a turntable; none for a base made of wood.
///
/// The bearing is the largest one sold that is no wider than the base, since one that stands out is seen.
fn footing(board: &Board, base: &Base, boards: u32) -> Option<ToBuy> {
    let shown = |mm| show_length(mm, board.units);
    let (article, name, count) = match base.footing {
        Footing::Feet { count, .. } => (
            format!("foot-{}", in_name(base.height)),
            format!("Feet, {} high", shown(base.height)),
            count,
        ),
        Footing::Round { diameter } if is_bearing(base) => {
            let fits = |inches: &&f64| **inches * INCH <= diameter + 0.5;
            let size = BEARINGS.iter().rev().find(fits).unwrap_or(&BEARINGS[0]) * INCH;
            (
                format!("turntable-{}", in_name(size)),
                // Bearings are sold by the inch everywhere.
                format!("Lazy Susan bearing, {}", bit_name(size, Units::INCH)),
                1,
            )
        }
        Footing::Round { .. } => return None,
    };
    Some(ToBuy::pieces(
        Shelf::Hardware,
        article,
        name,
        f64::from(count) * f64::from(boards),
    ))
}
