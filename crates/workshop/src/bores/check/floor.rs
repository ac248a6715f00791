//! Rule: a blind bore leaves wood under it.

use board::{Board, Bottom, Hole, Measure, counted};

use crate::Mend;
use crate::Workpiece;
use crate::bores::profile::{deepest, tip};
use crate::check::{Finding, HAIR, Rule, Severity};

pub const STATEMENT: &str = "Under a hole at least the set amount of wood is left, measured from the point of the \
     drill or the spur of the bit. The default, {4 mm|5/32\"}, is common practice, no source. A point's length follows from \
     its angle; measure the spur of your own bit.";

/// One finding for bores that break through the underside, one for floors that are too thin.
pub fn check(workpiece: &Workpiece) -> Vec<Finding> {
    let (board, layout) = (workpiece.board(), workpiece.layout());
    let floor = |hole: &Hole| board.blank.thickness - deepest(hole.bore, board.bores.spur);
    let thin = layout
        .holes
        .iter()
        .filter(|hole| floor(hole) < board.limits.floor - HAIR);
    let (through, thin): (Vec<&Hole>, Vec<&Hole>) = thin.partition(|hole| floor(hole) <= HAIR);
    let parts = [(through, Severity::Stop), (thin, Severity::Caution)];
    parts
        .into_iter()
        .filter_map(|(holes, severity)| found(board, &holes, severity))
        .collect()
}

/// A finding for holes of one severity, with the thinnest floor; none without holes.
fn found(board: &Board, holes: &[&Hole], severity: Severity) -> Option<Finding> {
    let floor = |hole: &Hole| board.blank.thickness - deepest(hole.bore, board.bores.spur);
    let worst = holes.iter().min_by(|a, b| floor(a).total_cmp(&floor(b)))?;
    let length = |mm| Measure::mm(mm).shown(board.units);
    let count = |one, many| counted(holes.len(), one, many);
    let tip = tip(worst.bore, board.bores.spur);
    let deep = if tip > 0.0 {
        format!(
            "{} deep and {} of {}",
            length(worst.bore.depth),
            length(tip),
            if worst.bore.bottom == Bottom::Forstner {
                "spur"
            } else {
                "point"
            }
        )
    } else {
        format!("{} deep", length(worst.bore.depth))
    };
    let (name, thickness) = (worst.name, length(board.blank.thickness));
    let message = if severity == Severity::Stop {
        let come = count("hole comes", "holes come");
        format!(
            "{come} out through the underside. Worst: {name}, {deep} in a board {thickness} thick. Drill less deep."
        )
    } else {
        let leave = count("hole leaves", "holes leave");
        let [left, limit] = [floor(worst), board.limits.floor].map(length);
        format!(
            "{leave} too little wood below. Worst: {name}, {deep} in a board {thickness} thick, leaves {left}; the limit \
             is {limit}. Drill less deep."
        )
    };
    let measured = Measure::mm(floor(worst));
    Some(
        Finding::new(severity, Rule::Floor, message)
            .measuring(measured, Measure::mm(board.limits.floor))
            .about(holes.iter().map(|hole| hole.name).collect())
            .mended_by(&[Mend::ShallowerBores]),
    )
}

#[cfg(test)]
mod tests {
    use super::*;
    use board::{Bore, Bores, Bottom, Center};
    use testkit::assert_near;

    fn found(bottom: Bottom, thickness: f64) -> Vec<Finding> {
        let bore = Bore {
            diameter: 12.0,
            depth: 5.0,
            bottom,
        };
        let mut board = Board {
            bores: Bores::all(bore),
            center: Center::Nothing,
            ..Board::default()
        };
        board.blank.thickness = thickness;
        check(&Workpiece::of(&board).unwrap())
    }

    #[test]
    fn floors_are_measured_from_the_deepest_place() {
        assert_eq!(found(Bottom::Flat, 9.0), []);
        let spur = found(Bottom::Forstner, 9.0);
        assert_eq!(spur[0].severity, Severity::Caution);
        assert_eq!(spur[0].measured, Some(Measure::mm(1.5)));
        let point = found(Bottom::Point118, 9.0);
        let Some(Measure { value: left, .. }) = point[0].measured else {
            panic!("no measure")
        };
        assert_near!(left, 4.0 - 12.0 * 0.300_430, 1e-4);
    }

    #[test]
    fn a_bore_through_the_underside_is_a_stop() {
        let through = found(Bottom::Forstner, 7.5);
        assert_eq!(through[0].severity, Severity::Stop);
        assert_eq!(through[0].holes.len(), 144);
    }
}
