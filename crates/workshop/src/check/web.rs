//! Rule: wood is left between any two bores.

use board::{Board, Measure, counted};

use super::pairs::Pairs;
use super::{Finding, HAIR, Rule, Severity};
use crate::Mend;
use crate::Workpiece;

pub const STATEMENT: &str = "Between any two holes at least the set amount of wood is left; thinner wood breaks out \
     under the drill. The default, {3 mm|1/8\"}, is common practice, no source.";

/// One finding for bores that run into each other, one for webs that are too thin.
pub fn check(workpiece: &Workpiece) -> Vec<Finding> {
    let (board, layout) = (workpiece.board(), workpiece.layout());
    let webs = geometry::close_webs(&layout.mouths(), board.limits.web - HAIR);
    let meeting = webs.partition_point(|web| web.mm <= 0.0);
    let (meeting, thin) = webs.split_at(meeting);
    let parts = [(meeting, Severity::Stop), (thin, Severity::Caution)];
    parts
        .into_iter()
        .filter_map(|(webs, severity)| Some(found(board, &Pairs::of(layout, webs)?, severity)))
        .collect()
}

/// A finding for pairs of one severity, with the thinnest web.
fn found(board: &Board, pairs: &Pairs<'_>, severity: Severity) -> Finding {
    let length = |mm| Measure::mm(mm).shown(board.units);
    let (what, measured) = if severity == Severity::Stop {
        let overlap = ["pair of holes overlaps", "pairs of holes overlap"];
        (overlap, format!("by {}", length(-pairs.mm)))
    } else {
        let thin = [
            "pair of holes leaves too little wood",
            "pairs of holes leave too little wood",
        ];
        let limit = length(board.limits.web);
        (thin, format!("{}; the limit is {limit}", length(pairs.mm)))
    };
    let message = format!(
        "{}. Worst: {} and {}, {measured}. Increase the spacing or use a smaller bore.",
        counted(pairs.count(), what[0], what[1]),
        pairs.a,
        pairs.b,
    );
    Finding::new(severity, Rule::Web, message)
        .measuring(Measure::mm(pairs.mm), Measure::mm(board.limits.web))
        .about(pairs.holes())
        .mended_by(&[Mend::WiderPitch])
}

#[cfg(test)]
mod tests {
    use super::*;

    use testkit::assert_near;

    fn at_pitch(pitch: f64) -> Vec<Finding> {
        let board = Board {
            pitch,
            ..Board::default()
        };
        check(&Workpiece::of(&board).unwrap())
    }

    #[test]
    fn wide_webs_give_no_finding() {
        assert_eq!(at_pitch(19.0), []);
    }

    #[test]
    fn a_web_exactly_at_the_limit_passes_despite_rounding() {
        for pitch in [15.0, 15.5, 17.3] {
            let mut board = Board {
                pitch,
                start: 0,
                ..Board::default()
            };
            board.limits.web = pitch - 12.0;
            assert_eq!(check(&Workpiece::of(&board).unwrap()), [], "{pitch}");
        }
    }

    #[test]
    fn a_web_that_is_too_thin_is_measured() {
        let found = at_pitch(14.0);
        assert_eq!(found.len(), 1);
        assert_eq!(found[0].severity, Severity::Caution);
        let Some(Measure {
            value: measured, ..
        }) = found[0].measured
        else {
            panic!("no measure")
        };
        assert_near!(measured, 2.0, 1e-9);
        assert!(found[0].holes.len() > 96);
    }

    #[test]
    fn bores_that_meet_are_a_stop() {
        let found = at_pitch(11.0);
        assert_eq!(found[0].severity, Severity::Stop);
        assert!(
            found[0].message.contains(", by 1 mm."),
            "{}",
            found[0].message
        );
    }
}
