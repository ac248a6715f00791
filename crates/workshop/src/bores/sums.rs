//! Shop math about the bores: the drill or cutter for each, and the wood left below.

use board::{Board, Bore, Bottom, Center, Hole, HoleId, HoleName, Measure, Units};

use crate::Workpiece;
use crate::bores::profile::{deepest, tip};
use crate::check::HAIR;
use crate::sums::{GEOMETRY, Sum, SumGroup, TYPED};
use crate::{Cutter, NearDrill, Series, nearest_drills};

/// The note below the drills that the stamped size is not what a bit drills.
const STAMPED: &str = "a bit can drill wider or narrower than the size stamped on it: measure your own bit, and a test hole in scrap";
/// The formula by which the nearest drill is found.
const NEAREST: &str = "by how much it is larger than the bore: size - bore; of those that leave such a bottom, the nearest of the table";
/// The formula by which the nearest round-nose cutter is found for a bottom shallower than its radius.
const NEAREST_BALL: &str =
    "by how much it is larger than the ball of the cutter: size - ball; the nearest of the table";
/// The formula by which a Forstner bit is found whose spur still leaves a floor.
const NEAREST_SPUR: &str = "by how much it is larger than the bore: size - bore; offered where its spur leaves the least floor";

/// The group; none without bores.
pub fn group(workpiece: &Workpiece) -> Option<SumGroup> {
    let (board, layout) = (workpiece.board(), workpiece.layout());
    let mut sums: Vec<Sum> = kinds(layout.holes.iter())
        .iter()
        .flat_map(|kind| of_kind(board, kind))
        .collect();
    sums.extend(pilot(board));
    (!sums.is_empty()).then(|| SumGroup {
        heading: "bores",
        sums,
        notes: vec![STAMPED.to_owned()],
    })
}

/// Holes with the same bore.
pub struct Kind {
    pub bore: Bore,
    pub holes: Vec<HoleName>,
}

/// Holes grouped by their bores, in the order of their first hole.
pub fn kinds<'a>(holes: impl IntoIterator<Item = &'a Hole>) -> Vec<Kind> {
    let mut kinds: Vec<Kind> = Vec::new();
    for Hole { bore, name, .. } in holes {
        match kinds.iter_mut().find(|kind| kind.bore == *bore) {
            Some(kind) => kind.holes.push(*name),
            None => kinds.push(Kind {
                bore: *bore,
                holes: vec![*name],
            }),
        }
    }
    kinds
}

/// The sums for one kind of bore: the nearest drills, the number of holes, depth, point or spur, and the wood left below.
fn of_kind(board: &Board, kind: &Kind) -> Vec<Sum> {
    let (bore, spur) = (kind.bore, board.bores.spur);
    let pivot = matches!(board.drilled_center(), Center::Pivot { .. })
        && kind.holes == [HoleId::CENTER.named(1)];
    // Any drill can make the hole for a pin, whose floor does not matter.
    let bottom = if pivot { Bottom::Point118 } else { bore.bottom };
    let formula = if bore.is_shallow_ball() {
        NEAREST_BALL
    } else {
        NEAREST
    };
    let near = nearest_drills(bore.cutter(), bottom);
    let mut sums: Vec<Sum> = near
        .into_iter()
        .map(|near| size(name_of(near.drill.series), near, formula))
        .collect();
    sums.extend(cutter(bore));
    if !pivot {
        sums.extend(by_forstner(board, bore));
    }
    let count = u32::try_from(kind.holes.len()).ok().map(Measure::count);
    let left = board.blank.thickness - deepest(bore, spur);
    sums.extend([
        Sum::new("holes of this bore", count, "counted", GEOMETRY),
        Sum::mm(
            "depth of the bore",
            bore.depth,
            "to where the full diameter ends, or the deepest place of a flat or ball bottom",
            TYPED,
        ),
        Sum::mm(
            "point or spur below that",
            tip(bore, spur),
            "diameter / 2 / tan(angle of the point / 2); spur of a Forstner bit as typed",
            GEOMETRY,
        ),
        Sum::mm(
            "wood left under the hole",
            left,
            "thickness of the board - depth of the bore - point or spur",
            GEOMETRY,
        ),
    ]);
    let at = Measure::mm(bore.diameter);
    let told = sums.into_iter().map(|sum| sum.at(at));
    told.map(|sum| sum.about(kind.holes.clone())).collect()
}

/// The ball cutter for a round bottom whose mouth is wider than twice its depth.
fn cutter(bore: Bore) -> Option<Sum> {
    let formula = "(mouth² / 4 + depth²) / depth: less than half of the ball goes in";
    let sum = || {
        Sum::mm(
            "diameter of the ball cutter",
            bore.cutter(),
            formula,
            GEOMETRY,
        )
    };
    bore.is_shallow_ball().then(sum)
}

/// The Forstner bits for a flat bottom, with the floor that their spur leaves; empty if that is less than the least floor.
///
/// Many makers drill flat bottoms with them: the pit of the spur does no harm where there is enough wood below.
fn by_forstner(board: &Board, bore: Bore) -> Vec<Sum> {
    let drilled = Bore {
        bottom: Bottom::Forstner,
        ..bore
    };
    let left = board.blank.thickness - deepest(drilled, board.bores.spur);
    if bore.bottom != Bottom::Flat || left < board.limits.floor - HAIR {
        return Vec::new();
    }
    let near = nearest_drills(bore.diameter, Bottom::Forstner).into_iter();
    let named = |near: NearDrill| match near.drill.series.units {
        Units::Inch(_) => "nearest inch Forstner bit, spur counted",
        Units::Mm => "nearest metric Forstner bit, spur counted",
    };
    let sizes = near.map(|near| size(named(near), near, NEAREST_SPUR));
    let formula = "thickness of the board - depth of the bore - spur of the bit";
    let under = Sum::mm("wood left under its spur", left, formula, GEOMETRY);
    sizes.chain([under]).collect()
}

/// The sizes of the pilot hole under a playing hole at the center.
fn pilot(board: &Board) -> Vec<Sum> {
    let Center::Hole { pilot, .. } = board.drilled_center() else {
        return Vec::new();
    };
    let near = nearest_drills(pilot, Bottom::Point118);
    let sums = near
        .into_iter()
        .map(|near| size(pilot_name_of(near.drill.series), near, NEAREST));
    sums.map(|sum| {
        sum.at(Measure::mm(pilot))
            .about(vec![HoleId::CENTER.named(1)])
    })
    .collect()
}

/// The difference between a drill and the bore, and which drill it is.
fn size(name: &'static str, near: NearDrill, formula: &'static str) -> Sum {
    Sum::mm(name, near.larger, formula, near.drill.series.source).worded(near.drill.name.clone())
}

/// The caption for the nearest size in a series.
const fn name_of(series: Series) -> &'static str {
    match (series.cutter, series.units) {
        (Cutter::Twist, Units::Inch(_)) => "nearest inch twist drill",
        (Cutter::Twist, Units::Mm) => "nearest metric twist drill",
        (Cutter::Forstner, Units::Inch(_)) => "nearest inch Forstner bit",
        (Cutter::Forstner, Units::Mm) => "nearest metric Forstner bit",
        (Cutter::Flat, Units::Inch(_)) => "nearest inch straight cutter",
        (Cutter::Flat, Units::Mm) => "nearest metric straight cutter",
        (Cutter::RoundNose, Units::Inch(_)) => "nearest inch round-nose cutter",
        (Cutter::RoundNose, Units::Mm) => "nearest metric round-nose cutter",
    }
}

/// The caption for the nearest pilot drill, by the unit of its series.
const fn pilot_name_of(series: Series) -> &'static str {
    match series.units {
        Units::Inch(_) => "nearest inch drill for the pilot",
        Units::Mm => "nearest metric drill for the pilot",
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use board::{Bores, layout};
    use testkit::assert_near;

    fn sums_of(board: &Board) -> Vec<Sum> {
        group(&Workpiece::of(board).unwrap()).unwrap().sums
    }

    fn named<'a>(sums: &'a [Sum], name: &str) -> &'a Sum {
        sums.iter().find(|sum| sum.name == name).unwrap()
    }

    fn mm(sum: &Sum) -> f64 {
        match sum.value {
            Some(Measure { value: mm, .. }) => mm,
            ref other => panic!("{other:?}"),
        }
    }

    #[test]
    fn each_bore_has_a_drill_and_a_floor() {
        let bore = Bore {
            diameter: 15.1,
            depth: 8.0,
            bottom: Bottom::Point118,
        };
        let board = Board {
            bores: Bores::all(bore),
            center: Center::Hole {
                bore: Bore {
                    diameter: 20.0,
                    bottom: Bottom::Forstner,
                    ..bore
                },
                pilot: 6.35,
            },
            ..Board::default()
        };
        let sums = sums_of(&board);
        let inch = named(&sums, "nearest inch twist drill");
        assert_eq!(inch.words.as_deref(), Some("19/32\""));
        assert_near!(mm(inch), -0.018_75, 1e-12);
        assert_eq!(
            named(&sums, "nearest metric twist drill").words.as_deref(),
            Some("15 mm")
        );
        let tip = 15.1 * 0.300_430_3;
        assert_near!(mm(named(&sums, "point or spur below that")), tip, 1e-6);
        let left = board.blank.thickness - 8.0 - tip;
        assert_near!(mm(named(&sums, "wood left under the hole")), left, 1e-6);
        let holes = named(&sums, "holes of this bore");
        let players = layout(&board).unwrap().holes.len() - 1;
        assert_eq!(holes.holes.len(), players);
        assert_eq!(
            holes.value,
            Some(Measure::count(u32::try_from(players).unwrap()))
        );
        let words: Vec<_> = sums.iter().filter_map(|sum| sum.words.as_deref()).collect();
        assert_eq!(
            words[2..],
            ["20 mm", "1/4\""],
            "the center hole and its pilot"
        );
    }

    /// A mouth of 12 mm, 3 mm deep: (6² + 3²) / 3 = 15; the nearest in the table are 5/8 in and 14 mm.
    #[test]
    fn a_shallow_round_bottom_needs_a_larger_ball_cutter() {
        let bore = Bore {
            diameter: 12.0,
            depth: 3.0,
            bottom: Bottom::Ball,
        };
        let mut board = Board {
            bores: Bores::all(bore),
            center: Center::Nothing,
            ..Board::default()
        };
        let sums = sums_of(&board);
        assert_near!(mm(named(&sums, "diameter of the ball cutter")), 15.0, 1e-12);
        let metric = named(&sums, "nearest metric round-nose cutter");
        assert_eq!((metric.words.as_deref(), mm(metric)), (Some("14 mm"), -1.0));
        board.bores = Bores::all(Bore { depth: 6.0, ..bore });
        let half = sums_of(&board);
        assert!(!half.iter().any(|sum| sum.name.contains("ball cutter")));
        let metric = named(&half, "nearest metric round-nose cutter");
        assert_eq!(metric.words.as_deref(), Some("12 mm"));
    }

    #[test]
    fn a_forstner_bit_for_a_flat_bottom_shows_the_floor_under_its_spur() {
        let bore = Bore {
            diameter: 15.0,
            depth: 5.0,
            bottom: Bottom::Flat,
        };
        let mut board = Board {
            bores: Bores::all(bore),
            center: Center::Nothing,
            ..Board::default()
        };
        // A depth of 5 mm and a spur of 2.5 mm leave 4 mm of 11.5 mm, the least floor.
        board.blank.thickness = 11.5;
        let sums = sums_of(&board);
        let bit = named(&sums, "nearest metric Forstner bit, spur counted");
        assert_eq!(bit.words.as_deref(), Some("15 mm"));
        assert_near!(mm(named(&sums, "wood left under its spur")), 4.0, 1e-12);
        assert_near!(mm(named(&sums, "wood left under the hole")), 6.5, 1e-12);
        board.blank.thickness = 11.4;
        let thin = sums_of(&board);
        assert!(!thin.iter().any(|sum| sum.name.contains("Forstner")));
    }

    #[test]
    fn a_pivot_is_drilled_with_any_drill() {
        let board = Board {
            center: Center::Pivot {
                diameter: 6.1,
                depth: 10.0,
            },
            ..Board::default()
        };
        let sums = sums_of(&board);
        let pivot = sums
            .iter()
            .find(|sum| sum.at == Some(Measure::mm(6.1)))
            .unwrap();
        assert_eq!(pivot.words.as_deref(), Some("6.1 mm"));
    }
}
