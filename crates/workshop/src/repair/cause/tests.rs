//! Tests that simulated faults are recognized as the likeliest cause.

use super::*;
use board::{Board, Distance, Layout, layout};
use proptest::prelude::*;
use testkit::assert_near;

/// A board with distances between pairs of its holes, each hole moved from its place before it is measured.
fn measured(
    on: MeasuredOn,
    pairs: &[(usize, usize)],
    moved: impl Fn(usize, Point) -> Point,
) -> Workpiece {
    let mut board = Board::default();
    let Layout { holes, .. } = layout(&board).unwrap();
    board.measured.on = on;
    let distance = |&(from, to): &(usize, usize)| {
        let at = |hole: usize| moved(hole, holes[hole].center);
        Distance {
            from: holes[from].name.id(),
            to: holes[to].name.id(),
            distance: at(from).distance(at(to)),
        }
    };
    board.measured.distances = pairs.iter().map(distance).collect();
    Workpiece::of(&board).unwrap()
}

/// Distances between holes far apart, in many directions.
fn long_ones(count: usize) -> Vec<(usize, usize)> {
    (0..count)
        .map(|at| (7 * at % 96, (7 * at + 35 + 5 * (at % 3)) % 96))
        .collect()
}

fn causes(workpiece: &Workpiece) -> Vec<Cause> {
    match readings(workpiece).verdict {
        Verdict::Causes { causes, .. } => causes,
        other => panic!("{other:?}"),
    }
}

#[test]
fn distances_as_laid_out_are_right_and_no_distances_give_no_verdict() {
    let as_laid_out = |pairs: &[(usize, usize)]| measured(MeasuredOn::Template, pairs, |_, at| at);
    assert_eq!(readings(&as_laid_out(&long_ones(6))).verdict, Verdict::True);
    assert_eq!(readings(&as_laid_out(&[])).verdict, Verdict::Nothing);
}

#[test]
fn one_wrong_distance_is_too_few_to_tell() {
    let workpiece = measured(MeasuredOn::Template, &[(0, 40)], |_, at| {
        (at.to_vec2() * 1.01).to_point()
    });
    assert_eq!(readings(&workpiece).verdict, Verdict::TooFew);
}

#[test]
fn a_print_stretched_one_way_and_out_of_square_is_recognized() {
    let stretched = |_, at: Point| Point::new(at.x * 1.004 + at.y * 0.003, at.y * 0.998);
    let found = causes(&measured(MeasuredOn::Template, &long_ones(12), stretched));
    let [Cause::Strain { across, up, skew }] = found[..] else {
        panic!("{found:?}")
    };
    assert_near!(across, 0.004, 5e-5);
    assert_near!(up, -0.002, 5e-5);
    assert_near!(skew.as_radians(), 0.003, 5e-5);
}

#[test]
fn a_slipped_sheet_is_named_with_its_shift() {
    let plain = measured(MeasuredOn::Template, &[], |_, at| at);
    let tiling = plain.tiling().unwrap();
    assert!(tiling.tiles.len() > 3);
    let tile = tiling.tiles[0];
    let on = (tile.column as usize, tile.row as usize);
    let shifted = |_, at: Point| {
        if sheet_of(Some(tiling), at) == on {
            at + Vec2::new(1.2, -0.7)
        } else {
            at
        }
    };
    let holes = &plain.layout().holes;
    let on_it = (0..96).filter(|hole| sheet_of(Some(tiling), holes[*hole].center) == on);
    let others = [12, 30, 48, 66, 78];
    let across = on_it.flat_map(|hole| others.map(|other| (hole, other)));
    let pairs: Vec<_> = across.chain(long_ones(6)).take(40).collect();
    let found = causes(&measured(MeasuredOn::Template, &pairs, shifted));
    let [Cause::Slip { sheet, shift, turn }] = &found[..] else {
        panic!("{found:?}")
    };
    assert_eq!(*sheet, tile.label());
    assert_near!(shift.x, 1.2, 0.02);
    assert_near!(shift.y, -0.7, 0.02);
    assert_near!(turn.as_degrees(), 0.0, 0.02);
}

#[test]
fn two_holes_out_of_place_are_named() {
    let off = |hole, at: Point| match hole {
        5 => at + Vec2::new(0.0, 1.5),
        50 => at + Vec2::new(-1.1, 0.4),
        _ => at,
    };
    let mut pairs = long_ones(10);
    pairs.extend([20, 40, 60, 75].iter().flat_map(|to| [(5, *to), (50, *to)]));
    let workpiece = measured(MeasuredOn::Board, &pairs, off);
    let mut found = causes(&workpiece);
    found.sort_by_key(|cause| format!("{cause:?}"));
    let holes = &workpiece.layout().holes;
    let by = |index: usize| {
        found.iter().find_map(|cause| match cause {
            Cause::Off { hole, by } if *hole == holes[index].name => Some(*by),
            _ => None,
        })
    };
    assert_eq!(found.len(), 2, "{found:?}");
    assert_near!(by(5).unwrap().y, 1.5, 0.02);
    assert_near!(by(50).unwrap().x, -1.1, 0.02);
}

#[test]
fn readings_that_no_cause_explains_are_unclear_and_unknown_holes_are_named() {
    let mut workpiece = measured(MeasuredOn::Template, &long_ones(8), |_, at| at);
    let mut board = workpiece.board().clone();
    for (at, distance) in board.measured.distances.iter_mut().enumerate() {
        distance.distance += if at % 2 == 0 { 9.0 } else { -9.0 };
    }
    board.measured.distances.push(Distance {
        to: "T6-99".parse().unwrap(),
        distance: 10.0,
        ..Distance::default()
    });
    workpiece = Workpiece::of(&board).unwrap();
    let told = readings(&workpiece);
    assert_eq!(told.verdict, Verdict::Unclear);
    assert_eq!(told.unknown, ["T6-99".parse().unwrap()]);
    assert_eq!(told.readings.len(), 8);
}

#[test]
fn two_causes_that_fit_equally_are_reported_with_a_distance_that_decides() {
    // Two holes were measured from each other and from one more: either may be the one out of place.
    let off = |hole, at: Point| {
        if hole == 3 {
            at + Vec2::new(0.0, 1.0)
        } else {
            at
        }
    };
    let workpiece = measured(
        MeasuredOn::Board,
        &[(3, 45), (3, 46), (10, 50), (20, 60)],
        off,
    );
    let Verdict::Causes { or, ask, .. } = readings(&workpiece).verdict else {
        panic!()
    };
    assert!(!or.is_empty() && ask.is_some());
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(60))]

    /// Reading errors within the ± hardly change the scale that is found.
    #[test]
    fn a_scale_is_found_despite_reading_errors(
        share in prop_oneof![-0.02..-0.003_f64, 0.003..0.02_f64],
        errors in prop::collection::vec(-0.25..0.25_f64, 24),
    ) {
        let workpiece = measured(MeasuredOn::Template, &long_ones(24), |_, at| (at.to_vec2() * (1.0 + share)).to_point());
        let mut board = workpiece.board().clone();
        for (distance, error) in board.measured.distances.iter_mut().zip(&errors) {
            distance.distance += error;
        }
        let told = readings(&Workpiece::of(&board).unwrap());
        let Verdict::Causes { causes, .. } = told.verdict else { panic!("{told:?}") };
        let found = causes.iter().find_map(|cause| match cause {
            Cause::Scale { share } => Some([*share, *share]),
            Cause::Strain { across, up, .. } => Some([*across, *up]),
            _ => None,
        });
        let found: [f64; 2] = found.unwrap();
        for found in found {
            prop_assert!(f64::abs(found - share) < 0.002, "{found} for {share}: {causes:?}");
        }
    }
}
