//! Rule: a piece sits in its bore as it should.

use board::{Board, Bore, Hole, HoleName, Insert, Measure, PieceKind, show_length};

use crate::Mend;
use crate::Workpiece;
use crate::bores::seat::{MarbleSeat, marble_seat};
use crate::check::{Finding, HAIR, Rule, Severity, counted};

pub const STATEMENT: &str = "A marble is wider than its bore, rests on the rim and not on the floor, and sinks by the \
     set share of its diameter: less and it rolls out, more and it is hard to lift. A peg or a set ball goes into its \
     bore with no more than the set play. The defaults, 10 to 45 % of the marble and 0.6 mm of play, are common \
     practice, no source; woods and marbles differ, so try one of each in a scrap.";

/// The fault of a piece in a bore, the worst kind first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Wrong {
    FallsIn,
    DoesNotGoIn,
    OnFloor,
    TooHigh,
    TooLow,
    Loose,
    StandsProud,
    Sunk,
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
                PieceKind::Peg => shank(board, hole.bore).or_else(|| sunk(board, hole.bore))?,
                PieceKind::Magnet => shank(board, hole.bore).or_else(|| proud(board, hole.bore))?,
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
            Some(found(board, wrong, first, holes).measuring(is, wanted))
        })
        .collect()
}

/// The fault of a marble in a bore, with its measure and the measure that is needed.
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

/// The fault of a shank, ball or disc that is set into a bore, likewise.
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

/// A ball set in the bore stands above the top face where the bore is less deep than the ball is high.
fn proud(board: &Board, bore: Bore) -> Option<(Wrong, Measure, Measure)> {
    let ball = board.piece.shank?;
    (bore.depth < ball - HAIR).then_some((
        Wrong::StandsProud,
        Measure::mm(bore.depth),
        Measure::mm(ball),
    ))
}

/// A peg that is no longer than its bore is deep cannot be taken out again.
fn sunk(board: &Board, bore: Bore) -> Option<(Wrong, Measure, Measure)> {
    let height = board.piece.height;
    (height <= bore.depth + HAIR).then_some((
        Wrong::Sunk,
        Measure::mm(height),
        Measure::mm(bore.depth),
    ))
}

/// Whether resin that stands above the top face is taken off again.
fn is_leveled(board: &Board) -> bool {
    let filling = board.filling;
    filling.is_some_and(|filling| filling.dome > filling.below_top)
}

/// The word for the thing that goes into the bores.
const fn set_in(board: &Board) -> &'static str {
    match (board.piece.kind, board.piece.insert) {
        (PieceKind::Marble, _) => "marble",
        (PieceKind::Peg, _) => "shank",
        (PieceKind::Magnet, Insert::Ball) => "ball",
        (PieceKind::Magnet, Insert::Disc { .. }) => "disc",
    }
}

/// A finding for all bores with one fault, in the words for the first of them.
fn found(board: &Board, wrong: Wrong, first: &Hole, holes: Vec<HoleName>) -> Finding {
    let severity = match wrong {
        Wrong::FallsIn | Wrong::DoesNotGoIn => Severity::Stop,
        Wrong::StandsProud if !is_leveled(board) => Severity::Note,
        _ => Severity::Caution,
    };
    let mends: &[Mend] = match wrong {
        Wrong::OnFloor => &[Mend::DeeperBores],
        _ => &[],
    };
    let count = counted(holes.len(), "bore");
    Finding::new(severity, Rule::Seat, words(board, wrong, first, &count))
        .about(holes)
        .mended_by(mends)
}

/// The finding in a sentence, for so many bores like the first.
fn words(board: &Board, wrong: Wrong, first: &Hole, count: &str) -> String {
    let length = |mm| show_length(mm, board.units);
    let piece = length(board.piece.diameter);
    let shank = length(board.piece.shank.unwrap_or(first.bore.diameter));
    let mouth = length(first.bore.diameter);
    match wrong {
        Wrong::FallsIn => format!(
            "a marble of {piece} falls into {count} of {mouth}; a narrower bore carries it on its rim"
        ),
        Wrong::DoesNotGoIn => format!(
            "a {} of {shank} does not go into {count} of {mouth}",
            set_in(board)
        ),
        Wrong::OnFloor => format!(
            "a marble of {piece} stands on the floor of {count}, not on the rim; drill deeper"
        ),
        Wrong::TooHigh => format!(
            "a marble of {piece} stands high on {count} of {mouth} and rolls out easily; a wider bore holds it better"
        ),
        Wrong::TooLow => format!(
            "a marble of {piece} sinks deep into {count} of {mouth} and is hard to lift; a narrower bore shows more of it"
        ),
        Wrong::Loose => format!(
            "the {} of {shank} is loose in {count} of {mouth}",
            set_in(board)
        ),
        Wrong::StandsProud if is_leveled(board) => format!(
            "a ball of {shank} stands above the top face in {count}, where the resin is to be leveled: no abrasive \
             takes steel off with it; set it lower, or pour no dome"
        ),
        Wrong::StandsProud => format!("a ball of {shank} stands above the top face in {count}"),
        Wrong::Sunk => format!(
            "pegs {} long do not stand out of {count}; use longer pegs or drill less deep",
            length(board.piece.height)
        ),
    }
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
    fn a_peg_stands_out_of_its_bore() {
        let mut board = Board::default();
        board.piece.kind = PieceKind::Peg;
        board.piece.height = board.bores.track.depth + 0.1;
        assert_eq!(check(&Workpiece::of(&board).unwrap()), []);
        board.piece.height = board.bores.track.depth;
        let found = check(&Workpiece::of(&board).unwrap()).remove(0);
        assert_eq!(found.severity, Severity::Caution);
        assert!(found.message.contains("do not stand out"), "{found:?}");
    }

    #[test]
    fn a_marble_of_16_wants_a_bore_neither_too_wide_nor_too_narrow() {
        use PieceKind::Marble;
        // The center hole is 12 wide and 5 deep in all of these.
        assert_eq!(with(Marble, 12.0, 5.0), []);
        assert_eq!(with(Marble, 16.0, 9.0), [(Severity::Stop, 132)]);
        assert_eq!(with(Marble, 15.95, 9.0), [(Severity::Caution, 132)]);
        assert_eq!(with(Marble, 9.0, 5.0), [(Severity::Caution, 132)]);
        assert_eq!(with(Marble, 12.0, 2.0), [(Severity::Caution, 132)]);
    }

    #[test]
    fn pegs_and_set_balls_go_in_with_little_play() {
        use PieceKind::{Magnet, Peg};
        assert_eq!(with(Peg, 12.4, 5.0), []);
        assert_eq!(with(Peg, 13.0, 5.0), [(Severity::Caution, 132)]);
        assert_eq!(with(Peg, 11.0, 5.0), [(Severity::Stop, 132)]);
        assert_eq!(with(Magnet, 12.4, 12.0), [(Severity::Note, 1)]);
    }

    #[test]
    fn a_proud_ball_matters_where_resin_is_leveled() {
        let mut board = Board::default();
        board.piece.kind = PieceKind::Magnet;
        board.piece.shank = Some(11.8);
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
