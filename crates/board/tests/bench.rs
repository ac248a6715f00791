//! Wood, base, lid and pieces come back from the file as they were written, and files without them are read.
#![allow(clippy::unwrap_used, reason = "a test that cannot go on has failed")]

use board::{
    Air, Base, Board, Cut, Footing, Insert, LidFit, LidGrain, LidHold, Magnet, Piece, PieceKind,
    Recess, RecessShape, Toward, Wood, out_of_range, read_board, write_board,
};
use proptest::prelude::*;

fn woods() -> impl Strategy<Value = Wood> {
    let air = || {
        (-40.0..80.0_f64, 0.0..100.0_f64).prop_map(|(temperature, humidity)| Air {
            temperature,
            humidity,
        })
    };
    let typed = (
        prop::option::of(0.0..30.0_f64),
        prop::option::of(0.0..0.01_f64),
        prop::option::of(50.0..1700.0_f64),
    );
    let cut = prop::sample::select(&Cut::ALL[..]);
    (".{0,12}", cut, typed, [air(), air(), air()]).prop_map(
        |(species, cut, (moisture, change, density), [shop, dry, humid])| Wood {
            species,
            cut,
            moisture,
            change,
            density,
            shop,
            dry,
            humid,
        },
    )
}

fn bases() -> impl Strategy<Value = Base> {
    let footing = prop_oneof![
        (1.0..5000.0_f64).prop_map(|diameter| Footing::Round { diameter }),
        (3_u32..=60, 1.0..5000.0_f64).prop_map(|(count, circle)| Footing::Feet { count, circle }),
    ];
    let load = || prop::option::of(0.0..10_000.0_f64);
    (footing, 0.0..1000.0_f64, load(), 0.0..10_000.0_f64, load()).prop_map(
        |(footing, height, rating, load, board)| Base {
            footing,
            height,
            rating,
            load,
            board,
        },
    )
}

fn lids() -> impl Strategy<Value = LidFit> {
    let toward = prop::sample::select(&Toward::ALL[..]);
    let hold = prop_oneof![
        Just(LidHold::LiesIn),
        (1.0..45.0_f64, toward).prop_map(|(angle, toward)| LidHold::Slides { angle, toward }),
    ];
    let grain = prop::sample::select(&LidGrain::ALL[..]);
    (hold, 0.0..200.0_f64, 0.0..50.0_f64, grain).prop_map(|(hold, overlap, clearance, grain)| {
        LidFit {
            hold,
            overlap,
            clearance,
            grain,
        }
    })
}

fn pieces() -> impl Strategy<Value = Piece> {
    let kind = prop::sample::select(&PieceKind::ALL[..]);
    let insert = prop_oneof![
        Just(Insert::Ball),
        (0.01..100.0_f64).prop_map(|thickness| Insert::Disc { thickness }),
    ];
    let sizes = [0.1..200.0_f64, 0.1..200.0_f64];
    let magnet = (0.0..10_000.0_f64, 0.01..5.0_f64, sizes, 0.0..100.0_f64);
    let magnet = magnet.prop_map(|(pull, friction, [diameter, thickness], gap)| Magnet {
        pull,
        friction,
        diameter,
        thickness,
        set_back: gap,
        finish: gap / 2.0,
    });
    let mass = prop::option::of(0.001..100_000.0_f64);
    let density = prop::option::of(0.01..25.0_f64);
    (kind, insert, prop::option::of(magnet), mass, density).prop_map(
        |(kind, insert, magnet, mass, density)| Piece {
            kind,
            insert,
            magnet,
            mass,
            density,
            ..Piece::default()
        },
    )
}

proptest! {
    #[test]
    fn what_is_written_reads_back_to_the_last_digit(
        wood in prop::option::of(woods()),
        base in prop::option::of(bases()),
        lid_fit in lids(),
        piece in pieces(),
    ) {
        let recess = Some(Recess { lid_fit, ..Recess::default() });
        let board = Board { wood, base, recess, piece, ..Board::default() };
        prop_assert_eq!(read_board(write_board(&board).as_bytes()), Ok(board));
    }
}

#[test]
fn corners_of_a_recess_are_square_where_a_file_says_nothing_and_never_rounder_than_its_sides_allow()
{
    let straight = |corner| RecessShape::Straight {
        length: 90.0,
        width: 40.0,
        corner,
    };
    let with = |shape| Board {
        recess: Some(Recess {
            shape,
            ..Recess::default()
        }),
        ..Board::default()
    };
    let text = write_board(&with(straight(0.0)));
    let mut file: serde_json::Value = serde_json::from_str(&text).unwrap();
    let shape = file.pointer_mut("/board/recess/shape").unwrap();
    assert!(shape.as_object_mut().unwrap().remove("corner_mm").is_some());
    assert_eq!(
        read_board(file.to_string().as_bytes()),
        Ok(with(straight(0.0)))
    );
    let corners = [0.0, 6.0, 20.0, 21.0].map(|corner| straight(corner).corner());
    assert_eq!(corners, [0.0, 6.0, 20.0, 20.0]);
    assert!(!out_of_range(&with(straight(2501.0))).is_empty());
}

#[test]
fn a_file_from_before_them_is_read_with_what_is_usual() {
    let board = Board {
        recess: Some(Recess::default()),
        ..Board::default()
    };
    let mut file: serde_json::Value = serde_json::from_str(&write_board(&board)).unwrap();
    let taken = [
        ("/board", ["wood", "base"]),
        ("/board/recess", ["lid_fit", "-"]),
        ("/board/piece", ["mass_g", "density_g_cm3"]),
        ("/board/piece", ["insert", "magnet"]),
        ("/board/limits", ["tip_n", "spin_rpm"]),
    ];
    for (place, members) in taken {
        let object = file.pointer_mut(place).unwrap().as_object_mut().unwrap();
        for member in members {
            assert_eq!(object.remove(member).is_some(), member != "-", "{member}");
        }
    }
    assert_eq!(read_board(file.to_string().as_bytes()), Ok(board));
}

#[test]
fn numbers_out_of_range_are_found() {
    let mut board = Board {
        wood: Some(Wood {
            moisture: Some(31.0),
            ..Wood::default()
        }),
        base: Some(Base {
            footing: Footing::Feet {
                count: 2,
                circle: 200.0,
            },
            ..Base::default()
        }),
        ..Board::default()
    };
    board.piece.magnet = Some(Magnet {
        friction: f64::NAN,
        ..Magnet::default()
    });
    let found: Vec<&str> = out_of_range(&board)
        .iter()
        .map(|fault| fault.range.name)
        .collect();
    assert_eq!(
        found,
        [
            "friction of the piece",
            "moisture of the wood",
            "feet of the base"
        ]
    );
}
