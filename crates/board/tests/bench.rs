//! Files without wood, base, lid and pieces get the usual values.
#![allow(clippy::unwrap_used, reason = "a test that cannot go on has failed")]

use board::{Board, Recess, RecessShape, out_of_range, read_board, write_board};

#[test]
fn recess_corners_default_to_square_and_are_never_rounder_than_the_sides_allow() {
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
fn a_file_without_these_members_gets_the_usual_values() {
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
