//! The outlines of the storage recess and of the cuts for its lid, hidden in the wood.
//!
//! A dovetailed groove has two: one where it opens in the underside, and a wider one at its top.

use board::{LidHold, Recess, show_length};
use geometry::{Angle, Arc, RoundRect};
use kurbo::{Line as Segment, Point, Rect};
use workshop::{Workpiece, recess_outline};

use crate::font;
use crate::taken::Taken;
use crate::{Anchor, Item, Layer, Line, Shape, Text, corners_of};

/// Length below which a line is not drawn, mm.
const HAIR: f64 = 1e-9;

/// Recess, ledge, and both widths of a groove. The groove of a sliding lid ends at the edge of the board.
pub(crate) fn recess_outlines(workpiece: &Workpiece) -> Vec<Shape> {
    let (board, lid) = (workpiece.board(), workpiece.lid());
    let mut shapes: Vec<Shape> = board.recess.iter().flat_map(outline).collect();
    let edge = board.blank.radius();
    for cut in lid.cut.iter().chain(&lid.mouth) {
        match cut.lid_fit.hold {
            LidHold::LiesIn => shapes.extend(outline(cut)),
            LidHold::Slides { .. } => shapes.extend(outline(cut).filter_map(|s| within(s, edge))),
        }
    }
    shapes
}

/// The outline of a recess seen from the top face: a circle, or straight sides with corners as round as the bit leaves them.
fn outline(recess: &Recess) -> impl Iterator<Item = Shape> + use<> {
    around(&recess_outline(recess)).into_iter()
}

/// A rectangle with round corners: its sides, and its corners where they are round; or a circle.
///
/// A corner is a quarter circle from the end of one side to the start of the next; where corners take up a whole side, as at
/// the ends of a slot, that side is left out.
pub(crate) fn around(outline: &RoundRect) -> Vec<Shape> {
    if let Some(circle) = outline.as_circle() {
        return vec![Shape::Circle(circle)];
    }
    let ([x, y], corner) = (outline.halves(), outline.corner);
    // Half the straight part of each side.
    let (along, up) = (x - corner, y - corner);
    let lines = [
        ((-along, -y), (along, -y)),
        ((x, -up), (x, up)),
        ((along, y), (-along, y)),
        ((-x, up), (-x, -up)),
    ];
    let lines = lines
        .map(|(from, to)| Segment::new(outline.middle + from, outline.middle + to))
        .into_iter()
        .filter(|side| corner <= 0.0 || (side.p1 - side.p0).hypot() > HAIR);
    let corners = [(along, up), (along, -up), (-along, -up), (-along, up)];
    let corners = (0..).zip(corners).filter(|_| corner > 0.0);
    let arcs = corners.map(|(quarter, from_middle)| Arc {
        center: outline.middle + from_middle,
        radius: corner,
        start: Angle::turn_part(quarter, 4),
        sweep: Angle::turn_part(1, 4),
    });
    lines.map(Shape::Line).chain(arcs.map(Shape::Arc)).collect()
}

/// Size of the note at the recess, mm.
const NOTE: f64 = 2.4;

/// The note at the recess, which says that its dashed outline is in the underside. It is inside the outline where no hole and
/// no other words are in its way, otherwise below it.
pub(crate) fn recess_note(workpiece: &Workpiece, items: &[Item]) -> Option<Item> {
    let board = workpiece.board();
    let recess = board.recess?;
    let depth = show_length(recess.depth, board.units);
    let words = format!("recess in the underside, {depth} deep");
    let outline = recess_outline(&recess);
    let [half, up] = outline.halves();
    let middle = outline.middle;
    let width = font::width(&words, NOTE, font::Weight::Regular);
    let rows = (0..(2.0 * up / STEP) as u32).map(|row| middle.y - up + 1.5 + STEP * f64::from(row));
    let columns = [0.0, -0.5, 0.5].map(|part| part * (2.0 * half - width).max(0.0));
    let at = |x: f64, y: f64| Text::level(Point::new(x, y), NOTE, Anchor::Middle, &*words);
    let inside = rows.flat_map(|y| columns.map(|x| at(middle.x + x, y)));
    let taken = taken(workpiece, items);
    let is_free = |text: &Text| {
        let room = text.bounds().inflate(0.6, 0.6);
        let corners = corners_of(room);
        corners
            .into_iter()
            .all(|corner| outline.away(corner) <= 0.0)
            && taken.is_free(room)
    };
    let below = || at(middle.x, middle.y - up - 1.5 * NOTE);
    let text = inside.into_iter().find(is_free).unwrap_or_else(below);
    Some(Item {
        layer: Layer::Seams,
        line: Line::Dimension,
        shape: Shape::Text(text),
    })
}

/// Spacing of the rows tried for the note, mm.
const STEP: f64 = 1.0;

/// Everything that the note keeps clear of: bores, the cross at the center pin, words.
///
/// Names of holes are placed later and keep clear of the note in turn.
pub(crate) fn taken(workpiece: &Workpiece, items: &[Item]) -> Taken {
    let side = workpiece.board().blank.diameter;
    let area = Rect::from_center_size(Point::ORIGIN, (side, side));
    let mut taken = Taken::new(area, workpiece.mouths().len());
    for mouth in workpiece.mouths() {
        let side = 2.0 * mouth.radius;
        taken.add(Rect::from_center_size(mouth.center, (side, side)));
    }
    for item in items {
        match &item.shape {
            Shape::Text(text) => taken.add(text.bounds()),
            Shape::Cross { center, arm } => {
                for (across, up) in [(*arm, 0.2), (0.2, *arm)] {
                    taken.add(Rect::from_center_size(*center, (2.0 * across, 2.0 * up)));
                }
            }
            _ => {}
        }
    }
    taken
}

/// The part of a line that is on the board; `None` if it only touches the edge.
fn within(shape: Shape, edge: f64) -> Option<Shape> {
    match shape {
        Shape::Line(line) => on_disc(line, edge).map(Shape::Line),
        other => Some(other),
    }
}

/// The part of a line on a disc about the center pin, from the point nearest to the pin and the length of the chord.
fn on_disc(line: Segment, radius: f64) -> Option<Segment> {
    let (from, way) = (line.p0.to_vec2(), line.p1 - line.p0);
    let long = way.hypot();
    if long < HAIR {
        return None;
    }
    // Along the line from the point nearest to the center pin, half the chord to either side.
    let nearest = -from.dot(way) / (long * long);
    let off = from.cross(way) / long;
    let half = (radius * radius - off * off).max(0.0).sqrt() / long;
    let (start, end) = ((nearest - half).max(0.0), (nearest + half).min(1.0));
    ((end - start) * long > HAIR)
        .then(|| Segment::new(line.p0.lerp(line.p1, start), line.p0.lerp(line.p1, end)))
}

#[cfg(test)]
mod tests {
    use super::*;
    use board::{Board, LidFit, RecessShape, Toward};
    use kurbo::Circle;
    use proptest::prelude::*;
    use testkit::assert_near;

    fn with(shape: RecessShape, lid: f64, hold: LidHold) -> Board {
        Board {
            recess: Some(Recess {
                shape,
                at: [30.0, -10.0],
                lid,
                lid_fit: LidFit {
                    hold,
                    overlap: 4.0,
                    ..LidFit::default()
                },
                ..Recess::default()
            }),
            ..Board::default()
        }
    }

    fn lines(shapes: &[Shape]) -> Vec<Segment> {
        let line = |shape: &Shape| match shape {
            Shape::Line(line) => Some(*line),
            _ => None,
        };
        shapes.iter().filter_map(line).collect()
    }

    const STRAIGHT: RecessShape = RecessShape::Straight {
        length: 60.0,
        width: 20.0,
        corner: 0.0,
    };

    fn outlined(board: &Board) -> Vec<Shape> {
        recess_outlines(&Workpiece::of(board).unwrap())
    }

    #[test]
    fn the_recess_and_the_ledge_around_it_are_outlined() {
        let round = with(RecessShape::Round { diameter: 80.0 }, 3.0, LidHold::LiesIn);
        let circle = |radius| Shape::Circle(Circle::new((30.0, -10.0), radius));
        assert_eq!(outlined(&round), [circle(40.0), circle(44.0)]);
        let straight = outlined(&with(STRAIGHT, 0.0, LidHold::LiesIn));
        let lower = lines(&straight)[0];
        assert_eq!((lower.p0.x, lower.p1.x, lower.p0.y), (0.0, 60.0, -20.0));
        assert_eq!(straight.len(), 4);
        let ledge = outlined(&with(STRAIGHT, 3.0, LidHold::LiesIn));
        let lower = lines(&ledge)[4];
        assert_eq!((lower.p0.x, lower.p1.x, lower.p0.y), (-4.0, 64.0, -24.0));
    }

    /// Sides and corners make one closed line: every end of one is the end of another.
    #[test]
    fn round_corners_join_the_sides() {
        for (corner, straight) in [(6.0, 4), (10.0, 2)] {
            let shape = RecessShape::Straight {
                length: 60.0,
                width: 20.0,
                corner,
            };
            let shapes = outlined(&with(shape, 0.0, LidHold::LiesIn));
            assert_eq!(
                (shapes.len(), lines(&shapes).len()),
                (straight + 4, straight)
            );
            let ends: Vec<Point> = shapes
                .iter()
                .flat_map(|shape| match shape {
                    Shape::Line(line) => [line.p0, line.p1],
                    Shape::Arc(arc) => [arc.at(0.0), arc.at(1.0)],
                    other => panic!("{other:?}"),
                })
                .collect();
            for end in &ends {
                let near = ends.iter().filter(|other| other.distance(*end) < 1e-9);
                assert_eq!(near.count(), 2, "{end:?}");
            }
            let Some(Shape::Arc(upper_right)) = shapes.get(straight) else {
                panic!("no arc")
            };
            let middle = upper_right.at(0.5);
            let wanted = 60.0 - corner + corner * core::f64::consts::FRAC_1_SQRT_2;
            assert_near!(middle.x, wanted, 1e-9);
            assert_near!(middle.y, wanted - 60.0, 1e-9);
        }
    }

    #[test]
    fn a_groove_has_two_widths_and_ends_at_the_edge_of_the_board() {
        let hold = LidHold::Slides {
            angle: 45.0,
            toward: Toward::Left,
        };
        let shapes = outlined(&with(STRAIGHT, 3.0, hold));
        // The recess, and three sides at each width: nothing is drawn where the groove is open.
        assert_eq!(shapes.len(), 4 + 3 + 3);
        for (group, beyond) in [(4..7, 7.0), (7..10, 4.0)] {
            let all = lines(&shapes[group]);
            let on_edge: Vec<Point> = all
                .iter()
                .flat_map(|line| [line.p0, line.p1])
                .filter(|end| (end.to_vec2().hypot() - 320.0).abs() < 1e-9)
                .collect();
            assert_eq!(on_edge.len(), 2);
            assert!(on_edge.iter().all(|end| end.x < 0.0));
            let apart = (on_edge[0].y - on_edge[1].y).abs();
            assert_near!(apart, 20.0 + 2.0 * beyond, 1e-9);
            let closed = all
                .iter()
                .flat_map(|line| [line.p0.x, line.p1.x])
                .fold(f64::MIN, f64::max);
            assert_near!(closed, 60.0 + beyond, 1e-9);
        }
    }

    /// The outline is dashed, like everything hidden, and labeled as being in the underside; the label is over no hole, cross
    /// or other words.
    #[test]
    fn the_recess_is_dashed_and_labeled_as_in_the_underside() {
        for shape in [
            RecessShape::Round { diameter: 120.0 },
            RecessShape::Straight {
                length: 150.0,
                width: 90.0,
                corner: 8.0,
            },
        ] {
            let mut board = with(shape, 0.0, LidHold::LiesIn);
            board.recess.as_mut().unwrap().at = [0.0, 0.0];
            let workpiece = Workpiece::of(&board).unwrap();
            let items = crate::plan(&workpiece);
            let note = items.iter().find_map(|item| match &item.shape {
                Shape::Text(text) if text.words.contains("underside") => Some(text.bounds()),
                _ => None,
            });
            let note = note.unwrap();
            let outline = items.iter().filter(|item| item.line == Line::Hidden);
            assert!(outline.count() > 0);
            for item in &items {
                let meets = match &item.shape {
                    Shape::Text(text) => {
                        !text.words.contains("underside") && note.overlaps(text.bounds())
                    }
                    Shape::Cross { center, arm } => {
                        note.inflate(0.0, *arm).contains(*center)
                            && note.x0 < center.x + arm
                            && center.x - arm < note.x1
                    }
                    _ => false,
                };
                assert!(!meets, "{:?} on {:?}", item.shape, note);
            }
        }
    }

    proptest! {
        #[test]
        fn a_clipped_line_is_on_the_line_and_on_the_disc(
            ends in [(-200.0..200.0_f64), (-200.0..200.0_f64), (-200.0..200.0_f64), (-200.0..200.0_f64)],
            radius in 10.0..150.0_f64,
        ) {
            let line = Segment::new((ends[0], ends[1]), (ends[2], ends[3]));
            let left = on_disc(line, radius);
            for step in 0..=50 {
                let at = line.p0.lerp(line.p1, f64::from(step) / 50.0);
                let inside = at.to_vec2().hypot() < radius - 1e-9;
                let kept = left.is_some_and(|left| {
                    let (to, from) = ((at - left.p0).hypot(), (at - left.p1).hypot());
                    (to + from - (left.p1 - left.p0).hypot()).abs() < 1e-6
                });
                prop_assert!(kept || !inside, "{at:?} is lost");
            }
            for end in left.iter().flat_map(|left| [left.p0, left.p1]) {
                prop_assert!(end.to_vec2().hypot() <= radius + 1e-9);
            }
        }
    }
}
