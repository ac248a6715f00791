//! Speed of the shop math, which the window works out in each frame.

use board::{Base, Board, Filling, Grooves, Magnet, PieceKind, Recess, Wood};
use divan::{Bencher, black_box};
use workshop::Workpiece;

fn main() {
    divan::main();
}

#[divan::bench(args = PieceKind::ALL)]
fn all_sums_of_145_holes(bencher: Bencher<'_, '_>, kind: PieceKind) {
    let mut board = Board {
        wood: Some(Wood::default()),
        base: Some(Base::default()),
        recess: Some(Recess {
            lid: 4.0,
            ..Recess::default()
        }),
        filling: Some(Filling {
            dome: 0.5,
            around_insert: true,
            ..Filling::default()
        }),
        grooves: Some(Grooves::default()),
        ..Board::default()
    };
    board.piece.kind = kind;
    board.piece.shank = Some(11.8);
    board.piece.magnet = Some(Magnet::default());
    bencher
        .bench_local(|| Workpiece::of(black_box(&board)).map(|workpiece| workpiece.sums().len()));
}
