//! Speed of an edit: from a changed document to everything that follows from it, and to the window's picture.

use std::time::Duration;

use app::exports::{Kind, Moment, Source};
use app::window::headless::Headless;
use board::{
    Blank, Board, Bore, Bores, Build, FlawKind, FlawShape, Limits, Piece, Router, ScrewCircle,
    StockFlaw, StockOutline, Tenons,
};
use divan::{Bencher, black_box};
use workshop::Workpiece;

/// As in the program itself.
#[global_allocator]
static ALLOCATOR: mimalloc::MiMalloc = mimalloc::MiMalloc;

fn main() {
    divan::main();
}

/// The board one starts from, or a ring for 24 players with about so many small holes.
fn board(holes: u32) -> Board {
    let plain = Board::default();
    if holes == 145 {
        return plain;
    }
    // As many as are allowed, and the rest in lanes and pockets.
    let most = *geometry::SPACES.end();
    let lanes = if holes / 24 > most { 60 } else { 4 };
    let spaces = (holes / 24).saturating_sub(2 * lanes).clamp(1, most);
    let pitch = 2480.0 / geometry::ring_radius(1.0, 24 * spaces);
    let bore = Bore {
        diameter: 0.5 * pitch,
        ..plain.bores.track
    };
    Board {
        players: 24,
        spaces,
        home: lanes,
        start: lanes,
        pitch,
        bores: Bores::all(bore),
        piece: Piece {
            diameter: 0.6 * pitch,
            ..plain.piece
        },
        limits: Limits {
            web: 0.1 * pitch,
            piece_gap: 0.1 * pitch,
            ..plain.limits
        },
        blank: Blank {
            diameter: 5000.0,
            ..plain.blank
        },
        ..plain
    }
}

const HOLES: [u32; 3] = [145, 1_000, 8_800];

#[divan::bench(args = HOLES)]
fn place_every_hole(bencher: Bencher<'_, '_>, holes: u32) {
    let board = board(holes);
    bencher.bench_local(|| board::layout(black_box(&board)));
}

/// The work of the window after each edit.
fn follow(board: &Board) -> Option<usize> {
    let workpiece = Workpiece::of(black_box(board)).ok()?;
    let plan = drawing::plan_without_names(&workpiece);
    Some(plan.len() + workpiece.figures().holes + workpiece.findings().len())
}

#[divan::bench(args = HOLES)]
fn all_that_follows(bencher: Bencher<'_, '_>, holes: u32) {
    let board = board(holes);
    bencher.bench_local(|| follow(&board));
}

/// A board with everything to check: four strips with tenons, screws below, a router template, a slab with knots.
fn busy() -> Board {
    let mut board = Board::default();
    board.panel.build = Build::Strips { count: 4 };
    board.panel.tenons = Some(Tenons::default());
    board.screws = vec![ScrewCircle::default(); 2];
    board.router = Some(Router::default());
    board.stock.outline = StockOutline::Slab {
        length: 1500.0,
        width: 620.0,
        lower: (0..29).map(|at| f64::from(at * 7 % 20)).collect(),
        upper: (0..29).map(|at| f64::from(at * 11 % 23)).collect(),
    };
    let knot = |at: u32| StockFlaw {
        kind: FlawKind::Knot,
        shape: FlawShape::Round {
            x: 70.0 * f64::from(at + 1),
            y: f64::from(at * 137 % 600),
            diameter: 12.0,
        },
    };
    board.stock.flaws = (0..20).map(knot).collect();
    board
}

#[divan::bench]
fn all_that_follows_of_a_busy_board(bencher: Bencher<'_, '_>) {
    let board = busy();
    bencher.bench_local(|| follow(&board));
}

#[divan::bench(args = HOLES)]
fn plan_with_names(bencher: Bencher<'_, '_>, holes: u32) {
    let board = board(holes);
    let Ok(workpiece) = Workpiece::of(&board) else {
        return;
    };
    bencher.bench_local(|| drawing::plan(black_box(&workpiece)));
}

#[divan::bench(args = [Kind::TemplatePdf, Kind::PlotPdf, Kind::Svg, Kind::Dxf, Kind::Csv])]
fn export(bencher: Bencher<'_, '_>, kind: Kind) {
    let board = Board::default();
    let moment = Moment {
        year: 2026,
        month: 11,
        day: 25,
    };
    let Ok(source) = Source::of(&board, moment) else {
        return;
    };
    bencher.bench_local(|| black_box(&source).files(kind).map(|files| files.len()));
}

#[divan::bench(args = HOLES)]
fn frame_with_an_edit(bencher: Bencher<'_, '_>, holes: u32) {
    let mut window = Headless::new(board(holes));
    let mut turn = 0.0;
    bencher.bench_local(|| {
        turn += 0.25;
        window.edit(|board| board.rotation = turn % 360.0);
        window.frame()
    });
}

#[divan::bench(args = HOLES)]
fn frame_without_an_edit(bencher: Bencher<'_, '_>, holes: u32) {
    let mut window = Headless::new(board(holes));
    bencher.bench_local(|| window.frame());
}

/// The calendar of an order of so many boards, with all of its bars.
#[divan::bench(args = [1, 10, 200])]
fn frame_of_the_calendar(bencher: Bencher<'_, '_>, boards: u32) {
    let mut order = Board::default();
    order.schedule.boards = boards;
    let mut window = Headless::new(order);
    window.turn_to("Calendar");
    // The days of many boards are worked out beside the window.
    std::thread::sleep(Duration::from_secs(2));
    window.frame();
    bencher.bench_local(|| window.frame());
}
