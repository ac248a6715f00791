//! Shop math about the pieces: how they stand, and what moves them out of their holes.

use board::{Board, Bore, Measure, PieceKind};
use geometry::{Angle, Circle};

use crate::Workpiece;
use crate::bores::holds::{
    Hold, flights, insert_below, insert_gap, magnet_hold, marble_stand, peg_stand, piece_density,
    piece_mass,
};
use crate::bores::sums::{Kind, kinds};
use crate::filling::open_bore;
use crate::recess::pieces;
use crate::sums::{GEOMETRY, STATICS, Sum, SumGroup, TYPED};

/// The note for every group with a speed or a tilt.
const STEADY: &str = "speeds and tilts are for a board that turns steadily or is tilted slowly; a jerk does more, so try it";
/// The note about pegs and magnet pieces, whose balance is that of a plain rod.
const HEADS: &str = "a peg or magnet piece counts as an even cylinder; a heavy head does less well";
/// The note where friction would help and is left out, on the safe side.
const BARE_OF_FRICTION: &str =
    "a leaning peg is assumed to have no friction; in truth friction holds it longer, or for good";
/// The note while no pull of the magnets has been typed.
const UNMEASURED: &str = "how magnet pieces hold is not known until their pull is measured";
/// The note about a pull over a gap, which catalogs do not give.
const ESTIMATE: &str = "the remaining pull over a gap is an estimate for a disc magnet on flat iron; on a ball it is \
     less, so measure with veneer between";

/// The note about finger room between two pieces.
const FINGERS: &str = "finger room: the tip of a finger, 8 to 10 mm, goes between two pieces with that gap; taken across \
     the track, 3 mm are enough not to knock the next one (our own estimate)";

/// The group.
pub fn group(workpiece: &Workpiece) -> SumGroup {
    let board = workpiece.board();
    let mut sums = vec![of_a_set(board)];
    sums.extend(of_one(board));
    let gap = gap(workpiece);
    let mut notes = notes(board);
    notes.extend(gap.is_some().then_some(FINGERS));
    sums.extend(gap);
    for kind in kinds(workpiece.seats()) {
        sums.extend(in_bore(board, &kind));
    }
    sums.extend(speeds(workpiece));
    SumGroup {
        heading: "pieces",
        sums,
        notes: notes.into_iter().map(str::to_owned).collect(),
    }
}

/// The notes that keep the sums from being misread.
fn notes(board: &Board) -> Vec<&'static str> {
    match (board.piece.kind, board.piece.magnet) {
        (PieceKind::Marble, _) => vec![STEADY],
        (PieceKind::Peg, _) => vec![STEADY, HEADS, BARE_OF_FRICTION],
        (PieceKind::Magnet, Some(_)) => vec![STEADY, HEADS, ESTIMATE],
        (PieceKind::Magnet, None) => vec![UNMEASURED, HEADS],
    }
}

/// Number of pieces to make or buy: enough for the start pockets, or for the home lanes if they have more holes, plus spares.
fn of_a_set(board: &Board) -> Sum {
    let count = Measure::count(pieces(board));
    let formula = "players · start holes (or home holes, where more) + spare ones";
    Sum::new("pieces to make or buy", Some(count), formula, GEOMETRY)
}

/// Weight of one piece: as weighed, or by density and volume.
fn of_one(board: &Board) -> Vec<Sum> {
    let piece = &board.piece;
    let grams = Some(Measure::grams(piece_mass(piece)));
    if piece.mass.is_some() {
        return vec![Sum::new("weight of a piece", grams, "on a scale", TYPED)];
    }
    let source = match piece.density {
        Some(_) => TYPED,
        None => "2.5 g/cm³ for glass, 0.7 for hardwood: from memory",
    };
    let density = Measure::kilograms_per_cubic_meter(piece_density(piece) * 1000.0);
    let volume = match piece.kind {
        PieceKind::Marble => "density · π d³ / 6",
        PieceKind::Peg | PieceKind::Magnet => "density · π d² / 4 · height",
    };
    vec![
        Sum::new(
            "density of a piece",
            Some(density),
            "by its material",
            source,
        ),
        Sum::new("weight of a piece", grams, volume, GEOMETRY),
    ]
}

/// The least room between two pieces that stand in their holes.
fn gap(workpiece: &Workpiece) -> Option<Sum> {
    let board = workpiece.board();
    let radius = board.piece.diameter / 2.0;
    let seats = workpiece.seats();
    let pieces: Vec<Circle> = seats
        .iter()
        .map(|hole| Circle::new(hole.center, radius))
        .collect();
    let web = geometry::smallest_web(&pieces)?;
    let formula = "distance of the centers - diameter of a piece";
    let names = [web.a, web.b]
        .into_iter()
        .filter_map(|at| Some(seats.get(at)?.name));
    Some(Sum::mm("smallest gap between pieces", web.mm, formula, GEOMETRY).about(names.collect()))
}

/// The sums for one kind of bore, each naming its diameter and its holes.
fn in_bore(board: &Board, kind: &Kind) -> Vec<Sum> {
    let sums = match board.piece.kind {
        PieceKind::Marble => marble(board, kind.bore),
        PieceKind::Peg => peg(board, kind.bore),
        PieceKind::Magnet => magnet(board, kind.bore),
    };
    sums.into_iter()
        .map(|sum| {
            sum.at(Measure::mm(kind.bore.diameter))
                .about(kind.holes.clone())
        })
        .collect()
}

/// A tilt in degrees; empty if the piece holds at any tilt.
fn tilt(name: &'static str, hold: Option<Hold>, formula: &'static str) -> Sum {
    let tilt = hold.and_then(|hold| hold.tilt);
    let tilt = tilt.map(|tilt| Measure::degrees(tilt.as_degrees()));
    Sum::new(name, tilt, formula, STATICS)
}

/// The position of a marble in a bore and the effort that rolls it out, in the part of the bore that resin leaves open.
fn marble(board: &Board, bore: Bore) -> Vec<Sum> {
    let stand = marble_stand(board.piece.diameter, open_bore(board, bore));
    let length =
        |name, mm: Option<f64>, formula| Sum::new(name, mm.map(Measure::mm), formula, GEOMETRY);
    vec![
        length(
            "marble below the top face",
            stand.sinks,
            "r - √(r² - a²): radius r, radius of the bore a",
        ),
        length(
            "marble above the top face",
            stand.above,
            "diameter - the part below",
        ),
        length(
            "circle on which the marble touches",
            stand.contact,
            "2 √(r² - h²): height of its middle h",
        ),
        length(
            "room under the marble",
            stand.clear,
            "depth of the floor below it; negative where the floor keeps it off the rim",
        ),
        tilt(
            "tilt at which the marble rolls out",
            stand.hold,
            "tan = radius of the circle on which it touches / height of its middle above the top face",
        ),
    ]
}

/// The position of a peg in the part of a bore that resin leaves open, and the effort from which it could climb out; nothing if it
/// does not fit.
fn peg(board: &Board, bore: Bore) -> Vec<Sum> {
    let Some(stand) = peg_stand(&board.piece, open_bore(board, bore)) else {
        return Vec::new();
    };
    let lean = Some(Measure::degrees(stand.lean.as_degrees()));
    // A peg without play cannot lean, and does not go in by hand either.
    let stuck = if stand.play > 0.0 {
        "never: the peg does not stand out"
    } else {
        "no play: the peg cannot lean, and does not go in by hand"
    };
    let held = |sum: Sum| {
        if sum.value.is_some() || (stand.play > 0.0 && stand.above > 0.0) {
            sum
        } else {
            sum.worded(stuck.into())
        }
    };
    vec![
        Sum::mm("play of the peg", stand.play, "bore - shank", GEOMETRY),
        Sum::mm(
            "peg in the hole",
            stand.deep,
            "depth of the bore, or of what resin leaves of it",
            GEOMETRY,
        ),
        Sum::mm(
            "peg above the top face",
            stand.above,
            "height - the part in the hole",
            GEOMETRY,
        ),
        Sum::new(
            "lean of the peg",
            lean,
            "hole = shank · cos + depth · tan of the lean",
            GEOMETRY,
        ),
        Sum::mm(
            "sway at its top",
            stand.sway,
            "height · sin of the lean",
            GEOMETRY,
        ),
        held(Sum::new(
            "tilt at which it leans over",
            stand
                .leans_from
                .map(|tan| Measure::degrees(Angle::atan2(tan, 1.0).as_degrees())),
            "tan = shank / height, about its lower edge",
            STATICS,
        )),
        held(tilt(
            "tilt the peg is sure to stand",
            stand.hold,
            "moments about its lower corner where the rim carries all of its weight, without friction",
        )),
    ]
}

/// The place of the insert, and the hold of a magnet on it where its pull was measured.
fn magnet(board: &Board, bore: Bore) -> Vec<Sum> {
    let piece = &board.piece;
    let mut sums = vec![
        Sum::mm(
            "insert below the top face",
            insert_below(piece, bore),
            "depth at which it lies - its height; negative where it stands above",
            GEOMETRY,
        ),
        Sum::mm(
            "gap for glue around it",
            insert_gap(piece, bore),
            "(bore - its diameter) / 2",
            GEOMETRY,
        ),
    ];
    let Some(held) = magnet_hold(piece, bore) else {
        return sums;
    };
    sums.extend([
        Sum::mm(
            "gap between magnet and steel",
            held.gap,
            "insert below the top face + magnet set back + finish",
            GEOMETRY,
        ),
        Sum::new(
            "remaining pull",
            Some(Measure::share(held.left)),
            "(B(x) / B(0))², B(x) = (L + x) / √(R² + (L + x)²) - x / √(R² + x²): gap x, magnet of radius R, thickness L",
            "field on the axis of an even cylinder; from memory; an estimate",
        ),
        Sum::new("pull", Some(Measure::newtons(held.pull)), "pull measured · remaining pull", TYPED),
        tilt(
            "tilt at which the piece moves off",
            Some(held.hold),
            "sin = grip · (F / (m g) + cos): grip is friction, or diameter / height where it tips first",
        ),
    ]);
    sums
}

/// The speeds of rotation at which pieces leave, the outermost and slowest first.
fn speeds(workpiece: &Workpiece) -> Vec<Sum> {
    let (name, formula) = match workpiece.board().piece.kind {
        PieceKind::Marble => (
            "speed at which the marble rolls out",
            "(turning speed)² r = g · tan of the tilt at which it rolls out",
        ),
        PieceKind::Peg => (
            "speed that the peg surely stands",
            "(turning speed)² r = g · tan of the tilt that it surely stands",
        ),
        PieceKind::Magnet => (
            "speed at which the piece moves off",
            "m (turning speed)² r = grip · (F + m g): grip is friction, or diameter / height where it tips first",
        ),
    };
    flights(workpiece)
        .into_iter()
        .map(|flight| {
            let names = flight.holes.iter().map(|hole| hole.name).collect();
            Sum::new(name, Some(Measure::rpm(flight.speed)), formula, STATICS)
                .at(Measure::mm(flight.radius))
                .about(names)
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use board::{Bores, Bottom};
    use testkit::assert_near;

    fn value<'a>(sums: &'a SumGroup, name: &str) -> &'a Sum {
        sums.sums.iter().find(|sum| sum.name == name).unwrap()
    }

    /// A ball of 5/8 in on a hole of 1/2 in sinks exactly 1/8 in.
    #[test]
    fn each_kind_of_bore_has_its_sums() {
        let mut board = Board::default();
        board.piece.diameter = 15.875;
        board.bores = Bores::all(Bore {
            diameter: 12.7,
            depth: 6.0,
            bottom: Bottom::Flat,
        });
        let group = group(&Workpiece::of(&board).unwrap());
        let below = value(&group, "marble below the top face");
        assert_near!(below.value.unwrap().value, 3.175, 1e-9);
        assert_eq!(
            (below.at, below.holes.len()),
            (Some(Measure::mm(12.7)), 144)
        );
        let count = group
            .sums
            .iter()
            .filter(|sum| sum.name == below.name)
            .count();
        // The center hole has a bore of its own.
        assert_eq!(count, 2);
        let gap = value(&group, "smallest gap between pieces");
        assert_near!(gap.value.unwrap().value, 19.0 - 15.875, 1e-9);
        assert_eq!(gap.holes.len(), 2);
    }

    #[test]
    fn a_peg_that_fits_never_leaves() {
        let mut board = Board::default();
        board.piece.kind = PieceKind::Peg;
        let group = group(&Workpiece::of(&board).unwrap());
        let tilt = value(&group, "tilt the peg is sure to stand");
        assert_eq!(tilt.value, None);
        assert!(tilt.shown(board.units).starts_with("no play: "), "{tilt:?}");
        assert!(!group.sums.iter().any(|sum| sum.name.starts_with("speed")));
    }
}
