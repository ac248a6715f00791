//! Rule: hardboard is left between two holes of a router template.

use board::{Board, Measure, counted};
use geometry::close_webs;

use crate::Mend;
use crate::Workpiece;
use crate::check::pairs::Pairs;
use crate::check::{Finding, HAIR, Rule, Severity};

pub const STATEMENT: &str = "The holes of a router template are larger than the holes in the board by the guide \
     bushing's diameter less the bit's, and leave at least the set amount of hardboard between them. The center gets \
     its pin's hole, or none. The default, {3 mm|1/8\"}, is common practice, no source.";

/// One finding for holes that meet, one for webs that are too thin.
pub fn check(workpiece: &Workpiece) -> Vec<Finding> {
    let board = workpiece.board();
    // A bit that does not fit its bushing has no holes to measure; another rule reports it.
    let template = workpiece
        .router()
        .filter(|(router, _)| router.wider() > 0.0);
    let Some((_, template)) = template else {
        return Vec::new();
    };
    let wide = template.layout();
    let webs = close_webs(template.mouths(), board.limits.template_web - HAIR);
    let (meeting, thin) = webs.split_at(webs.partition_point(|web| web.mm <= 0.0));
    let parts = [(meeting, Severity::Stop), (thin, Severity::Caution)];
    parts
        .into_iter()
        .filter_map(|(webs, severity)| Some(found(board, &Pairs::of(wide, webs)?, severity)))
        .collect()
}

/// A finding for pairs of openings of one severity, with the thinnest web.
fn found(board: &Board, pairs: &Pairs<'_>, severity: Severity) -> Finding {
    let length = |mm| Measure::mm(mm).shown(board.units);
    let (a, b) = (pairs.a, pairs.b);
    let count = |one, many| counted(pairs.count(), one, many);
    let message = if severity == Severity::Stop {
        format!(
            "{} in the router template. Worst: {a} and {b}. Use a bushing closer in size to the bit, or make two \
             templates with every other hole in each.",
            count("pair of holes overlaps", "pairs of holes overlap")
        )
    } else {
        format!(
            "{} too little hardboard in the router template. Worst: {a} and {b}, {}; the limit is {}. Use a bushing \
             closer in size to the bit, or increase the spacing.",
            count("pair of holes leaves", "pairs of holes leave"),
            length(pairs.mm),
            length(board.limits.template_web)
        )
    };
    let (is, wanted) = (
        Measure::mm(pairs.mm),
        Measure::mm(board.limits.template_web),
    );
    Finding::new(severity, Rule::TemplateWeb, message)
        .measuring(is, wanted)
        .about(pairs.holes())
        .mended_by(&[Mend::WiderPitch])
}

#[cfg(test)]
mod tests {
    use super::*;
    use board::Router;
    use testkit::assert_near;

    fn with(bushing: f64, bit: f64) -> Vec<Finding> {
        let board = Board {
            router: Some(Router {
                bushing,
                bit,
                ..Router::default()
            }),
            start: 0,
            ..Board::default()
        };
        check(&Workpiece::of(&board).unwrap())
    }

    /// The offset is half the difference of the bushing's and the bit's diameter: 3/4 in and 1/2 in give 1/8 in (trade page,
    /// not a standard), so a hole of the template is 1/4 in wider than the bore, here 6.35 mm.
    #[test]
    fn holes_are_wider_by_twice_the_offset() {
        let found = with(18.35, 12.0);
        let Some(Measure { value: web, .. }) = found[0].measured else {
            panic!("no measure")
        };
        assert_near!(web, 19.0 - 12.0 - 6.35, 1e-9);
        assert_eq!(found[0].severity, Severity::Caution);
    }

    #[test]
    fn a_wide_bushing_is_a_stop_and_a_narrow_one_is_fine() {
        assert_eq!(with(14.0, 12.0), []);
        assert_eq!(with(20.0, 12.0)[0].severity, Severity::Stop);
        assert_eq!(with(12.0, 12.0), []);
        let none = Board::default();
        assert_eq!(check(&Workpiece::of(&none).unwrap()), []);
    }

    /// The center is not routed: a hole 20 mm from its pin of 6 mm has 20 − 3 − 8 mm, and no web is missing where the center is
    /// only a mark.
    #[test]
    fn the_center_counts_with_its_pin() {
        let home = board::Bore {
            diameter: 12.0,
            depth: 5.0,
            bottom: board::Bottom::Flat,
        };
        let extra = board::Edit {
            hole: "X1-1".parse().unwrap(),
            mirrored: false,
            change: board::Change::Add {
                u: 0.0,
                v: 20.0,
                bore: home,
            },
        };
        let mut board = Board {
            router: Some(Router::default()),
            edits: vec![extra],
            ..Board::default()
        };
        board.limits.template_web = 10.0;
        let named = |board: &Board| {
            let found = check(&Workpiece::of(board).unwrap());
            let is = |name: &board::HoleName| name.to_string() == "C";
            found.iter().any(|found| found.holes.iter().any(is))
        };
        assert!(named(&board));
        board.limits.template_web = 8.9;
        assert!(!named(&board));
        board.limits.template_web = 10.0;
        board.router = Some(Router {
            center: board::TemplateCenter::Undrilled,
            ..Router::default()
        });
        assert!(!named(&board));
    }
}
