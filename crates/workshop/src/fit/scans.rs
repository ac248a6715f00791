//! Every solution compared with a dense scan of sizes, on every pattern and pocket shape, with and without hand edits.

use board::{Board, layout};
use geometry::{Circle, Pattern, PocketShape, web_between};
use proptest::prelude::*;
use testkit::assert_near;

use super::*;
use crate::bores::seat::{MarbleSeat, marble_seat};
use crate::fit::bore::with_bores;

const PATTERNS: [Pattern; 4] = [
    Pattern::Ring,
    Pattern::Lobes { depth: 0.2 },
    Pattern::Polygon,
    Pattern::Arms { across: 3 },
];
const SHAPES: [PocketShape; 4] = [
    PocketShape::Row,
    PocketShape::Arc,
    PocketShape::Block,
    PocketShape::Ring,
];

/// The margins over rim, web and gap by comparing everything with everything, and the margin over the seat of the marble;
/// `None` if the board cannot be laid out.
fn spares(board: &Board) -> Option<[f64; 4]> {
    let layout = layout(board).ok()?;
    let mouths = layout.mouths();
    let seats: Vec<Circle> = layout
        .seats(board)
        .iter()
        .map(|hole| Circle::new(hole.center, board.piece.diameter / 2.0))
        .collect();
    let apart = |circles: &[Circle]| {
        let pairs = circles
            .iter()
            .enumerate()
            .flat_map(|(at, one)| circles.iter().skip(at + 1).map(move |other| (one, other)));
        pairs
            .map(|(one, other)| web_between(*one, *other))
            .fold(f64::INFINITY, f64::min)
    };
    Some([
        rim_spare(board, &mouths),
        apart(&mouths) - board.limits.web,
        apart(&seats) - board.limits.piece_gap,
        seat_spare(board),
    ])
}

/// The depth by which the marble may still sink, in the bore where that is least; negative if it stands on the floor.
fn seat_spare(board: &Board) -> f64 {
    let bores = [board.bores.track, board.bores.home, board.bores.start];
    let marble = board.piece.diameter;
    let spare = |bore| match marble_seat(bore, marble) {
        MarbleSeat::FallsIn => -marble,
        MarbleSeat::OnFloor { sinks, wants } => sinks - wants,
        MarbleSeat::OnRim { sinks, .. } => board.limits.seat_most * marble - sinks,
    };
    bores.into_iter().map(spare).fold(f64::INFINITY, f64::min)
}

fn rim_spare(board: &Board, mouths: &[Circle]) -> f64 {
    let reach = mouths
        .iter()
        .map(|mouth| mouth.center.to_vec2().length() + mouth.radius)
        .fold(0.0, f64::max);
    board.blank.flat_radius() - reach - board.limits.rim
}

/// A value to solve for: the solver, the limits it keeps, and how to put a value into the document.
struct Case {
    name: &'static str,
    solve: fn(&Board) -> Result<f64, FitError>,
    limits: &'static [usize],
    put: fn(&Board, f64) -> Board,
    /// Whether larger values are better.
    up: f64,
    span: f64,
}

const CASES: [Case; 4] = [
    Case {
        name: "board",
        solve: smallest_board,
        limits: &[0],
        put: |board, mm| {
            let mut board = board.clone();
            board.blank.diameter = mm;
            board
        },
        up: -1.0,
        span: 150.0,
    },
    Case {
        name: "pitch",
        solve: largest_pitch,
        limits: &[0],
        put: |board, mm| Board {
            pitch: mm,
            ..board.clone()
        },
        up: 1.0,
        span: 12.0,
    },
    Case {
        name: "bore",
        solve: largest_bore,
        limits: &[0, 1, 3],
        put: with_bores,
        up: 1.0,
        span: 10.0,
    },
    Case {
        name: "pitch for the piece",
        solve: smallest_pitch_for_piece,
        limits: &[1, 2],
        put: |board, mm| {
            let mut board = board.clone();
            board.blank.diameter = 5000.0;
            board.pitch = mm;
            board
        },
        up: -1.0,
        span: 12.0,
    },
];

impl Case {
    fn spare(&self, board: &Board, mm: f64) -> Option<f64> {
        let spares = spares(&(self.put)(board, mm))?;
        let kept = self.limits.iter().map(|limit| spares[*limit]);
        Some(kept.fold(f64::INFINITY, f64::min))
    }

    fn fits(&self, board: &Board, mm: f64) -> bool {
        self.spare(board, mm).is_some_and(|spare| spare >= -1e-9)
    }

    /// The value keeps its limits, a slightly larger one does not, and neither does any value of a scan beyond it.
    fn hold(&self, board: &Board, steps: u32) {
        let scanned = (1..=steps).map(|step| self.span * f64::from(step) / f64::from(steps));
        let mm = match (self.solve)(board) {
            Ok(mm) => mm,
            Err(error) => {
                let fitting = scanned.map(|mm| 3.0 * mm).find(|mm| self.fits(board, *mm));
                assert_eq!(fitting, None, "{}: {error} for {board:?}", self.name);
                return;
            }
        };
        let told = format!("{}: {mm} of {board:?}", self.name);
        assert!(self.fits(board, mm), "{told} misses its limits");
        assert!(
            !self.fits(board, mm + self.up * 1e-6),
            "{told} is not the last"
        );
        for away in scanned {
            let beyond = (mm + self.up * away).max(0.1);
            assert!(!self.fits(board, beyond), "{told}: {beyond} would do");
        }
    }
}

fn edited(board: &Board) -> Board {
    let mut board = board.clone();
    board.set_moved("T1-3".parse().unwrap(), true, (2.0, 5.0));
    board.set_moved("S2-1".parse().unwrap(), false, (-3.0, 1.0));
    board.drop_hole("T2-2".parse().unwrap(), false);
    let mut bore = board.bores.track;
    bore.diameter = 9.0;
    board.set_bore("H1-1".parse().unwrap(), true, Some(bore));
    board.add_hole(false, (20.0, 30.0), bore);
    board
}

#[test]
fn solutions_without_pockets_match_a_scan() {
    for pattern in PATTERNS {
        let mut plain = Board {
            pattern,
            start: 0,
            ..Board::default()
        };
        plain.blank.diameter = 580.0;
        for board in [edited(&plain), plain] {
            for case in &CASES {
                case.hold(&board, 100);
            }
        }
    }
}

#[test]
fn solutions_with_automatic_pockets_match_a_scan() {
    for (number, pattern) in PATTERNS.into_iter().enumerate() {
        for (place, shape) in SHAPES.into_iter().enumerate() {
            let mut plain = Board {
                pattern,
                players: 4,
                spaces: 8,
                home: 3,
                start: 3,
                ..Board::default()
            };
            plain.pocket.shape = shape;
            plain.blank.diameter = 330.0;
            let by_hand = (number + place) % 2 == 0;
            let board = if by_hand { edited(&plain) } else { plain };
            for case in &CASES {
                case.hold(&board, 8);
            }
        }
    }
}

#[test]
fn solutions_with_hand_set_pockets_match_a_scan() {
    for shape in SHAPES {
        let mut plain = Board::default();
        plain.pocket.shape = shape;
        plain.pocket.bearing = Some(30.0);
        plain.pocket.radius = Some(120.0);
        for board in [edited(&plain), plain] {
            for case in &CASES {
                case.hold(&board, 20);
            }
        }
    }
}

/// Pockets that jump to the rim as the board grows keep the rim margin on small and on large boards, but not between.
#[test]
fn the_smallest_board_may_be_smaller_than_boards_that_do_not_fit() {
    let mut board = Board {
        players: 3,
        spaces: 6,
        home: 2,
        start: 3,
        ..Board::default()
    };
    board.pocket.shape = PocketShape::Block;
    let diameter = smallest_board(&board).unwrap();
    assert!(CASES[0].fits(&board, diameter));
    assert!(!CASES[0].fits(&board, diameter + 48.0));
    assert!(CASES[0].fits(&board, diameter + 200.0));
    CASES[0].hold(&board, 60);
}

/// Where holes are moved by hand, a pitch can also be too small; the largest that fits is found all the same.
#[test]
fn a_hole_moved_past_the_center_still_has_a_largest_pitch() {
    let mut board = Board {
        start: 0,
        ..Board::default()
    };
    board.set_moved("T1-9".parse().unwrap(), false, (0.0, -340.0));
    assert!(!CASES[1].fits(&board, 0.1));
    CASES[1].hold(&board, 200);
}

/// Chord c = D sin(180/n): Machinery's Handbook, 31st ed. (2020), p. 711. Rings of touching balls of radius 8: R = 8 /
/// sin(180/n), computed: 12 balls 30.909626, 40 balls 101.963959.
#[test]
fn a_ring_of_touching_pieces_has_the_published_radius() {
    for (players, spaces, radius) in [(6, 2, 30.909_626), (4, 10, 101.963_959)] {
        let mut board = Board {
            players,
            spaces,
            home: 0,
            start: 0,
            center: board::Center::Nothing,
            ..Board::default()
        };
        (board.limits.piece_gap, board.limits.web) = (0.0, 0.0);
        let found = smallest_board_for_piece(&board).unwrap();
        assert_near!(found.pitch, 16.0, 1e-9);
        let outer = 6.0 + board.limits.rim + board.blank.roundover;
        assert_near!(found.diameter / 2.0 - outer, radius, 1e-6);
    }
}

#[test]
fn a_board_for_a_piece_keeps_every_limit() {
    for pattern in PATTERNS {
        let board = Board {
            pattern,
            ..Board::default()
        };
        let found = smallest_board_for_piece(&board).unwrap();
        let mut sized = Board {
            pitch: found.pitch,
            ..board
        };
        sized.blank.diameter = found.diameter;
        assert!(spares(&sized).unwrap().iter().all(|spare| *spare >= -1e-9));
        sized.blank.diameter -= 1e-6;
        assert!(spares(&sized).unwrap().iter().any(|spare| *spare < -1e-9));
    }
}

#[test]
fn the_most_spaces_match_a_scan_over_all_counts() {
    for pattern in PATTERNS {
        for (home, start, edits) in [(4, 0, false), (0, 0, true), (4, 4, false), (2, 3, true)] {
            let mut board = Board {
                pattern,
                players: 4,
                home,
                start,
                ..Board::default()
            };
            if edits {
                board = edited(&board);
            }
            let fits = |spaces: u32| {
                let counted = Board {
                    spaces,
                    ..board.clone()
                };
                layout(&counted).is_ok_and(|layout| rim_spare(&counted, &layout.mouths()) >= -1e-9)
            };
            // Pockets slow the scan down; a track of 40 is far too long in any case.
            let last = if start == 0 { 250 } else { 40 };
            let scanned = (1..=last).rev().find(|spaces| fits(*spaces));
            assert_eq!(most_spaces(&board).ok(), scanned, "{board:?}");
        }
    }
}

#[test]
fn the_shortfall_is_reported_where_no_count_fits() {
    let mut board = Board::default();
    board.blank.diameter = 60.0;
    for pattern in PATTERNS {
        board.pattern = pattern;
        let error = most_spaces(&board).unwrap_err();
        assert!(
            matches!(error, FitError::Nothing { short, limit: Limit::Rim, .. } if short > 0.0),
            "{error}"
        );
    }
    let lonely = Board {
        players: 1,
        pattern: Pattern::Polygon,
        ..Board::default()
    };
    assert!(matches!(most_spaces(&lonely), Err(FitError::Build(_))));
}

#[test]
fn the_obstacle_is_named() {
    let limit = |error: FitError| match error {
        FitError::Nothing {
            limit,
            holes,
            short,
            ..
        } => {
            assert!(short > 0.0 && !holes.is_empty());
            limit
        }
        FitError::Build(fault) => panic!("{fault}"),
    };
    let mut small = Board::default();
    small.blank.diameter = 30.0;
    assert_eq!(limit(largest_pitch(&small).unwrap_err()), Limit::Rim);
    assert_eq!(limit(rim_left(&small).unwrap_err()), Limit::Flat);
    assert_eq!(limit(largest_bore(&small).unwrap_err()), Limit::Rim);
    let huge = Board {
        start: 0,
        pitch: 249.0,
        spaces: 30,
        ..Board::default()
    };
    assert_eq!(limit(smallest_board(&huge).unwrap_err()), Limit::Rim);
    assert_eq!(limit(largest_piece(&huge).unwrap_err()), Limit::Edge);
    let mut wide = Board::default();
    wide.limits.piece_gap = 150.0;
    assert_eq!(limit(largest_piece(&wide).unwrap_err()), Limit::Gap);
    wide.limits.web = 150.0;
    assert_eq!(limit(largest_bore(&wide).unwrap_err()), Limit::Web);
    let twins = {
        let mut board = Board::default();
        let bore = board.bores.track;
        board.add_hole(false, (0.0, 60.0), bore);
        board.add_hole(false, (0.0, 65.0), bore);
        board
    };
    assert!(matches!(
        limit(smallest_pitch_for_piece(&twins).unwrap_err()),
        Limit::Web | Limit::Gap
    ));
}

#[test]
fn a_board_that_cannot_be_laid_out_reports_why() {
    let odd = Board {
        pattern: Pattern::Arms { across: 3 },
        spaces: 13,
        ..Board::default()
    };
    for open in Open::ALL {
        assert!(matches!(solve(&odd, open), Err(FitError::Build(_))));
    }
}

fn boards() -> impl Strategy<Value = Board> {
    let counts = (2_u32..7, 2_u32..9, 0_u32..4, 0_u32..4);
    let sizes = (14.0..30.0_f64, 320.0..700.0_f64, 0.0..8.0_f64, 1.0..5.0_f64);
    (0..4_usize, 0..4_usize, counts, sizes, any::<bool>()).prop_map(
        |(pattern, shape, (players, half, home, start), (pitch, diameter, rim, web), by_hand)| {
            let mut board = Board {
                pattern: PATTERNS[pattern],
                players,
                spaces: 2 * half,
                home,
                start,
                pitch,
                ..Board::default()
            };
            board.pocket.shape = SHAPES[shape];
            board.blank.diameter = diameter;
            (board.limits.rim, board.limits.web) = (rim, web);
            if by_hand { edited(&board) } else { board }
        },
    )
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(12))]

    #[test]
    fn a_solution_keeps_its_limits_and_slightly_more_breaks_one(board in boards()) {
        for case in &CASES {
            let Ok(mm) = (case.solve)(&board) else { continue };
            prop_assert!(case.fits(&board, mm), "{} {mm}", case.name);
            prop_assert!(!case.fits(&board, mm + case.up * 2e-6), "{} {mm}", case.name);
        }
    }

    #[test]
    fn the_rim_and_piece_found_are_those_of_the_board(board in boards()) {
        let Some([rim, _, gap, _]) = spares(&board) else { return Ok(()) };
        if let Ok(left) = rim_left(&board) {
            let there = (rim + board.limits.rim).min(200.0);
            prop_assert!((left - there).abs() < 1e-9);
        }
        if let Ok(piece) = largest_piece(&board) {
            let mut held = board.clone();
            Solved { open: Open::Piece, mm: piece }.apply(&mut held);
            prop_assert!(piece <= board.piece.diameter + gap + 1e-9);
            let [_, _, gap, _] = spares(&held).unwrap_or_default();
            let outermost = crate::Workpiece::of(&held).map(|held| held.figures().reach).unwrap_or_default();
            let over = board.blank.radius() - outermost - piece / 2.0;
            prop_assert!(gap >= -1e-9 && over >= -1e-9);
            prop_assert!(gap < 1e-9 || over < 1e-9, "{piece} {gap} {over}");
        }
    }
}
