//! Tests of proposals, refusals, and the offers made instead, which work and are the nearest.

mod chance;

use board::{BuildError, Center, Choice, PieceKind, layout};
use geometry::{Pattern, PocketShape};
use proptest::prelude::*;
use testkit::assert_near;

use super::settle::{ALL, fit_pocket, keeps, shaped};
use super::*;
use crate::fit::tightest::measure;
use crate::{largest_bore, largest_piece, smallest_pitch_for_piece, stops};

const PATTERNS: [Pattern; 4] = [
    Pattern::Ring,
    Pattern::Lobes { depth: 0.15 },
    Pattern::Polygon,
    Pattern::Arms { across: 3 },
];

fn wish(players: u32, pattern: Pattern) -> Wishes {
    Wishes {
        players: Some(players),
        pattern: Some(pattern),
        ..Wishes::default()
    }
}

fn spare(board: &Board) -> f64 {
    measure(board, ALL).map_or(f64::NEG_INFINITY, |found| found.spare)
}

fn sized(board: &Board, diameter: f64) -> Board {
    let mut sized = board.clone();
    sized.blank.diameter = diameter;
    sized
}

fn refused(wishes: &Wishes) -> Refusal {
    match propose(wishes) {
        Err(ProposeError::Refused(refusal)) => refusal,
        other => panic!("{other:?} for {wishes:?}"),
    }
}

/// Whether a board with all of the wishes keeps its limits.
fn is_sound(wishes: &Wishes) -> bool {
    wishes.check().is_ok() && choose(wishes).is_ok_and(|choice| choice.is_sound)
}

/// Each offer gives a board, and a value slightly closer to the wish does not.
fn hold(wishes: &Wishes, refusal: &Refusal) {
    let told = format!("{refusal:?} for {wishes:?}");
    assert!(!refusal.offers.is_empty(), "nothing is offered: {told}");
    let fine = Neat::of(wishes.units.unwrap_or_default())
        .fine_step
        .times(1.0);
    for offers in &refusal.offers {
        let board = propose(&wishes.with(offers)).unwrap_or_else(|fault| panic!("{fault}: {told}"));
        assert!(!stops(Workpiece::of(&board).unwrap().findings()), "{told}");
        let [offer] = offers[..] else { continue };
        let asked = wishes.number(offer.wish).unwrap();
        let is_length = matches!(
            offer.wish,
            Wish::Pitch | Wish::Bore | Wish::Piece | Wish::Diameter
        );
        let by_twos =
            offer.wish == Wish::Spaces && !matches!(wishes.pattern, None | Some(Pattern::Ring));
        let hair = if is_length {
            fine
        } else if by_twos {
            2.0
        } else {
            1.0
        };
        let beyond = Offer {
            value: offer.value + hair.copysign(asked - offer.value),
            ..offer
        };
        assert!(
            !is_sound(&wishes.with(&[beyond])),
            "{beyond:?} does too: {told}"
        );
    }
}

#[test]
fn every_proposal_keeps_its_limits() {
    for pattern in PATTERNS {
        for players in 2..=12 {
            for spaces in [None, Some(6), Some(8), Some(10), Some(18), Some(24)] {
                let wishes = Wishes {
                    spaces,
                    ..wish(players, pattern)
                };
                match propose(&wishes) {
                    Ok(board) => assert!(spare(&board) >= -1e-9, "{pattern:?}, {wishes:?}"),
                    Err(error) => assert!(
                        pattern == Pattern::Polygon && players == 2,
                        "{pattern:?}, {wishes:?}: {error}"
                    ),
                }
            }
        }
    }
}

#[test]
fn no_smaller_neat_board_keeps_the_limits() {
    for (players, spaces, start) in [(2, 8, 4), (4, 10, 5), (6, 6, 4), (8, 4, 4), (3, 14, 10)] {
        let wishes = Wishes {
            players: Some(players),
            spaces: Some(spaces),
            start: Some(start),
            ..Wishes::default()
        };
        let board = propose(&wishes).unwrap();
        let mut diameter = board.blank.diameter - 10.0;
        while diameter > 20.0 {
            assert!(
                !keeps(&sized(&board, diameter)),
                "{players} players, {spaces} spaces: {diameter} does, {} was chosen",
                board.blank.diameter
            );
            diameter -= 10.0;
        }
    }
}

#[test]
fn no_larger_pitch_keeps_the_limits_on_a_given_board() {
    for (diameter, pattern, start) in [
        (650.0, Pattern::Ring, 4),
        (560.0, Pattern::Lobes { depth: 0.2 }, 4),
        (500.0, Pattern::Arms { across: 3 }, 4),
        (620.0, Pattern::Polygon, 4),
        // Too many to fit inside the track.
        (700.0, Pattern::Ring, 30),
    ] {
        let wishes = Wishes {
            diameter: Some(diameter),
            pattern: Some(pattern),
            start: Some(start),
            ..Wishes::default()
        };
        let board = propose(&wishes).unwrap();
        assert_eq!(board.blank.diameter, diameter);
        assert!(keeps(&board), "{pattern:?}");
        for more in [1, 3, 10] {
            let pitch = board.pitch + f64::from(more) / 10.0;
            let wider = Board {
                pitch,
                ..board.clone()
            };
            assert!(!keeps(&wider), "{pattern:?}: {pitch} would do");
        }
    }
}

#[test]
fn the_chosen_pocket_has_the_most_room_and_is_a_row_without_pockets() {
    let mut bare = Board {
        start: 0,
        ..Board::default()
    };
    fit_pocket(&mut bare);
    assert_eq!(bare.pocket.shape, PocketShape::Row);
    for units in [Units::Mm, Units::INCH] {
        for spaces in [4, 6, 10] {
            let board = propose(&Wishes {
                units: Some(units),
                spaces: Some(spaces),
                ..Wishes::default()
            })
            .unwrap();
            let taken = spare(&board);
            assert!(shaped(&board).all(|other| spare(&other) <= taken + 1e-6));
        }
    }
}

#[test]
fn pieces_and_bores_are_smaller_where_pitch_or_board_leave_no_room() {
    for units in [Units::Mm, Units::INCH] {
        let usual = Neat::of(units).usual;
        for (pitch, diameter) in [
            (Some(10.0), None),
            (Some(14.0), Some(460.0)),
            (None, Some(300.0)),
            (None, Some(450.0)),
        ] {
            let wishes = Wishes {
                units: Some(units),
                pitch,
                diameter,
                ..Wishes::default()
            };
            let board = propose(&wishes).unwrap();
            assert!(board.bores.track.diameter < usual.bore, "{wishes:?}");
            assert!(board.piece.diameter < usual.piece, "{wishes:?}");
            assert!(spare(&board) >= -1e-9, "{wishes:?}");
        }
        let roomy = Wishes {
            units: Some(units),
            diameter: Some(700.0),
            ..Wishes::default()
        };
        assert_eq!(propose(&roomy).unwrap().piece.diameter, usual.piece);
    }
}

#[test]
fn a_wished_piece_gets_a_bore_that_suits_it_and_a_wished_bore_a_piece() {
    let sized = |piece_diameter, bore| {
        let board = propose(&Wishes {
            bore,
            piece_diameter,
            ..Wishes::default()
        })
        .unwrap();
        (board.piece.diameter, board.bores.track.diameter)
    };
    assert_eq!(sized(Some(20.0), None), (20.0, 15.0));
    assert_eq!(sized(None, Some(9.0)), (12.0, 9.0));
    assert_eq!(sized(Some(14.0), Some(12.0)), (14.0, 12.0));
    let wide = Wishes {
        piece_diameter: Some(1000.0),
        ..Wishes::default()
    };
    assert!(matches!(
        propose(&wide),
        Err(ProposeError::Build(BuildError::Range(_)))
    ));
}

#[test]
fn six_players_without_wishes_get_the_145_holes_of_the_format_page() {
    let board = propose(&Wishes::default()).unwrap();
    assert_eq!(layout(&board).unwrap().holes.len(), 145);
    let mut plain = Board {
        title: "Board for 6, ring".into(),
        ..Board::default()
    };
    // A ring of R = 19 / (2 sin(180/96)) = 290.35, a bore radius of 6, a rim of 6 and a roundover of 5: a diameter of 614.7,
    // rounded up to the next ten.
    plain.blank.diameter = 620.0;
    assert_eq!(board, plain);
}

#[test]
fn sheets_have_the_widest_clearance_where_fewer_would_join_along_a_row() {
    use board::SheetLayout::{Fewest, Widest};
    let mut wider = 0;
    for spaces in 8..=18 {
        let board = propose(&Wishes {
            spaces: Some(spaces),
            home: Some(4),
            start: Some(4),
            ..Wishes::default()
        })
        .unwrap();
        let runs_along = |layout| {
            let mut laid = board.clone();
            laid.template.layout = layout;
            let workpiece = Workpiece::of(&laid).unwrap();
            let mut found = workpiece.findings().iter();
            found.any(|found| found.rule == Rule::Joints)
        };
        let wanted = if runs_along(Fewest) && !runs_along(Widest) {
            wider += 1;
            Widest
        } else {
            Fewest
        };
        assert_eq!(board.template.layout, wanted, "{spaces}");
    }
    assert!(wider > 0);
}

#[test]
fn a_pattern_turns_by_half_a_sector_where_no_shift_moves_a_joint_off_its_rows() {
    let wishes = |rotation| Wishes {
        units: Some(Units::INCH),
        players: Some(4),
        diameter: Some(20.0 * board::INCH),
        rotation,
        ..Wishes::default()
    };
    let along_a_row = |board: &Board| {
        let workpiece = Workpiece::of(board).unwrap();
        workpiece
            .findings()
            .iter()
            .any(|found| found.rule == Rule::Joints)
    };
    let turned = propose(&wishes(None)).unwrap();
    assert_eq!(turned.rotation, 45.0);
    assert!(!along_a_row(&turned));
    // A rotation that was asked for stays unchanged.
    let asked = propose(&wishes(Some(0.0))).unwrap();
    assert!(asked.rotation == 0.0 && along_a_row(&asked));
}

#[test]
fn inch_boards_come_in_neat_inches() {
    let board = propose(&Wishes {
        units: Some(Units::INCH),
        ..Wishes::default()
    })
    .unwrap();
    for length in [
        board.pitch,
        board.blank.diameter,
        board.piece.diameter,
        board.blank.thickness,
    ] {
        let parts = length / 25.4 * 16.0;
        assert_near!(parts, parts.round(), 1e-6);
    }
}

#[test]
fn small_bores_get_a_thinner_pin_and_large_bores_leave_a_floor() {
    for bore in [3.0, 6.0, 8.0, 60.0] {
        let board = propose(&Wishes {
            bore: Some(bore),
            ..Wishes::default()
        })
        .unwrap();
        assert!(board.center.pilot().unwrap() >= board.jig.pin);
        assert!(board.center.pilot().unwrap() < bore);
        assert!(board.bores.track.depth < board.blank.thickness);
    }
}

#[test]
fn the_ball_of_a_magnet_piece_lies_flush_and_leaves_the_floor() {
    for units in [Units::Mm, Units::INCH] {
        let board = propose(&Wishes {
            units: Some(units),
            piece: Some(PieceKind::Magnet),
            ..Wishes::default()
        })
        .unwrap();
        let bore = board.bores.track;
        assert!(bore.depth >= bore.diameter, "{bore:?}");
        let floor = board.blank.thickness - crate::deepest(bore, board.bores.spur);
        assert!(floor >= board.limits.floor - 1e-9, "{floor}");
    }
}

/// Of bores from the size of a needle to that of a plate: balls and discs neither stand proud nor lie deep, and the blank is
/// large enough.
#[test]
fn magnet_pieces_of_every_size_hold_on_their_board() {
    for units in [Units::Mm, Units::INCH] {
        for bore in [2.0, 4.5, 9.0, 12.7, 16.0, 22.0, 26.0, 29.0, 35.0, 60.0] {
            let wishes = Wishes {
                units: Some(units),
                piece: Some(PieceKind::Magnet),
                bore: Some(bore),
                ..Wishes::default()
            };
            let Ok(board) = propose(&wishes) else {
                panic!("{bore} {units:?}")
            };
            let findings = Workpiece::of(&board).unwrap().findings().to_vec();
            let spoiled = findings
                .iter()
                .filter(|found| matches!(found.rule, Rule::Seat | Rule::Stock | Rule::Floor));
            assert_eq!(spoiled.count(), 0, "{bore} {units:?}: {findings:#?}");
        }
    }
}

#[test]
fn no_wish_is_changed() {
    let wishes = Wishes {
        players: Some(4),
        spaces: Some(18),
        home: Some(5),
        start: Some(5),
        pitch: Some(21.3),
        diameter: Some(700.0),
        bore: Some(13.0),
        rotation: Some(45.0),
        ..Wishes::default()
    };
    let board = propose(&wishes).unwrap();
    for wish in Wish::ALL {
        let asked = wishes.number(wish);
        assert!(
            asked.is_none_or(|asked| asked == nearest::value(&board, wish)),
            "{wish:?}"
        );
    }
    assert_eq!(board.rotation, 45.0);
}

#[test]
fn a_short_track_shortens_the_lane_and_an_odd_one_on_arms_is_an_error() {
    let board = propose(&Wishes {
        players: Some(2),
        spaces: Some(8),
        ..Wishes::default()
    })
    .unwrap();
    assert!(board.home < 4);
    let odd = Wishes {
        spaces: Some(13),
        ..wish(4, Pattern::Arms { across: 3 })
    };
    assert!(matches!(
        propose(&odd),
        Err(ProposeError::Build(BuildError::Geometry(_)))
    ));
}

/// Both boards have lanes that run so close to the center pin that their last holes are less than 4 mm and less than 1 mm from
/// it.
#[test]
fn lanes_that_meet_at_the_center_are_refused_with_working_offers() {
    let ring = Wishes {
        home: Some(3),
        spaces: Some(10),
        pitch: Some(20.1),
        ..wish(2, Pattern::Ring)
    };
    let polygon = Wishes {
        home: Some(4),
        spaces: Some(14),
        start: Some(3),
        pitch: Some(19.6),
        ..wish(3, Pattern::Polygon)
    };
    for wishes in [ring, polygon] {
        let refusal = refused(&wishes);
        hold(&wishes, &refusal);
        let offered = |wish| {
            refusal
                .offers
                .iter()
                .flatten()
                .find(|offer| offer.wish == wish)
        };
        assert_eq!(
            offered(Wish::Home).map(|o| o.value),
            wishes.home.map(|home| f64::from(home) - 1.0)
        );
        assert!(offered(Wish::Pitch).is_some() && offered(Wish::Spaces).is_some());
    }
}

#[test]
fn a_tight_wish_is_refused_with_the_solvers_values() {
    let tight = Wishes {
        pitch: Some(14.0),
        bore: Some(12.0),
        piece_diameter: Some(16.0),
        ..Wishes::default()
    };
    let refusal = refused(&tight);
    hold(&tight, &refusal);
    let offered = |wish| {
        let mut offers = refusal.offers.iter().flatten();
        offers
            .find(|offer| offer.wish == wish)
            .map(|offer| offer.value)
    };
    let free = propose(&Wishes {
        pitch: None,
        ..tight.clone()
    })
    .unwrap();
    let pitch = smallest_pitch_for_piece(&Board {
        start: 0,
        ..free.clone()
    })
    .unwrap();
    assert_near!(offered(Wish::Pitch).unwrap(), pitch, 1e-9);
    let at_pitch = Board {
        pitch: 14.0,
        ..free
    };
    // A marble of 12.1 mm on a bore of 12 mm would sink too deep, while one of 12 mm leaves the gap.
    assert_near!(largest_piece(&at_pitch).unwrap(), 12.0, 1e-9);
    assert_near!(largest_bore(&at_pitch).unwrap(), 11.0, 1e-6);
    let sentence = propose(&tight).unwrap_err().to_string();
    assert!(sentence.contains("a hole spacing of 18 mm"), "{sentence}");
}

#[test]
fn a_board_too_small_is_refused_with_the_smallest_that_works() {
    for units in [Units::Mm, Units::INCH] {
        let small = Wishes {
            units: Some(units),
            diameter: Some(60.0),
            ..Wishes::default()
        };
        let refusal = refused(&small);
        hold(&small, &refusal);
        assert_eq!(refusal.offers.len(), 1, "{refusal:?}");
        let both = Wishes {
            units: Some(units),
            pitch: Some(19.0),
            ..small.clone()
        };
        let refusal = refused(&both);
        hold(&both, &refusal);
        let board = refusal
            .offers
            .iter()
            .flatten()
            .find(|o| o.wish == Wish::Diameter);
        assert!((570.0..650.0).contains(&board.unwrap().value));
    }
}

#[test]
fn a_marble_that_falls_in_is_refused_with_a_bore_and_a_marble_that_fit() {
    let wishes = Wishes {
        bore: Some(16.0),
        piece_diameter: Some(16.0),
        ..Wishes::default()
    };
    let refusal = refused(&wishes);
    hold(&wishes, &refusal);
    // A marble of 16 mm that sinks by 45 % rests on a bore of 2 √(8² - 0.8²) = 15.92 mm.
    let values: Vec<f64> = refusal
        .offers
        .iter()
        .flatten()
        .map(|offer| offer.value)
        .collect();
    assert_eq!(values, [15.9, 16.1]);
}

#[test]
fn several_numbers_are_offered_together_where_no_single_one_helps() {
    let wishes = Wishes {
        pitch: Some(12.0),
        diameter: Some(100.0),
        bore: Some(20.0),
        piece_diameter: Some(10.0),
        ..Wishes::default()
    };
    let refusal = refused(&wishes);
    hold(&wishes, &refusal);
    assert!(refusal.offers[0].len() > 1, "{refusal:?}");
    assert!(propose(&wishes).unwrap_err().to_string().contains(" with "));
}

#[test]
fn the_nearest_bore_is_offered_even_where_an_open_bore_finds_none() {
    let wishes = Wishes {
        bore: Some(0.1),
        piece: Some(PieceKind::Magnet),
        piece_diameter: Some(0.1),
        ..Wishes::default()
    };
    let Err(ProposeError::Refused(refusal)) = propose(&wishes) else {
        panic!("no pilot is narrower than the narrowest bore");
    };
    hold(&wishes, &refusal);
    let alone = Wishes {
        players: Some(1),
        home: Some(7),
        ..Wishes::default()
    };
    if let Err(ProposeError::Refused(refusal)) = propose(&alone) {
        hold(&alone, &refusal);
    }
    assert!(matches!(
        refusal.offers[0][..],
        [Offer {
            wish: Wish::Bore,
            ..
        }]
    ));
}
