//! Words for what the template shows of the wood: its seams and mortises, and an arrow along the grain.
//!
//! They tell which way the template is turned on the blank. Each takes the first place where it covers no hole, cross, groove or
//! other words, and is left out where there is none: the lines themselves are there all the same.

use kurbo::{Line as Segment, Point, Rect, Vec2};
use workshop::{EdgePlace, Workpiece};

use crate::font::{self, Weight};
use crate::names::keep_off;
use crate::recess::taken;
use crate::taken::{Taken, farthest};
use crate::{Anchor, Item, Layer, Line, Shape, Text};

/// Size of the words, mm.
const WORDS: f64 = 2.4;
/// Clear space around a note, mm.
const CLEAR: f64 = 0.6;
/// Distance that notes keep inside the board's edge, mm.
const INSIDE: f64 = 5.0;
/// Spacing of the places tried along a seam, mm.
const STEP: f64 = 3.0;
/// Length of the arrow along the grain, and of each side of its heads, mm.
const ARROW: (f64, f64) = (30.0, 2.5);

/// Adds the notes that have room.
pub fn place_wood_notes(workpiece: &Workpiece, items: &mut Vec<Item>) {
    let mut taken = obstacles(workpiece, items);
    let notes = seams(workpiece, &mut taken)
        .into_iter()
        .chain(mortises(workpiece, &mut taken))
        .chain(grain(workpiece, &mut taken));
    let notes: Vec<Item> = notes.collect();
    items.extend(notes);
}

/// Everything that notes keep clear of: bores, crosses, words, grooves, and the lines hidden in the wood.
fn obstacles(workpiece: &Workpiece, items: &[Item]) -> Taken {
    let mut taken = taken(workpiece, items);
    let lines = items
        .iter()
        .filter(|item| matches!(item.layer, Layer::Grooves | Layer::Seams));
    lines.for_each(|item| keep_off(&item.shape, &mut taken));
    taken
}

/// A word over or under the ends of each seam.
fn seams(workpiece: &Workpiece, taken: &mut Taken) -> Vec<Item> {
    let radius = workpiece.board().blank.radius() - INSIDE;
    let mut found = Vec::new();
    for &seam in workpiece.seams() {
        let half = (radius * radius - seam * seam).max(0.0).sqrt();
        for side in [-1.0, 1.0] {
            let steps = 0..(half / STEP) as u32;
            let along = steps.map(|step| side * (half - 8.0 - STEP * f64::from(step)));
            let places = along.flat_map(|x| [seam + 1.0, seam - 1.0 - WORDS].map(|y| (x, y)));
            found.extend(note("seam", places, workpiece, taken));
        }
    }
    found
}

/// A word beside the first mortise with room for it: the others look the same.
fn mortises(workpiece: &Workpiece, taken: &mut Taken) -> Option<Item> {
    let inside = workpiece.tenons().iter();
    let inside = inside.filter(|tenon| tenon.place != EdgePlace::Outside);
    let places = inside.flat_map(|tenon| {
        let ([half, up], middle) = (tenon.outline.halves(), tenon.outline.middle);
        let width = font::width("mortise", WORDS, Weight::Regular);
        let aside = half + width / 2.0 + 1.0;
        [
            (middle.x, middle.y + up + 1.0),
            (middle.x, middle.y - up - 1.0 - WORDS),
            (middle.x + aside, middle.y + 1.0),
            (middle.x - aside, middle.y + 1.0),
        ]
    });
    note("mortise", places, workpiece, taken)
}

/// Words at the first of some places that is free, which are taken from then on.
fn note(
    words: &str,
    mut places: impl Iterator<Item = (f64, f64)>,
    workpiece: &Workpiece,
    taken: &mut Taken,
) -> Option<Item> {
    let edge = workpiece.board().blank.radius() - INSIDE;
    let found = places.find_map(|(x, y)| {
        let text = Text::level(Point::new(x, y), WORDS, Anchor::Middle, words);
        let room = text.bounds();
        let is_inside = farthest(room, Point::ORIGIN) <= edge;
        (is_inside && taken.is_free(room.inflate(CLEAR, 0.3))).then_some(text)
    })?;
    taken.add(found.bounds().inflate(CLEAR, CLEAR));
    Some(Item {
        layer: Layer::Names,
        line: Line::Dimension,
        shape: Shape::Text(found),
    })
}

/// A double arrow along the grain, as near to the center as there is room; empty where there is none.
fn grain(workpiece: &Workpiece, taken: &mut Taken) -> Vec<Item> {
    let edge = workpiece.board().blank.radius() - INSIDE;
    let (long, head) = ARROW;
    // The arrow, with its word above it.
    let room = |middle: Point| {
        Rect::new(
            middle.x - long / 2.0,
            middle.y - head,
            middle.x + long / 2.0,
            middle.y + 1.0 + 1.5 * WORDS,
        )
        .inflate(CLEAR, CLEAR)
    };
    let is_free = |middle: &Point| {
        farthest(room(*middle), Point::ORIGIN) <= edge && taken.is_free(room(*middle))
    };
    let Some(middle) = spots(edge).into_iter().find(is_free) else {
        return Vec::new();
    };
    taken.add(room(middle));
    let words = Text::level(middle + Vec2::new(0.0, 1.0), WORDS, Anchor::Middle, "grain");
    let mut items = vec![Item {
        layer: Layer::Names,
        line: Line::Dimension,
        shape: Shape::Text(words),
    }];
    let mut stroke = |from: Vec2, to: Vec2| {
        items.push(Item {
            layer: Layer::Seams,
            line: Line::Dimension,
            shape: Shape::Line(Segment::new(middle + from, middle + to)),
        });
    };
    let end = Vec2::new(long / 2.0, 0.0);
    stroke(-end, end);
    for side in [-1.0, 1.0] {
        for up in [-1.0, 1.0] {
            stroke(
                end * side,
                Vec2::new(side * (long / 2.0 - head), up * head / 2.0),
            );
        }
    }
    items
}

/// The places tried for the arrow, the nearest to the center first, those below it before those above.
fn spots(edge: f64) -> Vec<Point> {
    let step = (edge / 50.0).max(STEP);
    let count = (edge / step) as i32;
    let line = || (-count..=count).map(|at| f64::from(at) * step);
    let mut spots: Vec<Point> = line()
        .flat_map(|y| line().map(move |x| Point::new(x, y)))
        .collect();
    spots.sort_by(|one, other| {
        let away = |at: &Point| at.to_vec2().hypot();
        away(one)
            .total_cmp(&away(other))
            .then(one.y.total_cmp(&other.y))
            .then(one.x.total_cmp(&other.x))
    });
    spots
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plan;
    use board::{Board, Build, Tenons};
    use geometry::Circle;

    /// The words of the plan that are notes on the wood, with their boxes.
    fn notes(items: &[Item]) -> Vec<(String, Rect)> {
        let texts = items.iter().filter_map(|item| match &item.shape {
            Shape::Text(text) => Some((text.words.clone(), text.bounds())),
            _ => None,
        });
        texts
            .filter(|(words, _)| ["seam", "mortise", "grain"].contains(&words.as_str()))
            .collect()
    }

    fn glued() -> Board {
        let mut board = Board::default();
        board.panel.build = Build::Strips { count: 4 };
        board.panel.tenons = Some(Tenons::default());
        board
    }

    #[test]
    fn seams_and_mortises_are_named_and_the_grain_has_an_arrow() {
        let all = notes(&plan(&Workpiece::of(&glued()).unwrap()));
        let count = |wanted: &str| all.iter().filter(|(words, _)| words == wanted).count();
        assert_eq!((count("seam"), count("mortise"), count("grain")), (6, 1, 1));
        let whole = notes(&plan(&Workpiece::of(&Board::default()).unwrap()));
        assert_eq!(whole.len(), 1);
    }

    #[test]
    fn no_note_lies_over_a_hole_a_cross_or_other_words() {
        for players in 2..=8 {
            let workpiece = Workpiece::of(&Board { players, ..glued() }).unwrap();
            let items = plan(&workpiece);
            let all = notes(&items);
            for (words, room) in &all {
                for Circle { center, radius } in workpiece.mouths() {
                    let away = crate::taken::nearest(*room, *center);
                    assert!(away >= *radius, "{words} over a hole, {players} players");
                }
                for item in &items {
                    let is_other = match &item.shape {
                        Shape::Text(text) => text.bounds() != *room,
                        Shape::Cross { .. } => true,
                        _ => false,
                    };
                    let meets = item.shape.bounds().overlaps(*room);
                    assert!(!(is_other && meets), "{words} over {:?}", item.shape);
                }
            }
        }
    }

    /// Where holes leave no room, there is no arrow, and nothing else changes.
    #[test]
    fn a_crowded_board_goes_without() {
        let mut board = Board::default();
        board.blank.diameter = 30.0;
        let workpiece = Workpiece::of(&board).unwrap();
        assert!(notes(&plan(&workpiece)).is_empty());
    }
}
