//! From board and layout to the plan, which screen, template and machine drawing share.
//!
//! The plan is the only source for the positions of things on the board's face. Screen, template, plot and DXF all start from
//! it, so a hole that is seen in one is printed and cut in the same place in the others. Order matters: later items are on top.

use board::{Board, Center, Hole, Layout, Marking, Role, show_setting};
use geometry::point_at;
use kurbo::{Circle, Line as Segment, Point};
use workshop::Workpiece;

use crate::blank::glue;
use crate::font;
use crate::grooves::{grooves, ring};
use crate::marks::{PIN_ARM, cross_arm, layer};
use crate::names::place_names;
use crate::recess::recess_note;
use crate::taken::nearest;
use crate::wood_notes::place_wood_notes;
use crate::{Anchor, Item, Layer, Line, Shape, Text};

/// The plan of a board: edge, grooves, guides, bores and names, in the board frame.
///
/// Bores are marked as the document's template specifies: by outline, by cross, or by both. Parts hidden in the wood (seams,
/// mortises, screws, the recess) are drawn as if the board were glass, seen from the top face; words name the seams and the
/// mortises, and an arrow shows the grain.
///
/// ```
/// use board::Board;
/// use drawing::{Layer, plan};
/// use workshop::Workpiece;
///
/// let mut board = Board::default();
/// board.template.names = true;
/// let items = plan(&Workpiece::of(&board)?);
/// let count = |layer| items.iter().filter(|item| item.layer == layer).count();
/// assert!(count(Layer::Names) >= 145);
/// assert!(count(Layer::Edge) >= 1 && count(Layer::Guides) > 0);
/// # Ok::<(), board::BuildError>(())
/// ```
pub fn plan(workpiece: &Workpiece) -> Vec<Item> {
    let board = workpiece.board();
    let mut items = plan_without_names(workpiece);
    place_wood_notes(workpiece, &mut items);
    if board.template.names {
        place_names(workpiece, &mut items);
    }
    items
}

/// The plan without the names of holes, for a screen that writes its own if there is room to read them.
///
/// Finding room for names is most of the work of a plan; without them it is quick enough to redo with every edit.
///
/// ```
/// use board::Board;
/// use drawing::{Layer, plan, plan_without_names};
/// use workshop::Workpiece;
///
/// let workpiece = Workpiece::of(&Board::default())?;
/// let bare = plan_without_names(&workpiece);
/// assert_eq!(plan(&workpiece)[..bare.len()], bare);
/// # Ok::<(), board::BuildError>(())
/// ```
pub fn plan_without_names(workpiece: &Workpiece) -> Vec<Item> {
    let (board, layout) = (workpiece.board(), workpiece.layout());
    let mut items = Vec::with_capacity(3 * layout.holes.len() + 32);
    edge(board, &mut items);
    glue(workpiece, &mut items);
    grooves(workpiece, &mut items);
    guides(workpiece, &mut items);
    for hole in &layout.holes {
        bore(board, hole, &mut items);
    }
    center_pin(board, layout, &mut items);
    let note = recess_note(workpiece, &items);
    items.extend(note);
    items
}

/// The edge to saw or rout along, and the line where the roundover begins.
fn edge(board: &Board, items: &mut Vec<Item>) {
    let circle = |radius| Shape::Circle(Circle::new(Point::ORIGIN, radius));
    items.push(Item {
        layer: Layer::Edge,
        line: Line::Cut,
        shape: circle(board.blank.radius()),
    });
    let flat = board.blank.flat_radius();
    if board.blank.roundover > 0.0 && flat > 0.0 {
        items.push(Item {
            layer: Layer::Edge,
            line: Line::Guide,
            shape: circle(flat),
        });
    }
}

/// Sector axes out to the edge, and circles through the turn-in spaces and the home lanes.
fn guides(workpiece: &Workpiece, items: &mut Vec<Item>) {
    let (board, layout) = (workpiece.board(), workpiece.layout());
    let mut guide = |shape| {
        items.push(Item {
            layer: Layer::Guides,
            line: Line::Guide,
            shape,
        });
    };
    for sector in &layout.sectors {
        let rim = point_at(board.blank.radius(), sector.axis());
        guide(Shape::Line(Segment::new(Point::ORIGIN, rim)));
    }
    let lane = (0..=board.home).map(|hole| layout.turn_in_radius - f64::from(hole) * board.pitch);
    for radius in lane.filter(|&radius| radius > 0.0) {
        guide(Shape::Circle(Circle::new(Point::ORIGIN, radius)));
    }
}

/// A bore with the template's marks: its outline, a cross to punch, or both. The center always has a cross of its own, since
/// everything is measured from it.
fn bore(board: &Board, hole: &Hole, items: &mut Vec<Item>) {
    let layer = layer(hole.name.id().role());
    let marking = board.template.marking;
    if marking != Marking::Crosses {
        items.push(Item {
            layer,
            line: Line::Drill,
            shape: Shape::Circle(hole.mouth()),
        });
    }
    let at_pin = layer == Layer::Center;
    if marking != Marking::Circles && !at_pin {
        let shape = Shape::Cross {
            center: hole.center,
            arm: cross_arm(hole),
        };
        items.push(Item {
            layer,
            line: Line::Drill,
            shape,
        });
    }
}

/// The cross at the center pin, and the pilot hole with its size.
fn center_pin(board: &Board, layout: &Layout, items: &mut Vec<Item>) {
    let mut mark = |shape| {
        items.push(Item {
            layer: Layer::Center,
            line: Line::Drill,
            shape,
        });
    };
    mark(Shape::Cross {
        center: Point::ORIGIN,
        arm: PIN_ARM,
    });
    let center = board.drilled_center();
    let Some(pilot) = center.pilot() else {
        return;
    };
    if matches!(center, Center::Hole { .. }) {
        mark(Shape::Circle(Circle::new(Point::ORIGIN, pilot / 2.0)));
    }
    let clear = center.bore().map_or(pilot, |bore| bore.diameter) / 2.0;
    let clear = clear.max(ring(board, Role::Center, clear));
    let words = format!("pilot Ø {}", show_setting(pilot, board.units));
    items.push(Item {
        layer: Layer::Names,
        line: Line::Dimension,
        shape: Shape::Text(pilot_note(&words, clear, &layout.holes)),
    });
}

/// The note beside the pilot hole: below or above it, as close as the holes around it allow.
///
/// It is written before the names, which keep clear of it: a missing name is in the hole table, while this size is not.
fn pilot_note(words: &str, clear: f64, holes: &[Hole]) -> Text {
    let width = font::width(words, PILOT_NOTE, font::Weight::Regular);
    let near = clear.max(PIN_ARM * 0.6) + 2.0;
    let at = |x: f64, y: f64| Text::level(Point::new(x, y), PILOT_NOTE, Anchor::Start, words);
    let is_free = |text: &Text| {
        let room = text.bounds().inflate(0.5, 0.5);
        let mut others = holes.iter().filter(|hole| hole.center != Point::ORIGIN);
        !others.any(|hole| {
            let radius = hole.bore.radius().max(cross_arm(hole));
            nearest(room, hole.center) < radius
        })
    };
    let rows = (0..16).map(|row| near + 1.5 * f64::from(row));
    let spots = rows.flat_map(|y| {
        let left = -1.0 - width;
        [(1.0, -y), (left, -y), (1.0, y), (left, y)]
    });
    let free = spots.map(|(x, y)| at(x, y)).find(is_free);
    free.unwrap_or_else(|| at(1.0, -near))
}

/// Size of the note beside the pilot hole, mm.
const PILOT_NOTE: f64 = 2.2;

#[cfg(test)]
mod tests {
    use super::*;

    fn count(items: &[Item], layer: Layer, wanted: fn(&Shape) -> bool) -> usize {
        items
            .iter()
            .filter(|item| item.layer == layer && wanted(&item.shape))
            .count()
    }

    fn circle(shape: &Shape) -> bool {
        matches!(shape, Shape::Circle(_))
    }

    fn cross(shape: &Shape) -> bool {
        matches!(shape, Shape::Cross { .. })
    }

    #[test]
    fn every_bore_is_marked_on_the_layer_of_its_role() {
        let board = Board::default();
        let items = plan(&Workpiece::of(&board).unwrap());
        assert_eq!(count(&items, Layer::Track, circle), 96);
        assert_eq!(count(&items, Layer::Track, cross), 96);
        assert_eq!(count(&items, Layer::Home, circle), 30);
        assert_eq!(count(&items, Layer::Start, cross), 18);
        assert_eq!(count(&items, Layer::Center, circle), 2);
        assert_eq!(count(&items, Layer::Center, cross), 1);
    }

    #[test]
    fn bores_are_marked_as_the_maker_chose() {
        let mut board = Board::default();
        board.template.marking = Marking::Crosses;
        let crosses = plan(&Workpiece::of(&board).unwrap());
        assert_eq!(count(&crosses, Layer::Track, circle), 0);
        board.template.marking = Marking::Circles;
        let circles = plan(&Workpiece::of(&board).unwrap());
        assert_eq!(count(&circles, Layer::Track, cross), 0);
    }
}
