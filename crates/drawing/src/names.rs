//! Where the holes' names go: beside or inside their bores, never on a cross, a line to drill by, a groove or a name.
//!
//! Each name tries the inside of its own bore below the cross, then places around it, in falling
//! sizes; the first place that is free is taken. A name that finds no place is left out: the hole table
//! has it all the same.

use board::{Board, Hole, Marking};
use geometry::{Arc, Point};
use kurbo::{Rect, Size, Vec2};

use crate::font::{self, Weight};
use crate::grooves::ring;
use crate::marks::cross_arm;
use crate::quiet::Taken;
use crate::{Anchor, Item, Layer, Line, Shape, Text};
use workshop::Workpiece;

/// Sizes that are tried, largest first, mm.
const SIZES: [f64; 4] = [2.4, 2.0, 1.7, 1.4];
/// Clear space kept around a name, mm.
const CLEAR: f64 = 0.25;

/// Adds the names of all holes that have room for one.
pub fn place_names(workpiece: &Workpiece, items: &mut Vec<Item>) {
    let (board, layout) = (workpiece.board(), workpiece.layout());
    let names = layout.holes.iter().map(|hole| hole.name.to_string());
    let labels = layout.holes.iter().copied().zip(names);
    let grooves = |item: &Item| item.layer == Layer::Grooves;
    place_labels(board, &layout.holes, labels, grooves, items);
}

/// Adds what stands beside each of some holes, where there is room for it between all holes, what is written already, and
/// the lines to keep off.
///
/// Labels are placed in their order, and one that has a place keeps it: nothing is moved to make room for a later one. On boards
/// that can be made there is nearly always room, and the same board gives the same places.
pub fn place_labels(
    board: &Board,
    holes: &[Hole],
    labels: impl Iterator<Item = (Hole, String)>,
    keeps_off: fn(&Item) -> bool,
    items: &mut Vec<Item>,
) {
    let mut taken = obstacles(board, holes);
    let note = items.iter().filter(|item| item.layer == Layer::Names);
    note.for_each(|item| taken.add(item.shape.bounds()));
    let lines = items.iter().filter(|item| keeps_off(item));
    lines.for_each(|item| keep_off(&item.shape, &mut taken));
    for (hole, words) in labels {
        let Some(text) = place(board, &hole, &words, &taken) else {
            continue;
        };
        taken.add(text.bounds());
        items.push(Item {
            layer: Layer::Names,
            line: Line::Dimension,
            shape: Shape::Text(text),
        });
    }
}

/// Obstacles that a name keeps clear of: every cross, and the outline of every bore.
fn obstacles(board: &Board, holes: &[Hole]) -> Taken {
    let largest = holes
        .iter()
        .map(|hole| hole.bore.diameter)
        .fold(4.0, f64::max);
    let side = board.blank.diameter;
    let area = Rect::from_center_size(Point::ORIGIN, (side, side));
    let mut taken = Taken::new(area, largest, holes.len());
    for hole in holes {
        let arm = cross_arm(hole);
        for (width, height) in [(arm, CLEAR), (CLEAR, arm)] {
            taken.add(Rect::from_center_size(
                hole.center,
                (2.0 * width, 2.0 * height),
            ));
        }
        if board.template.marking != Marking::Crosses {
            taken.add_outline(hole.mouth());
        }
    }
    taken
}

/// Takes the way of a line: rings as outlines, all else in short pieces.
fn keep_off(shape: &Shape, taken: &mut Taken) {
    /// Rings up to this radius are of bores, mm; the box around a wider one holds half the board.
    const RING: f64 = 60.0;
    match shape {
        Shape::Circle(circle) if circle.radius <= RING => taken.add_outline(*circle),
        Shape::Circle(circle) => along(&Arc::from(*circle), taken),
        Shape::Arc(arc) => along(arc, taken),
        Shape::Line(line) => {
            pieces(
                (line.p1 - line.p0).length(),
                |share| line.p0.lerp(line.p1, share),
                taken,
            );
        }
        // Lines to cut along are none of these.
        Shape::Cross { .. } | Shape::Area(_) | Shape::Text(_) => {}
    }
}

/// Takes the way of an arc.
fn along(arc: &Arc, taken: &mut Taken) {
    pieces(arc.length(), |share| arc.at(share), taken);
}

/// Takes a way in boxes around pieces of it, with clear space to both sides; `at` has the point at a share of the way.
fn pieces(length: f64, at: impl Fn(f64) -> Point, taken: &mut Taken) {
    /// Length of a piece, mm.
    const PIECE: f64 = 1.0;
    let count = (length / PIECE).ceil().max(1.0);
    for piece in 0..count as u32 {
        let ends = [0.0, 1.0].map(|end| at((f64::from(piece) + end) / count));
        taken.add(Rect::from_points(ends[0], ends[1]).inflate(CLEAR, CLEAR));
    }
}

/// Words beside a hole, as large as there is room for; none where there is none. The smallest size is tried first, since most
/// names that find no place find none at any size.
fn place(board: &Board, hole: &Hole, words: &str, taken: &Taken) -> Option<Text> {
    let unit_width = font::width(words, 1.0, Weight::Regular);
    let spot = |size: f64| free_spot(board, hole, Size::new(unit_width * size, size), taken);
    // Where the smallest finds no place no other does.
    let [larger @ .., smallest] = SIZES;
    let last = spot(smallest)?;
    let best = larger
        .into_iter()
        .find_map(|size| Some((spot(size)?, size)));
    let (middle, size) = best.unwrap_or((last, smallest));
    let baseline = middle - Vec2::new(0.0, font::FIGURE_HEIGHT * size / 2.0);
    Some(Text::level(baseline, size, Anchor::Middle, words))
}

/// The middle of the first free place for words of a width and a size of type: inside the bore, then around it.
///
/// A name has to keep its box off everything that is taken. Descenders count to it, as `g` and `j` are in words of makers.
fn free_spot(board: &Board, hole: &Hole, words: Size, taken: &Taken) -> Option<Point> {
    let height = font::FIGURE_HEIGHT * words.height;
    let tail = font::TAIL * words.height;
    let box_at = |middle: Point| {
        let (half, up) = (words.width / 2.0 + CLEAR, height / 2.0 + CLEAR);
        Rect::new(
            middle.x - half,
            middle.y - up - tail,
            middle.x + half,
            middle.y + up,
        )
    };
    inside(hole, words.width, height)
        .into_iter()
        .chain(around(board, hole, words.width, height))
        .find(|middle| taken.is_free(box_at(*middle)))
}

/// The middle of a name inside its bore, below the cross, if it fits there.
fn inside(hole: &Hole, width: f64, height: f64) -> Option<Point> {
    let top = cross_arm(hole) + 2.0 * CLEAR;
    let bottom = top + height + font::TAIL * height;
    let room = hole.bore.radius() - 2.0 * CLEAR;
    let fits = Vec2::new(width / 2.0, bottom).length() <= room;
    fits.then(|| hole.center - Vec2::new(0.0, top + height / 2.0))
}

/// The middles of places around a bore, aslant from the outward direction first: guides run straight outward.
fn around(board: &Board, hole: &Hole, width: f64, height: f64) -> impl Iterator<Item = Point> {
    let outward = geometry::bearing_of(hole.center);
    let drawn = if board.template.marking == Marking::Crosses {
        cross_arm(hole)
    } else {
        hole.bore.radius()
    };
    let radius =
        drawn
            .max(cross_arm(hole))
            .max(ring(board, hole.name.id().role(), hole.bore.radius()))
            + 2.0 * CLEAR;
    [2, 14, 3, 13, 1, 15, 4, 12, 6, 10, 0, 8]
        .into_iter()
        .map(move |part| {
            let way =
                geometry::point_at(1.0, outward + geometry::Angle::turn_part(part, 16)).to_vec2();
            // The name's own half extent in that direction keeps its box off the circle.
            let half =
                way.x.abs() * width / 2.0 + way.y.abs() * (height / 2.0 + font::TAIL * height);
            hole.center + way * (radius + half)
        })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plan;
    use board::{Bore, Bores, Bottom, Grooves, Rings};

    fn names_and_crosses(items: &[Item]) -> (Vec<Rect>, Vec<Rect>) {
        let names = items
            .iter()
            .filter(|item| item.layer == Layer::Names)
            .map(|item| item.shape.bounds());
        let crosses = items.iter().filter_map(|item| match item.shape {
            Shape::Cross { center, arm } => Some([
                Rect::from_center_size(center, (2.0 * arm, 0.0)),
                Rect::from_center_size(center, (0.0, 2.0 * arm)),
            ]),
            _ => None,
        });
        (names.collect(), crosses.flatten().collect())
    }

    #[test]
    fn names_sit_on_no_groove() {
        let bore = Bore {
            diameter: 6.0,
            depth: 5.0,
            bottom: Bottom::Flat,
        };
        let rings = Rings {
            track: true,
            home: true,
            ..Rings::default()
        };
        let wanted = Grooves {
            around_start: Some(3.0),
            rings: Some(rings),
            sectors_from: Some(40.0),
            ..Grooves::default()
        };
        let mut board = Board {
            bores: Bores::all(bore),
            grooves: Some(wanted),
            ..Board::default()
        };
        board.pocket.shape = geometry::PocketShape::Arc;
        let workpiece = Workpiece::of(&board).unwrap();
        let (names, _) = names_and_crosses(&plan(&workpiece));
        assert!(names.len() > 120, "{} names", names.len());
        let grooves = &workpiece.grooves().unwrap().grooves;
        for stroke in grooves.iter().flat_map(|groove| &groove.path) {
            for step in 0..=400 {
                let at = stroke.at(f64::from(step) / 400.0);
                let on = names.iter().find(|name| name.contains(at));
                assert_eq!(on, None, "{stroke:?}");
            }
        }
    }

    #[test]
    fn names_sit_on_no_cross_and_on_no_other_name() {
        for diameter in [4.0, 6.35, 12.0, 15.0] {
            let bore = Bore {
                diameter,
                depth: 5.0,
                bottom: Bottom::Flat,
            };
            let board = Board {
                bores: Bores::all(bore),
                ..Board::default()
            };
            let items = plan(&Workpiece::of(&board).unwrap());
            let (names, crosses) = names_and_crosses(&items);
            assert!(names.len() > 120, "{} names at {diameter}", names.len());
            for (at, name) in names.iter().enumerate() {
                let meets = |other: &Rect| name.overlaps(*other);
                assert!(
                    !crosses.iter().any(meets),
                    "a name on a cross at {diameter}"
                );
                assert!(
                    !names[at + 1..].iter().any(meets),
                    "a name on a name at {diameter}"
                );
            }
        }
    }
}
