//! Rule: parallel grooves do not run into each other.

use board::{HoleName, Measure, counted, with_article};
use geometry::Circle;

use crate::Workpiece;
use crate::check::{Finding, Rule, Severity};
use crate::grooves::{GrooveKind, Stroke, Strokes};

pub const STATEMENT: &str = "Two grooves that do not cross lie at least their width apart from center to center, and \
     two that cross do so at 30° or more: thin wood between them breaks out. Common practice, no source.";

/// Length over which grooves that meet may be within one width of each other, in widths: that of a crossing at 30 degrees.
const CROSSING: f64 = 4.0;
/// The same length for grooves that do not meet, in widths: a line that ends beside a ring.
const BESIDE: f64 = 1.5;
/// Number of sample points per width.
const PLACES: f64 = 4.0;
/// The most sample points on one stroke.
const MOST_PLACES: f64 = 1024.0;

/// One finding for all pairs of grooves that run side by side.
pub fn check(workpiece: &Workpiece) -> Option<Finding> {
    let (board, plan) = (workpiece.board(), workpiece.grooves()?);
    let width = board.grooves?.width;
    let pairs = pairs(workpiece.strokes(), width);
    let &(least, [one, other]) = pairs.iter().min_by(|a, b| a.0.total_cmp(&b.0))?;
    let [first, second] = [one, other].map(|at| plan.grooves.get(at));
    let (first, second) = (first?, second?);
    let least_words = Measure::mm(least).shown(board.units);
    let (kind, kind_too) = (first.kind.label(), second.kind.label());
    let second = if kind == kind_too {
        "another".to_owned()
    } else {
        with_article(kind_too)
    };
    let count = counted(pairs.len(), "pair of grooves runs", "pairs of grooves run");
    let message = format!(
        "{count} too close side by side. Worst: {} and {second}, {least_words} from center to center; the limit is their \
         width, {}. Make the grooves narrower, or leave one kind out.",
        with_article(kind),
        Measure::mm(width).shown(board.units)
    );
    let about = pairs.iter().flat_map(|(_, pair)| pair);
    let holes: Vec<HoleName> = about
        .filter_map(|&at| plan.grooves.get(at))
        .flat_map(|groove| groove.holes.clone())
        .collect();
    Some(
        Finding::new(Severity::Caution, Rule::GrooveSides, message)
            .measuring(Measure::mm(least), Measure::mm(width))
            .about(holes),
    )
}

/// The least distance and the indices of the two grooves in the plan, each pair once.
fn pairs(strokes: &Strokes, width: f64) -> Vec<(f64, [usize; 2])> {
    let mut pairs: Vec<(f64, [usize; 2])> = Vec::new();
    for (at, one) in strokes.all().iter().enumerate() {
        let near = strokes.near(one.stroke.bounds(), width);
        let others = near.into_iter().filter(|&other| other > at);
        for other in others.filter_map(|other| strokes.get(other)) {
            if other.at == one.at || joined(one.kind, other.kind) {
                continue;
            }
            if let Some(least) = beside(&one.stroke, &other.stroke, width) {
                pairs.push((least, [one.at, other.at]));
            }
        }
    }
    pairs.sort_by(|a, b| a.1.cmp(&b.1).then(a.0.total_cmp(&b.0)));
    pairs.dedup_by_key(|(_, pair)| *pair);
    pairs
}

/// Whether two kinds of grooves are checked elsewhere: lines from space to space run beside each other only where spaces
/// coincide, which the rule about webs reports.
const fn joined(one: GrooveKind, other: GrooveKind) -> bool {
    matches!(
        (one, other),
        (
            GrooveKind::Track | GrooveKind::Home,
            GrooveKind::Track | GrooveKind::Home
        )
    )
}

/// Whether the center lines of two strokes, with arcs taken as whole circles, are at least a width apart.
fn is_apart(one: &Stroke, other: &Stroke, width: f64) -> bool {
    match (round(one), round(other)) {
        (Some(one), Some(other)) => {
            let between = one.center.distance(other.center);
            let inside = (one.radius - other.radius).abs();
            (between - one.radius - other.radius).max(inside - between) >= width
        }
        (Some(circle), None) => is_apart_from(circle, other, width),
        (None, Some(circle)) => is_apart_from(circle, one, width),
        (None, None) => false,
    }
}

/// Whether a circle is certainly a width away from a line, by a quick test.
fn is_apart_from(circle: Circle, line: &Stroke, width: f64) -> bool {
    let ends = [line.start(), line.end()].map(|end| end.distance(circle.center));
    let outside = line.distance(circle.center) - circle.radius;
    let inside = circle.radius - ends[0].max(ends[1]);
    outside.max(inside) >= width
}

/// The circle that a stroke is part of.
const fn round(stroke: &Stroke) -> Option<Circle> {
    match *stroke {
        Stroke::Line(_) => None,
        Stroke::Arc(arc) => Some(arc.circle()),
        Stroke::Circle(circle) => Some(circle),
    }
}

/// The least distance of two strokes that run within a width of each other for too long; none for others.
fn beside(one: &Stroke, other: &Stroke, width: f64) -> Option<f64> {
    if is_apart(one, other, width) {
        return None;
    }
    let (short, long) = if one.length() <= other.length() {
        (one, other)
    } else {
        (other, one)
    };
    let places = (short.length() / width * PLACES).ceil();
    let places = places.clamp(1.0, MOST_PLACES);
    let step = short.length() / places;
    let mut least = f64::INFINITY;
    let (mut run, mut longest) = (0.0_f64, 0.0_f64);
    let mut place = 0.5;
    while place < places {
        let away = long.distance(short.at(place / places));
        least = least.min(away);
        run = if away < width { run + step } else { 0.0 };
        longest = longest.max(run);
        // Moving toward the other stroke, no sample point before this one can come within a width.
        place += ((away - width) / step).floor().max(1.0);
    }
    let may = if least <= step { CROSSING } else { BESIDE };
    (longest > may * width).then_some(least)
}

#[cfg(test)]
mod tests {
    use super::*;

    use board::Board;
    use board::{Grooves, Rings};
    use geometry::Point;
    use kurbo::Line;
    use testkit::assert_near;

    fn checked(wanted: Grooves) -> Option<Finding> {
        let board = Board {
            grooves: Some(wanted),
            ..Board::default()
        };
        check(&Workpiece::of(&board).unwrap())
    }

    fn line(from: (f64, f64), to: (f64, f64)) -> Stroke {
        Stroke::Line(Line::new(from, to))
    }

    #[test]
    fn crossing_ending_and_diverging_lines_do_not_count_as_side_by_side() {
        let long = line((-50.0, 0.0), (50.0, 0.0));
        let at = |degrees: f64| {
            let end = geometry::point_at(50.0, geometry::Angle::degrees(90.0 - degrees));
            line((-end.x, -end.y), (end.x, end.y))
        };
        for (other, found) in [
            (at(90.0), false),
            (at(40.0), false),
            (at(20.0), true),
            (line((-30.0, 1.0), (30.0, 1.0)), true),
            (line((-30.0, 2.0), (30.0, 2.0)), false),
            // It ends beside the other line, or on it.
            (line((0.0, 0.5), (0.0, 30.0)), false),
            (line((0.0, 0.0), (0.0, 30.0)), false),
        ] {
            assert_eq!(beside(&long, &other, 2.0).is_some(), found, "{other:?}");
        }
        let ring = |x: f64| Stroke::Circle(Circle::new(Point::new(x, 0.0), 8.5));
        assert!(beside(&ring(0.0), &ring(18.0), 2.0).is_some());
        assert!(beside(&ring(0.0), &ring(19.5), 2.0).is_none());
        assert!(beside(&ring(0.0), &ring(10.0), 2.0).is_none());
    }

    #[test]
    fn lines_that_end_on_rings_and_at_the_rim_give_no_finding() {
        let rings = Rings {
            gap: 1.5,
            track: true,
            home: true,
            start: true,
            ..Rings::default()
        };
        let wanted = Grooves {
            rings: Some(rings),
            sectors_from: Some(40.0),
            rim: Some(5.0),
            ..Grooves::default()
        };
        assert_eq!(checked(wanted), None);
    }

    #[test]
    fn rings_whose_edges_overlap_are_found_once_per_pair() {
        let rings = Rings {
            gap: 2.0,
            track: true,
            ..Rings::default()
        };
        let wanted = Grooves {
            track: false,
            home: false,
            rings: Some(rings),
            ..Grooves::default()
        };
        let found = checked(wanted).unwrap();
        assert!(
            found.message.starts_with("96 pairs of grooves"),
            "{}",
            found.message
        );
        let Some(Measure { value: least, .. }) = found.measured else {
            panic!("no measure")
        };
        // Two circles with a radius of 9 mm at a pitch of 19 mm.
        assert_near!(least, 1.0, 0.01);
    }
}
