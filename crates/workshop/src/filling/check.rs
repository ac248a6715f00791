//! Rule: each batch of resin is poured before it sets in its cup.

use board::{Board, Bore, Filling, Hole, HoleName, Measure, PieceKind, Units, show_length};

use crate::Mend;
use crate::Workpiece;
use crate::bores::holds::insert_gap;
use crate::bores::seat::{MarbleSeat, marble_seat};
use crate::check::{Finding, HAIR, Rule, Severity, counted};
use crate::filling::{
    LEAST_GAP, Pour, batch_in_time, insert_with_room, is_filled, level_below_pieces, open_bore,
    seat_depth,
};

pub const STATEMENT: &str = "A batch of resin is poured within its pot life, which doubles for each {10 °C|18 °F} that the shop \
     is colder than the label's temperature, and halves for each that it is warmer (trade page, not a standard); a larger amount \
     in one cup sets sooner still. Time yourself over ten holes. Uncured resin and hardener can cause a lasting skin allergy \
     (HSE research report RR79): wear nitrile gloves and change them often, open the windows, and breathe no dust of resin that \
     is not fully cured (from memory). The label, local codes and licensed practice come first.";

/// Amount of resin in one cup whose own heat can melt the cup, ml: about 8 fl oz (trade page, not a standard).
const HOT_CUP: f64 = 237.0;

/// Every finding about the filling.
pub fn check(workpiece: &Workpiece) -> Vec<Finding> {
    let (board, _layout) = (workpiece.board(), workpiece.layout());
    let (Some(filling), Some(pour)) = (board.filling, workpiece.pour()) else {
        return Vec::new();
    };
    if pour.bores.is_empty() {
        let message =
            "no hole is filled: the resin level is below every floor; raise the level".into();
        return vec![Finding::new(Severity::Caution, Rule::Filling, message)];
    }
    let findings = [
        too_slow(workpiece, &filling, pour),
        too_small(&filling, pour, workpiece.units()),
        too_hot(pour, workpiece.units()),
        runs_over(workpiece, &filling),
        marble_on_resin(workpiece, &filling),
        peg_on_resin(workpiece, &filling),
        no_room_around(workpiece, &filling),
        Some(hazard()),
    ];
    findings.into_iter().flatten().collect()
}

/// Batches that set before they are poured. It is a stop if not even one bore is filled in time; otherwise the fix is a
/// batch that is.
fn too_slow(workpiece: &Workpiece, filling: &Filling, pour: &Pour) -> Option<Finding> {
    let takes = pour.longest.minutes;
    if takes <= pour.working * (1.0 + HAIR) {
        return None;
    }
    let units = workpiece.units();
    let shop = Measure::celsius(filling.shop).shown(units);
    let measured = Measure::minutes(takes);
    let [takes, working] = measured.shown_beside(Measure::minutes(pour.working), units);
    if pour.in_time == 0 {
        let message = format!(
            "at {shop} the resin sets in {working}, too soon to mix it and fill one hole; choose a slower resin or work in a cooler shop"
        );
        let finding = Finding::new(Severity::Stop, Rule::Filling, message);
        let first = Measure::minutes(filling.mixing + filling.ten_bores / 600.0);
        return Some(finding.measuring(first, Measure::minutes(pour.working)));
    }
    let message = format!(
        "a batch of {} fills {}, which takes {takes} with mixing; at {shop} the resin can be worked for \
         {working}, enough for {}; mix smaller batches",
        ml(pour.longest.ml, units),
        counted(pour.longest.bores as usize, "hole"),
        counted(pour.in_time as usize, "hole"),
    );
    let mends: &[Mend] = match batch_in_time(workpiece) {
        Some(_) => &[Mend::SmallerBatches],
        None => &[],
    };
    Some(
        Finding::new(Severity::Caution, Rule::Filling, message)
            .measuring(measured, Measure::minutes(pour.working))
            .mended_by(mends),
    )
}

/// A batch too small for a single bore plus the residue in the cup; a stop where all of it stays in the cup.
fn too_small(filling: &Filling, pour: &Pour, units: Units) -> Option<Finding> {
    let wants = pour.largest + filling.cup;
    (wants > filling.batch * (1.0 + HAIR)).then(|| {
        let message = format!(
            "a hole takes {} with waste and {} stays in the cup, more than a batch of {}; mix larger batches",
            ml(pour.largest, units),
            ml(filling.cup, units),
            ml(filling.batch, units)
        );
        // If the whole batch stays in the cup, nothing reaches a bore.
        let severity = if filling.cup >= filling.batch {
            Severity::Stop
        } else {
            Severity::Caution
        };
        Finding::new(severity, Rule::Filling, message).measuring(
            Measure::milliliters(filling.batch),
            Measure::milliliters(wants),
        )
    })
}

/// So much resin in one cup that it overheats.
fn too_hot(pour: &Pour, units: Units) -> Option<Finding> {
    let cups = pour.batches.iter().map(|batch| batch.ml);
    let cup = cups.max_by(f64::total_cmp)?;
    (cup > HOT_CUP).then(|| {
        let message = format!(
            "{} of resin in one cup heats itself, sets early and can melt the cup; mix less, or pour it into a wide tray",
            ml(cup, units)
        );
        Finding::new(Severity::Caution, Rule::Filling, message)
            .measuring(Measure::milliliters(cup), Measure::milliliters(HOT_CUP))
    })
}

/// Domes higher than half a ball above their bores.
fn runs_over(workpiece: &Workpiece, filling: &Filling) -> Option<Finding> {
    let (board, dome) = (workpiece.board(), filling.dome);
    let over =
        |hole: &&Hole| dome > hole.bore.radius() + HAIR && is_filled(board, filling, hole.bore);
    let holes: Vec<&Hole> = workpiece.seats().iter().filter(over).collect();
    let radii = holes.iter().map(|hole| hole.bore.radius());
    let least = radii.min_by(f64::total_cmp)?;
    let message = format!(
        "a dome of {} is more than half a ball over {}; resin that high runs over the rim, so lower the crown",
        show_length(dome, board.units),
        counted(holes.len(), "hole"),
    );
    let finding = Finding::new(Severity::Caution, Rule::Filling, message);
    let names = holes.iter().map(|hole| hole.name).collect();
    Some(
        finding
            .about(names)
            .measuring(Measure::mm(dome), Measure::mm(least)),
    )
}

/// Marbles that would stand on the resin instead of the rim.
fn marble_on_resin(workpiece: &Workpiece, filling: &Filling) -> Option<Finding> {
    let board = workpiece.board();
    let marble = board.piece.diameter;
    let stands = |hole: &&Hole| {
        is_filled(board, filling, hole.bore)
            && matches!(marble_seat(open_bore(board, hole.bore), marble), MarbleSeat::OnFloor { sinks, wants } if wants - sinks > HAIR)
    };
    if board.piece.kind != PieceKind::Marble {
        return None;
    }
    let holes: Vec<HoleName> = workpiece
        .seats()
        .iter()
        .filter(stands)
        .map(|hole| hole.name)
        .collect();
    (!holes.is_empty()).then(|| {
        let message = format!(
            "a {} marble rests on the resin in {}, not on the rim; keep the resin lower",
            show_length(marble, board.units),
            counted(holes.len(), "hole")
        );
        Finding::new(Severity::Caution, Rule::Filling, message)
            .about(holes)
            .mended_by(lower(workpiece))
    })
}

/// Pegs for which the resin leaves no hole, or one too shallow to hold them.
fn peg_on_resin(workpiece: &Workpiece, filling: &Filling) -> Option<Finding> {
    let board = workpiece.board();
    if board.piece.kind != PieceKind::Peg {
        return None;
    }
    let shallow = |hole: &&Hole| {
        let needs = seat_depth(board, hole.bore).map(|needs| needs.min(hole.bore.depth));
        is_filled(board, filling, hole.bore)
            && needs.is_some_and(|needs| open_bore(board, hole.bore).depth < needs - HAIR)
    };
    let holes: Vec<&Hole> = workpiece.seats().iter().filter(shallow).collect();
    let first = holes.first()?;
    let (severity, message) = short_of_hole(board, first.bore, holes.len())?;
    Some(
        Finding::new(severity, Rule::Filling, message)
            .about(holes.iter().map(|hole| hole.name).collect())
            .mended_by(lower(workpiece)),
    )
}

/// How bad it is that resin leaves a peg too little of bores like one, and what to do.
fn short_of_hole(board: &Board, bore: Bore, count: usize) -> Option<(Severity, String)> {
    let (left, needs) = (open_bore(board, bore).depth, seat_depth(board, bore)?);
    let deeper = if needs >= bore.depth - HAIR {
        ", and drill deeper than that"
    } else {
        ""
    };
    let holes = counted(count, "hole");
    let [left_words, needs] = [left, needs].map(|mm| show_length(mm, board.units));
    Some(if left <= HAIR {
        let message = format!(
            "the resin fills {holes} to the top, so that no peg goes in; keep it {needs} below the top, as deep as a peg is wide{deeper}"
        );
        (Severity::Stop, message)
    } else {
        let message = format!(
            "the resin leaves {left_words} of {holes} for a peg; keep it {needs} below the top, as deep as a peg is wide{deeper}"
        );
        (Severity::Caution, message)
    })
}

/// The fix that lowers the resin, where that leaves pieces their seat.
fn lower(workpiece: &Workpiece) -> &'static [Mend] {
    match level_below_pieces(workpiece) {
        Some(_) => &[Mend::LowerResin],
        None => &[],
    }
}

/// Balls or discs that fill their bores, so that no resin gets in around them.
fn no_room_around(workpiece: &Workpiece, filling: &Filling) -> Option<Finding> {
    let board = workpiece.board();
    if board.piece.kind != PieceKind::Magnet || !filling.around_insert {
        return None;
    }
    let gap = |hole: &Hole| insert_gap(&board.piece, hole.bore);
    let tight = |hole: &&Hole| {
        is_filled(board, filling, hole.bore) && (0.0..LEAST_GAP - HAIR).contains(&gap(hole))
    };
    let holes: Vec<&Hole> = workpiece.seats().iter().filter(tight).collect();
    let least = holes.iter().map(|hole| gap(hole)).min_by(f64::total_cmp)?;
    let room = if least < HAIR {
        "no room".into()
    } else {
        format!("{} of room", show_length(least, board.units))
    };
    let message = format!(
        "{room} is left around the ball or disc in {}: resin needs {} all around to flow in and let the air out; use a \
         narrower ball or disc, or a wider hole",
        counted(holes.len(), "hole"),
        Measure::mm(LEAST_GAP).shown(board.units)
    );
    // A typed diameter is that of the part the maker has.
    let mends: &[Mend] = match board.piece.shank {
        None if insert_with_room(workpiece).is_some() => &[Mend::RoomForResin],
        _ => &[],
    };
    let names = holes.iter().map(|hole| hole.name).collect();
    Some(
        Finding::new(Severity::Caution, Rule::Filling, message)
            .about(names)
            .measuring(Measure::mm(least), Measure::mm(LEAST_GAP))
            .mended_by(mends),
    )
}

/// An amount of resin in the maker's unit.
fn ml(ml: f64, units: Units) -> String {
    Measure::milliliters(ml).shown(units)
}

/// The hazards of resin to skin and lungs, reported whenever it is used.
fn hazard() -> Finding {
    let message = "uncured resin can cause a lasting skin allergy: wear nitrile gloves and change them often, work in fresh \
         air, and breathe no dust of resin that is not fully cured; the label and local codes come first"
        .into();
    Finding::new(Severity::Note, Rule::Filling, message)
}

#[cfg(test)]
mod tests {
    use super::*;
    use board::Board;
    use board::{Bore, Bores, Bottom, Center};
    use testkit::assert_near;

    /// 144 flat bores of 10 by 12 deep, filled to 6 below the top: 0.471 ml each.
    fn board(filling: Filling) -> Board {
        let bore = Bore {
            diameter: 10.0,
            depth: 12.0,
            bottom: Bottom::Flat,
        };
        Board {
            bores: Bores::all(bore),
            center: Center::Nothing,
            filling: Some(Filling {
                below_top: 6.0,
                waste: 0.0,
                cup: 0.0,
                mixing: 0.0,
                shop: 25.0,
                ..filling
            }),
            ..Board::default()
        }
    }

    fn found(filling: Filling) -> Vec<Finding> {
        let board = board(filling);
        check(&Workpiece::of(&board).unwrap())
    }

    fn severities(filling: Filling) -> Vec<Severity> {
        found(filling).iter().map(|found| found.severity).collect()
    }

    #[test]
    fn an_unfilled_board_gives_no_finding() {
        let board = Board::default();
        assert_eq!(check(&Workpiece::of(&board).unwrap()), []);
    }

    #[test]
    fn a_batch_that_outlasts_its_working_time_is_reported() {
        // 30 ml fill 63 bores; the working time is 30 minutes at 25 °C.
        let pace = |ten_bores| Filling {
            ten_bores,
            ..Filling::default()
        };
        assert_eq!(severities(pace(285.0)), [Severity::Note]);
        let slow = found(pace(286.0));
        assert_eq!(slow[0].severity, Severity::Caution);
        assert_eq!(slow[0].mends, [Mend::SmallerBatches]);
        let Some(Measure { value: minutes, .. }) = slow[0].measured else {
            panic!("no measure")
        };
        assert_near!(minutes, 63.0 * 28.6 / 60.0, 1e-9);
        // A bore that takes slightly over 30 minutes sets before it is filled, and its time is the measured value.
        let never = found(pace(18_001.0));
        assert_eq!(never[0].severity, Severity::Stop);
        assert_eq!(never[0].measured, Some(Measure::minutes(18_001.0 / 600.0)));
    }

    #[test]
    fn batches_too_small_or_too_large_for_a_cup_are_reported() {
        let batch = |batch| Filling {
            batch,
            ten_bores: 1.0,
            ..Filling::default()
        };
        assert_eq!(severities(batch(0.4)), [Severity::Caution, Severity::Note]);
        assert_eq!(severities(batch(0.48)), [Severity::Note]);
        let mut deep = board(batch(5000.0));
        deep.bores.track.depth = 60.0;
        let found = check(&Workpiece::of(&deep).unwrap());
        assert!(found[0].message.contains("melt the cup"), "{found:?}");
    }

    #[test]
    fn a_cup_that_retains_the_whole_batch_is_a_stop() {
        let keeps = |cup| {
            let mut board = board(Filling::default());
            if let Some(filling) = &mut board.filling {
                (filling.cup, filling.batch, filling.ten_bores) = (cup, 30.0, 1.0);
            }
            check(&Workpiece::of(&board).unwrap())[0].severity
        };
        assert_eq!(keeps(29.9), Severity::Caution);
        assert_eq!(keeps(30.0), Severity::Stop);
        assert_eq!(keeps(20.0), Severity::Note);
    }

    #[test]
    fn a_marble_needs_room_above_the_resin() {
        let mut full = board(Filling::default());
        // A marble of 16 mm on a bore of 10 mm sinks 8 - √(64 - 25) = 1.755 mm.
        full.filling.as_mut().unwrap().below_top = 1.7;
        let found = check(&Workpiece::of(&full).unwrap());
        assert_eq!(found[0].holes.len(), 144);
        full.filling.as_mut().unwrap().below_top = 1.8;
        assert!(check(&Workpiece::of(&full).unwrap())[0].holes.is_empty());
        // A dome takes up some of that room.
        full.filling.as_mut().unwrap().dome = 0.1;
        assert_eq!(check(&Workpiece::of(&full).unwrap())[0].holes.len(), 144);
        full.filling.as_mut().unwrap().below_top = 12.0;
        let none = check(&Workpiece::of(&full).unwrap());
        assert!(none[0].message.starts_with("No hole is filled"));
    }

    #[test]
    fn resin_around_a_ball_needs_room() {
        let tight = |shank| {
            let mut board = board(Filling {
                around_insert: true,
                ten_bores: 1.0,
                ..Filling::default()
            });
            board.piece.kind = PieceKind::Magnet;
            board.piece.shank = shank;
            let found = check(&Workpiece::of(&board).unwrap());
            let mut tight = found.into_iter();
            tight.find(|finding| finding.message.contains("all around"))
        };
        assert_eq!(tight(Some(9.8)), None);
        let narrow = tight(Some(9.82)).unwrap();
        assert_eq!(
            (narrow.severity, narrow.holes.len()),
            (Severity::Caution, 144)
        );
        assert_eq!(narrow.mends, []);
        // A ball made to fit fills its bore.
        let fitted = tight(None).unwrap();
        assert_eq!(fitted.measured, Some(Measure::mm(0.0)));
        assert_eq!(fitted.mends, [Mend::RoomForResin]);
        // A ball that does not fit is reported by the rule about seats.
        assert_eq!(tight(Some(10.1)), None);
    }

    #[test]
    fn a_dome_is_at_most_half_a_ball() {
        let over = |dome| {
            let found = found(Filling {
                dome,
                ten_bores: 1.0,
                ..Filling::default()
            });
            let mut over = found.into_iter();
            over.find(|finding| finding.message.contains("half a ball"))
        };
        assert_eq!(over(5.0), None);
        let high = over(5.1).unwrap();
        assert_eq!((high.severity, high.holes.len()), (Severity::Caution, 144));
        assert_eq!(high.wanted, Some(Measure::mm(5.0)));
    }

    #[test]
    fn pegs_need_a_hole_above_the_resin() {
        let mut board = Board {
            filling: Some(Filling::default()),
            ..Board::default()
        };
        (board.piece.kind, board.piece.shank) = (PieceKind::Peg, None);
        for bore in [
            &mut board.bores.track,
            &mut board.bores.home,
            &mut board.bores.start,
        ] {
            (bore.diameter, bore.depth) = (6.0, 14.0);
        }
        board.center = board::Center::Nothing;
        let of_pegs = |board: &Board| {
            let found = check(&Workpiece::of(board).unwrap());
            let mut pegs = found
                .into_iter()
                .filter(|found| found.message.contains("peg"));
            pegs.next()
        };
        let full = of_pegs(&board).unwrap();
        assert_eq!(full.severity, Severity::Stop);
        assert!(full.message.contains("to the top"), "{full:?}");
        assert_eq!(full.mends, [Mend::LowerResin]);
        board.filling.as_mut().unwrap().below_top = 4.0;
        assert_eq!(of_pegs(&board).unwrap().severity, Severity::Caution);
        let mended = Mend::LowerResin.applied(&board).unwrap();
        assert_eq!(mended.filling.unwrap().below_top, 6.0);
        assert_eq!(of_pegs(&mended), None);
    }
}
