//! The main job compared with published values: layouts checked in the exported files.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    reason = "a test that cannot go on has failed"
)]

use app::exports::Kind;
use board::{Board, Center, layout};
use geometry::Pattern;
use testkit::assert_near;
use tests::{exported, worked};
use workshop::{Wishes, propose};

fn ring(holes: u32, pitch: f64) -> Board {
    Board {
        players: 1,
        spaces: holes,
        home: 0,
        start: 0,
        pitch,
        center: Center::Nothing,
        ..Board::default()
    }
}

fn column(board: &Board, column: usize) -> Vec<f64> {
    let bytes = exported(Kind::Csv, board);
    let mut reader = csv::Reader::from_reader(bytes.as_slice());
    reader
        .records()
        .map(|row| row.unwrap()[column].parse().unwrap())
        .collect()
}

/// Machinery's Handbook Guide, chords of divided circles: 56 holes at a pitch of 2.156 in lie on 38.452 in.
#[test]
fn fifty_six_holes_lie_on_the_handbooks_circle() {
    for radius in column(&ring(56, 2.156 * 25.4), 6) {
        assert_near!(2.0 * radius / 25.4, 38.452, 1e-3);
    }
}

/// Exact: chord = D sin(180/n), not the arc; D 400 and n 60 give 20.9343825 and 20.9439510.
#[test]
fn the_pitch_is_the_chord_and_not_the_arc() {
    for radius in column(&ring(60, 20.934_382_5), 6) {
        assert_near!(2.0 * radius, 400.0, 1e-5);
    }
}

/// Machinery's Handbook, 31st ed. (2020), p. 711, example 3(a): six holes on a radius of 5, 60 degrees apart,
/// the first at 30 degrees: (4.3301, 2.5), (0, 5), (-4.3301, 2.5) from the center.
#[test]
fn six_holes_have_the_handbooks_coordinates() {
    let board = Board {
        rotation: 60.0,
        ..ring(6, 50.0)
    };
    let (x, y) = (column(&board, 4), column(&board, 5));
    for (wanted_x, wanted_y) in [
        (43.301, 25.0),
        (0.0, 50.0),
        (-43.301, 25.0),
        (-43.301, -25.0),
        (0.0, -50.0),
        (43.301, -25.0),
    ] {
        let found = x
            .iter()
            .zip(&y)
            .any(|(x, y)| (x - wanted_x).abs() < 5e-3 && (y - wanted_y).abs() < 1e-5);
        assert!(found, "no hole at ({wanted_x}, {wanted_y})");
    }
}

/// Machinery's Handbook, 31st ed. (2020), p. 82: for a hexagon with side S, the corners are at R = S and the midpoints of the
/// sides at r = 0.8660 S.
#[test]
fn a_polygon_board_has_the_handbooks_radii() {
    let board = Board {
        pattern: Pattern::Polygon,
        home: 0,
        start: 0,
        center: Center::Nothing,
        ..Board::default()
    };
    let side = f64::from(board.spaces) * board.pitch;
    let radii = column(&board, 6);
    let most = radii.iter().copied().fold(0.0, f64::max);
    let least = radii.iter().copied().fold(f64::INFINITY, f64::min);
    assert_near!(most / side, 1.0, 1e-6);
    assert_near!(least / side, 0.8660, 5e-5);
}

/// Common practice, no source: 6 (14 + 4 + 4) + 1 = 133.
#[test]
fn six_players_make_133_holes_on_every_pattern() {
    for pattern in [
        Pattern::Ring,
        Pattern::Lobes { depth: 0.1 },
        Pattern::Polygon,
        Pattern::Arms { across: 3 },
    ] {
        let board = propose(&Wishes {
            pattern: Some(pattern),
            spaces: Some(14),
            home: Some(4),
            start: Some(4),
            ..Wishes::default()
        })
        .unwrap();
        assert_eq!(layout(&board).unwrap().holes.len(), 133, "{pattern:?}");
        assert!(!workshop::stops(worked(&board).findings()));
    }
}

/// Sheets counted from published paper sizes: with margins and overlap of 10 mm, 500 mm take 3 × 2 sheets of A4.
#[test]
fn a_board_of_500_mm_takes_six_sheets_of_a4() {
    let mut board = Board::default();
    board.blank.diameter = 500.0;
    let tiling = worked(&board).tiling().unwrap().clone();
    assert_eq!(tiling.columns * tiling.rows, 6);
}
