//! Rule: tenons and their mortises fit the wood they are cut into.

use board::{Board, show_length};

use super::{Finding, Measure, Rule, Severity, counted};
use crate::panel::{EdgePlace, piece_width, tenons};

pub const STATEMENT: &str = "A mortise stays inside the thickness of the board with wood above and below, meets no other, \
     and is not opened when the circle is cut. Common practice, no source.";

/// Every finding about the tenons of the panel.
pub fn check(board: &Board) -> Vec<Finding> {
    let Some(size) = board.panel.tenons else {
        return Vec::new();
    };
    let places = tenons(board);
    if places.is_empty() {
        return Vec::new();
    }
    let length = |mm| show_length(mm, board.units);
    let mut findings = Vec::new();
    let mut add = |severity, message, is, wanted| {
        let finding = Finding::new(severity, Rule::Joinery, message);
        findings.push(finding.measuring(Measure::Mm(is), Measure::Mm(wanted)));
    };
    let below = board.blank.thickness - size.below_top - size.thickness;
    if below <= 0.0 || size.below_top <= 0.0 {
        let message = format!(
            "mortises of {} that begin {} below the top do not fit into a board of {}",
            length(size.thickness),
            length(size.below_top),
            length(board.blank.thickness)
        );
        add(Severity::Stop, message, below, 0.0);
    }
    if size.count > 1 && size.spacing <= size.length {
        let message = format!(
            "mortises {} long run into each other at a spacing of {}",
            length(size.length),
            length(size.spacing)
        );
        add(Severity::Stop, message, size.spacing, size.length);
    }
    if let Some(width) = piece_width(board)
        && 2.0 * size.reach >= width
        && crate::panel::seams(board).len() > 1
    {
        let message = format!(
            "mortises {} deep meet inside strips of {}",
            length(size.reach),
            length(width)
        );
        add(Severity::Stop, message, width, 2.0 * size.reach);
    }
    findings.extend(opened(board));
    findings
}

fn opened(board: &Board) -> Option<Finding> {
    let places = tenons(board);
    let cut = places
        .iter()
        .filter(|tenon| tenon.place == EdgePlace::Cut)
        .count();
    (cut > 0).then(|| {
        let message = format!(
            "{} opened by the edge of the board; a closer spacing keeps them inside",
            counted(cut, "mortise")
        );
        Finding::new(Severity::Caution, Rule::Joinery, message)
            .measuring(Measure::Count(cut as u32), Measure::Count(0))
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use board::{Build, Tenons};

    fn with(tenons: Tenons, strips: u32) -> Vec<Severity> {
        let mut board = Board::default();
        board.panel.build = Build::Strips { count: strips };
        board.panel.tenons = Some(tenons);
        check(&board).iter().map(|found| found.severity).collect()
    }

    #[test]
    fn common_tenons_fit_and_others_are_told() {
        let common = Tenons::default();
        assert_eq!(with(common, 3), []);
        let deep = Tenons {
            below_top: 15.0,
            ..common
        };
        assert_eq!(with(deep, 3), [Severity::Stop]);
        let close = Tenons {
            spacing: 30.0,
            ..common
        };
        assert_eq!(with(close, 3), [Severity::Stop]);
        let wide = Tenons {
            spacing: 260.0,
            ..common
        };
        assert_eq!(with(wide, 3), [Severity::Caution]);
        assert_eq!(with(common, 20)[0], Severity::Stop);
    }
}
