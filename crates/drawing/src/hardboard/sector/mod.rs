//! The sector jig on sheets: its outline, the holes to drill, the index holes, and how it is turned.
//!
//! The jig is drilled once, for player 1, and turned on the center pin from sector to sector. A pin through an index hole, into
//! a hole that was drilled one turn before, holds it there. It is cut into sheets of its own, so its joints need not be the
//! board's.

mod outline;
mod turning;

use board::{
    Board, Bore, Bottom, Hole, HoleId, HoleName, Marking, Measure, Template, show_setting,
};
use geometry::{Angle, Arc, point_at};
use kurbo::{Circle, Line as Segment, Point, Rect};
use workshop::{
    Drawn, DrawnPart, IndexHole, SectorPlan, SectorTurn, TilingError, Workpiece, cut_into_sheets,
};

use crate::marks::{cross_arm, layer};
use crate::names::place_labels;
use crate::stopped::stop_line;
use crate::template::subject::Subject;
use crate::template::tiled::sheets_of;
use crate::{Anchor, Item, Layer, Line, Shape, Sheet, Stamp, Text};

use outline::Outline;
use turning::{listed, turning};

/// Distance from an index hole to the circle around it, mm. The circle marks it as not being a hole of the board.
const RING: f64 = 1.5;
/// Size of the words at an index hole where they find no free place, mm.
const NOTE: f64 = 2.2;

/// The sheets of a sector jig, at true size, and a page on how it is turned.
///
/// Holes to drill are drawn as on the template. An index hole has a circle around it at 1.5 mm, and the name of the hole in the
/// sector before that its pin goes into.
///
/// ```
/// use board::{Board, SectorJig};
/// use drawing::{Stamp, sector_sheets};
/// use workshop::Workpiece;
///
/// let mut board = Board::default();
/// board.sector_jig = Some(SectorJig::default());
/// let workpiece = Workpiece::of(&board)?;
/// let jig = workpiece.sector_jig().unwrap().unwrap();
/// let sheets = sector_sheets(&workpiece, jig, &Stamp::default())?;
/// // The jig takes fewer sheets than the board.
/// assert!(sheets.len() <= workpiece.tiling().unwrap().tiles.len());
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
///
/// # Errors
/// [`TilingError`] where it cannot be divided into sheets of the template's paper.
pub fn sector_sheets(
    workpiece: &Workpiece,
    jig: &SectorPlan,
    stamp: &Stamp,
) -> Result<Vec<Sheet>, TilingError> {
    let board = workpiece.board();
    let outline = Outline::of(board, jig);
    let subject = Subject {
        stop: stop_line(workpiece),
        ..subject(board, jig, &outline)
    };
    let places: Vec<_> = jig
        .holes
        .iter()
        .map(|hole| (hole.name, hole.center))
        .chain(jig.index.iter().map(|hole| (hole.name, hole.mouth.center)))
        .chain([(HoleId::CENTER.named(1), Point::ORIGIN)])
        .collect();
    let bounds = subject
        .outline
        .iter()
        .map(Shape::bounds)
        .reduce(|a, b| a.union(b));
    let course = course(&subject.outline);
    let on = |window: Rect| is_on(&outline, &course, window);
    let all = DrawnPart {
        bounds: bounds.unwrap_or(Rect::ZERO),
        is_on: &on,
        core: 0.0,
    };
    let drawing = Drawn {
        all,
        needed: all,
        places: &places,
    };
    let tiling = cut_into_sheets(&board.template, &drawing, workpiece.printer())?;
    let mut sheets = sheets_of(&subject, &tiling, stamp);
    sheets.extend(turning(workpiece, jig, stamp));
    Ok(sheets)
}

/// Points along an outline, at most a millimeter apart, from the left.
fn course(outline: &[Shape]) -> Vec<Point> {
    let mut points = Vec::new();
    let mut along = |length: f64, at: &dyn Fn(f64) -> Point| {
        let steps = length.ceil().max(1.0);
        points.extend((0..=steps as u32).map(|step| at(f64::from(step) / steps)));
    };
    for shape in outline {
        match shape {
            Shape::Circle(circle) => {
                let round = Arc::from(*circle);
                along(round.length(), &|share| round.at(share));
            }
            Shape::Arc(arc) => along(arc.length(), &|share| arc.at(share)),
            Shape::Line(line) => {
                along((line.p1 - line.p0).length(), &|share| {
                    line.p0.lerp(line.p1, share)
                });
            }
            Shape::Cross { .. } | Shape::Area(_) | Shape::Text(_) => {}
        }
    }
    points.sort_by(|a, b| a.x.total_cmp(&b.x));
    points
}

/// Whether any of the jig is in a window: its outline passes through it, or the whole window is inside.
fn is_on(outline: &Outline, course: &[Point], window: Rect) -> bool {
    if window.width() <= 0.0 || window.height() <= 0.0 {
        return false;
    }
    let near = window.inflate(0.5, 0.5);
    let from = course.partition_point(|at| at.x < near.x0);
    let across = course.iter().skip(from).take_while(|at| at.x <= near.x1);
    outline.contains(window.center()) || across.into_iter().any(|at| near.contains(*at))
}

/// The jig to be cut into sheets: its outline to saw, its axis, the holes of player 1 and of the pin to drill, and the index
/// holes, which are drilled only in the jig.
fn subject<'a>(board: &'a Board, jig: &SectorPlan, outline: &Outline) -> Subject<'a> {
    let outline = outline.shapes();
    let cut = |shape: &Shape| Item {
        layer: Layer::Edge,
        line: Line::Cut,
        shape: shape.clone(),
    };
    let mut items: Vec<Item> = outline.iter().map(cut).collect();
    items.push(axis(board, jig));
    let pin = round(
        HoleId::CENTER.named(1),
        Circle::new(Point::ORIGIN, board.jig.pin / 2.0),
    );
    for hole in jig.holes.iter().chain([&pin]) {
        drilled(hole, &mut items);
    }
    for hole in &jig.index {
        marked(hole.mouth, &mut items);
    }
    label(board, jig, pin, &mut items);
    let mouths = jig.holes.iter().map(Hole::mouth);
    let index = jig.index.iter().map(|hole| ring(hole.mouth));
    Subject {
        board,
        kind: "Sector jig",
        notes: notes(board, jig),
        stop: None,
        mouths: mouths.chain(index).chain([pin.mouth()]).collect(),
        items,
        outline,
    }
}

/// The sector's axis, out to its farthest hole.
fn axis(board: &Board, jig: &SectorPlan) -> Item {
    let out = jig.holes.iter().map(|hole| hole.center.to_vec2().length());
    let rim = point_at(
        out.fold(0.0, f64::max) + outline::WOOD / 2.0,
        Angle::degrees(board.rotation),
    );
    Item {
        layer: Layer::Guides,
        line: Line::Guide,
        shape: Shape::Line(Segment::new(Point::ORIGIN, rim)),
    }
}

/// The circle around an index hole.
fn ring(hole: Circle) -> Circle {
    Circle::new(hole.center, hole.radius + RING)
}

/// A circle of the jig as a through hole.
fn round(name: HoleName, circle: Circle) -> Hole {
    Hole {
        name,
        center: circle.center,
        bore: Bore {
            diameter: 2.0 * circle.radius,
            depth: 0.0,
            bottom: Bottom::Flat,
        },
    }
}

/// A hole to drill: its outline and a cross.
fn drilled(hole: &Hole, items: &mut Vec<Item>) {
    let shapes = [
        Shape::Circle(hole.mouth()),
        Shape::Cross {
            center: hole.center,
            arm: cross_arm(hole),
        },
    ];
    items.extend(shapes.map(|shape| Item {
        layer: layer(hole.name.id().role()),
        line: Line::Drill,
        shape,
    }));
}

/// An index hole: two circles and a cross.
fn marked(hole: Circle, items: &mut Vec<Item>) {
    let shapes = [
        Shape::Circle(hole),
        Shape::Circle(ring(hole)),
        Shape::Cross {
            center: hole.center,
            arm: 0.5 * hole.radius,
        },
    ];
    items.extend(shapes.map(|shape| Item {
        layer: Layer::Extra,
        line: Line::Drill,
        shape,
    }));
}

/// Adds the words at the index holes and the pin, which come first, and the names of the holes.
///
/// A name without a free place is left out, as on the template. The name of an index hole is never left out: it is written
/// below its hole over whatever is there.
fn label(board: &Board, jig: &SectorPlan, pin: Hole, items: &mut Vec<Item>) {
    let titled = Board {
        template: Template {
            marking: Marking::Both,
            ..board.template
        },
        grooves: None,
        ..board.clone()
    };
    let length = |mm: f64| show_setting(mm, board.units);
    let told = |hole: &IndexHole| {
        let words = format!("index {} Ø {}", hole.name, length(2.0 * hole.mouth.radius));
        (round(hole.name, ring(hole.mouth)), words)
    };
    let mut words: Vec<(Hole, String)> = jig.index.iter().map(told).collect();
    words.push((pin, format!("center pin Ø {}", length(pin.bore.diameter))));
    let marks = words.iter().map(|(hole, _)| *hole);
    let all: Vec<Hole> = jig.holes.iter().copied().chain(marks).collect();
    let lines = |item: &Item| matches!(item.layer, Layer::Edge | Layer::Guides);
    place_labels(&titled, &all, words.iter().cloned(), lines, items);
    for (hole, words) in &words {
        write_below(hole, words, items);
    }
    let names = jig.holes.iter().map(|hole| (*hole, hole.name.to_string()));
    place_labels(&titled, &all, names, lines, items);
}

/// Writes a name that must not be left out below its hole, if no free place was found for it.
fn write_below(hole: &Hole, words: &str, items: &mut Vec<Item>) {
    let is_it = |item: &Item| matches!(&item.shape, Shape::Text(text) if text.words == words);
    if !items.iter().any(is_it) {
        let below = hole.center - kurbo::Vec2::new(0.0, hole.bore.radius() + 1.3 * NOTE);
        items.push(Item {
            layer: Layer::Names,
            line: Line::Dimension,
            shape: Shape::Text(Text::level(below, NOTE, Anchor::Middle, words)),
        });
    }
}

/// The notes on turning for the title block.
fn notes(board: &Board, jig: &SectorPlan) -> Vec<String> {
    let turn = Measure::degrees(360.0 / f64::from(board.players)).shown(board.units);
    let mut notes = vec![format!(
        "Turn clockwise by {turn} each time, on the center pin"
    )];
    let turned: Vec<&SectorTurn> = jig
        .turns
        .iter()
        .filter(|turn| !turn.pins.is_empty())
        .collect();
    let told = |turn: &SectorTurn| format!("{} for sector {}", listed(&turn.pins), turn.player);
    let order = match turned.as_slice() {
        [] => None,
        [only] => Some(format!("Pin in {}", told(only))),
        [first, .., last] => Some(format!("Pin in {} … {}", told(first), told(last))),
    };
    notes.extend(order);
    notes
}

#[cfg(test)]
mod tests {
    use super::*;
    use board::SectorJig;

    fn planned(board: &Board) -> SectorPlan {
        Workpiece::of(board)
            .unwrap()
            .sector_jig()
            .unwrap()
            .unwrap()
            .clone()
    }

    fn sheets(board: &Board) -> Vec<Sheet> {
        let workpiece = Workpiece::of(board).unwrap();
        sector_sheets(&workpiece, &planned(board), &Stamp::default()).unwrap()
    }

    fn asked(players: u32) -> Board {
        Board {
            players,
            sector_jig: Some(SectorJig::default()),
            ..Board::default()
        }
    }

    fn words(sheets: &[Sheet]) -> Vec<&str> {
        let items = sheets
            .iter()
            .flat_map(|sheet| sheet.marks.iter().chain(&sheet.view.items));
        items
            .filter_map(|item| match &item.shape {
                Shape::Text(text) => Some(text.words.as_str()),
                _ => None,
            })
            .collect()
    }

    #[test]
    fn every_hole_of_the_sector_and_every_index_hole_is_on_a_sheet() {
        for players in [2, 3, 6, 8] {
            let board = asked(players);
            let plan = planned(&board);
            let sheets = sheets(&board);
            let centers = plan.holes.iter().map(|hole| hole.center);
            for center in centers.chain(plan.index.iter().map(|hole| hole.mouth.center)) {
                let on = |sheet: &&Sheet| {
                    sheet
                        .view
                        .window
                        .contains(center + sheet.view.page_from_board)
                };
                let mut drawn = sheets.iter().filter(|sheet| !sheet.view.items.is_empty());
                assert!(drawn.any(|sheet| on(&sheet)), "{center:?} of {players}");
            }
        }
    }

    #[test]
    fn every_printed_sheet_shows_part_of_the_jig() {
        for players in [2, 3, 4, 6, 8] {
            let board = asked(players);
            let outline = Outline::of(&board, &planned(&board));
            for sheet in sheets(&board) {
                let is_words = sheet.view.items.is_empty();
                let cut = |item: &Item| item.layer == Layer::Edge;
                let shown = sheet.view.items.iter().any(cut);
                let window = sheet.view.window - sheet.view.page_from_board;
                assert!(
                    is_words || shown || outline.contains(window.center()),
                    "{} of {players}",
                    sheet.label
                );
            }
        }
    }

    #[test]
    fn wood_is_left_around_every_hole_of_the_jig() {
        for players in [2, 3, 6] {
            let board = asked(players);
            let plan = planned(&board);
            let outline = Outline::of(&board, &plan);
            let own = plan.holes.iter().map(Hole::mouth);
            for hole in own.chain(plan.index.iter().map(|hole| hole.mouth)) {
                for step in 0..48 {
                    let out = hole.radius + outline::WOOD - 1e-6;
                    let at = hole.center + point_at(out, Angle::turn_part(step, 48)).to_vec2();
                    assert!(outline.contains(at), "{at:?} of {players}");
                }
            }
        }
    }

    #[test]
    fn no_words_overlap_and_none_are_missing() {
        for players in [2, 4, 6] {
            let board = Board {
                sector_jig: Some(SectorJig { pins: 2, play: 0.1 }),
                ..asked(players)
            };
            let plan = planned(&board);
            let subject = subject(&board, &plan, &Outline::of(&board, &plan));
            let boxes: Vec<Rect> = subject
                .items
                .iter()
                .filter(|item| item.layer == Layer::Names)
                .map(|item| item.shape.bounds())
                .collect();
            assert_eq!(boxes.len(), plan.holes.len() + 3);
            for (at, one) in boxes.iter().enumerate() {
                let others = boxes.get(at + 1..).unwrap();
                assert!(!others.iter().any(|other| one.overlaps(*other)));
            }
        }
    }

    #[test]
    fn the_order_of_turning_names_the_hole_of_the_sector_before() {
        let board = asked(6);
        let plan = planned(&board);
        let sheets = sheets(&board);
        let words = words(&sheets);
        let last = plan.turns[5].pins[0];
        assert!(words.contains(&format!("center pin, index pin in {last}").as_str()));
        let marked = format!("index {} Ø 12 mm", plan.index[0].name);
        assert!(words.contains(&marked.as_str()), "{words:?}");
        let noted = format!(
            "Pin in {} for sector 2 … {last} for sector 6",
            plan.turns[1].pins[0]
        );
        assert!(words.contains(&noted.as_str()), "{words:?}");
    }
}
