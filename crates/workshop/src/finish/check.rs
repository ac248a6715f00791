//! Rule: each coat of finish bonds to the one under it, and waits until that is dry.

use board::{Board, Coat, CoatKind, Hole, Measure, PieceKind, Units};

use crate::Mend;
use crate::Workpiece;
use crate::check::{Finding, HAIR, Rule, Severity, counted};
use crate::finish::{Bond, bond, wants_dewaxed};

pub const STATEMENT: &str = "A coat bonds to the one under it, and comes when that is dry. Which bonds to which, and how \
     long each dries in usual room conditions, is from trade pages, not from a standard; the label comes first, and a \
     trial on a scrap of the same wood. Shellac rests 12 hours after three or four coats. A film in the bores takes {0.2 mm} or \
     less of a peg's play; common practice, no source. Rags with drying oil heat up \
     and can catch fire within hours (trade pages that give figures of the NFPA): spread them flat outdoors, or put \
     them under water in a metal can with a tight lid. Local codes on solvents, waste and fire come first.";

/// Every finding about the coats.
pub fn check(workpiece: &Workpiece) -> Vec<Finding> {
    let board = workpiece.board();
    let pairs = board.finish.iter().zip(board.finish.iter().skip(1));
    let pairs = pairs.enumerate();
    let mut findings: Vec<Finding> = pairs
        .filter_map(|(at, (under, over))| pair(at + 1, *under, *over))
        .collect();
    findings.extend(film(workpiece));
    findings.extend(rags(board));
    findings
}

/// Most of the play of a peg that a film of finish in its bore takes, mm: 0.1 to 0.2 in a few coats.
const FILM: f64 = 0.2;

/// Pegs with so little play that finish in their bores would hold them.
///
/// Oil and wax leave no film. Pegs that are made to fit are fitted after the finish: there it is a note. How much a film takes
/// depends on coats and brush, so that the most that is usual is taken, and a peg with more play than that is left alone.
/// Marbles rest on the rim, and a ball or disc is set before the finish.
fn film(workpiece: &Workpiece) -> Option<Finding> {
    let board = workpiece.board();
    let builds = |coat: &Coat| !matches!(coat.kind, CoatKind::Oil | CoatKind::Wax);
    if board.piece.kind != PieceKind::Peg || !board.finish.iter().any(builds) {
        return None;
    }
    let length = |mm| Measure::mm(mm).shown(board.units);
    let Some(shank) = board.piece.shank else {
        let message = format!(
            "a film of finish in the holes takes up to {} of their width: keep finish out of them, or make the pegs to fit \
             when it is hard",
            length(FILM)
        );
        return Some(Finding::new(Severity::Note, Rule::Finish, message));
    };
    let play = |hole: &Hole| hole.bore.diameter - shank;
    let tight = |hole: &&Hole| (-HAIR..FILM - HAIR).contains(&play(hole));
    let tight: Vec<&Hole> = workpiece.seats().iter().filter(tight).collect();
    let least = tight.iter().map(|hole| play(hole));
    let least = least.min_by(f64::total_cmp)?;
    let message = format!(
        "a film of finish takes up to {} of the width of a hole, and pegs have {} of play in {}: keep finish out of the \
         holes, or use thinner pegs",
        length(FILM),
        length(least.max(0.0)),
        counted(tight.len(), "hole")
    );
    Some(
        Finding::new(Severity::Caution, Rule::Finish, message)
            .measuring(Measure::mm(least.max(0.0)), Measure::mm(FILM))
            .about(tight.iter().map(|hole| hole.name).collect()),
    )
}

/// The finding about two coats that follow each other; `number` is that of the lower.
fn pair(number: usize, under: Coat, over: Coat) -> Option<Finding> {
    let (lower, upper) = (under.kind.label(), over.kind.label());
    let next = number + 1;
    match bond(under.kind, over.kind) {
        Bond::Never(why) => {
            let message =
                format!("coat {next}, {upper}, will not stick to coat {number}, {lower}: {why}");
            Some(Finding::new(Severity::Stop, Rule::Finish, message))
        }
        Bond::After(least) if under.dries < least - HAIR => {
            let tie = if (under.kind, over.kind) == (CoatKind::Oil, CoatKind::WaterPolyurethane) {
                ", until the oil has cured, or a coat of dewaxed shellac between"
            } else {
                ""
            };
            let message = format!(
                "coat {next}, {upper}, comes {} after coat {number}, {lower}; at least {}{tie}",
                hours(under.dries),
                hours(least)
            );
            Some(
                Finding::new(Severity::Caution, Rule::Finish, message)
                    .measuring(Measure::hours(under.dries), Measure::hours(least))
                    .mended_by(&[Mend::LongerDrying]),
            )
        }
        Bond::After(_) if wants_dewaxed(under.kind, over.kind) => {
            let message = format!(
                "coat {number}, {lower}, under coat {next}, {upper}: shellac without wax is surer there"
            );
            Some(Finding::new(Severity::Note, Rule::Finish, message))
        }
        Bond::After(_) => None,
    }
}

/// Hours as messages have them, to a tenth; they are the same in both systems.
fn hours(hours: f64) -> String {
    Measure::hours(hours).shown(Units::Mm)
}

/// Rags with drying oil set themselves alight: told whenever oil is used.
fn rags(board: &Board) -> Option<Finding> {
    let oily = |coat: &Coat| matches!(coat.kind, CoatKind::Oil | CoatKind::OilPolyurethane);
    board.finish.iter().any(oily).then(|| {
        let message = "rags with drying oil can catch fire by themselves: spread them flat outdoors to dry, or keep \
             them under water in a metal can with a tight lid"
            .into();
        Finding::new(Severity::Note, Rule::Finish, message)
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use CoatKind::{DewaxedShellac, Lacquer, Oil, Shellac, WaterPolyurethane, Wax};

    fn found(coats: &[(CoatKind, f64)]) -> Vec<Severity> {
        let coat = |&(kind, dries): &(CoatKind, f64)| Coat { kind, dries };
        let board = Board {
            finish: coats.iter().map(coat).collect(),
            ..Board::default()
        };
        check(&Workpiece::of(&board).unwrap())
            .iter()
            .map(|found| found.severity)
            .collect()
    }

    #[test]
    fn nothing_but_wax_goes_over_wax() {
        for kind in CoatKind::ALL {
            let over = found(&[(Wax, 1000.0), (kind, 0.0)]);
            assert_eq!(over.contains(&Severity::Stop), kind != Wax, "{kind:?}");
            let under = found(&[(kind, 1000.0), (Wax, 0.0)]);
            assert!(!under.contains(&Severity::Stop), "{kind:?}");
        }
    }

    #[test]
    fn a_water_based_coat_waits_for_oil_to_cure_or_wants_dewaxed_shellac_between() {
        let rags = Severity::Note;
        assert_eq!(
            found(&[(Oil, 24.0), (WaterPolyurethane, 0.0)]),
            [Severity::Caution, rags]
        );
        assert_eq!(found(&[(Oil, 336.0), (WaterPolyurethane, 0.0)]), [rags]);
        let tied = [(Oil, 24.0), (DewaxedShellac, 2.0), (WaterPolyurethane, 0.0)];
        assert_eq!(found(&tied), [rags]);
    }

    #[test]
    fn a_coat_that_is_too_early_is_told_to_the_hour() {
        assert_eq!(found(&[(Lacquer, 0.5), (Lacquer, 0.0)]), []);
        assert_eq!(
            found(&[(Lacquer, 0.4), (Lacquer, 0.0)]),
            [Severity::Caution]
        );
        assert_eq!(found(&[(Shellac, 2.0), (Lacquer, 0.0)]), [Severity::Note]);
        assert_eq!(found(&[]), []);
        assert_eq!(found(&[(Shellac, 0.0)]), []);
    }

    /// Bores of 12 mm and of 1/2 in, pegs with as much play as a film takes, and with less.
    #[test]
    fn a_film_in_the_bores_takes_the_play_of_a_peg() {
        let severity = |bore: f64, shank: Option<f64>, kind| {
            let mut board = Board {
                finish: vec![Coat { kind, dries: 24.0 }],
                center: board::Center::Nothing,
                ..Board::default()
            };
            board.bores = board::Bores::all(board::Bore {
                diameter: bore,
                ..board.bores.track
            });
            (board.piece.kind, board.piece.shank) = (PieceKind::Peg, shank);
            let found = check(&Workpiece::of(&board).unwrap());
            let film = |found: &&Finding| found.message.contains("film");
            found.iter().find(film).map(|found| found.severity)
        };
        let half = board::INCH / 2.0;
        assert_eq!(severity(12.0, Some(11.8), Lacquer), None);
        assert_eq!(
            severity(12.0, Some(11.85), Lacquer),
            Some(Severity::Caution)
        );
        assert_eq!(
            severity(half, Some(half - 0.01 * board::INCH), Shellac),
            None
        );
        let tight = Some(half - board::INCH / 256.0);
        assert_eq!(severity(half, tight, Shellac), Some(Severity::Caution));
        assert_eq!(
            severity(12.0, None, WaterPolyurethane),
            Some(Severity::Note)
        );
        assert_eq!(severity(12.0, Some(12.0), Oil), None);
        assert_eq!(severity(12.0, Some(12.0), Wax), None);
        // A peg that does not go in at all is told by the rule of seats.
        assert_eq!(severity(12.0, Some(12.1), Lacquer), None);
    }
}
