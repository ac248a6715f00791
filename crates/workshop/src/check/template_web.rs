//! Rule: hardboard is left between two holes of a router template.

use board::{Board, Layout, show_length};
use geometry::{Circle, close_webs};

use super::pairs::Pairs;
use super::{Finding, HAIR, Measure, Rule, Severity, counted};
use crate::Mend;

pub const STATEMENT: &str = "The holes of a router template are wider than the bores, by the guide bushing's diameter \
     less the bit's, and leave at least the set web of hardboard. The default of 3 mm is common practice, no source.";

/// One finding for a bushing that carries no bit, or for holes that meet, or for webs that are too thin.
pub fn check(board: &Board, layout: &Layout) -> Vec<Finding> {
    let Some(router) = board.router else {
        return Vec::new();
    };
    let length = |mm| show_length(mm, board.units);
    if router.wider() <= 0.0 {
        let message = format!(
            "the bit of {} does not go through a bushing of {}",
            length(router.bit),
            length(router.bushing)
        );
        let (is, wanted) = (Measure::Mm(router.bushing), Measure::Mm(router.bit));
        return vec![
            Finding::new(Severity::Stop, Rule::TemplateWeb, message).measuring(is, wanted),
        ];
    }
    let narrow: Vec<_> = layout
        .holes
        .iter()
        .filter(|hole| hole.bore.diameter < router.bit - HAIR)
        .collect();
    if let Some(first) = narrow.first() {
        let message = format!(
            "the bit of {} is wider than {} of {}",
            length(router.bit),
            counted(narrow.len(), "bore"),
            length(first.bore.diameter)
        );
        let (is, wanted) = (Measure::Mm(first.bore.diameter), Measure::Mm(router.bit));
        let finding = Finding::new(Severity::Stop, Rule::TemplateWeb, message);
        let names = narrow.iter().map(|hole| hole.name).collect();
        return vec![finding.measuring(is, wanted).about(names)];
    }
    let wider = |mouth: Circle| Circle::new(mouth.center, mouth.radius + router.wider() / 2.0);
    let holes: Vec<Circle> = layout.mouths().into_iter().map(wider).collect();
    let webs = close_webs(&holes, board.limits.template_web - HAIR);
    let (meeting, thin) = webs.split_at(webs.partition_point(|web| web.mm <= 0.0));
    let parts = [(meeting, Severity::Stop), (thin, Severity::Caution)];
    parts
        .into_iter()
        .filter_map(|(webs, severity)| Some(found(board, &Pairs::of(layout, webs)?, severity)))
        .collect()
}

fn found(board: &Board, pairs: &Pairs<'_>, severity: Severity) -> Finding {
    let length = |mm| show_length(mm, board.units);
    let (a, b) = (pairs.a, pairs.b);
    let count = counted(pairs.count(), "pair");
    let message = if severity == Severity::Stop {
        format!(
            "{count} of holes of the router template run into each other; worst {a} and {b}; \
             a bushing nearer to the bit, or two templates with every other hole, would do"
        )
    } else {
        format!(
            "{count} of holes of the router template leave little hardboard; worst {a} and {b}: {} of the {} wanted",
            length(pairs.mm),
            length(board.limits.template_web)
        )
    };
    let (is, wanted) = (
        Measure::Mm(pairs.mm),
        Measure::Mm(board.limits.template_web),
    );
    Finding::new(severity, Rule::TemplateWeb, message)
        .measuring(is, wanted)
        .about(pairs.holes())
        .mended_by(&[Mend::WiderPitch])
}

#[cfg(test)]
mod tests {
    use super::*;
    use board::{Router, layout};
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
        check(&board, &layout(&board).unwrap())
    }

    /// Offset is half the bushing's diameter less the bit's: 3/4 in and 1/2 in give 1/8 in (trade page, not a
    /// standard), so that a hole of the template is 1/4 in wider than the bore; here 6.35 mm as well.
    #[test]
    fn holes_are_wider_by_twice_the_offset() {
        let found = with(18.35, 12.0);
        let Some(Measure::Mm(web)) = found[0].measured else {
            panic!("no measure")
        };
        assert_near!(web, 19.0 - 12.0 - 6.35, 1e-9);
        assert_eq!(found[0].severity, Severity::Caution);
    }

    #[test]
    fn a_wide_bushing_stops_and_a_narrow_one_is_fine() {
        assert_eq!(with(14.0, 12.0), []);
        assert_eq!(with(20.0, 12.0)[0].severity, Severity::Stop);
        assert_eq!(with(12.0, 12.0)[0].severity, Severity::Stop);
        assert!(with(18.0, 14.0)[0].message.contains("wider than"));
        let none = Board::default();
        assert_eq!(check(&none, &layout(&none).unwrap()), []);
    }
}
