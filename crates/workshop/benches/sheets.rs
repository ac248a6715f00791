//! Speed of laying out the sheets of a template, which is done with every edit: the goal is under 1 ms for 145 holes.

use board::{Board, Paper, SheetLayout, layout};
use divan::{Bencher, black_box};
use workshop::Workpiece;

fn main() {
    divan::main();
}

fn measured(bencher: Bencher<'_, '_>, paper: Paper, sheets: SheetLayout) {
    let mut board = Board::default();
    (board.template.paper, board.template.layout) = (paper, sheets);
    let Ok(layout) = layout(&board) else { return };
    bencher
        .with_inputs(|| Workpiece::laid(board.clone(), layout.clone(), None))
        .bench_local_values(|workpiece| black_box(workpiece.tiling().is_ok()));
}

#[divan::bench(args = [SheetLayout::Fewest, SheetLayout::Widest])]
fn sheets_of_145_holes_on_a4(bencher: Bencher<'_, '_>, sheets: SheetLayout) {
    measured(bencher, Paper::A4, sheets);
}

#[divan::bench(args = [SheetLayout::Fewest, SheetLayout::Widest])]
fn sheets_of_145_holes_on_letter(bencher: Bencher<'_, '_>, sheets: SheetLayout) {
    measured(bencher, Paper::Letter, sheets);
}
