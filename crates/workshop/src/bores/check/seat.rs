//! Rule: a piece sits properly in its bore.

use board::{
    Board, Bore, Hole, HoleName, Insert, Layout, Magnet, Measure, Piece, PieceKind, show_length,
    show_setting,
};

use crate::Mend;
use crate::Workpiece;
use crate::bores::holds::{flush_bore, insert_below, magnet_hold};
use crate::bores::profile::deepest;
use crate::bores::seat::{MarbleSeat, marble_seat};
use crate::check::{Finding, HAIR, Rule, Severity, counted};
use crate::filling::open_bore;

pub const STATEMENT: &str = "A marble is wider than its hole, rests on the rim and not on the floor, and sinks by the \
     set share of its diameter: less and it rolls out, more and it is hard to pick up. A peg, ball or disc goes into \
     its hole with no more than the set play, and a peg with {0.1 mm|0.004\"} or more. A ball or disc ends level with the top face: one that stands out \
     carries the piece, and one so deep that less than a quarter of the pull is left hardly holds it. The defaults, \
     10 to 45 % of the marble and {0.6 mm|1/32\"} of play, and those limits are common practice, no source; woods and \
     marbles differ, so try one of each in scrap.";

/// Most height above the top face at which a ball or disc is only a note, mm.
const PROUD: f64 = 0.5;
/// Least share of the pull that must remain over a ball or disc set deep.
const PULL: f64 = 0.25;
/// Least play with which a peg goes into its hole and comes out again, mm; common practice, no source.
const PEG_PLAY: f64 = 0.1;
/// The same as people say it, in either system.
const USUAL_PLAY: &str = "{0.1 to 0.2 mm|0.004\" to 0.008\"}";

/// Faults of a piece in a bore, the worst kind first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Wrong {
    /// The marble is no wider than the mouth.
    FallsIn,
    /// The shank, ball or disc is wider than the bore.
    DoesNotGoIn,
    /// The marble touches the floor before the rim.
    OnFloor,
    /// The marble sinks too little and rolls out.
    TooHigh,
    /// The marble sinks too far to be lifted out.
    TooLow,
    /// The shank, ball or disc has more play than the limit.
    Loose,
    /// The ball or disc stands well above the top face, or above it at all where resin is leveled.
    StandsProud,
    /// The ball or disc stands slightly above the top face.
    Proud,
    /// The ball or disc is so deep that the magnet hardly reaches it.
    Deep,
    /// The peg is no longer than its bore is deep.
    Sunk,
    /// The shank has so little play that the peg does not go in by hand.
    Tight,
}

/// Whether a piece fits into a bore and stays there. Faults that another depth would fix do not count.
pub fn takes(board: &Board, bore: Bore) -> bool {
    let wrong = match board.piece.kind {
        PieceKind::Marble => marble(board, bore),
        PieceKind::Peg | PieceKind::Magnet => shank(board, bore),
    };
    wrong.is_none_or(|(wrong, ..)| wrong == Wrong::OnFloor)
}

/// One finding for each kind of bad seat.
pub fn check(workpiece: &Workpiece) -> Vec<Finding> {
    let (board, layout) = (workpiece.board(), workpiece.layout());
    let mut wrong: Vec<(Wrong, &Hole, Measure, Measure)> = layout
        .seats(board)
        .iter()
        .filter_map(|hole| {
            let (wrong, is, wanted) = match board.piece.kind {
                PieceKind::Marble => marble(board, hole.bore)?,
                PieceKind::Peg => shank(board, hole.bore)
                    .or_else(|| sunk(board, hole.bore))
                    .or_else(|| tight(board, hole.bore))?,
                PieceKind::Magnet => shank(board, hole.bore).or_else(|| level(board, hole.bore))?,
            };
            Some((wrong, hole, is, wanted))
        })
        .collect();
    wrong.sort_by_key(|(wrong, ..)| *wrong);
    wrong
        .chunk_by(|a, b| a.0 == b.0)
        .filter_map(|alike| {
            let &(wrong, first, is, wanted) = alike.first()?;
            let holes = alike.iter().map(|(_, hole, ..)| hole.name).collect();
            Some(found(workpiece, wrong, first, holes).measuring(is, wanted))
        })
        .collect()
}

/// The fault of a marble in a bore, with the measured and the required value.
fn marble(board: &Board, bore: Bore) -> Option<(Wrong, Measure, Measure)> {
    let diameter = board.piece.diameter;
    let limits = &board.limits;
    match marble_seat(bore, diameter) {
        MarbleSeat::FallsIn => Some((
            Wrong::FallsIn,
            Measure::mm(bore.diameter),
            Measure::mm(diameter),
        )),
        MarbleSeat::OnFloor { sinks, wants } if wants - sinks > HAIR => {
            Some((Wrong::OnFloor, Measure::mm(bore.depth), Measure::mm(wants)))
        }
        MarbleSeat::OnRim { sinks, .. } | MarbleSeat::OnFloor { sinks, .. } => {
            let share = sinks / diameter;
            if share < limits.seat_least - HAIR {
                Some((
                    Wrong::TooHigh,
                    Measure::share(share),
                    Measure::share(limits.seat_least),
                ))
            } else if share > limits.seat_most + HAIR {
                Some((
                    Wrong::TooLow,
                    Measure::share(share),
                    Measure::share(limits.seat_most),
                ))
            } else {
                None
            }
        }
    }
}

/// The fault of a shank, ball or disc in a bore, with the measured and the required value.
fn shank(board: &Board, bore: Bore) -> Option<(Wrong, Measure, Measure)> {
    let (shank, play) = (board.piece.shank?, board.limits.piece_play);
    if shank > bore.diameter {
        Some((
            Wrong::DoesNotGoIn,
            Measure::mm(bore.diameter),
            Measure::mm(shank),
        ))
    } else if bore.diameter - shank > play + HAIR {
        Some((
            Wrong::Loose,
            Measure::mm(bore.diameter - shank),
            Measure::mm(play),
        ))
    } else {
        None
    }
}

/// A peg with too little play to be put in and taken out. A shank that was not typed counts as wide as the hole.
fn tight(board: &Board, bore: Bore) -> Option<(Wrong, Measure, Measure)> {
    let play = bore.diameter - board.piece.shank.unwrap_or(bore.diameter);
    (play < PEG_PLAY - HAIR).then(|| (Wrong::Tight, Measure::mm(play), Measure::mm(PEG_PLAY)))
}

/// A ball or disc that stands above the top face, or lies so deep that the pull is lost.
///
/// Its height follows from the shape of the bore's bottom, so that a ball in a drill point counts as it lies. One slightly
/// proud pulls best and is a note; the piece then stands on it, and rocks if it is much higher. The pull over a gap is the
/// estimate shown in the shop math, for the measured magnet or for a usual one.
fn level(board: &Board, bore: Bore) -> Option<(Wrong, Measure, Measure)> {
    let below = insert_below(&board.piece, bore);
    let depth = Measure::mm(bore.depth);
    if below < -HAIR {
        let wrong = if below < -PROUD - HAIR || is_leveled(board) {
            Wrong::StandsProud
        } else {
            Wrong::Proud
        };
        return Some((wrong, depth, Measure::mm(bore.depth - below)));
    }
    // A usual magnet stands in for one that was not measured.
    let piece = Piece {
        magnet: board.piece.magnet.or_else(|| Some(Magnet::default())),
        ..board.piece
    };
    let left = magnet_hold(&piece, bore)?.left;
    (below > HAIR && left < PULL - HAIR).then_some((
        Wrong::Deep,
        Measure::share(left),
        Measure::share(PULL),
    ))
}

/// A peg that is no longer than its bore is deep, which cannot be taken out again.
fn sunk(board: &Board, bore: Bore) -> Option<(Wrong, Measure, Measure)> {
    let (height, depth) = (board.piece.height, open_bore(board, bore).depth);
    (height <= depth + HAIR).then_some((Wrong::Sunk, Measure::mm(height), Measure::mm(depth)))
}

/// Whether resin that stands above the top face is removed again.
fn is_leveled(board: &Board) -> bool {
    let filling = board.filling;
    filling.is_some_and(|filling| filling.dome > filling.below_top)
}

/// Whether the floor stays thick enough when the bores are deepened until the ball or disc is level with the top face.
///
/// A fix that causes another finding is not offered.
fn can_be_flush(board: &Board, layout: &Layout) -> bool {
    let most = board.blank.thickness - board.limits.floor;
    let seats = layout.seats(board).iter();
    let mut flush = seats.map(|seat| flush_bore(&board.piece, seat.bore));
    flush.all(|bore| deepest(bore, board.bores.spur) <= most + HAIR)
}

/// The word for the part that goes into the bores.
const fn set_in(board: &Board) -> &'static str {
    match (board.piece.kind, board.piece.insert) {
        (PieceKind::Marble, _) => "marble",
        (PieceKind::Peg, _) => "shank",
        (PieceKind::Magnet, Insert::Ball) => "ball",
        (PieceKind::Magnet, Insert::Disc { .. }) => "disc",
    }
}

/// A finding for all bores with one fault, worded for the first of them.
fn found(workpiece: &Workpiece, wrong: Wrong, first: &Hole, holes: Vec<HoleName>) -> Finding {
    let (board, layout) = (workpiece.board(), workpiece.layout());
    let severity = match wrong {
        Wrong::FallsIn | Wrong::DoesNotGoIn => Severity::Stop,
        Wrong::Proud => Severity::Note,
        // The shank is only assumed.
        Wrong::Tight if board.piece.shank.is_none() => Severity::Note,
        _ => Severity::Caution,
    };
    let mends: &[Mend] = match wrong {
        Wrong::OnFloor => &[Mend::DeeperBores],
        Wrong::StandsProud | Wrong::Proud | Wrong::Deep if can_be_flush(board, layout) => {
            &[Mend::FlushInserts]
        }
        _ => &[],
    };
    let count = counted(holes.len(), "hole");
    Finding::new(severity, Rule::Seat, words(board, wrong, first, &count))
        .about(holes)
        .mended_by(mends)
}

/// The message for a number of bores like the first.
fn words(board: &Board, wrong: Wrong, first: &Hole, count: &str) -> String {
    let length = |mm| show_length(mm, board.units);
    let piece = length(board.piece.diameter);
    let shank = length(board.piece.shank.unwrap_or(first.bore.diameter));
    let mouth = length(first.bore.diameter);
    let (what, below) = (set_in(board), insert_below(&board.piece, first.bore));
    match wrong {
        Wrong::FallsIn => format!(
            "The {piece} marble falls into {count} of {mouth}. Use a smaller bore, so that it rests on the rim."
        ),
        Wrong::DoesNotGoIn => {
            format!("The {shank} {what} does not go into {count} of {mouth}. Use a larger bore.")
        }
        Wrong::OnFloor => format!(
            "The {piece} marble stands on the floor of {count}, not on the rim. Drill deeper."
        ),
        Wrong::TooHigh => format!(
            "The {piece} marble sits high in {count} of {mouth} and rolls out easily. Use a larger bore."
        ),
        Wrong::TooLow => format!(
            "The {piece} marble sinks deep into {count} of {mouth} and is hard to pick up. Use a smaller bore."
        ),
        Wrong::Loose => {
            format!("The {shank} {what} is loose in {count} of {mouth}. Use a smaller bore.")
        }
        Wrong::StandsProud if is_leveled(board) => format!(
            "The {shank} {what} stands above the top face in {count}, where resin is to be leveled, and abrasive takes \
             no steel off. Drill deeper, or pour no crown."
        ),
        Wrong::StandsProud | Wrong::Proud => format!(
            "The {shank} {what} stands {} above the top face in {count}, and pieces stand on it, not on the board. \
             Drill deeper, or use a smaller one.",
            length(-below)
        ),
        Wrong::Deep => format!(
            "The {shank} {what} lies {} below the top face in {count}, and a magnet hardly pulls through that gap. \
             Drill less deep, or use a larger one.",
            length(below)
        ),
        Wrong::Tight => too_tight(board, first, count),
        Wrong::Sunk => format!(
            "Pegs {} long do not stand out of {count}. Use longer pegs or drill less deep.",
            length(board.piece.height)
        ),
    }
}

/// The message for pegs with too little play in a number of bores like the first.
fn too_tight(board: &Board, first: &Hole, count: &str) -> String {
    let usual = board.units.spell(USUAL_PLAY);
    let Some(shank) = board.piece.shank else {
        return format!(
            "The peg's shank counts as wide as its hole, and such a peg does not go in. Make it {usual} thinner (common practice, no \
             source), and enter it as the piece's shank."
        );
    };
    let play = first.bore.diameter - shank;
    let play = if play < HAIR {
        "no".to_owned()
    } else {
        show_setting(play, board.units)
    };
    format!(
        "The {} shank has {play} play in {count} of {}, and a peg needs {usual} to go in and come out (common practice, no source). \
         Use a thinner shank or a larger bore.",
        show_length(shank, board.units),
        show_length(first.bore.diameter, board.units),
    )
}

#[cfg(test)]
mod tests {
    use super::*;
    use board::{Bores, Bottom};

    fn with(kind: PieceKind, bore: f64, depth: f64) -> Vec<(Severity, usize)> {
        let bore = Bore {
            diameter: bore,
            depth,
            bottom: Bottom::Flat,
        };
        let mut board = Board {
            bores: Bores::all(bore),
            center: board::Center::Nothing,
            ..Board::default()
        };
        board.piece.kind = kind;
        board.piece.shank = Some(12.0);
        check(&Workpiece::of(&board).unwrap())
            .iter()
            .map(|found| (found.severity, found.holes.len()))
            .collect()
    }

    #[test]
    fn a_peg_must_protrude_from_its_bore() {
        let mut board = Board::default();
        board.piece.kind = PieceKind::Peg;
        board.piece.height = board.bores.track.depth + 0.1;
        let wide = check(&Workpiece::of(&board).unwrap());
        assert_eq!(wide[0].severity, Severity::Note);
        assert!(
            wide[0].message.contains("Make it 0.1 to 0.2 mm thinner"),
            "{wide:?}"
        );
        board.piece.shank = Some(board.bores.track.diameter - 0.2);
        assert_eq!(check(&Workpiece::of(&board).unwrap()), []);
        board.piece.height = board.bores.track.depth;
        let found = check(&Workpiece::of(&board).unwrap()).remove(0);
        assert_eq!(found.severity, Severity::Caution);
        assert!(found.message.contains("do not stand out"), "{found:?}");
    }

    #[test]
    fn a_marble_of_16_needs_a_bore_neither_too_wide_nor_too_narrow() {
        use PieceKind::Marble;
        // The center hole is 12 mm wide and 5 mm deep in all of these.
        assert_eq!(with(Marble, 12.0, 5.0), []);
        assert_eq!(with(Marble, 16.0, 9.0), [(Severity::Stop, 144)]);
        assert_eq!(with(Marble, 15.95, 9.0), [(Severity::Caution, 144)]);
        assert_eq!(with(Marble, 9.0, 5.0), [(Severity::Caution, 144)]);
        assert_eq!(with(Marble, 12.0, 2.0), [(Severity::Caution, 144)]);
    }

    #[test]
    fn pegs_and_set_balls_go_in_with_little_play() {
        use PieceKind::{Magnet, Peg};
        assert_eq!(with(Peg, 12.4, 5.0), []);
        // Without play it does not go in.
        assert_eq!(with(Peg, 12.0, 5.0), [(Severity::Caution, 144)]);
        assert_eq!(with(Peg, 12.1, 5.0), []);
        assert_eq!(with(Peg, 13.0, 5.0), [(Severity::Caution, 144)]);
        assert_eq!(with(Peg, 11.0, 5.0), [(Severity::Stop, 144)]);
        assert_eq!(with(Magnet, 12.4, 12.0), []);
    }

    /// A board of magnet pieces whose bores are all alike.
    fn magnets(bore: Bore, shank: Option<f64>, insert: Insert) -> Board {
        let mut board = Board {
            bores: Bores::all(bore),
            center: board::Center::Nothing,
            ..Board::default()
        };
        board.piece.kind = PieceKind::Magnet;
        (board.piece.shank, board.piece.insert) = (shank, insert);
        board
    }

    fn told(board: &Board) -> Option<(Severity, String)> {
        let found = check(&Workpiece::of(board).unwrap());
        assert!(found.len() < 2, "{found:?}");
        let first = found.into_iter().next();
        first.map(|found| (found.severity, found.message))
    }

    fn flat(diameter: f64, depth: f64) -> Bore {
        Bore {
            diameter,
            depth,
            bottom: Bottom::Flat,
        }
    }

    #[test]
    fn a_ball_ends_level_with_the_top_face_whether_typed_or_made_to_fit() {
        for shank in [None, Some(12.0)] {
            let severity =
                |depth| told(&magnets(flat(12.0, depth), shank, Insert::Ball)).map(|it| it.0);
            assert_eq!(severity(12.0), None);
            assert_eq!(severity(11.9), Some(Severity::Note));
            assert_eq!(severity(11.5), Some(Severity::Note));
            assert_eq!(severity(11.4), Some(Severity::Caution));
            let (_, message) = told(&magnets(flat(12.0, 5.0), shank, Insert::Ball)).unwrap();
            assert!(
                message.contains("12 mm ball stands 7 mm above"),
                "{message}"
            );
        }
        let inch = flat(board::INCH / 2.0, board::INCH / 4.0);
        let mut inches = magnets(inch, None, Insert::Ball);
        inches.units = board::Units::INCH;
        let (_, message) = told(&inches).unwrap();
        assert!(
            message.contains("1/2\" ball stands 1/4\" above"),
            "{message}"
        );
    }

    /// The center of a ball of radius r in a cone of 118° is r / sin 59° above the apex.
    #[test]
    fn the_point_of_a_drill_takes_a_part_of_the_ball() {
        let apex = 12.0 * 0.300_430_309_5;
        let flush = 6.0 / 0.857_167_300_7 + 6.0 - apex;
        let cone = |depth| Bore {
            bottom: Bottom::Point118,
            ..flat(12.0, depth)
        };
        let board = |depth| magnets(cone(depth), None, Insert::Ball);
        assert_eq!(told(&board(flush + 1e-6)), None);
        assert_eq!(told(&board(flush - 0.4)).unwrap().0, Severity::Note);
        assert_eq!(told(&board(flush - 0.6)).unwrap().0, Severity::Caution);
    }

    #[test]
    fn the_height_of_a_disc_is_its_thickness() {
        let disc = Insert::Disc { thickness: 2.0 };
        let board = |depth| magnets(flat(12.0, depth), Some(11.8), disc);
        assert_eq!(told(&board(2.0)), None);
        assert_eq!(told(&board(3.0)), None);
        assert_eq!(told(&board(1.9)).unwrap().0, Severity::Note);
        let (severity, message) = told(&board(1.0)).unwrap();
        assert_eq!(severity, Severity::Caution);
        assert!(
            message.contains("The 11.8 mm disc stands 1 mm above"),
            "{message}"
        );
    }

    /// A magnet of 8 × 3 mm over 0.1 mm of finish: the squared field on its axis divided by that at its face.
    #[test]
    fn a_ball_or_disc_that_leaves_a_quarter_of_the_pull_is_reported() {
        let field = |gap: f64| {
            let part = |along: f64| along / (16.0 + along * along).sqrt();
            part(3.0 + gap) - part(gap)
        };
        let share = |below: f64| (field(below + 0.1) / field(0.0)).powi(2);
        assert!(share(2.1) > 0.25 && share(2.3) < 0.25);
        let disc = Insert::Disc { thickness: 2.0 };
        let board = |below| magnets(flat(12.0, 2.0 + below), Some(11.8), disc);
        assert_eq!(told(&board(2.1)), None);
        let (severity, message) = told(&board(2.3)).unwrap();
        assert_eq!(severity, Severity::Caution);
        assert!(message.contains("lies 2.3 mm below"), "{message}");
        // A measured magnet counts by its own size: one of 20 mm reaches farther.
        let mut large = board(2.3);
        large.piece.magnet = Some(Magnet {
            diameter: 20.0,
            thickness: 10.0,
            ..Magnet::default()
        });
        assert_eq!(told(&large), None);
    }

    #[test]
    fn a_flush_bore_is_offered_where_it_leaves_a_floor() {
        let mut board = magnets(flat(12.0, 5.0), None, Insert::Ball);
        let offered = |board: &Board| check(&Workpiece::of(board).unwrap())[0].mends.clone();
        board.blank.thickness = 16.0;
        assert_eq!(offered(&board), [Mend::FlushInserts]);
        board.blank.thickness = 15.9;
        assert_eq!(offered(&board), []);
    }

    #[test]
    fn a_proud_ball_matters_where_resin_is_leveled() {
        let mut board = magnets(flat(12.0, 11.5), Some(11.8), Insert::Ball);
        let severity = |board: &Board| {
            let found = check(&Workpiece::of(board).unwrap());
            let proud = |found: &&Finding| found.message.contains("above the top face");
            found.iter().find(proud).unwrap().severity
        };
        assert_eq!(severity(&board), Severity::Note);
        board.filling = Some(board::Filling {
            dome: 0.5,
            ..board::Filling::default()
        });
        assert_eq!(severity(&board), Severity::Caution);
    }
}
