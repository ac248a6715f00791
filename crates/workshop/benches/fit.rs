//! Speed of solving for open values, on boards of 145 holes.

use board::Board;
use divan::{Bencher, black_box};
use geometry::Pattern;
use workshop::{
    Open, Wishes, largest_bore, largest_pitch, most_spaces, propose, smallest_board,
    smallest_board_for_piece, smallest_pitch_for_piece, solve,
};

fn main() {
    divan::main();
}

const PATTERNS: [(&str, Pattern); 4] = [
    ("ring", Pattern::Ring),
    ("lobes", Pattern::Lobes { depth: 0.2 }),
    ("polygon", Pattern::Polygon),
    ("arms", Pattern::Arms { across: 3 }),
];

fn names() -> [&'static str; 4] {
    PATTERNS.map(|(name, _)| name)
}

fn of(name: &str) -> Board {
    let named = PATTERNS.iter().find(|(known, _)| *known == name);
    let pattern = named.map_or(Pattern::Ring, |(_, pattern)| *pattern);
    let mut board = Board {
        pattern,
        ..Board::default()
    };
    board.blank.diameter = 660.0;
    board
}

/// One layout, for comparison with the others.
#[divan::bench(args = names())]
fn one_layout(bencher: Bencher<'_, '_>, pattern: &str) {
    let board = of(pattern);
    bencher.bench_local(|| board::layout(black_box(&board)));
}

#[divan::bench(args = names())]
fn pitch(bencher: Bencher<'_, '_>, pattern: &str) {
    let board = of(pattern);
    bencher.bench_local(|| largest_pitch(black_box(&board)));
}

#[divan::bench(args = names())]
fn diameter(bencher: Bencher<'_, '_>, pattern: &str) {
    let board = of(pattern);
    bencher.bench_local(|| smallest_board(black_box(&board)));
}

/// A board of 145 holes whose pockets only fit outside the track, so that the pockets set its diameter.
fn with_outer_pockets() -> Board {
    let mut board = Board {
        spaces: 8,
        home: 2,
        start: 14,
        ..Board::default()
    };
    board.pocket.shape = geometry::PocketShape::Block;
    board
}

#[divan::bench]
fn one_layout_with_outer_pockets(bencher: Bencher<'_, '_>) {
    let board = with_outer_pockets();
    bencher.bench_local(|| board::layout(black_box(&board)));
}

#[divan::bench]
fn board_for_the_piece_with_outer_pockets(bencher: Bencher<'_, '_>) {
    let board = with_outer_pockets();
    bencher.bench_local(|| smallest_board_for_piece(black_box(&board)));
}

#[divan::bench(args = names())]
fn bore(bencher: Bencher<'_, '_>, pattern: &str) {
    let board = of(pattern);
    bencher.bench_local(|| largest_bore(black_box(&board)));
}

#[divan::bench(args = names())]
fn piece(bencher: Bencher<'_, '_>, pattern: &str) {
    let board = of(pattern);
    bencher.bench_local(|| solve(black_box(&board), Open::Piece));
}

#[divan::bench(args = names())]
fn pitch_for_the_piece(bencher: Bencher<'_, '_>, pattern: &str) {
    let board = of(pattern);
    bencher.bench_local(|| smallest_pitch_for_piece(black_box(&board)));
}

#[divan::bench(args = names())]
fn board_for_the_piece(bencher: Bencher<'_, '_>, pattern: &str) {
    let board = of(pattern);
    bencher.bench_local(|| smallest_board_for_piece(black_box(&board)));
}

#[divan::bench(args = names())]
fn spaces(bencher: Bencher<'_, '_>, pattern: &str) {
    let board = of(pattern);
    bencher.bench_local(|| most_spaces(black_box(&board)));
}

/// Wishes with their names. Impossible ones take longest, since the search then looks for similar ones that would work.
fn wished() -> [(&'static str, Wishes); 8] {
    let plain = Wishes::default();
    let (pitch, pattern) = (Some(19.0), Some(Pattern::Arms { across: 3 }));
    let lane = Wishes {
        players: Some(2),
        spaces: Some(10),
        home: Some(3),
        pitch: Some(20.1),
        ..plain.clone()
    };
    let huge = Wishes {
        players: Some(24),
        spaces: Some(400),
        ..plain.clone()
    };
    [
        ("nothing", plain.clone()),
        (
            "arms",
            Wishes {
                pattern,
                ..plain.clone()
            },
        ),
        (
            "pitch",
            Wishes {
                pitch,
                ..plain.clone()
            },
        ),
        (
            "board",
            Wishes {
                diameter: Some(400.0),
                ..plain.clone()
            },
        ),
        (
            "large pockets",
            Wishes {
                diameter: Some(400.0),
                start: Some(20),
                ..plain.clone()
            },
        ),
        ("lane in vain", lane),
        ("huge in vain", huge.clone()),
        (
            "huge on a small board in vain",
            Wishes {
                diameter: Some(600.0),
                start: Some(60),
                ..huge
            },
        ),
    ]
}

#[divan::bench(args = wished().map(|(name, _)| name), max_time = 10)]
fn new_board(bencher: Bencher<'_, '_>, name: &str) {
    let wishes = wished().into_iter().find(|(known, _)| *known == name);
    let wishes = wishes.map(|(_, wishes)| wishes).unwrap_or_default();
    bencher.bench_local(|| propose(black_box(&wishes)));
}
