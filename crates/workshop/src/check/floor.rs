//! Rule: a blind bore leaves wood under it.

use board::{Board, Hole, Layout, show_length};

use super::{Finding, Measure, Rule, Severity, counted};

pub const STATEMENT: &str = "A bore is less deep than the board is thick. How far the point or spur of your bit \
     reaches below that is for you to measure.";

/// A finding where bores are as deep as the board is thick, or deeper.
pub fn check(board: &Board, layout: &Layout) -> Option<Finding> {
    let thickness = board.blank.thickness;
    let through = |hole: &&Hole| hole.bore.depth >= thickness;
    let holes: Vec<&Hole> = layout.holes.iter().filter(through).collect();
    let deepest = holes
        .iter()
        .max_by(|a, b| a.bore.depth.total_cmp(&b.bore.depth))?;
    let length = |mm| show_length(mm, board.units);
    let message = format!(
        "{} as deep as the board is thick or deeper; worst {}: {} deep in {}",
        counted(holes.len(), "bore"),
        deepest.name,
        length(deepest.bore.depth),
        length(thickness)
    );
    Some(Finding {
        severity: Severity::Stop,
        rule: Rule::Floor,
        message,
        measured: Some(Measure::Mm(thickness - deepest.bore.depth)),
        wanted: None,
        holes: holes.iter().map(|hole| hole.name).collect(),
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use board::layout;

    fn with_thickness(thickness: f64) -> Option<usize> {
        let mut board = Board::default();
        board.blank.thickness = thickness;
        let found = check(&board, &layout(&board).unwrap())?;
        Some(found.holes.len())
    }

    #[test]
    fn only_bores_as_deep_as_the_board_are_found() {
        assert_eq!(with_thickness(20.0), None);
        assert_eq!(with_thickness(5.0), Some(133));
    }
}
