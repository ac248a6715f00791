//! Time to draw the section of a board, which the window redraws in every frame that shows it.
//!
//! `cargo bench -p drawing --bench section`

use core::hint::black_box;

use board::{
    Base, Board, Filling, Grooves, HoleId, LidFit, LidHold, Magnet, Piece, PieceKind, Recess,
    RecessShape, Role, Toward,
};
use divan::Bencher;
use drawing::{Stamp, section_sheet};
use workshop::{Workpiece, section};

fn main() {
    divan::main();
}

/// The turn-in space of the first player, whose axis also cuts the home lane.
const TURN_IN: HoleId = HoleId::new(Role::Track, 1, 9);

/// A board with only its 145 holes, or with everything that a section can show.
fn board(is_planned: bool) -> Board {
    if !is_planned {
        return Board::default();
    }
    let hold = LidHold::Slides {
        angle: 14.0,
        toward: Toward::Right,
    };
    Board {
        piece: Piece {
            kind: PieceKind::Magnet,
            shank: Some(11.0),
            magnet: Some(Magnet::default()),
            ..Piece::default()
        },
        grooves: Some(Grooves::default()),
        filling: Some(Filling::default()),
        base: Some(Base::default()),
        recess: Some(Recess {
            shape: RecessShape::Straight {
                length: 160.0,
                width: 80.0,
                corner: 0.0,
            },
            at: [-30.0, 20.0],
            lid: 5.0,
            lid_fit: LidFit {
                hold,
                overlap: 2.0,
                ..LidFit::default()
            },
            ..Recess::default()
        }),
        ..Board::default()
    }
}

#[divan::bench(args = [false, true])]
fn sheet(bencher: Bencher<'_, '_>, is_planned: bool) {
    let workpiece = Workpiece::of(&board(is_planned)).unwrap_or_else(|error| panic!("{error}"));
    let stamp = Stamp::default();
    bencher.bench(|| section_sheet(black_box(&workpiece), TURN_IN, &stamp));
}

#[divan::bench(args = [false, true])]
fn cut(bencher: Bencher<'_, '_>, is_planned: bool) {
    let workpiece = Workpiece::of(&board(is_planned)).unwrap_or_else(|error| panic!("{error}"));
    bencher.bench(|| section(black_box(&workpiece), TURN_IN));
}
