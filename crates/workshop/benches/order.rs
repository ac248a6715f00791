//! Speed of the order: its calendar, its lists and its price. The goal is under 1 ms each for one board.

use board::{
    Base, Board, Build, Coat, Filling, Grooves, PieceKind, Recess, Router, ScrewCircle, SectorJig,
    Tenons, Wood,
};
use divan::{Bencher, black_box};
use workshop::{Today, Workpiece, cut_list, shopping};

fn main() {
    divan::main();
}

/// Numbers of boards: one, a batch, and as many as an order can have.
const BOARDS: [u32; 3] = [1, 10, 200];

/// A board with something to buy, cut, time and schedule in every category.
fn full(boards: u32) -> Board {
    let mut board = Board {
        grooves: Some(Grooves::default()),
        wood: Some(Wood::default()),
        base: Some(Base::default()),
        screws: vec![ScrewCircle::default()],
        recess: Some(Recess {
            lid: 4.0,
            ..Recess::default()
        }),
        filling: Some(Filling::default()),
        finish: vec![Coat::default(); 6],
        router: Some(Router::default()),
        sector_jig: Some(SectorJig::default()),
        ..Board::default()
    };
    board.piece.kind = PieceKind::Magnet;
    board.panel.build = Build::Strips { count: 4 };
    board.panel.tenons = Some(Tenons::default());
    board.schedule.boards = boards;
    board.price.hourly = Some(45.0);
    board
}

/// The workpiece of a board with a date, its work plan and all inputs of its lists already worked out.
fn workpiece(board: &Board) -> Option<Workpiece> {
    let day = "2026-11-30".parse().ok()?;
    let zone = "America/New_York".into();
    let workpiece = Workpiece::of(board).ok()?.on(Today { day, zone });
    let _ = (workpiece.pour(), workpiece.costing(), workpiece.cut_list());
    Some(workpiece)
}

/// The calendar counted forward from a start day.
#[divan::bench(args = BOARDS, sample_count = 20)]
fn calendar(bencher: Bencher<'_, '_>, boards: u32) {
    dated(bencher, &full(boards));
}

/// The calendar counted backward from a promised day.
#[divan::bench(args = BOARDS, sample_count = 20)]
fn calendar_from_a_promise(bencher: Bencher<'_, '_>, boards: u32) {
    let mut board = full(boards);
    board.schedule.promised = "2029-06-01".parse().ok();
    dated(bencher, &board);
}

/// Works out the calendar of a workpiece that has none yet.
fn dated(bencher: Bencher<'_, '_>, board: &Board) {
    bencher
        .with_inputs(|| workpiece(board))
        .bench_local_refs(|workpiece| {
            let calendar = workpiece.as_ref().map(Workpiece::calendar);
            calendar.is_some_and(|calendar| calendar.is_ok())
        });
}

/// The shopping list and the cut list.
#[divan::bench(args = BOARDS)]
fn lists(bencher: Bencher<'_, '_>, boards: u32) {
    let workpiece = workpiece(&full(boards));
    bencher.bench_local(|| {
        let workpiece = black_box(&workpiece).as_ref();
        workpiece.map_or(0, |it| {
            shopping(it, boards).len() + cut_list(it, boards).len()
        })
    });
}

/// The price, with its shopping list.
#[divan::bench(args = BOARDS)]
fn price(bencher: Bencher<'_, '_>, boards: u32) {
    let workpiece = workpiece(&full(boards));
    bencher.bench_local(|| {
        let workpiece = black_box(&workpiece).as_ref();
        workpiece.map(|it| workshop::costing(it, boards))
    });
}
