//! Limits on the totals of a document whose numbers are each in range: holes, corners of the blank, and coats of finish.

use crate::Quantity::Count;
use crate::{Board, Change, FlawShape, OutOfRange, Range, StockOutline};

/// Total holes of a board. At one a minute, eight hours a day, the largest number takes about a month of work.
const HOLES: Range = Count.range("Holes in all", 0.0, 10_000.0);
/// Total corners of a blank. A tracing with a corner every 2 mm around a slab of 3 m by 1 m has 4,000.
const CORNERS: Range = Count.range("Corners of the blank and its flaws in all", 0.0, 4_000.0);
/// Total coats of finish. At one a day, the largest number takes more than half a year.
const COATS: Range = Count.range("Coats of finish in all", 0.0, 200.0);

/// The totals that are too large.
pub(super) fn totals(board: &Board) -> impl Iterator<Item = OutOfRange> {
    let coats = board.finish.iter().map(|layer| f64::from(layer.coats));
    let all = [
        (HOLES, holes(board)),
        (CORNERS, corners(board) as f64),
        (COATS, coats.sum()),
    ];
    all.into_iter()
        .filter_map(|(range, count)| range.check(count).err())
}

/// Holes of the pattern, and those added by hand to one sector or to all.
fn holes(board: &Board) -> f64 {
    let players = f64::from(board.players);
    let each = [board.spaces, board.home, board.start].map(f64::from);
    let added = board.edits.iter().map(|edit| match edit.change {
        Change::Add { .. } if edit.mirrored => players,
        Change::Add { .. } => 1.0,
        _ => 0.0,
    });
    players * each.iter().sum::<f64>() + added.sum::<f64>()
}

/// Corners of the outline and of all flaws.
fn corners(board: &Board) -> usize {
    let outline = match &board.stock.outline {
        StockOutline::Slab { lower, upper, .. } => lower.len() + upper.len(),
        StockOutline::Corners { corners } => corners.len(),
        StockOutline::Unknown => 0,
    };
    let flaws = board.stock.flaws.iter().map(|flaw| match &flaw.shape {
        FlawShape::Area { corners } => corners.len(),
        FlawShape::Round { .. } => 0,
    });
    outline + flaws.sum::<usize>()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Bore, Edit, FileError, HoleId, Role, StockFlaw, layout, read_board, write_board};

    /// A board with this many holes added to every sector.
    fn with_added(count: u32) -> Board {
        let bore = Bore {
            diameter: 1.0,
            depth: 1.0,
            bottom: crate::Bottom::Flat,
        };
        let add = |number: u32| Edit {
            hole: HoleId::new(Role::Extra, 1, number),
            mirrored: true,
            change: Change::Add {
                u: f64::from(number),
                v: 0.0,
                bore,
            },
        };
        Board {
            players: 24,
            edits: (1..=count).map(add).collect(),
            ..Board::default()
        }
    }

    #[test]
    fn mirrored_holes_count_once_per_sector() {
        let few = with_added(392);
        assert_eq!(layout(&few).unwrap().holes.len(), 24 * (24 + 392) + 1);
        let many = with_added(393);
        let error = layout(&many).unwrap_err().to_string();
        assert_eq!(error, "Holes in all: 10008 is out of range; use 0 to 10000");
        let read = read_board(write_board(&many).as_bytes());
        assert!(matches!(read, Err(FileError::OutOfRange(_))), "{read:?}");
    }

    #[test]
    fn the_coats_of_all_layers_are_added_up() {
        let layer = crate::Coat {
            coats: 20,
            ..crate::Coat::default()
        };
        let mut board = Board {
            finish: vec![layer; 10],
            ..Board::default()
        };
        assert_eq!(totals(&board).count(), 0);
        board.finish.push(crate::Coat::default());
        let told: Vec<String> = totals(&board).map(|fault| fault.to_string()).collect();
        assert_eq!(
            told,
            ["Coats of finish in all: 201 is out of range; use 0 to 200"]
        );
    }

    #[test]
    fn the_corners_of_the_outline_and_all_flaws_are_added_up() {
        let mut board = Board::default();
        let corners = vec![[0.0, 0.0]; 2_000];
        board.stock.outline = StockOutline::Corners {
            corners: corners.clone(),
        };
        board.stock.flaws = vec![StockFlaw {
            shape: FlawShape::Area { corners },
            kind: crate::FlawKind::Knot,
        }];
        assert_eq!(totals(&board).count(), 0);
        board.stock.flaws.push(StockFlaw {
            shape: FlawShape::Area {
                corners: vec![[0.0, 0.0]],
            },
            kind: crate::FlawKind::Knot,
        });
        let told: Vec<String> = totals(&board).map(|fault| fault.to_string()).collect();
        assert_eq!(
            told,
            ["Corners of the blank and its flaws in all: 4001 is out of range; use 0 to 4000"]
        );
    }
}
