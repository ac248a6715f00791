//! Rule: each coat of finish bonds to the one under it, and waits until that is dry.

use board::{Board, Coat, CoatKind, CoatPlace, Hole, Hue, Measure, Medium, PieceKind, Role};

use crate::Mend;
use crate::Workpiece;
use crate::check::{Finding, HAIR, Rule, Severity, counted};
use crate::finish::kinds::{is_color, is_film};
use crate::finish::{Meeting, Parts, coat_data, meetings, time};

/// The rule in words, as the list of rules shows it.
pub const STATEMENT: &str = "Each coat bonds to the one under it, and goes on when that one is dry. Which coats bond, and how \
     long each dries in ordinary room conditions, is from trade pages, not from a standard; the label and a trial on scrap of \
     the same wood come first. Shellac rests 12 hours after three or four coats. A film of finish in the holes takes up to {0.2 \
     mm} of a peg's play; common practice, no source. Rags with drying oil heat up and can catch fire within hours (trade pages \
     that quote NFPA figures): spread them flat outdoors, or keep them under water in a metal can with a tight lid. Local codes \
     on solvents, waste and fire come first.";

/// Every finding about the coats.
pub fn check(workpiece: &Workpiece) -> Vec<Finding> {
    let board = workpiece.board();
    let met = meetings(&board.finish);
    let mut findings: Vec<Finding> = met.iter().filter_map(|met| pair(board, met)).collect();
    findings.extend(bare(board));
    findings.extend(nowhere(board));
    findings.extend(film(workpiece));
    findings.extend(none_planned(board));
    findings.extend(uneven(board));
    findings.extend(rags(board));
    findings.extend(vapor(board));
    findings
}

/// Play that a film of finish in the bore takes from a peg, mm: 0.1 to 0.2 for a few coats; used where the planned films add up to less.
const FILM: f64 = 0.2;
/// A coat no thicker than this counts as no film, mm: oils and wax are wiped off.
const THIN: f64 = 0.005;

/// Width of a bore that the planned films fill, mm: every coat on both walls, by the table of kinds.
pub fn film_in_bores(coats: &[Coat]) -> f64 {
    let inside = coats
        .iter()
        .filter(|coat| Parts::of(coat.place).has(Parts::BORES));
    let films = inside.map(|coat| f64::from(coat.coats) * coat_data(coat.kind).film);
    2.0 * films.sum::<f64>()
}

/// The finding about pegs whose play is less than a film of finish in their bores takes.
///
/// Oil and wax leave no film. Pegs that are made to fit are made after the finish, so that the finding is only a note. The thickness of
/// a film depends on coats and brush: the largest usual value is used, and pegs with more play than that are not reported. Marbles rest
/// on the rim, and a ball or disc is set before the finish.
fn film(workpiece: &Workpiece) -> Option<Finding> {
    let board = workpiece.board();
    let builds =
        |coat: &Coat| coat_data(coat.kind).film > THIN && Parts::of(coat.place).has(Parts::BORES);
    if board.piece.kind != PieceKind::Peg || !board.finish.iter().any(builds) {
        return None;
    }
    let length = |mm| Measure::mm(mm).shown(board.units);
    let most = film_in_bores(&board.finish).max(FILM);
    let Some(shank) = board.piece.shank else {
        let message = format!(
            "a film of finish in the holes takes up to {} of their width: keep finish out of them, or make the pegs to fit \
             when it is hard",
            length(most)
        );
        return Some(Finding::new(Severity::Note, Rule::Finish, message));
    };
    let play = |hole: &Hole| hole.bore.diameter - shank;
    let tight = |hole: &&Hole| (-HAIR..most - HAIR).contains(&play(hole));
    let tight: Vec<&Hole> = workpiece.seats().iter().filter(tight).collect();
    let least = tight.iter().map(|hole| play(hole));
    let least = least.min_by(f64::total_cmp)?;
    let message = format!(
        "a film of finish takes up to {} of the width of a hole, and pegs have {} of play in {}: keep finish out of the \
         holes, or use thinner pegs",
        length(most),
        length(least.max(0.0)),
        counted(tight.len(), "hole")
    );
    Some(
        Finding::new(Severity::Caution, Rule::Finish, message)
            .measuring(Measure::mm(least.max(0.0)), Measure::mm(most))
            .about(tight.iter().map(|hole| hole.name).collect()),
    )
}

/// The finding about two coats that meet.
fn pair(board: &Board, met: &Meeting) -> Option<Finding> {
    let bond = met.bond;
    let under = Layer::of(board, met.under)?;
    let over = Layer::of(board, met.over)?;
    if met.fails() {
        let place = where_only(board, met);
        let message = format!("{over} will not stick to {under}{place}: {}", bond.why);
        return Some(
            Finding::new(Severity::Stop, Rule::Finish, message).mended_by(&[Mend::FixFinish]),
        );
    }
    if met.is_early() {
        return Some(early(board, met, &under, &over));
    }
    (!bond.advice.is_empty()).then(|| {
        let message = format!("{under} under {over}: {}", bond.advice);
        Finding::new(Severity::Note, Rule::Finish, message)
    })
}

/// A coat that comes before the one below it is dry.
fn early(board: &Board, met: &Meeting, under: &Layer, over: &Layer) -> Finding {
    let needs = met.bond.hours;
    let what = if met.under == met.over {
        format!("the coats of {under} go on {} apart", time(met.waits))
    } else {
        let place = where_only(board, met);
        format!("{over} goes on {} after {under}{place}", time(met.waits))
    };
    let message = format!("{what}; wait at least {}: {}", time(needs), met.bond.why);
    Finding::new(Severity::Caution, Rule::Finish, message)
        .measuring(Measure::hours(met.waits), Measure::hours(needs))
        .mended_by(&[Mend::LongerDrying])
}

/// The place where two layers meet, as in " in the grooves"; empty if they meet everywhere under the upper one.
fn where_only(board: &Board, met: &Meeting) -> String {
    let all = board.finish.get(met.over).map(|coat| Parts::of(coat.place));
    if all == Some(met.on) {
        String::new()
    } else {
        format!(" {}", met.on.words())
    }
}

/// A layer as sentences name it: "wax (layer 2)".
struct Layer {
    number: usize,
    kind: CoatKind,
}

impl Layer {
    /// The layer at a place, from 0.
    fn of(board: &Board, at: usize) -> Option<Self> {
        let kind = board.finish.get(at)?.kind;
        Some(Self {
            number: at + 1,
            kind,
        })
    }
}

impl core::fmt::Display for Layer {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        write!(f, "{} (layer {})", self.kind.label(), self.number)
    }
}

/// Color and film finishes on bare wood: color runs along the grain, and the oil of an oily wood keeps either from holding.
///
/// Both from memory. Of the species of the table, teak alone is oily enough.
fn bare(board: &Board) -> Vec<Finding> {
    let wood = board.wood.as_ref().map(|wood| wood.species.as_str());
    let oily = wood.filter(|species| OILY_WOODS.contains(species));
    let mut findings = Vec::new();
    let mut covered = Parts::NONE;
    for (at, coat) in board.finish.iter().enumerate() {
        let open = Parts::of(coat.place).without(covered);
        covered = covered.and(Parts::of(coat.place));
        let Some(layer) = Layer::of(board, at).filter(|_| !open.is_empty()) else {
            continue;
        };
        let shellac = matches!(coat.kind, CoatKind::Shellac | CoatKind::DewaxedShellac);
        let lies_on_top = is_color(coat.kind) || is_film(coat.kind) && !shellac;
        if let Some(species) = oily.filter(|_| lies_on_top) {
            let message = format!(
                "{layer} goes on bare {species}, whose natural oil keeps it from drying and sticking: wipe the wood with \
                 the solvent that the label names, and seal it with dewaxed shellac first"
            );
            findings.push(Finding::new(Severity::Caution, Rule::Finish, message));
        } else if is_color(coat.kind) {
            let message = format!(
                "{layer} goes on bare wood and runs along its grain: a coat of dewaxed shellac first keeps its edge sharp"
            );
            findings.push(Finding::new(Severity::Note, Rule::Finish, message));
        }
    }
    findings
}

/// Species whose natural oil keeps a film from sticking; from memory.
const OILY_WOODS: [&str; 1] = ["teak"];

/// The finding about color in grooves that are not planned.
fn nowhere(board: &Board) -> Option<Finding> {
    let is_lost = |coat: &Coat| coat.place == CoatPlace::Grooves && board.grooves.is_none();
    let at = board.finish.iter().position(is_lost)?;
    let layer = Layer::of(board, at)?;
    let message = format!(
        "{layer} goes in the grooves, but none are planned: plan grooves or choose another place"
    );
    Some(Finding::new(Severity::Caution, Rule::Finish, message))
}

/// The finding that no finish is planned although colors or magnets rely on one.
fn none_planned(board: &Board) -> Option<Finding> {
    if !board.finish.is_empty() {
        return None;
    }
    let paints = |medium| matches!(medium, Medium::Paint | Medium::Dye | Medium::Stain);
    let colors = &board.colors;
    let parts = [colors.grooves, colors.rings, colors.rim, colors.sectors];
    let roles = Role::ALL.map(|role| colors.of(role));
    let painted = parts
        .iter()
        .any(|part| part.hue != Hue::Bare && paints(part.medium))
        || roles
            .iter()
            .any(|bore| bore.hue != Hue::Bare && paints(bore.medium))
        || colors.marks.is_some_and(|marks| paints(marks.medium));
    let magnet = board.piece.magnet.filter(|magnet| magnet.finish > 0.0);
    let what = if painted {
        "the board is colored, and color with no coat over it wears off"
    } else if magnet.is_some() && board.piece.kind == PieceKind::Magnet {
        "the pull of the magnets is worked out with finish over them"
    } else {
        return None;
    };
    let message =
        format!("no coats of finish are planned, but {what}: plan coats at the stage Finish");
    Some(Finding::new(Severity::Caution, Rule::Finish, message))
}

/// The finding about faces with different numbers of coats: the one with fewer takes up moisture sooner, and the board cups; common
/// practice, no source.
fn uneven(board: &Board) -> Option<Finding> {
    let colors = |kind| is_color(kind) || matches!(kind, CoatKind::Dye | CoatKind::Stain);
    let coats = |face: Parts| -> u32 {
        let on = board.finish.iter();
        let on = on.filter(|coat| Parts::of(coat.place).has(face) && !colors(coat.kind));
        on.map(|coat| coat.coats).sum()
    };
    let (top, underside) = (coats(Parts::TOP), coats(Parts::UNDERSIDE));
    (top != underside).then(|| {
        let message = format!(
            "the top face gets {} and the underside {}: give both the same number, or the board may cup",
            counted(top as usize, "coat"),
            underside
        );
        Finding::new(Severity::Note, Rule::Finish, message)
    })
}

/// The note on solvent vapor, whenever a coat gives some off.
fn vapor(board: &Board) -> Option<Finding> {
    let has_vapor = |coat: &Coat| coat_data(coat.kind).has_vapor;
    board.finish.iter().any(has_vapor).then(|| {
        let message = "solvent vapor can catch fire and harms your lungs: work in fresh air, keep flames and sparks away, and wear a \
             respirator with the cartridges that the label names"
            .into();
        Finding::new(Severity::Note, Rule::Finish, message)
    })
}

/// The note on rags with drying oil, which can catch fire by themselves, whenever oil is used.
fn rags(board: &Board) -> Option<Finding> {
    let oily = |coat: &Coat| coat_data(coat.kind).is_oily;
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

    fn findings(finish: Vec<Coat>) -> Vec<Finding> {
        let board = Board {
            finish,
            ..Board::default()
        };
        check(&Workpiece::of(&board).unwrap())
    }

    fn found(coats: &[(CoatKind, f64)]) -> Vec<Severity> {
        let coats = coats.iter().map(|(kind, dries)| Coat::of(*kind, *dries));
        let all = findings(coats.collect());
        all.iter().map(|found| found.severity).collect()
    }

    #[test]
    fn nothing_but_wax_goes_over_wax() {
        for kind in CoatKind::ALL {
            let over = found(&[(Wax, 1000.0), (kind, 0.0)]);
            assert_eq!(over.contains(&Severity::Stop), kind != Wax, "{kind:?}");
            // Each stop has its fix.
            let stops = findings(vec![Coat::of(Wax, 1000.0), Coat::of(kind, 0.0)]);
            let stops = stops
                .iter()
                .filter(|found| found.severity == Severity::Stop);
            assert!(
                stops
                    .flat_map(|stop| &stop.mends)
                    .all(|mend| *mend == Mend::FixFinish)
            );
            let under = found(&[(kind, 1000.0), (Wax, 0.0)]);
            assert!(!under.contains(&Severity::Stop), "{kind:?}");
        }
    }

    #[test]
    fn a_water_based_coat_waits_for_oil_to_cure_or_needs_dewaxed_shellac_between() {
        let (rags, vapor) = (Severity::Note, Severity::Note);
        assert_eq!(
            found(&[(Oil, 24.0), (WaterPolyurethane, 0.0)]),
            [Severity::Caution, rags, vapor]
        );
        assert_eq!(
            found(&[(Oil, 336.0), (WaterPolyurethane, 0.0)]),
            [rags, vapor]
        );
        let tied = [(Oil, 24.0), (DewaxedShellac, 2.0), (WaterPolyurethane, 0.0)];
        assert_eq!(found(&tied), [rags, vapor]);
    }

    #[test]
    fn a_coat_that_comes_too_early_is_reported() {
        let vapor = Severity::Note;
        assert_eq!(found(&[(Lacquer, 0.5), (Lacquer, 0.0)]), [vapor]);
        assert_eq!(
            found(&[(Lacquer, 0.4), (Lacquer, 0.0)]),
            [Severity::Caution, vapor]
        );
        assert_eq!(
            found(&[(Shellac, 2.0), (Lacquer, 0.0)]),
            [Severity::Note, vapor]
        );
        assert_eq!(found(&[]), []);
        assert_eq!(found(&[(Shellac, 0.0)]), [vapor]);
    }

    /// Color in the grooves: beside them the topcoat lies on oil, in them on color, and the words say where.
    #[test]
    fn layers_that_meet_in_part_say_where() {
        let color = Coat {
            place: CoatPlace::Grooves,
            ..Coat::of(CoatKind::Acrylic, 24.0)
        };
        let top = Coat::of(Lacquer, 0.5);
        let all = findings(vec![Coat::of(Wax, 1.0), color, top]);
        let stops: Vec<&str> = all
            .iter()
            .filter(|found| found.severity == Severity::Stop)
            .map(|found| found.message.as_str())
            .collect();
        assert_eq!(stops.len(), 2, "{stops:#?}");
        assert!(stops[0].starts_with("Acrylic color (layer 2) will not stick to wax (layer 1):"));
        assert!(
            stops[1].contains("Lacquer (layer 3) will not stick to wax (layer 1) on the top face")
        );
    }

    #[test]
    fn color_on_bare_wood_is_a_note_and_on_oily_wood_a_caution() {
        let told = |species: Option<&str>, coats: &[Coat]| {
            let wood = species.map(|species| board::Wood {
                species: species.into(),
                ..board::Wood::default()
            });
            let board = Board {
                finish: coats.to_vec(),
                wood,
                ..Board::default()
            };
            let all = check(&Workpiece::of(&board).unwrap());
            let bare = all.iter().find(|found| found.message.contains(" bare "));
            bare.map(|found| found.severity)
        };
        let color = Coat::of(CoatKind::Acrylic, 24.0);
        let sealed = [Coat::of(DewaxedShellac, 2.0), color];
        assert_eq!(told(None, &[color]), Some(Severity::Note));
        assert_eq!(told(Some("teak"), &[color]), Some(Severity::Caution));
        assert_eq!(
            told(Some("teak"), &[Coat::of(Lacquer, 0.5)]),
            Some(Severity::Caution)
        );
        assert_eq!(told(Some("sugar-maple"), &[Coat::of(Lacquer, 0.5)]), None);
        assert_eq!(told(Some("teak"), &sealed), None);
    }

    #[test]
    fn color_in_grooves_that_are_not_planned_is_reported() {
        let color = Coat {
            place: CoatPlace::Grooves,
            ..Coat::of(CoatKind::Acrylic, 24.0)
        };
        let told = |all: Vec<Finding>| {
            all.iter()
                .any(|found| found.message.contains("none are planned"))
        };
        assert!(told(findings(vec![color])));
        assert!(!told(findings(vec![Coat::default()])));
    }

    #[test]
    fn a_missing_finish_is_reported_where_another_part_relies_on_it() {
        let told = |board: &Board| {
            let all = check(&Workpiece::of(board).unwrap());
            all.iter()
                .any(|found| found.message.starts_with("No coats of finish"))
        };
        let mut board = Board::default();
        assert!(!told(&board));
        board.colors.marks = Some(board::MarksMade::default());
        assert!(told(&board));
        board.finish = vec![Coat::default()];
        assert!(!told(&board));
        let mut magnets = Board::default();
        magnets.piece.kind = PieceKind::Magnet;
        magnets.piece.magnet = Some(board::Magnet {
            finish: 0.1,
            ..board::Magnet::default()
        });
        assert!(told(&magnets));
    }

    #[test]
    fn one_face_with_more_coats_is_reported() {
        let top = Coat {
            place: CoatPlace::Top,
            coats: 2,
            ..Coat::of(Shellac, 2.0)
        };
        let told = |coats: Vec<Coat>| {
            findings(coats)
                .iter()
                .any(|found| found.message.contains("may cup"))
        };
        assert!(told(vec![Coat::of(Shellac, 2.0), top]));
        assert!(!told(vec![Coat::of(Shellac, 2.0)]));
    }

    /// Five coats of 0.04 mm on both walls: 0.4 mm.
    #[test]
    fn a_thick_film_leaves_less_play() {
        let five = Coat {
            coats: 5,
            ..Coat::of(CoatKind::OilPolyurethane, 24.0)
        };
        testkit::assert_near!(film_in_bores(&[five]), 0.4, 1e-12);
        let edge = Coat {
            place: CoatPlace::Edge,
            ..five
        };
        testkit::assert_near!(film_in_bores(&[edge]), 0.0, 0.0);
    }

    /// Bores of 12 mm and of 1/2 in, pegs with as much play as a film takes, and with less.
    #[test]
    fn a_film_in_the_bores_takes_the_play_of_a_peg() {
        let severity = |bore: f64, shank: Option<f64>, kind| {
            let mut board = Board {
                finish: vec![Coat::of(kind, 24.0)],
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
        // A peg that does not go in at all is reported by the rule of seats.
        assert_eq!(severity(12.0, Some(12.1), Lacquer), None);
    }
}
